/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-xml-write.h"

#include "storage/cav-number.h"

/* Production [2] of XML 1.0. */
static gboolean
is_xml_character (gunichar c)
{
  return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c <= 0xd7ff)
         || (c >= 0xe000 && c <= 0xfffd) || (c >= 0x10000 && c <= 0x10ffff);
}

/* Line ends and tabs are written as references where reading would change them: returns always,
 * the others in attributes. */
static void
append_escaped (GString *text, const char *value, gboolean in_attribute)
{
  g_autofree char *valid = g_utf8_make_valid (value, -1);

  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      if (!is_xml_character (c))
        g_string_append (text, "\357\277\275");
      else if (c == '&')
        g_string_append (text, "&amp;");
      else if (c == '<')
        g_string_append (text, "&lt;");
      else if (c == '>')
        g_string_append (text, "&gt;");
      else if (c == '"')
        g_string_append (text, "&quot;");
      else if (c == '\r' || (in_attribute && (c == '\t' || c == '\n')))
        g_string_append_printf (text, "&#%u;", c);
      else
        g_string_append_unichar (text, c);
    }
}

static void
indent (GString *text, int depth)
{
  for (int i = 0; i < depth; i++)
    g_string_append (text, "  ");
}

void
cav_xml_write_declaration (GString *text)
{
  g_string_append (text, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
}

void
cav_xml_write_begin (GString *text, int depth, const char *name)
{
  indent (text, depth);
  g_string_append_printf (text, "<%s", name);
}

void
cav_xml_write_attribute (GString *text, const char *name, const char *value)
{
  g_string_append_printf (text, " %s=\"", name);
  append_escaped (text, value, TRUE);
  g_string_append_c (text, '"');
}

void
cav_xml_write_number (GString *text, const char *name, double value)
{
  g_string_append_printf (text, " %s=\"", name);
  cav_number_append (text, value);
  g_string_append_c (text, '"');
}

void
cav_xml_write_rounded (GString *text, const char *name, double value, int decimals)
{
  g_string_append_printf (text, " %s=\"", name);
  cav_number_append_rounded (text, value, decimals);
  g_string_append_c (text, '"');
}

void
cav_xml_write_boolean (GString *text, const char *name, gboolean value)
{
  cav_xml_write_attribute (text, name, value ? "yes" : "no");
}

void
cav_xml_write_end (GString *text)
{
  g_string_append (text, "/>\n");
}

void
cav_xml_write_open (GString *text)
{
  g_string_append (text, ">\n");
}

void
cav_xml_write_close (GString *text, int depth, const char *name)
{
  indent (text, depth);
  g_string_append_printf (text, "</%s>\n", name);
}

void
cav_xml_write_text (GString *text, int depth, const char *name, const char *content)
{
  cav_xml_write_begin (text, depth, name);
  g_string_append_c (text, '>');
  append_escaped (text, content, FALSE);
  g_string_append_printf (text, "</%s>\n", name);
}
