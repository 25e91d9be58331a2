/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A wood by its published figures. */
typedef struct
{
  const char *id;     /* in files, e.g. "ash-white" */
  const char *name;   /* for people, untranslated */
  double density;     /* kg/m³ at 12 % moisture; 0: not published */
  double radial;      /* change of width per 1 % moisture, quarter sawn, as a fraction */
  double tangential;  /* the same, flat sawn */
  const char *source; /* where density and coefficients are printed */
} CavWood;

/* Density in kg/m³ of wood with 12 % of moisture whose specific gravity at 12 % is this: equation
 * 4-12 of the Wood Handbook, FPL-GTR-190. */
#define CAV_WOOD_DENSITY(gravity) (1000.0 * (gravity) * (1.0 + 12.0 / 100.0))

guint cav_wood_get_count (void);
const CavWood *cav_wood_get (guint index);
/* Its name in the language of the user. */
const char *cav_wood_get_name (const CavWood *wood);
/* NULL where there is no such wood. */
const CavWood *cav_wood_find (const char *id);

G_END_DECLS
