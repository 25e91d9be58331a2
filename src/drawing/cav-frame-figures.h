/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "frame/cav-frame.h"

G_BEGIN_DECLS

/*
 * (transfer full) The figures of a frame that is possible, in sentences, translated; no line breaks
 * within a length.
 */

/* Lengths, how they lie on the saw and in which order they are cut, molding in all, and the strips
 * that they are milled in. */
GPtrArray *cav_frame_figures_list_rails (const CavFrame *frame,
                                         const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* Sheets, windows, what is seen of the mat, the board it comes from, cover and depth. */
GPtrArray *cav_frame_figures_list_package (const CavFrame *frame, const CavSheetOptions *options)
    G_GNUC_WARN_UNUSED_RESULT;
/* What it weighs and what the hangers carry, points, surface and finish. */
GPtrArray *cav_frame_figures_list_weight (const CavFrame *frame,
                                          const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* Of these the strips alone, where rails are milled together: a line for each. */
GPtrArray *cav_frame_figures_list_strips (const CavFrame *frame,
                                          const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* What the frame is made of, for whom it is made; lengths may break. */
GPtrArray *cav_frame_figures_list_materials (const CavFrame *frame, const CavSheetOptions *options)
    G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
