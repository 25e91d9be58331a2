/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-text.h"

#include "geometry/cav-number-text.h"

#include <string.h>

/* Marks that turn the direction of writing, or that nobody sees: a name must not be able to show
 * another name. */
static gboolean
is_harmful (gunichar c)
{
  GUnicodeType type = g_unichar_type (c);

  return type == G_UNICODE_CONTROL || type == G_UNICODE_FORMAT || type == G_UNICODE_SURROGATE
         || type == G_UNICODE_UNASSIGNED || type == G_UNICODE_PRIVATE_USE
         || type == G_UNICODE_LINE_SEPARATOR || type == G_UNICODE_PARAGRAPH_SEPARATOR;
}

char *
cav_text_clean (const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text, -1);
  GString *out = g_string_new (NULL);

  for (const char *p = valid; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (c == '\n' || c == '\t')
        g_string_append_c (out, ' ');
      else if (!is_harmful (c))
        g_string_append_unichar (out, c);
    }
  return g_string_free (out, FALSE);
}

int
cav_text_get_width (const char *text)
{
  int width = 0;

  for (const char *p = text; *p != '\0'; p = g_utf8_next_char (p))
    {
      gunichar c = g_utf8_get_char (p);

      if (!g_unichar_iszerowidth (c))
        width += g_unichar_iswide (c) ? 2 : 1;
    }
  return width;
}

static void
append_blanks (GString *out, int n)
{
  for (; n > 0; n--)
    g_string_append_c (out, ' ');
}

void
cav_text_append_cell (GString *out, const char *text, int width, gboolean right)
{
  int missing = width - cav_text_get_width (text);

  if (right)
    append_blanks (out, missing);
  g_string_append (out, text);
  if (!right)
    append_blanks (out, missing);
}

/* Blanks that hold words together have done so when a line is printed. */
static void
append_with_blanks (GString *out, const char *word)
{
  g_auto (GStrv) parts = g_strsplit (word, "\302\240", -1);
  g_autofree char *whole = g_strjoinv (" ", parts);

  g_string_append (out, whole);
}

void
cav_text_append_wrapped (GString *out, const char *head, int indent, const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  int column = cav_text_get_width (head);
  gboolean at_start = TRUE;

  g_string_append (out, head);
  for (char **word = words; *word != NULL; word++)
    {
      int width = cav_text_get_width (*word);

      if (width == 0)
        continue;
      if (!at_start && column + 1 + width > CAV_TEXT_WIDTH)
        {
          g_string_append_c (out, '\n');
          append_blanks (out, indent);
          column = indent;
          at_start = TRUE;
        }
      if (!at_start)
        {
          g_string_append_c (out, ' ');
          column++;
        }
      append_with_blanks (out, *word);
      column += width;
      at_start = FALSE;
    }
  g_string_append_c (out, '\n');
}

char *
cav_text_format_place (double x, double y, CavUnit unit)
{
  g_autofree char *from_inside = cav_length_format_bare (x, unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *from_back = cav_length_format_bare (y, unit, CAV_TEXT_DENOMINATOR);

  return g_strconcat (from_inside, ", ", from_back, NULL);
}
