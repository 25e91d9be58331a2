/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-length-text.h"

#include "app/cav-settings.h"
#include "geometry/cav-unit.h"

/* Grid of the drawing, and with it of the arrow keys: a millimetre, or what a rule in inches shows
 * as its usual division. */
#define STEP_MM 1.0
#define STEP_INCH (CAV_INCH / 16.0)
#define STEP_DECIMAL_INCH 1.27 /* 0.05 in */

char *
cav_length_text_new_bare (double mm)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  return cav_length_format_bare (mm, style.unit, style.denominator);
}

char *
cav_length_text_new (double mm)
{
  g_autofree char *bare = cav_length_text_new_bare (mm);

  return g_strdup_printf ("%s %s", bare, cav_length_text_get_unit ());
}

const char *
cav_length_text_get_unit (void)
{
  return cav_settings_get_length_style ().unit == CAV_UNIT_MM ? "mm" : "in";
}

double
cav_length_text_get_step (void)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  if (style.unit == CAV_UNIT_MM)
    return STEP_MM;
  return style.denominator == CAV_LENGTH_DECIMAL ? STEP_DECIMAL_INCH : STEP_INCH;
}
