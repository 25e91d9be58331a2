/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-number-text.h"

#include <glib/gi18n-lib.h>
#include <langinfo.h>
#include <string.h>

char
cav_number_get_mark (void)
{
  /* Translators: the decimal mark of the language, a point or a comma. */
  const char *mark = C_ ("decimal mark", ".");

  /* Who reads Spanish in Mexico, or German in Zurich, writes a point all the same. */
  return *mark == ',' && *nl_langinfo (RADIXCHAR) == ',' ? ',' : '.';
}

const char *
cav_number_format (char *buffer, int size, const char *format, double value)
{
  char *mark;

  g_ascii_formatd (buffer, size, format, value);
  mark = strchr (buffer, '.');
  if (mark != NULL)
    *mark = cav_number_get_mark ();
  return buffer;
}

char *
cav_number_create (double value, int decimals)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE + 64];
  char format[16];
  char *end;

  g_return_val_if_fail (decimals >= 0 && decimals <= 9, NULL);

  g_snprintf (format, sizeof format, "%%.%df", decimals);
  cav_number_format (buffer, sizeof buffer, format, value);
  if (decimals > 0)
    {
      end = buffer + strlen (buffer);
      while (end[-1] == '0')
        end--;
      if (!g_ascii_isdigit (end[-1]))
        end--;
      *end = '\0';
    }
  return g_strdup (strcmp (buffer, "-0") == 0 ? "0" : buffer);
}
