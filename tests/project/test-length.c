/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-length.h"

#include <math.h>
#include <string.h>

typedef struct
{
  const char *desc;
  double mm;
  CavUnit unit;
  int denominator;
  const char *expected;
} FormatCase;

static const FormatCase FORMATS[] = {
  { "one decimal", 12.4, CAV_UNIT_MM, 64, "12.4 mm" },
  { "whole millimetres", 60, CAV_UNIT_MM, 64, "60 mm" },
  { "zeros before the mark stay", 100, CAV_UNIT_MM, 64, "100 mm" },
  { "two decimals", 12.35, CAV_UNIT_MM, 64, "12.35 mm" },
  { "more is rounded", 9.128, CAV_UNIT_MM, 64, "9.13 mm" },
  { "nothing", 0, CAV_UNIT_MM, 64, "0 mm" },
  { "no minus before nothing", -0.001, CAV_UNIT_MM, 64, "0 mm" },
  { "negative", -3.2, CAV_UNIT_MM, 64, "-3.2 mm" },
  { "whole inch", 25.4, CAV_UNIT_INCH, 64, "1 in" },
  { "mixed", 31.75, CAV_UNIT_INCH, 64, "1 1/4 in" },
  { "fraction is reduced", 9.525, CAV_UNIT_INCH, 64, "3/8 in" },
  { "finest", 0.396875, CAV_UNIT_INCH, 64, "1/64 in" },
  { "rounded, to 64ths", 12.0, CAV_UNIT_INCH, 64, "≈ 15/32 in" },
  { "rounded, to 16ths", 12.0, CAV_UNIT_INCH, 16, "≈ 1/2 in" },
  { "rounded, to 32nds", 10.0, CAV_UNIT_INCH, 32, "≈ 13/32 in" },
  { "rounded up to a whole", 25.3, CAV_UNIT_INCH, 64, "≈ 1 in" },
  { "rounded away", 0.1, CAV_UNIT_INCH, 64, "≈ 0 in" },
  { "negative fraction", -31.75, CAV_UNIT_INCH, 16, "-1 1/4 in" },
  { "negative, rounded away", -0.1, CAV_UNIT_INCH, 64, "≈ 0 in" },
  { "decimal inches", 12.0, CAV_UNIT_INCH, CAV_LENGTH_DECIMAL, "0.472 in" },
  { "decimal inches, even", 9.525, CAV_UNIT_INCH, CAV_LENGTH_DECIMAL, "0.375 in" },
  { "decimal inches, whole", 50.8, CAV_UNIT_INCH, CAV_LENGTH_DECIMAL, "2 in" },
  { "decimal inches, no minus before nothing", -0.001, CAV_UNIT_INCH, CAV_LENGTH_DECIMAL, "0 in" },
  { "half of a sixteenth goes up", 0.79375, CAV_UNIT_INCH, 16, "≈ 1/16 in" },
};

static void
test_format (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (FORMATS); i++)
    {
      const FormatCase *c = &FORMATS[i];
      g_autofree char *text = cav_length_format (c->mm, c->unit, c->denominator);
      g_autofree char *bare = cav_length_format_bare (c->mm, c->unit, c->denominator);

      g_test_message ("%s", c->desc);
      g_assert_cmpstr (text, ==, c->expected);
      g_assert_true (g_str_has_prefix (text, bare));
      g_assert_cmpuint (strlen (text), ==, strlen (bare) + 3);
    }
}

typedef struct
{
  const char *desc;
  const char *text;
  CavUnit unit;
  double expected; /* the same double, bit for bit */
} ParseCase;

static const ParseCase PARSES[] = {
  { "bare, mm", "12.4", CAV_UNIT_MM, 12.4 },
  { "bare, inch", "1", CAV_UNIT_INCH, 25.4 },
  { "decimal comma", "0,5", CAV_UNIT_MM, 0.5 },
  { "no leading nought", ".5", CAV_UNIT_MM, 0.5 },
  { "unit", "9.5 mm", CAV_UNIT_INCH, 9.5 },
  { "unit without space", "9.5mm", CAV_UNIT_INCH, 9.5 },
  { "unit in capitals", "9.5 MM", CAV_UNIT_INCH, 9.5 },
  { "centimetres", "1,25 cm", CAV_UNIT_MM, 12.5 },
  { "fraction of an inch", "3/8", CAV_UNIT_INCH, 9.525 },
  { "fraction of a millimetre", "3/8", CAV_UNIT_MM, 0.375 },
  { "inch by word", "3/8 in", CAV_UNIT_MM, 9.525 },
  { "inch by mark", "3/8\"", CAV_UNIT_MM, 9.525 },
  { "inch by double prime", "3/8″", CAV_UNIT_MM, 9.525 },
  { "inches", "2 inches", CAV_UNIT_MM, 50.8 },
  { "mixed", "1 1/4", CAV_UNIT_INCH, 31.75 },
  { "spaces around the slash", "1 1 / 4", CAV_UNIT_INCH, 31.75 },
  { "fraction sign", "½", CAV_UNIT_INCH, 12.7 },
  { "whole and fraction sign", "1½ in", CAV_UNIT_MM, 38.1 },
  { "whole, space, fraction sign", "1 ⅜\"", CAV_UNIT_MM, 34.925 },
  { "fraction slash", "3⁄8 in", CAV_UNIT_MM, 9.525 },
  { "sum of fractions", "3/8 + 1/16", CAV_UNIT_INCH, 11.1125 },
  { "difference without spaces", "12-3.2", CAV_UNIT_MM, 8.8 },
  { "difference of fractions", "1-1/4", CAV_UNIT_INCH, 19.05 },
  { "real minus sign", "12 − 3,2", CAV_UNIT_MM, 8.8 },
  { "mixed units", "1 in + 0.6 mm", CAV_UNIT_MM, 26 },
  { "a bare number keeps the unit", "1 + 1 in", CAV_UNIT_MM, 26.4 },
  { "feet", "2'", CAV_UNIT_MM, 609.6 },
  { "feet and inches", "1' 3 1/2\"", CAV_UNIT_MM, 393.7 },
  { "negative", "-3/8", CAV_UNIT_INCH, -9.525 },
  { "negative, feet and inches", "-1' 3\"", CAV_UNIT_MM, -381 },
  { "plus in front", "+2", CAV_UNIT_MM, 2 },
  { "nothing", "0", CAV_UNIT_MM, 0 },
  { "spaces around", "  7 \t", CAV_UNIT_MM, 7 },
  { "no-break space", "9.5\302\240mm", CAV_UNIT_MM, 9.5 },
  { "sixty-fourths", "37/64", CAV_UNIT_INCH, 14.684375 },
  { "rounded figure typed back", "≈ 3/8 in", CAV_UNIT_MM, 9.525 },
  { "largest", "100000", CAV_UNIT_MM, 1e5 },
};

static void
test_parse (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (PARSES); i++)
    {
      const ParseCase *c = &PARSES[i];
      g_autoptr (GError) error = NULL;
      double mm = NAN;

      g_test_message ("%s: %s", c->desc, c->text);
      g_assert_true (cav_length_parse (c->text, c->unit, &mm, &error));
      g_assert_no_error (error);
      g_assert_cmpmem (&mm, sizeof mm, &c->expected, sizeof c->expected);
    }
}

typedef struct
{
  const char *desc;
  const char *text;
  CavLengthError code;
  const char *says; /* part of the message */
} ErrorCase;

static const ErrorCase ERRORS[] = {
  { "nothing", "", CAV_LENGTH_ERROR_SYNTAX, "a number is missing at its end" },
  { "only spaces", "   ", CAV_LENGTH_ERROR_SYNTAX, "at its end" },
  { "a word", "wide", CAV_LENGTH_ERROR_SYNTAX, "at character 1, “wide”" },
  { "unknown unit", "3 ells", CAV_LENGTH_ERROR_SYNTAX, "at character 3, “ells”" },
  { "unit that goes on", "3 mmm", CAV_LENGTH_ERROR_SYNTAX, "at character 3" },
  { "nothing after plus", "3/8 +", CAV_LENGTH_ERROR_SYNTAX, "at its end" },
  { "two signs", "3 + - 2", CAV_LENGTH_ERROR_SYNTAX, "at character 5" },
  { "two decimal marks", "1.2.3", CAV_LENGTH_ERROR_SYNTAX, "second decimal mark at character 4" },
  { "only a decimal mark", ".", CAV_LENGTH_ERROR_SYNTAX, "at character 1" },
  { "side by side", "1 2", CAV_LENGTH_ERROR_SYNTAX, "two numbers" },
  { "no denominator", "3/", CAV_LENGTH_ERROR_SYNTAX, "at its end" },
  { "broken denominator", "3/8.5", CAV_LENGTH_ERROR_SYNTAX, "lower part" },
  { "broken numerator", "1.5/8", CAV_LENGTH_ERROR_SYNTAX, "upper part" },
  { "broken into lines", "3\n4x", CAV_LENGTH_ERROR_SYNTAX, "“3 4x”" },
  { "by nought", "3/0", CAV_LENGTH_ERROR_RANGE, "divides by 0" },
  { "three parts", "1/2/3", CAV_LENGTH_ERROR_SYNTAX, "at character 4" },
  { "not a number", "nan", CAV_LENGTH_ERROR_SYNTAX, "at character 1" },
  { "infinity", "inf", CAV_LENGTH_ERROR_SYNTAX, "at character 1" },
  { "exponent", "1e3", CAV_LENGTH_ERROR_SYNTAX, "at character 2" },
  { "hexadecimal", "0x10", CAV_LENGTH_ERROR_SYNTAX, "at character 2" },
  { "product", "2 * 3", CAV_LENGTH_ERROR_SYNTAX, "at character 3" },
  { "too large", "100000.1", CAV_LENGTH_ERROR_RANGE, "hundred metres" },
  { "too small", "-4000 in", CAV_LENGTH_ERROR_RANGE, "hundred metres" },
  { "beyond any double", "1" /* grown below */, CAV_LENGTH_ERROR_SYNTAX, "too long" },
  { "not UTF-8", "3 \xff", CAV_LENGTH_ERROR_SYNTAX, "UTF-8" },
  { "place counts characters", "½ + ?", CAV_LENGTH_ERROR_SYNTAX, "at character 5, “?”" },
};

static void
test_errors (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (ERRORS); i++)
    {
      const ErrorCase *c = &ERRORS[i];
      g_autofree char *digits = g_strnfill (400, '9');
      const char *text = strcmp (c->desc, "beyond any double") == 0 ? digits : c->text;
      g_autoptr (GError) error = NULL;
      double mm = -7;

      g_test_message ("%s", c->desc);
      g_assert_false (cav_length_parse (text, CAV_UNIT_MM, &mm, &error));
      g_assert_error (error, CAV_LENGTH_ERROR, (int)c->code);
      g_test_message ("%s", error->message);
      g_assert_nonnull (strstr (error->message, c->says));
      g_assert_null (strchr (error->message, '\n'));
      g_assert_true (mm > -7.5 && mm < -6.5);
    }
}

/* What is shown can be typed: every sixty-fourth up to a foot comes back as the same double. */
static void
test_inches_come_back (void)
{
  for (int i = -768; i <= 768; i++)
    {
      double mm = i / 64.0 * 254.0 / 10.0;
      g_autofree char *text = cav_length_format (mm, CAV_UNIT_INCH, 64);
      g_autoptr (GError) error = NULL;
      double back;

      g_assert_null (strstr (text, "≈"));
      g_assert_true (cav_length_parse (text, CAV_UNIT_MM, &back, &error));
      g_assert_no_error (error);
      g_assert_true (fabs (back - mm) < 1e-12);
    }
}

/* No text, however odd, crashes or gives something that is not a length. */
static void
test_random_text (void)
{
  static const char *const PIECES[]
      = { "1",  "23", "0",  ".", ",",  "/", " ",  "+", "-", "−", "½",
          "mm", "cm", "in", "'", "\"", "≈", "ft", "x", "⁄", "e", "\t" };
  guint32 seed = g_test_rand_int ();
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);
  guint n_read = 0;

  g_test_message ("seed %u", seed);
  for (int i = 0; i < 20000; i++)
    {
      g_autoptr (GString) text = g_string_new (NULL);
      g_autoptr (GError) error = NULL;
      int n = g_rand_int_range (random, 0, 9);
      double mm;

      while (n-- > 0)
        g_string_append (text, PIECES[g_rand_int_range (random, 0, G_N_ELEMENTS (PIECES))]);
      if (cav_length_parse (text->str, CAV_UNIT_INCH, &mm, &error))
        {
          g_assert_no_error (error);
          g_assert_true (isfinite (mm) && fabs (mm) <= 1e5);
          n_read++;
        }
      else
        g_assert_nonnull (error);
    }
  g_assert_cmpuint (n_read, >, 100);
}

static void
test_unit_from_string (void)
{
  CavUnit unit = CAV_UNIT_INCH;

  g_assert_true (cav_unit_from_string ("mm", &unit));
  g_assert_cmpint (unit, ==, CAV_UNIT_MM);
  g_assert_true (cav_unit_from_string ("in", &unit));
  g_assert_cmpint (unit, ==, CAV_UNIT_INCH);
  g_assert_false (cav_unit_from_string ("ell", &unit));
  g_assert_false (cav_unit_from_string ("", &unit));
}

static const CavLengthStyle STYLES[] = {
  { CAV_UNIT_MM, 64 },   { CAV_UNIT_INCH, 16 }, { CAV_UNIT_INCH, 32 },
  { CAV_UNIT_INCH, 64 }, { CAV_UNIT_INCH, 1 },  { CAV_UNIT_INCH, CAV_LENGTH_DECIMAL },
};

/* What is shown reads back within what the style rounds away, and then shows the same again. */
static void
test_styles_round_trip (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (STYLES); i++)
    for (int k = 0; k < 2000; k++)
      {
        CavLengthStyle style = STYLES[i];
        double mm = g_test_rand_double_range (-600.0, 600.0);
        double rounding = cav_length_style_get_rounding (style);
        g_autofree char *text = cav_length_format (mm, style.unit, style.denominator);
        g_autofree char *bare = cav_length_format_bare (mm, style.unit, style.denominator);
        g_autofree char *again = NULL;
        double back, from_bare;

        g_assert_true (cav_length_parse (text, style.unit, &back, NULL));
        g_assert_true (cav_length_parse (bare, style.unit, &from_bare, NULL));
        g_assert_cmpfloat (fabs (back - mm), <=, rounding * (1.0 + 1e-9));
        g_assert_cmpfloat (fabs (back - from_bare), <, 1e-12);
        again = cav_length_format (back, style.unit, style.denominator);
        g_assert_cmpstr (again + (g_str_has_prefix (again, "≈ ") ? strlen ("≈ ") : 0), ==,
                         text + (g_str_has_prefix (text, "≈ ") ? strlen ("≈ ") : 0));
      }
}

/* Sentences of rooms that know no units, for people who measure in inches. */
static void
test_restyle (void)
{
  static const struct
  {
    const char *desc, *text, *sixteenths, *decimal;
  } cases[] = {
    { "a length", "too deep by 25.4 mm.", "too deep by 1\302\240in.", "too deep by 1\302\240in." },
    { "a pair", "12.7 mm by 9.525 mm", "1/2\302\240in by 3/8\302\240in",
      "0.5\302\240in by 0.375\302\240in" },
    { "rounded", "about 10 mm",
      "about ≈\302\240"
      "3/8\302\240in",
      "about 0.394\302\240in" },
    { "a gap is too small for fractions", "opens by 0.61 mm", "opens by 0.024\302\240in",
      "opens by 0.024\302\240in" },
    { "nothing", "0 mm", "0\302\240in", "0\302\240in" },
    { "negative", "-25.4 mm", "-1\302\240in", "-1\302\240in" },
    { "a space that stays", "254\302\240mm", "10\302\240in", "10\302\240in" },
    { "no length", "2 mm², 3 mm³, 4 mmol, M5 mm, 6/7 mm", "2 mm², 3 mm³, 4 mmol, M5 mm, 6/7 mm",
      "2 mm², 3 mm³, 4 mmol, M5 mm, 6/7 mm" },
    { "no text", "", "", "" },
    { "no UTF-8", "\377 254 mm", "\377 254 mm", "\377 254 mm" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *same
          = cav_length_restyle (cases[i].text, (CavLengthStyle){ CAV_UNIT_MM, 16 });
      g_autofree char *fractions
          = cav_length_restyle (cases[i].text, (CavLengthStyle){ CAV_UNIT_INCH, 16 });
      g_autofree char *decimal = cav_length_restyle (
          cases[i].text, (CavLengthStyle){ CAV_UNIT_INCH, CAV_LENGTH_DECIMAL });

      g_test_message ("%s", cases[i].desc);
      g_assert_cmpstr (same, ==, cases[i].text);
      g_assert_cmpstr (fractions, ==, cases[i].sixteenths);
      g_assert_cmpstr (decimal, ==, cases[i].decimal);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/length/format", test_format);
  g_test_add_func ("/project/length/parse", test_parse);
  g_test_add_func ("/project/length/errors", test_errors);
  g_test_add_func ("/project/length/inches-come-back", test_inches_come_back);
  g_test_add_func ("/project/length/random-text", test_random_text);
  g_test_add_func ("/project/length/unit-from-string", test_unit_from_string);
  g_test_add_func ("/project/length/styles-round-trip", test_styles_round_trip);
  g_test_add_func ("/project/length/restyle", test_restyle);
  return g_test_run ();
}
