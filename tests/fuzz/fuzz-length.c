/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"

#include <math.h>

#include "project/cav-length.h"

/* A length that is understood is finite, and so is what is printed of it. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  static const CavUnit units[] = { CAV_UNIT_MM, CAV_UNIT_INCH };
  g_autofree char *text = g_strndup ((const char *)data, size);

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *shown = NULL;
      double mm = 0.0;
      double again = 0.0;
      gboolean understood = cav_length_parse (text, units[i], &mm, &error);

      cav_fuzz_check_outcome (understood, error);
      if (!understood)
        continue;
      g_assert_true (isfinite (mm));
      shown = cav_length_format (mm, units[i], 64);
      /* The sign of what was rounded away is for people, not for reading back. */
      if (!g_str_has_prefix (shown, "≈"))
        {
          g_assert_true (cav_length_parse (shown, units[i], &again, NULL));
          g_assert_cmpfloat (fabs (again - mm), <=, 0.2 + fabs (mm) * 1e-6);
        }
    }
  return 0;
}
