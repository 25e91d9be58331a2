/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-length.h"

G_BEGIN_DECLS

/* Widest line of what is printed for people, in characters. */
#define CAV_TEXT_WIDTH 96
/* Finest fraction of an inch that is printed. */
#define CAV_TEXT_DENOMINATOR 64

/* (transfer full) text as one line that a terminal can be trusted with: no control characters,
 * no marks that turn the direction of writing, nothing that is not UTF-8. */
char *cav_text_clean (const char *text) G_GNUC_WARN_UNUSED_RESULT;
/* Columns that text takes on a terminal. */
int cav_text_get_width (const char *text);
/* Adds text padded with blanks to width, at its left where right is TRUE. */
void cav_text_append_cell (GString *out, const char *text, int width, gboolean right);
/* Adds head, then text broken between words at CAV_TEXT_WIDTH; lines after the first begin
 * indent blanks in. Ends the line. */
void cav_text_append_wrapped (GString *out, const char *head, int indent, const char *text);
/* (transfer full) "12.4, 8": from the inside and from the back. */
char *cav_text_format_place (double x, double y, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
