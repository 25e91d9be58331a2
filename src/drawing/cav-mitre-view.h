/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"
#include "frame/cav-frame.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* Two rails that meet in a mitre, seen from the front, mm of wood: the toe of the first rail is the
 * origin, it lies to the left, y runs down and the second rail follows clockwise. */
typedef struct
{
  CavPoint first[4]; /* far end outside, toe, heel, far end at the sight edge */
  CavPoint second[4];
  CavPoint open[2]; /* what gapes: the corner of the first rail and that of the second */
} CavMitreCorner;

/* A corner that is open by some degrees, positive at the toe; reach: of each rail beyond it. */
void cav_mitre_corner_init (
    CavMitreCorner *corner, int sides, double width, double reach, double degrees);

/*
 * Close up of a corner in air of some humidity, with its gap by the saw and by the season drawn to
 * scale, the open ends enlarged beside it and the gap against humidity below, on a page of this
 * size, mm. (transfer full) (nullable) NULL where the frame is not possible or the page too small.
 */
CavScene *cav_mitre_view_create_scene (const CavFrame *frame,
                                       double humidity,
                                       double width,
                                       double height,
                                       CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) "0.25 mm" or "0.010 in": a gap, which fractions of an inch are too coarse for. */
char *cav_gap_format (double mm, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) "0.25": without its unit; "−0.25" where the mitre opens at the sight edge. */
char *cav_gap_format_signed (double mm, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;
/* The plot alone, in a box; with a mark at some humidity. */
void cav_gap_plot_draw (
    CavScene *scene, const CavFrame *frame, CavBox box, double humidity, CavUnit unit);

G_END_DECLS
