/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-length.h"

#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

/* Longest text that is looked at, in bytes: far more than a sum that somebody types. */
#define TEXT_MAX 200

/* clang-format off */
G_DEFINE_QUARK (cav-length-error, cav_length_error)
/* clang-format on */

gboolean
cav_unit_from_string (const char *string, CavUnit *out_unit)
{
  g_return_val_if_fail (string != NULL, FALSE);
  g_return_val_if_fail (out_unit != NULL, FALSE);

  if (strcmp (string, "mm") == 0)
    *out_unit = CAV_UNIT_MM;
  else if (strcmp (string, "in") == 0)
    *out_unit = CAV_UNIT_INCH;
  else
    return FALSE;
  return TRUE;
}

/* 254 / 10 and not 25.4: a binary fraction of an inch times 254 is exact, so that the division is
 * the only rounding and 3/8 in is the double nearest to 9.525. */
static double
inches_to_mm (double inches)
{
  return inches * 254.0 / 10.0;
}

/* Formatting */

/* Two decimals show the finest step of a machine, 0.05 mm. */
#define MM_ROUNDING 0.005
static char *
format_millimetres (double mm)
{
  return cav_number_create (mm, 2);
}

/* Thousandths, as calipers show them. */
#define INCH_ROUNDING 0.0005
static char *
format_decimal_inches (double mm)
{
  return cav_number_create (mm * 10.0 / 254.0, 3);
}

static gint64
greatest_common_divisor (gint64 a, gint64 b)
{
  while (b != 0)
    {
      gint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

static char *
format_inches (double mm, int denominator)
{
  double share = fabs (mm) * 10.0 / 254.0 * denominator;
  gint64 parts = llround (share);
  double rounded = inches_to_mm ((double)parts / denominator);
  gint64 whole = parts / denominator;
  gint64 rest = parts % denominator;
  gint64 divisor = greatest_common_divisor (denominator, rest);
  const char *about = fabs (rounded - fabs (mm)) > CAV_TOLERANCE_POINT ? "≈ " : "";
  const char *sign = mm < 0 && parts > 0 ? "-" : "";

  if (rest == 0)
    return g_strdup_printf ("%s%s%" G_GINT64_FORMAT, about, sign, whole);
  if (whole == 0)
    return g_strdup_printf ("%s%s%" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, about, sign,
                            rest / divisor, denominator / divisor);
  return g_strdup_printf ("%s%s%" G_GINT64_FORMAT " %" G_GINT64_FORMAT "/%" G_GINT64_FORMAT, about,
                          sign, whole, rest / divisor, denominator / divisor);
}

char *
cav_length_format_bare (double mm, CavUnit unit, int denominator)
{
  g_return_val_if_fail (isfinite (mm) && fabs (mm) < 1e12, NULL);
  g_return_val_if_fail (denominator >= 0 && denominator <= 1024, NULL);

  switch (unit)
    {
    case CAV_UNIT_MM:
      return format_millimetres (mm);
    case CAV_UNIT_INCH:
      return denominator == CAV_LENGTH_DECIMAL ? format_decimal_inches (mm)
                                               : format_inches (mm, denominator);
    }
  g_return_val_if_reached (NULL);
}

char *
cav_length_format (double mm, CavUnit unit, int denominator)
{
  g_autofree char *bare = cav_length_format_bare (mm, unit, denominator);

  g_return_val_if_fail (bare != NULL, NULL);
  return g_strconcat (bare, unit == CAV_UNIT_MM ? " mm" : " in", NULL);
}

/* Lengths of a sentence; not areas, nor the end of another word. */
#define LENGTHS "(?<![\\w.,/-])(-?\\d+(?:[.,]\\d+)?)[ \\x{a0}\\x{202f}]mm(?![\\w\\x{b2}\\x{b3}/])"

/* A space at which no line breaks, as figures in sentences have them. */
static char *
format_to_stay (double mm, CavLengthStyle style)
{
  const gboolean is_gap = fabs (mm) > 0.0 && fabs (mm) < 1.0;
  g_autofree char *text
      = cav_length_format (mm, style.unit, is_gap ? CAV_LENGTH_DECIMAL : style.denominator);
  g_auto (GStrv) parts = g_strsplit (text, " ", -1);

  return g_strjoinv ("\302\240", parts);
}

static gboolean
restyle_cb (const GMatchInfo *match, GString *result, gpointer user_data)
{
  const CavLengthStyle *style = user_data;
  g_autofree char *figure = g_strdelimit (g_match_info_fetch (match, 1), ",", '.');
  g_autofree char *text = format_to_stay (g_ascii_strtod (figure, NULL), *style);

  g_string_append (result, text);
  return FALSE;
}

char *
cav_length_restyle (const char *text, CavLengthStyle style)
{
  g_autoptr (GRegex) lengths = NULL;
  char *restyled;

  g_return_val_if_fail (text != NULL, NULL);

  if (style.unit == CAV_UNIT_MM)
    return g_strdup (text);
  lengths = g_regex_new (LENGTHS, 0, 0, NULL);
  restyled = g_regex_replace_eval (lengths, text, -1, 0, 0, restyle_cb, &style, NULL);
  return restyled != NULL ? restyled : g_strdup (text);
}

double
cav_length_style_get_rounding (CavLengthStyle style)
{
  if (style.unit == CAV_UNIT_MM)
    return MM_ROUNDING;
  return inches_to_mm (style.denominator == CAV_LENGTH_DECIMAL ? INCH_ROUNDING
                                                               : 0.5 / style.denominator);
}

/* Parsing: a sum of quantities, each a number, a fraction or both, with or without a unit. */

typedef enum
{
  MEASURE_BARE, /* in the unit that the caller names */
  MEASURE_MM,
  MEASURE_CM,
  MEASURE_INCH,
  MEASURE_FOOT,
} Measure;

typedef struct
{
  const char *text;
  const char *at;
  CavUnit unit;
  /* Summed apart and joined at the end, so that 3/8 + 1/16 in is exactly 7/16 in. */
  double mm;
  double inches;
} Parser;

static const struct
{
  const char *name;
  Measure measure;
} MEASURES[] = {
  /* A name that begins another one stands after it. */
  { "millimetres", MEASURE_MM }, { "millimetre", MEASURE_MM }, { "mm", MEASURE_MM },
  { "cm", MEASURE_CM },          { "inches", MEASURE_INCH },   { "inch", MEASURE_INCH },
  { "in", MEASURE_INCH },        { "''", MEASURE_INCH },       { "\"", MEASURE_INCH },
  { "″", MEASURE_INCH },         { "”", MEASURE_INCH },        { "feet", MEASURE_FOOT },
  { "foot", MEASURE_FOOT },      { "ft", MEASURE_FOOT },       { "'", MEASURE_FOOT },
  { "′", MEASURE_FOOT },         { "’", MEASURE_FOOT },
};

static const struct
{
  const char *sign;
  double numerator;
  double denominator;
} FRACTIONS[] = {
  { "½", 1, 2 }, { "⅓", 1, 3 }, { "⅔", 2, 3 }, { "¼", 1, 4 }, { "¾", 3, 4 }, { "⅕", 1, 5 },
  { "⅖", 2, 5 }, { "⅗", 3, 5 }, { "⅘", 4, 5 }, { "⅙", 1, 6 }, { "⅚", 5, 6 }, { "⅐", 1, 7 },
  { "⅛", 1, 8 }, { "⅜", 3, 8 }, { "⅝", 5, 8 }, { "⅞", 7, 8 }, { "⅑", 1, 9 }, { "⅒", 1, 10 },
};

static gboolean
take (Parser *self, const char *token)
{
  if (!g_str_has_prefix (self->at, token))
    return FALSE;
  self->at += strlen (token);
  return TRUE;
}

static void
skip_spaces (Parser *self)
{
  while (g_unichar_isspace (g_utf8_get_char (self->at)))
    self->at = g_utf8_next_char (self->at);
}

static gboolean
at_digit (const Parser *self)
{
  return g_ascii_isdigit (*self->at);
}

static gboolean
fail_at (Parser *self, const char *at, const char *what, GError **error)
{
  glong place = g_utf8_pointer_to_offset (self->text, at) + 1;

  if (*at == '\0')
    g_set_error (error, CAV_LENGTH_ERROR,
                 CAV_LENGTH_ERROR_SYNTAX, /* Translators: what was typed, and what is wrong there:
                                             “3/”: a number is missing ... */
                 _ ("“%s”: %s at its end; write a length like 9.5 mm, 3/8 in or 12 - 3.2"),
                 self->text, what);
  else
    g_set_error (
        error, CAV_LENGTH_ERROR, CAV_LENGTH_ERROR_SYNTAX,
        _ ("“%s”: %s at character %ld, “%s”; write a length like 9.5 mm, 3/8 in or 12 - 3.2"),
        self->text, what, place, at);
  return FALSE;
}

/* Digits with at most one decimal mark, '.' or ','. The digits are handed to the one exact
 * conversion that does not look at the locale. */
static gboolean
parse_number (Parser *self, double *out_value, gboolean *out_is_whole, GError **error)
{
  char buffer[TEXT_MAX + 1];
  const char *start = self->at;
  gsize length = 0;
  gboolean has_digit = FALSE;

  *out_is_whole = TRUE;
  for (; at_digit (self) || *self->at == '.' || *self->at == ','; self->at++)
    {
      if (at_digit (self))
        has_digit = TRUE;
      else if (!*out_is_whole)
        return fail_at (self, self->at, _ ("there is a second decimal mark"), error);
      else
        *out_is_whole = FALSE;
      buffer[length++] = at_digit (self) ? *self->at : '.';
    }
  buffer[length] = '\0';
  if (!has_digit)
    return fail_at (self, start, _ ("a number is missing"), error);
  *out_value = g_ascii_strtod (buffer, NULL);
  return TRUE;
}

static gboolean
take_slash (Parser *self)
{
  return take (self, "/") || take (self, "⁄") || take (self, "∕");
}

static gboolean
take_fraction_sign (Parser *self, double *out_value)
{
  for (guint i = 0; i < G_N_ELEMENTS (FRACTIONS); i++)
    if (take (self, FRACTIONS[i].sign))
      {
        *out_value = FRACTIONS[i].numerator / FRACTIONS[i].denominator;
        return TRUE;
      }
  return FALSE;
}

/* What follows a whole numerator: a slash and a whole denominator. */
static gboolean
parse_denominator (Parser *self, double numerator, double *out_value, GError **error)
{
  const char *start;
  double denominator;
  gboolean is_whole;

  skip_spaces (self);
  start = self->at;
  if (!parse_number (self, &denominator, &is_whole, error))
    return FALSE;
  if (!is_whole)
    return fail_at (self, start, _ ("the lower part of a fraction is not a whole number"), error);
  if (!(denominator > 0))
    {
      g_set_error (error, CAV_LENGTH_ERROR, CAV_LENGTH_ERROR_RANGE,
                   _ ("“%s”: the fraction at character %ld divides by 0; write a length like 9.5 "
                      "mm, 3/8 in or 12 - 3.2"),
                   self->text, g_utf8_pointer_to_offset (self->text, start) + 1);
      return FALSE;
    }
  *out_value = numerator / denominator;
  return TRUE;
}

/* After a whole number: "1 1/4" or "1 ½". Leaves the parser where it was when nothing follows. */
static gboolean
parse_rest_of_mixed (Parser *self, double *value, GError **error)
{
  const char *back = self->at;
  double part;
  gboolean is_whole;

  skip_spaces (self);
  if (take_fraction_sign (self, &part))
    {
      *value += part;
      return TRUE;
    }
  if (!at_digit (self))
    {
      self->at = back;
      return TRUE;
    }
  if (!parse_number (self, &part, &is_whole, error))
    return FALSE;
  skip_spaces (self);
  if (!is_whole || !take_slash (self))
    return fail_at (self, back, _ ("two numbers stand side by side"), error);
  if (!parse_denominator (self, part, &part, error))
    return FALSE;
  *value += part;
  return TRUE;
}

/* A number, a fraction, or a whole number and a fraction. */
static gboolean
parse_value (Parser *self, double *out_value, GError **error)
{
  const char *start = self->at;
  const char *back;
  gboolean is_whole;

  if (take_fraction_sign (self, out_value))
    return TRUE;
  if (!parse_number (self, out_value, &is_whole, error))
    return FALSE;
  back = self->at;
  skip_spaces (self);
  if (take_slash (self))
    {
      if (!is_whole)
        return fail_at (self, start, _ ("the upper part of a fraction is not a whole number"),
                        error);
      return parse_denominator (self, *out_value, out_value, error);
    }
  self->at = back;
  return is_whole ? parse_rest_of_mixed (self, out_value, error) : TRUE;
}

static Measure
parse_measure (Parser *self)
{
  const char *back = self->at;

  skip_spaces (self);
  for (guint i = 0; i < G_N_ELEMENTS (MEASURES); i++)
    {
      const char *name = MEASURES[i].name;

      if (g_ascii_strncasecmp (self->at, name, strlen (name)) == 0
          && !(g_ascii_isalpha (*name) && g_ascii_isalpha (self->at[strlen (name)])))
        {
          self->at += strlen (name);
          return MEASURES[i].measure;
        }
    }
  self->at = back;
  return MEASURE_BARE;
}

static gboolean
parse_quantity (Parser *self, double sign, GError **error)
{
  double value;
  Measure measure;

  skip_spaces (self);
  if (!parse_value (self, &value, error))
    return FALSE;
  measure = parse_measure (self);
  if (measure == MEASURE_BARE)
    measure = self->unit == CAV_UNIT_MM ? MEASURE_MM : MEASURE_INCH;
  switch (measure)
    {
    case MEASURE_BARE:
    case MEASURE_MM:
      self->mm += sign * value;
      break;
    case MEASURE_CM:
      self->mm += sign * value * 10.0;
      break;
    case MEASURE_INCH:
      self->inches += sign * value;
      break;
    case MEASURE_FOOT:
      self->inches += sign * value * 12.0;
      /* Inches belong to the feet before them: 1' 3 1/2". */
      skip_spaces (self);
      if (at_digit (self))
        return parse_quantity (self, sign, error);
      break;
    }
  return TRUE;
}

static gboolean
take_minus (Parser *self)
{
  return take (self, "-") || take (self, "−") || take (self, "–");
}

static gboolean
parse_sum (Parser *self, GError **error)
{
  double sign = 1.0;

  skip_spaces (self);
  /* The sign that formatting puts before a rounded figure. */
  if (take (self, "≈"))
    skip_spaces (self);
  if (take_minus (self))
    sign = -1.0;
  else
    take (self, "+");
  for (;;)
    {
      if (!parse_quantity (self, sign, error))
        return FALSE;
      skip_spaces (self);
      if (*self->at == '\0')
        return TRUE;
      if (take (self, "+"))
        sign = 1.0;
      else if (take_minus (self))
        sign = -1.0;
      else
        return fail_at (self, self->at, _ ("this is not part of a length"), error);
    }
}

/* (transfer full) text with a blank for every control character and line break, so that what is
 * pasted with its line end is understood and a message that quotes it stays one line. */
static char *
dup_as_one_line (const char *text)
{
  GString *line = g_string_new (NULL);

  for (const char *at = text; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);
      GUnicodeType type = g_unichar_type (c);

      if (type == G_UNICODE_CONTROL || type == G_UNICODE_LINE_SEPARATOR
          || type == G_UNICODE_PARAGRAPH_SEPARATOR)
        c = ' ';
      g_string_append_unichar (line, c);
    }
  return g_string_free (line, FALSE);
}

gboolean
cav_length_parse (const char *text, CavUnit unit, double *out_mm, GError **error)
{
  g_autofree char *line = NULL;
  Parser parser;
  double mm;

  g_return_val_if_fail (text != NULL, FALSE);
  g_return_val_if_fail (out_mm != NULL, FALSE);

  if (strnlen (text, TEXT_MAX + 1) > TEXT_MAX || !g_utf8_validate (text, -1, NULL))
    {
      g_set_error (
          error, CAV_LENGTH_ERROR, CAV_LENGTH_ERROR_SYNTAX,
          _ ("the text is too long or not UTF-8; write a length like 9.5 mm, 3/8 in or 12 - 3.2"));
      return FALSE;
    }
  line = dup_as_one_line (text);
  parser = (Parser){ .text = line, .at = line, .unit = unit };
  if (!parse_sum (&parser, error))
    return FALSE;
  mm = parser.mm + inches_to_mm (parser.inches);
  if (!(fabs (mm) <= CAV_COORDINATE_MAX))
    {
      g_set_error (error, CAV_LENGTH_ERROR, CAV_LENGTH_ERROR_RANGE,
                   _ ("“%s” is more than a hundred metres; write a shorter length"), line);
      return FALSE;
    }
  *out_mm = mm;
  return TRUE;
}
