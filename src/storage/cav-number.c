/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-number.h"

#include <math.h>
#include <string.h>

#define LONGEST_NUMBER 120

static const char *
skip_digits (const char *text)
{
  while (g_ascii_isdigit (*text))
    text++;
  return text;
}

/* Where the number at text ends, or NULL where none begins there. */
static const char *
find_number_end (const char *text)
{
  const char *whole = *text == '+' || *text == '-' ? text + 1 : text;
  const char *end = skip_digits (whole);
  gboolean has_digits = end > whole;

  if (*end == '.')
    {
      const char *fraction = end + 1;

      end = skip_digits (fraction);
      has_digits = has_digits || end > fraction;
    }
  if (!has_digits)
    return NULL;
  if (*end == 'e' || *end == 'E')
    {
      const char *exponent = end[1] == '+' || end[1] == '-' ? end + 2 : end + 1;

      if (g_ascii_isdigit (*exponent))
        end = skip_digits (exponent);
    }
  return end;
}

gboolean
cav_number_scan (const char **cursor, double *out_value)
{
  const char *end = find_number_end (*cursor);
  char buffer[LONGEST_NUMBER + 1];

  if (end == NULL || end - *cursor > LONGEST_NUMBER)
    return FALSE;

  /* A copy, because the conversion would read on where more letters follow ("0x1"). */
  memcpy (buffer, *cursor, (gsize)(end - *cursor));
  buffer[end - *cursor] = '\0';
  double value = g_ascii_strtod (buffer, NULL);
  if (!isfinite (value))
    return FALSE;

  *cursor = end;
  *out_value = value;
  return TRUE;
}

gboolean
cav_number_parse (const char *text, double *out_value)
{
  double value;

  while (g_ascii_isspace (*text))
    text++;
  if (!cav_number_scan (&text, &value))
    return FALSE;
  while (g_ascii_isspace (*text))
    text++;
  if (*text != '\0')
    return FALSE;
  *out_value = value;
  return TRUE;
}

void
cav_number_append (GString *text, double value)
{
  static const char *const formats[] = { "%.15g", "%.16g", "%.17g" };
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_return_if_fail (isfinite (value));

  for (guint i = 0; i < G_N_ELEMENTS (formats); i++)
    {
      g_ascii_formatd (buffer, sizeof buffer, formats[i], value);
      double again = g_ascii_strtod (buffer, NULL);
      if (memcmp (&again, &value, sizeof value) == 0)
        break;
    }
  g_string_append (text, buffer);
}

void
cav_number_append_rounded (GString *text, double value, int decimals)
{
  char buffer[400];
  char format[8];

  g_return_if_fail (isfinite (value));
  g_return_if_fail (decimals >= 0 && decimals <= 9);

  g_snprintf (format, sizeof format, "%%.%df", decimals);
  g_ascii_formatd (buffer, sizeof buffer, format, value);
  if (strchr (buffer, '.') != NULL)
    {
      char *last = buffer + strlen (buffer) - 1;

      while (*last == '0')
        *last-- = '\0';
      if (*last == '.')
        *last = '\0';
    }
  g_string_append (text, strcmp (buffer, "-0") == 0 ? "0" : buffer);
}
