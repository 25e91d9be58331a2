/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in English; test-words.py in tests/tool reads them in languages with a comma. */
#include "geometry/cav-number-text.h"

#include <locale.h>

static void
test_create (void)
{
  static const struct
  {
    double value;
    int decimals;
    const char *text;
  } rows[] = {
    { 12.4, 2, "12.4" },   { 12.0, 2, "12" },  { 100.0, 0, "100" }, { 100.0, 3, "100" },
    { 0.125, 3, "0.125" }, { -0.001, 2, "0" }, { -3.5, 1, "-3.5" }, { 0.999, 2, "1" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = cav_number_create (rows[i].value, rows[i].decimals);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

static void
test_format (void)
{
  char buffer[32];

  g_assert_cmpint (cav_number_get_mark (), ==, '.');
  g_assert_true (cav_number_format (buffer, sizeof buffer, "%.2f", 6.5) == buffer);
  g_assert_cmpstr (buffer, ==, "6.50");
  g_assert_cmpstr (CAV_NUMBER_TEXT ("%.4g", 6.25), ==, "6.25");
}

int
main (int argc, char *argv[])
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/number-text/zeros-at-the-end-are-left-out", test_create);
  g_test_add_func ("/geometry/number-text/english-has-a-point", test_format);
  return g_test_run ();
}
