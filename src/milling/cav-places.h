/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Numbers by name, the name being a number too, above 0 and already stirred: for many placements
 * that are asked for again and again. Zero-filled it is empty. */
typedef struct
{
  guint64 *names;
  int *numbers;
  guint n;
  guint size; /* 0 or a power of 2 */
} CavPlaces;

/* Gives up what it holds; it is then empty. */
void cav_places_clear (CavPlaces *places);
gboolean cav_places_find (const CavPlaces *places, guint64 name, int *out_number);
/* FALSE and nothing done where the name is there. */
gboolean cav_places_add (CavPlaces *places, guint64 name, int number);

G_END_DECLS
