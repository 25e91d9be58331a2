/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The one place where millimetres become what people read and type. */
typedef enum
{
  CAV_UNIT_MM,
  CAV_UNIT_INCH, /* fractions */
} CavUnit;

gboolean cav_unit_from_string (const char *string, CavUnit *out_unit);

/* How lengths are shown: in millimetres, in inches and fractions to 1/denominator, or in inches
 * with a decimal point where denominator is CAV_LENGTH_DECIMAL. */
typedef struct
{
  CavUnit unit;
  int denominator;
} CavLengthStyle;
#define CAV_LENGTH_DECIMAL 0

/* "12.4 mm", "0.472 in", or inches as the nearest fraction of 1/denominator with a sign of what was
 * rounded away: "1 1/4 in", "≈ 3/8 in". (transfer full) */
char *cav_length_format (double mm, CavUnit unit, int denominator) G_GNUC_WARN_UNUSED_RESULT;
/* The same without the unit. */
char *cav_length_format_bare (double mm, CavUnit unit, int denominator) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) A sentence whose lengths ("12.4 mm") are said in another style. Rooms that know
 * no units word theirs in millimetres; less than one stands in thousandths of an inch, which
 * fractions are too coarse for. */
char *cav_length_restyle (const char *text, CavLengthStyle style) G_GNUC_WARN_UNUSED_RESULT;
/* What formatting may round away at most, mm; what is shown, read back by cav_length_parse() in the
 * same unit, is within it. */
double cav_length_style_get_rounding (CavLengthStyle style);
/* Sums, fractions, decimals with '.' or ',' and units: "3/8 + 1/16", "1 1/4", "9.5 mm", "12-3.2".
 * A bare number is in unit. Error CAV_LENGTH_ERROR with a sentence that names the place. */
gboolean cav_length_parse (const char *text, CavUnit unit, double *out_mm, GError **error);

typedef enum
{
  CAV_LENGTH_ERROR_SYNTAX = 1,
  CAV_LENGTH_ERROR_RANGE,
} CavLengthError;
#define CAV_LENGTH_ERROR (cav_length_error_quark ())
GQuark cav_length_error_quark (void);

G_END_DECLS
