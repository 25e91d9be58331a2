/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Numbers as they stand in files: decimal point whatever the locale, never infinite. */

/* Reads the longest number at *cursor and moves *cursor behind it. FALSE, with *cursor where it
 * was, where there is none, where it overflows, or where it has more than 120 characters.
 * Neither hexadecimal figures nor the words for infinity and NaN are numbers. */
gboolean cav_number_scan (const char **cursor, double *out_value);
/* The same for a text that holds one number and nothing else but white space around it. */
gboolean cav_number_parse (const char *text, double *out_value);

/* Appends the shortest decimal that reads back as the same bits. */
void cav_number_append (GString *text, double value);
/* Appends value rounded to at most decimals places, without trailing zeros and without "-0". */
void cav_number_append_rounded (GString *text, double value, int decimals);

G_END_DECLS
