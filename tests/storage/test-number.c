/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-number.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "storage-test.h"

static void
test_parse (void)
{
  static const struct
  {
    const char *text;
    gboolean good;
    double value;
  } rows[] = {
    { "12.5", TRUE, 12.5 },    { " 12.5\n", TRUE, 12.5 }, { "-0.25", TRUE, -0.25 },
    { "+3", TRUE, 3 },         { ".5", TRUE, 0.5 },       { "5.", TRUE, 5 },
    { "1e3", TRUE, 1000 },     { "1.5E-2", TRUE, 0.015 }, { "0x10", FALSE, 0 },
    { "1,5", FALSE, 0 },       { "", FALSE, 0 },          { " ", FALSE, 0 },
    { "-", FALSE, 0 },         { ".", FALSE, 0 },         { "e5", FALSE, 0 },
    { "1e", FALSE, 0 },        { "1 2", FALSE, 0 },       { "5mm", FALSE, 0 },
    { "NaN", FALSE, 0 },       { "nan(1)", FALSE, 0 },    { "INF", FALSE, 0 },
    { "-infinity", FALSE, 0 }, { "1e999", FALSE, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double value = -77;

      g_test_message ("\"%s\"", rows[i].text);
      g_assert_true (cav_number_parse (rows[i].text, &value) == rows[i].good);
      g_assert_true (storage_test_same_bits (value, rows[i].good ? rows[i].value : -77));
    }
}

static void
test_too_long (void)
{
  g_autofree char *zeros = g_strnfill (200, '0');
  double value;

  g_assert_false (cav_number_parse (zeros, &value));
}

/* SVG writes numbers without anything between them where the grammar allows it. */
static void
test_scan_compact (void)
{
  static const double expected[] = { 1.5, 0.5, -300, 7 };
  const char *at = "1.5.5-3e2+7x";

  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      double value;

      g_assert_true (cav_number_scan (&at, &value));
      g_assert_true (storage_test_same_bits (value, expected[i]));
    }
  double value;
  g_assert_false (cav_number_scan (&at, &value));
  g_assert_cmpstr (at, ==, "x");
}

static void
assert_round_trip (double value)
{
  g_autoptr (GString) text = g_string_new (NULL);
  double again;

  cav_number_append (text, value);
  g_assert_null (strchr (text->str, ','));
  g_assert_true (cav_number_parse (text->str, &again));
  g_assert_true (storage_test_same_bits (value, again));
}

static void
test_round_trip (void)
{
  const double edges[] = { 0.0,     -0.0,        0.1,     1.0 / 3.0, 25.4,     DBL_MAX,
                           DBL_MIN, DBL_EPSILON, 5e-324,  -1e-310,   1e15,     123456789012345678.0,
                           -1e5,    M_PI,        2.0 / 7, 0.3,       0.1 + 0.2 };

  for (guint i = 0; i < G_N_ELEMENTS (edges); i++)
    assert_round_trip (edges[i]);
  /* Any bits that make a finite number. The seed is the framework's, which prints it. */
  for (int i = 0; i < 20000; i++)
    {
      guint64 bits = ((guint64)(guint32)g_test_rand_int () << 32) | (guint32)g_test_rand_int ();
      double value;

      memcpy (&value, &bits, sizeof value);
      if (isfinite (value))
        assert_round_trip (value);
    }
}

static void
test_shortest (void)
{
  g_autoptr (GString) text = g_string_new (NULL);

  cav_number_append (text, 0.1);
  g_string_append_c (text, ' ');
  cav_number_append (text, 12);
  g_assert_cmpstr (text->str, ==, "0.1 12");
}

static void
test_rounded (void)
{
  static const struct
  {
    double value;
    int decimals;
    const char *text;
  } rows[] = {
    { 12.345678, 4, "12.3457" },
    { 12.5, 4, "12.5" },
    { 12, 4, "12" },
    { 100, 0, "100" },
    { -0.00001, 4, "0" },
    { -0.5, 4, "-0.5" },
    { 0, 0, "0" },
    { 1e15, 2, "1000000000000000" },
    { -3.2, 4, "-3.2" },
    { 0.29999999, 4, "0.3" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);

      cav_number_append_rounded (text, rows[i].value, rows[i].decimals);
      g_assert_cmpstr (text->str, ==, rows[i].text);
    }
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/number/parse", test_parse);
  g_test_add_func ("/storage/number/too-long", test_too_long);
  g_test_add_func ("/storage/number/scan-compact", test_scan_compact);
  g_test_add_func ("/storage/number/round-trip", test_round_trip);
  g_test_add_func ("/storage/number/shortest", test_shortest);
  g_test_add_func ("/storage/number/rounded", test_rounded);
  return g_test_run ();
}
