/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-segment.h"

#include <math.h>

#include "geometry/cav-angle-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

#define DEGREES (180.0 / G_PI)

/* Radii that differ by less than this, relatively, make a circle. */
#define CIRCLE_EPSILON 1e-12

/* Ends of an arc nearer to a chord point than this take its place. */
#define CHORD_POINT_GAP (2.0 * CAV_TOLERANCE_OVERLAY)

CavSegment
cav_segment_line (CavPoint from, CavPoint to)
{
  return (CavSegment){ .kind = CAV_SEGMENT_LINE, .from = from, .to = to };
}

static gboolean
is_circle (double rx, double ry)
{
  return fabs (rx - ry) <= CIRCLE_EPSILON * fmax (rx, ry);
}

/* Sets the fields that describe the arc, not its ends. Negative radii turn the arc about; a
 * circle has no rotation of its own, so that arcs of one circle always share a frame. */
static CavSegment
arc_without_ends (
    CavPoint centre, double rx, double ry, double rotation, double start, double sweep)
{
  CavSegment arc = { .kind = CAV_SEGMENT_ARC, .centre = centre };

  arc.rx = fabs (rx);
  arc.ry = fabs (ry);
  arc.sweep = isfinite (sweep) ? CLAMP (sweep, -360.0, 360.0) : sweep;
  arc.rotation = rotation;
  arc.start = start;
  if (is_circle (arc.rx, arc.ry))
    {
      arc.ry = arc.rx;
      arc.start += rotation;
      arc.rotation = 0.0;
    }
  arc.start = cav_angle_wrap (arc.start);
  return arc;
}

CavSegment
cav_segment_arc (CavPoint centre, double rx, double ry, double rotation, double start, double sweep)
{
  CavSegment arc = arc_without_ends (centre, rx, ry, rotation, start, sweep);
  CavArcFrame frame = cav_arc_frame (&arc);

  arc.from = cav_arc_frame_point (&frame, arc.start);
  /* A full turn ends where it began, to the last bit. */
  arc.to
      = fabs (arc.sweep) >= 360.0 ? arc.from : cav_arc_frame_point (&frame, arc.start + arc.sweep);
  return arc;
}

/* SVG 1.1, appendix F.6.5 and F.6.6: the centre from the ends. Distances are divided by the
 * radii at once, so that the formula of F.6.5.2 becomes the centre of a unit circle. */
CavSegment
cav_segment_arc_from_endpoints (CavPoint from,
                                CavPoint to,
                                double rx,
                                double ry,
                                double rotation,
                                gboolean large,
                                gboolean counter_clockwise)
{
  double s, c, ux, uy, half, offset, centre_x, centre_y, start, end, sweep;
  CavPoint middle = CAV_POINT (0.5 * (from.x + to.x), 0.5 * (from.y + to.y));
  CavPoint half_chord = CAV_POINT (0.5 * (from.x - to.x), 0.5 * (from.y - to.y));
  CavSegment arc;

  rx = fabs (rx);
  ry = fabs (ry);
  if (fmin (rx, ry) <= 0.0 || cav_point_near (from, to, 0.0))
    return cav_segment_line (from, to);

  cav_angle_sincos (rotation, &s, &c);
  ux = (c * half_chord.x + s * half_chord.y) / rx;
  uy = (-s * half_chord.x + c * half_chord.y) / ry;
  half = hypot (ux, uy);
  if (half > 1.0)
    {
      /* F.6.6.3: radii too small to span the ends grow just enough. */
      rx *= half;
      ry *= half;
      ux /= half;
      uy /= half;
      half = 1.0;
    }

  offset = sqrt (fmax (0.0, (1.0 - half) * (1.0 + half))) / half;
  if (!large == !counter_clockwise)
    offset = -offset;
  centre_x = offset * uy;
  centre_y = -offset * ux;
  start = atan2 (uy - centre_y, ux - centre_x) * DEGREES;
  end = atan2 (-uy - centre_y, -ux - centre_x) * DEGREES;
  sweep = cav_angle_wrap (end - start);
  if (!counter_clockwise)
    sweep -= 360.0;

  arc = arc_without_ends (CAV_POINT (middle.x + c * rx * centre_x - s * ry * centre_y,
                                     middle.y + s * rx * centre_x + c * ry * centre_y),
                          rx, ry, rotation, start, sweep);
  arc.from = from;
  arc.to = to;
  return arc;
}

CavArcFrame
cav_arc_frame (const CavSegment *arc)
{
  double s, c;

  cav_angle_sincos (arc->rotation, &s, &c);
  return (CavArcFrame){ .centre = arc->centre,
                        .xx = c * arc->rx,
                        .xy = -s * arc->ry,
                        .yx = s * arc->rx,
                        .yy = c * arc->ry };
}

CavPoint
cav_arc_frame_point (const CavArcFrame *frame, double t)
{
  double s, c;

  cav_angle_sincos (t, &s, &c);
  return CAV_POINT (frame->centre.x + frame->xx * c + frame->xy * s,
                    frame->centre.y + frame->yx * c + frame->yy * s);
}

CavPoint
cav_arc_to_unit (const CavSegment *arc, CavPoint point)
{
  double s, c;
  double dx = point.x - arc->centre.x;
  double dy = point.y - arc->centre.y;

  cav_angle_sincos (arc->rotation, &s, &c);
  return CAV_POINT ((c * dx + s * dy) / arc->rx, (-s * dx + c * dy) / arc->ry);
}

double
cav_arc_parameter (const CavSegment *arc, CavPoint point)
{
  CavPoint unit = cav_arc_to_unit (arc, point);

  return atan2 (unit.y, unit.x) * DEGREES;
}

gboolean
cav_arc_same_ellipse (const CavSegment *a, const CavSegment *b)
{
  if (!cav_point_near (a->centre, b->centre, CAV_TOLERANCE_POINT)
      || fabs (a->rx - b->rx) > CAV_TOLERANCE_POINT || fabs (a->ry - b->ry) > CAV_TOLERANCE_POINT)
    return FALSE;

  /* The same up to half a turn; how far a turn moves the outline grows with the difference of
   * the radii. */
  return fabs (remainder (a->rotation - b->rotation, 180.0)) / DEGREES * fabs (a->rx - a->ry)
         <= CAV_TOLERANCE_POINT;
}

CavPoint
cav_segment_point_at (const CavSegment *segment, double t)
{
  CavArcFrame frame;

  if (t <= 0.0)
    return segment->from;
  if (t >= 1.0)
    return segment->to;
  if (segment->kind == CAV_SEGMENT_LINE)
    return CAV_POINT (segment->from.x + t * (segment->to.x - segment->from.x),
                      segment->from.y + t * (segment->to.y - segment->from.y));
  frame = cav_arc_frame (segment);
  return cav_arc_frame_point (&frame, segment->start + t * segment->sweep);
}

CavSegment
cav_segment_reversed (const CavSegment *segment)
{
  CavSegment reversed = *segment;

  reversed.from = segment->to;
  reversed.to = segment->from;
  if (segment->kind == CAV_SEGMENT_ARC)
    {
      reversed.start = cav_angle_wrap (segment->start + segment->sweep);
      reversed.sweep = -segment->sweep;
    }
  return reversed;
}

/* An ellipse stays one under every affine map: its new axes are the singular values of the map
 * from the unit circle. Where the images of the old axes are still square to each other they
 * are kept, so that turning and mirroring do not shuffle the parameter. */
static CavSegment
arc_transformed (const CavSegment *arc, CavTransform m)
{
  CavArcFrame frame = cav_arc_frame (arc);
  CavPoint p = CAV_POINT (m.xx * frame.xx + m.xy * frame.yx, m.yx * frame.xx + m.yy * frame.yx);
  CavPoint q = CAV_POINT (m.xx * frame.xy + m.xy * frame.yy, m.yx * frame.xy + m.yy * frame.yy);
  double shift = 0.0;
  double sign, rx, ry;

  if (fabs (p.x * q.x + p.y * q.y) > CIRCLE_EPSILON * hypot (p.x, p.y) * hypot (q.x, q.y))
    {
      /* Conjugate half-axes p and q turn into the principal ones by a shift of t. */
      double s, c;
      CavPoint old_p = p;

      shift = 0.5
              * atan2 (2.0 * (p.x * q.x + p.y * q.y), p.x * p.x + p.y * p.y - q.x * q.x - q.y * q.y)
              * DEGREES;
      cav_angle_sincos (shift, &s, &c);
      p = CAV_POINT (c * p.x + s * q.x, c * p.y + s * q.y);
      q = CAV_POINT (c * q.x - s * old_p.x, c * q.y - s * old_p.y);
    }

  sign = p.x * q.y - p.y * q.x < 0.0 ? -1.0 : 1.0;
  rx = hypot (p.x, p.y);
  ry = hypot (q.x, q.y);
  return arc_without_ends (cav_transform_point (m, arc->centre), rx, ry,
                           rx > 0.0 ? atan2 (p.y, p.x) * DEGREES : atan2 (-q.x, q.y) * DEGREES,
                           sign * (arc->start - shift), sign * arc->sweep);
}

CavSegment
cav_segment_transformed (const CavSegment *segment, CavTransform transform)
{
  CavPoint from = cav_transform_point (transform, segment->from);
  CavPoint to = cav_transform_point (transform, segment->to);
  CavSegment result;

  if (segment->kind == CAV_SEGMENT_LINE)
    return cav_segment_line (from, to);

  result = arc_transformed (segment, transform);
  /* A map that flattens the plane leaves no ellipse. */
  if (fmin (result.rx, result.ry) <= CAV_TOLERANCE_POINT)
    return cav_segment_line (from, to);
  result.from = from;
  result.to = to;
  return result;
}

/* A chord over the step h leaves the ellipse by at most r (1 - cos (h / 2)), r the larger
 * radius, for an ellipse is a squeezed circle of that radius. */
guint
cav_arc_step_count (const CavSegment *arc, double tolerance)
{
  double share = CLAMP (tolerance / fmax (arc->rx, arc->ry), 1e-16, 1.0 - G_SQRT2 / 2.0);
  /* 1 - cos a is 2 sin^2 (a / 2), which keeps its digits where a is small. */
  double half_step = 2.0 * asin (sqrt (0.5 * share));

  return 4 * (guint)ceil (G_PI / (4.0 * half_step) - 1e-6);
}

/* The chord points stand at fixed parameters of the ellipse, whichever part of it the arc is:
 * arcs that share a stretch of an ellipse share their chords there. */
static void
linearise_arc (const CavSegment *arc, double tolerance, GArray *points)
{
  CavArcFrame frame = cav_arc_frame (arc);
  guint n_steps = cav_arc_step_count (arc, tolerance);
  double step = 360.0 / n_steps;
  double sign = arc->sweep < 0.0 ? -1.0 : 1.0;
  double first = sign > 0.0 ? floor (arc->start / step) + 1.0 : ceil (arc->start / step) - 1.0;
  double span = fabs (arc->sweep);

  for (guint i = 0; i <= n_steps; i++)
    {
      double t = (first + sign * i) * step;
      CavPoint point;

      if ((t - arc->start) * sign >= span)
        break;
      point = cav_arc_frame_point (&frame, t);
      if (!cav_point_near (point, arc->from, CHORD_POINT_GAP)
          && !cav_point_near (point, arc->to, CHORD_POINT_GAP))
        g_array_append_val (points, point);
    }
}

void
cav_segment_linearise (const CavSegment *segment, double tolerance, GArray *points)
{
  g_return_if_fail (tolerance > 0.0);

  if (segment->kind == CAV_SEGMENT_ARC)
    linearise_arc (segment, tolerance, points);
  g_array_append_val (points, segment->to);
}
