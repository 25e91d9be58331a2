/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "frame/cav-frame.h"

G_BEGIN_DECLS

/* A space at which no line breaks. */
#define CAV_STAY "\302\240"

/* (transfer full) lengths in which no line breaks, without and with their unit. */
char *cav_words_format (double mm, const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
char *cav_words_format_unit (double mm, const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Of wood to prepare, with its unit: rounded up to the millimetre, or to 1/16 in.
 */
char *cav_words_format_up (double mm, const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
double cav_words_round_up (double mm, CavUnit unit);
/* A place along a board or a strip, mm: at the nearest mark that a pencil makes by the same rule.
 */
double cav_words_round_place (double mm, CavUnit unit);
/* (transfer full) A figure to set, without unit and without the sign of what was rounded away:
 * whether there was any, for a label. */
char *cav_words_format_figure (double mm, CavUnit unit, int denominator, gboolean *out_about)
    G_GNUC_WARN_UNUSED_RESULT;
/* The same text behind the sign of what was rounded away. */
const char *cav_words_skip_about (const char *length);
/* "Rails, top and bottom". */
const char *cav_words_get_pair (CavRailPair which);
/* (nullable) "top", "right" and so on, of a frame of four rails; NULL of others, which have
 * numbers.
 */
const char *cav_words_get_rail (int rail, int n_rails);
/* (transfer full) "210 mm × 297 mm", or the one measure that a frame of equal sides has. */
char *cav_words_format_size (const CavFrame *frame,
                             CavSize size,
                             const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) degrees to a hundredth, without zeros at the end. */
char *cav_words_format_degrees (double degrees) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
