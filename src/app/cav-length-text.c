/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-length-text.h"

#include <string.h>

#include "app/cav-settings.h"

/* Grid of the drawing, and with it of the arrow keys: a millimetre, or what a rule in inches shows
 * as its usual division. */
#define STEP_MM 1.0
#define STEP_INCH (25.4 / 16.0)
#define STEP_DECIMAL_INCH 1.27 /* 0.05 in */

/* Thousandths of an inch, without zeros at the end. */
static char *
format_decimal_inches (double mm)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE + 64];
  char *end;

  g_ascii_formatd (buffer, sizeof buffer, "%.3f", mm * 10.0 / 254.0);
  end = buffer + strlen (buffer);
  while (end[-1] == '0')
    end--;
  if (end[-1] == '.')
    end--;
  *end = '\0';
  return g_strdup (strcmp (buffer, "-0") == 0 ? "0" : buffer);
}

char *
cav_length_text_new_bare (double mm)
{
  CavLengthStyle style = cav_settings_get_length_style ();

  if (style.unit == CAV_UNIT_INCH && style.denominator == 0)
    return format_decimal_inches (mm);
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
  return style.denominator == 0 ? STEP_DECIMAL_INCH : STEP_INCH;
}
