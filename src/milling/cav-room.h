/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Memory for many small things that are given up together. Zero-filled it holds nothing. */
typedef struct
{
  GSList *blocks;
  char *next; /* what is left of the last block */
  gsize left;
} CavRoom;

/* Room for anything, not cleared. */
gpointer cav_room_take (CavRoom *room, gsize size);
/* Hands over all that another holds, which is then empty. */
void cav_room_join (CavRoom *room, CavRoom *other);
void cav_room_clear (CavRoom *room);

G_END_DECLS
