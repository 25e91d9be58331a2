/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-point.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_SEGMENT_LINE,
  CAV_SEGMENT_ARC,
} CavSegmentKind;

/*
 * A straight line or an arc of an ellipse (a circle where rx and ry are equal).
 *
 * The arc runs over the points centre + R(rotation) (rx cos t, ry sin t), from t = start
 * through sweep degrees (counter-clockwise where positive, at most a full turn).
 * from and to are its ends and agree with that formula within CAV_TOLERANCE_CHORD.
 */
typedef struct
{
  CavSegmentKind kind;
  CavPoint from;
  CavPoint to;
  CavPoint centre;
  double rx;
  double ry;
  double rotation;
  double start;
  double sweep;
} CavSegment;

CavSegment cav_segment_line (CavPoint from, CavPoint to);
/* The arc of an ellipse by its centre; from and to are computed. */
CavSegment cav_segment_arc (
    CavPoint centre, double rx, double ry, double rotation, double start, double sweep);
/* The arc as the SVG path command A describes it, by the formulas of SVG 1.1, appendix F.6;
 * a line where a radius is 0. */
CavSegment cav_segment_arc_from_endpoints (CavPoint from,
                                           CavPoint to,
                                           double rx,
                                           double ry,
                                           double rotation,
                                           gboolean large,
                                           gboolean counter_clockwise);

/* Point at the share t (0 to 1) of the segment's parameter. */
CavPoint cav_segment_point_at (const CavSegment *segment, double t);
double cav_segment_length (const CavSegment *segment);
double cav_segment_distance (const CavSegment *segment, CavPoint point);
/* No more than that distance, and quick to work out. */
double cav_segment_distance_bound (const CavSegment *segment, CavPoint point);
CavBox cav_segment_bounds (const CavSegment *segment);
CavSegment cav_segment_reversed (const CavSegment *segment);
CavSegment cav_segment_transformed (const CavSegment *segment, CavTransform transform);
/* Appends the ends of chords that stay within tolerance of the segment, without its start;
 * the last one is exactly segment->to. */
void cav_segment_linearise (const CavSegment *segment, double tolerance, GArray *points);

G_END_DECLS
