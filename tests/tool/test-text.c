/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-text.h"

#include <string.h>

static void
test_clean (void)
{
  static const struct
  {
    const char *desc;
    const char *text;
    const char *expected;
  } CASES[] = {
    { "plain", "Fern frame, 3/8 in × ½", "Fern frame, 3/8 in × ½" },
    { "escape sequence", "a\033[2Jb", "a[2Jb" },
    { "bell and backspace", "a\a\bb\177", "ab" },
    { "eight-bit control", "a\302\233b", "ab" },
    { "lines become blanks", "a\nb\tc", "a b c" },
    { "carriage return", "wrong\rright", "wrongright" },
    { "turned writing", "a\342\200\256b", "ab" },
    { "isolate", "a\342\201\246b\342\201\251", "ab" },
    { "line separator", "a\342\200\250b", "ab" },
    { "not UTF-8", "a\377b", "a\357\277\275b" },
    { "nothing", "", "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (CASES); i++)
    {
      g_autofree char *clean = cav_text_clean (CASES[i].text);

      g_test_message ("%s", CASES[i].desc);
      g_assert_cmpstr (clean, ==, CASES[i].expected);
    }
}

static void
test_width (void)
{
  g_assert_cmpint (cav_text_get_width (""), ==, 0);
  g_assert_cmpint (cav_text_get_width ("mm²"), ==, 3);
  g_assert_cmpint (cav_text_get_width ("≈ 1/2"), ==, 5);
  g_assert_cmpint (cav_text_get_width ("額縁"), ==, 4);
  g_assert_cmpint (cav_text_get_width ("e\314\201"), ==, 1);
}

static void
test_cell (void)
{
  g_autoptr (GString) out = g_string_new (NULL);

  cav_text_append_cell (out, "½", 3, FALSE);
  cav_text_append_cell (out, "½", 3, TRUE);
  cav_text_append_cell (out, "longer", 3, TRUE);
  g_assert_cmpstr (out->str, ==, "½    ½longer");
}

static void
test_wrap (void)
{
  g_autoptr (GString) out = g_string_new (NULL);
  g_autoptr (GString) text = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  for (int i = 0; i < 60; i++)
    g_string_append (text, "word ");
  cav_text_append_wrapped (out, "  1  ", 5, text->str);
  lines = g_strsplit (out->str, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), >, 3);
  g_assert_true (g_str_has_prefix (lines[0], "  1  word word"));
  g_assert_true (g_str_has_prefix (lines[1], "     word word"));
  for (char **line = lines; *line != NULL; line++)
    {
      g_assert_cmpint (cav_text_get_width (*line), <=, CAV_TEXT_WIDTH);
      g_assert_false (g_str_has_suffix (*line, " "));
    }

  g_string_set_size (out, 0);
  g_string_set_size (text, 0);
  for (int i = 0; i < 200; i++)
    g_string_append_c (text, 'x');
  cav_text_append_wrapped (out, "> ", 2, text->str);
  g_assert_cmpuint (out->len, ==, 203);
}

static void
test_place (void)
{
  g_autofree char *place = cav_text_format_place (12.4, 8.0, CAV_UNIT_MM);
  g_autofree char *inch_place = cav_text_format_place (12.7, 9.525, CAV_UNIT_INCH);

  g_assert_cmpstr (place, ==, "12.4, 8");
  g_assert_cmpstr (inch_place, ==, "1/2, 3/8");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/text/clean", test_clean);
  g_test_add_func ("/tool/text/width", test_width);
  g_test_add_func ("/tool/text/cell", test_cell);
  g_test_add_func ("/tool/text/wrap", test_wrap);
  g_test_add_func ("/tool/text/place", test_place);
  return g_test_run ();
}
