/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-segment.h"

G_BEGIN_DECLS

/* The frame of an arc, in which it is part of the unit circle:
 * point = centre + (xx cos t + xy sin t, yx cos t + yy sin t). */
typedef struct
{
  CavPoint centre;
  double xx, xy;
  double yx, yy;
} CavArcFrame;

CavArcFrame cav_arc_frame (const CavSegment *arc);
/* The point at parameter t, degrees. */
CavPoint cav_arc_frame_point (const CavArcFrame *frame, double t);
/* A point of the plane as the arc's frame sees it. */
CavPoint cav_arc_to_unit (const CavSegment *arc, CavPoint point);
/* The parameter, in degrees, of the arc's point in the direction of a point. */
double cav_arc_parameter (const CavSegment *arc, CavPoint point);
/* Whether the ray from the centre of an arc of a circle in a direction meets the arc. */
gboolean cav_circle_faces (const CavSegment *arc, CavPoint direction);
/* Number of equal steps of the full turn whose chords stay within tolerance: a multiple of
 * four, the same for every arc of one ellipse. */
guint cav_arc_step_count (const CavSegment *arc, double tolerance);
/* Whether two arcs are parts of one ellipse, within CAV_TOLERANCE_POINT. */
gboolean cav_arc_same_ellipse (const CavSegment *a, const CavSegment *b);

/* A piece of a segment that runs monotonously in x and in y; t0 and t1 in degrees on arcs,
 * otherwise unused. */
typedef struct
{
  CavPoint from;
  CavPoint to;
  double t0;
  double t1;
} CavMonotone;

#define CAV_MONOTONE_MAX 10

/* The segment cut at its extremes in x and y, in order; returns their number. */
guint cav_segment_split_monotone (const CavSegment *segment, CavMonotone *out_pieces);

/* Share of the segment in the integrals of area and first moments over what a ring of
 * segments encloses (Green's theorem), taken about the point origin. */
void cav_segment_add_moments (
    const CavSegment *segment, CavPoint origin, double *area, double *moment_x, double *moment_y);

G_END_DECLS
