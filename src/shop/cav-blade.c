/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-blade.h"

#include <string.h>

static const char *const grind_names[] = { "flat", "alternate" };

/* Wider than any ripping blade, so a grooving head: it is never tilted. */
#define GROOVING_KERF 6.0

/* Usual height over diameter: 75 mm over a table for a blade of 254 mm (common practice, no
 * source; the saw's manual says the true figure). */
#define USUAL_HEIGHT (75.0 / 254.0)

/* A tool by its sizes; the rest gets usual values (common practice, no source). */
CavBlade *
cav_blade_new (const char *id, double diameter, double kerf)
{
  g_return_val_if_fail (id != NULL, NULL);

  gboolean grooving = kerf > GROOVING_KERF;
  CavBlade *blade = g_new0 (CavBlade, 1);
  blade->id = g_strdup (id);
  blade->name = g_strdup (id);
  blade->diameter = diameter;
  blade->kerf = kerf;
  blade->height = diameter * USUAL_HEIGHT;
  blade->tilt = grooving ? 0.0 : 45.0;
  blade->bite = grooving ? 120.0 : 80.0;
  blade->grind = CAV_GRIND_FLAT;
  return blade;
}

CavBlade *
cav_blade_copy (const CavBlade *blade)
{
  g_return_val_if_fail (blade != NULL, NULL);

  CavBlade *copy = g_memdup2 (blade, sizeof *blade);
  copy->id = g_strdup (blade->id);
  copy->name = g_strdup (blade->name);
  return copy;
}

void
cav_blade_free (CavBlade *blade)
{
  if (blade == NULL)
    return;
  g_free (blade->id);
  g_free (blade->name);
  g_free (blade);
}

const char *
cav_grind_to_string (CavGrind grind)
{
  g_return_val_if_fail ((guint)grind < G_N_ELEMENTS (grind_names), NULL);
  return grind_names[grind];
}

gboolean
cav_grind_from_string (const char *string, CavGrind *out_grind)
{
  g_return_val_if_fail (out_grind != NULL, FALSE);

  for (guint i = 0; string != NULL && i < G_N_ELEMENTS (grind_names); i++)
    if (strcmp (string, grind_names[i]) == 0)
      {
        *out_grind = (CavGrind)i;
        return TRUE;
      }
  return FALSE;
}
