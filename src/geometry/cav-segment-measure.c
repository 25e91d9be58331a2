/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths, distances, bounds and integrals of segments. */
#include <math.h>

#include "geometry/cav-angle-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-segment.h"
#include "geometry/cav-tolerance.h"

#define RADIANS (G_PI / 180.0)

/* Accuracy of an elliptic arc's length, relative to its larger radius. */
#define LENGTH_EPSILON 1e-13
#define LENGTH_DEPTH 24

/* Halvings of a quadrant until neighbouring numbers are left. */
#define DISTANCE_ITERATIONS 54

static gboolean
is_circle (const CavSegment *arc)
{
  return fabs (arc->rx - arc->ry) <= 0.0;
}

/* Gauss-Legendre with eight points (Abramowitz and Stegun, table 25.4) over the speed
 * sqrt (rx² sin² t + ry² cos² t). */
static double
ellipse_gauss (double rx, double ry, double t0, double t1)
{
  static const double nodes[4]
      = { 0.183434642495650, 0.525532409916329, 0.796666477413627, 0.960289856497536 };
  static const double weights[4]
      = { 0.362683783378362, 0.313706645877887, 0.222381034453374, 0.101228536290376 };
  double middle = 0.5 * (t0 + t1);
  double half = 0.5 * (t1 - t0);
  double sum = 0.0;

  for (int i = 0; i < 4; i++)
    {
      double a = middle - half * nodes[i];
      double b = middle + half * nodes[i];

      sum += weights[i] * (hypot (rx * sin (a), ry * cos (a)) + hypot (rx * sin (b), ry * cos (b)));
    }
  return sum * half;
}

static double
ellipse_length (double rx, double ry, double t0, double t1, double whole, int depth)
{
  double middle = 0.5 * (t0 + t1);
  double left = ellipse_gauss (rx, ry, t0, middle);
  double right = ellipse_gauss (rx, ry, middle, t1);

  if (depth == 0 || fabs (left + right - whole) <= LENGTH_EPSILON * fmax (rx, ry))
    return left + right;
  return ellipse_length (rx, ry, t0, middle, left, depth - 1)
         + ellipse_length (rx, ry, middle, t1, right, depth - 1);
}

double
cav_segment_length (const CavSegment *segment)
{
  double t0, t1;

  if (segment->kind == CAV_SEGMENT_LINE)
    return cav_point_distance (segment->from, segment->to);
  if (is_circle (segment))
    return segment->rx * fabs (segment->sweep) * RADIANS;

  t0 = segment->start * RADIANS;
  t1 = t0 + fabs (segment->sweep) * RADIANS;
  if (segment->sweep < 0.0)
    {
      t1 = t0;
      t0 = t1 + segment->sweep * RADIANS;
    }
  return ellipse_length (segment->rx, segment->ry, t0, t1,
                         ellipse_gauss (segment->rx, segment->ry, t0, t1), LENGTH_DEPTH);
}

static double
line_distance (CavPoint from, CavPoint to, CavPoint point)
{
  double dx = to.x - from.x;
  double dy = to.y - from.y;
  double square = dx * dx + dy * dy;
  double t = square > 0.0 ? ((point.x - from.x) * dx + (point.y - from.y) * dy) / square : 0.0;

  if (t <= 0.0)
    return cav_point_distance (from, point);
  if (t >= 1.0)
    return cav_point_distance (to, point);
  return fabs (dx * (point.y - from.y) - dy * (point.x - from.x)) / sqrt (square);
}

/* Whether the parameter t, degrees, lies on the arc. */
static gboolean
arc_has_parameter (const CavSegment *arc, double t)
{
  double along = arc->sweep < 0.0 ? arc->start - t : t - arc->start;

  return cav_angle_wrap (along) <= fabs (arc->sweep);
}

gboolean
cav_circle_faces (const CavSegment *arc, CavPoint direction)
{
  double sign = arc->sweep < 0.0 ? -1.0 : 1.0;
  double ahead = sign
                 * ((arc->from.x - arc->centre.x) * direction.y
                    - (arc->from.y - arc->centre.y) * direction.x);
  double behind
      = sign
        * (direction.x * (arc->to.y - arc->centre.y) - direction.y * (arc->to.x - arc->centre.x));

  /* Of more than half a turn, what is missing is less than half a turn. */
  return fabs (arc->sweep) <= 180.0 ? ahead >= 0.0 && behind >= 0.0 : ahead >= 0.0 || behind >= 0.0;
}

static double
circle_distance (const CavSegment *arc, CavPoint point)
{
  CavPoint away = { point.x - arc->centre.x, point.y - arc->centre.y };

  if (cav_circle_faces (arc, away))
    return fabs (cav_point_distance (arc->centre, point) - arc->rx);
  return fmin (cav_point_distance (arc->from, point), cav_point_distance (arc->to, point));
}

/* Where a s - b c + k s c, s and c sine and cosine of t, turns positive between low and high. */
static double
find_foot (double a, double b, double k, double low, double high)
{
  for (int i = 0; i < DISTANCE_ITERATIONS; i++)
    {
      double middle = 0.5 * (low + high);
      double s = sin (middle);
      double c = cos (middle);

      if (a * s - b * c + k * s * c < 0.0)
        low = middle;
      else
        high = middle;
    }
  return 0.5 * (low + high);
}

/* Distance to the ellipse at the direction (c, s) of its parameter, where that lies on the arc. */
static double
distance_at (const CavSegment *arc, double x, double y, double c, double s)
{
  if (!arc_has_parameter (arc, atan2 (s, c) / RADIANS))
    return G_MAXDOUBLE;
  return hypot (arc->rx * c - x, arc->ry * s - y);
}

/*
 * The feet of the perpendiculars from (x, y) on an ellipse are the zeros of
 * g (t) = rx x sin t - ry y cos t + (ry^2 - rx^2) sin t cos t, half the slope of the squared
 * distance. With the point mirrored into the first quadrant exactly one zero lies in that
 * quadrant, the nearest foot. The farthest lies opposite. Two more, of which one is a nearest
 * foot of its own, lie across the longer axis where the point is within the evolute,
 * (rx x)^(2/3) + (ry y)^(2/3) < |ry^2 - rx^2|^(2/3); between them g is greatest where
 * tan^3 t = ry y / rx x. An arc may hold the one and not the other, so all three are looked at.
 */
static double
ellipse_distance (const CavSegment *arc, CavPoint point)
{
  CavPoint unit = cav_arc_to_unit (arc, point);
  double x = unit.x * arc->rx;
  double y = unit.y * arc->ry;
  double sx = x < 0.0 ? -1.0 : 1.0;
  double sy = y < 0.0 ? -1.0 : 1.0;
  double a = arc->rx * fabs (x);
  double b = arc->ry * fabs (y);
  double k = arc->ry * arc->ry - arc->rx * arc->rx;
  double best = fmin (cav_point_distance (arc->from, point), cav_point_distance (arc->to, point));
  double t = find_foot (a, b, k, 0.0, 0.5 * G_PI);
  double top = atan2 (cbrt (b), cbrt (a));

  best = fmin (best, distance_at (arc, x, y, sx * cos (t), sy * sin (t)));
  if (cbrt (a) * cbrt (a) + cbrt (b) * cbrt (b) >= cbrt (k) * cbrt (k))
    return best;
  if (k < 0.0)
    sy = -sy;
  else
    sx = -sx;
  t = find_foot (-a, b, fabs (k), 0.0, top);
  best = fmin (best, distance_at (arc, x, y, sx * cos (t), sy * sin (t)));
  t = find_foot (a, -b, -fabs (k), top, 0.5 * G_PI);
  return fmin (best, distance_at (arc, x, y, sx * cos (t), sy * sin (t)));
}

double
cav_segment_distance (const CavSegment *segment, CavPoint point)
{
  if (segment->kind == CAV_SEGMENT_LINE)
    return line_distance (segment->from, segment->to, point);
  return is_circle (segment) ? circle_distance (segment, point) : ellipse_distance (segment, point);
}

double
cav_segment_distance_bound (const CavSegment *segment, CavPoint point)
{
  if (segment->kind == CAV_SEGMENT_LINE)
    {
      CavPoint a = segment->from, b = segment->to;
      double dx = MAX (MAX (MIN (a.x, b.x) - point.x, point.x - MAX (a.x, b.x)), 0.0);
      double dy = MAX (MAX (MIN (a.y, b.y) - point.y, point.y - MAX (a.y, b.y)), 0.0);

      return sqrt (dx * dx + dy * dy) * (1.0 - 1e-12);
    }
  double away = cav_point_distance (segment->centre, point);

  return MAX (away - MAX (segment->rx, segment->ry), MIN (segment->rx, segment->ry) - away) - 1e-9;
}

/* Distances from the arc's start, in degrees along it, of its extremes in x and y. */
static guint
extremes (const CavSegment *arc, const CavArcFrame *frame, double out_along[8])
{
  double angles[2]
      = { atan2 (frame->xy, frame->xx) / RADIANS, atan2 (frame->yy, frame->yx) / RADIANS };
  double sign = arc->sweep < 0.0 ? -1.0 : 1.0;
  guint n = 0;

  for (int i = 0; i < 4; i++)
    {
      double along = cav_angle_wrap (sign * (angles[i / 2] + 180.0 * (i % 2) - arc->start));

      if (along > 0.0 && along < fabs (arc->sweep))
        out_along[n++] = along;
    }
  /* Four numbers: insertion is the shortest sort. */
  for (guint i = 1; i < n; i++)
    for (guint j = i; j > 0 && out_along[j - 1] > out_along[j]; j--)
      {
        double swap = out_along[j];

        out_along[j] = out_along[j - 1];
        out_along[j - 1] = swap;
      }
  return n;
}

guint
cav_segment_split_monotone (const CavSegment *segment, CavMonotone *out_pieces)
{
  CavArcFrame frame;
  double along[8];
  double sign;
  guint n;

  out_pieces[0] = (CavMonotone){ .from = segment->from, .to = segment->to };
  if (segment->kind == CAV_SEGMENT_LINE)
    return 1;

  frame = cav_arc_frame (segment);
  sign = segment->sweep < 0.0 ? -1.0 : 1.0;
  n = extremes (segment, &frame, along);
  out_pieces[0].t0 = segment->start;
  for (guint i = 0; i < n; i++)
    {
      double t = segment->start + sign * along[i];

      out_pieces[i].t1 = t;
      out_pieces[i].to = cav_arc_frame_point (&frame, t);
      out_pieces[i + 1] = (CavMonotone){ .from = out_pieces[i].to, .t0 = t };
    }
  out_pieces[n].t1 = segment->start + segment->sweep;
  out_pieces[n].to = segment->to;
  return n + 1;
}

static void
box_take (CavBox *box, CavPoint point)
{
  box->x0 = fmin (box->x0, point.x);
  box->y0 = fmin (box->y0, point.y);
  box->x1 = fmax (box->x1, point.x);
  box->y1 = fmax (box->y1, point.y);
}

CavBox
cav_segment_bounds (const CavSegment *segment)
{
  CavMonotone pieces[CAV_MONOTONE_MAX];
  guint n = cav_segment_split_monotone (segment, pieces);
  CavBox box = { segment->from.x, segment->from.y, segment->from.x, segment->from.y };

  for (guint i = 0; i < n; i++)
    box_take (&box, pieces[i].to);
  return box;
}

static void
add_triangle (
    CavPoint origin, CavPoint from, CavPoint to, double *area, double *moment_x, double *moment_y)
{
  CavPoint a = CAV_POINT (from.x - origin.x, from.y - origin.y);
  CavPoint b = CAV_POINT (to.x - origin.x, to.y - origin.y);
  double triangle = 0.5 * (a.x * b.y - a.y * b.x);

  *area += triangle;
  *moment_x += triangle * (a.x + b.x) / 3.0;
  *moment_y += triangle * (a.y + b.y) / 3.0;
}

/* The triangle from the origin to the chord, and on arcs what lies between chord and curve: a
 * segment of the unit circle has the area (s - sin s) / 2 and, about the circle's centre, the
 * first moment 2/3 sin^3 (s / 2) toward its middle. The chord is that of the curve itself, for
 * the ends of a long arc need only stand a little off it to be felt. */
void
cav_segment_add_moments (
    const CavSegment *segment, CavPoint origin, double *area, double *moment_x, double *moment_y)
{
  CavArcFrame frame;
  CavPoint begin, end;
  double scale = segment->rx * segment->ry;
  double s, c, half_s, half_c, bulge, moment;

  if (segment->kind == CAV_SEGMENT_LINE)
    {
      add_triangle (origin, segment->from, segment->to, area, moment_x, moment_y);
      return;
    }

  frame = cav_arc_frame (segment);
  begin = cav_arc_frame_point (&frame, segment->start);
  end = cav_arc_frame_point (&frame, segment->start + segment->sweep);
  add_triangle (origin, segment->from, begin, area, moment_x, moment_y);
  add_triangle (origin, begin, end, area, moment_x, moment_y);
  add_triangle (origin, end, segment->to, area, moment_x, moment_y);

  cav_angle_sincos (segment->sweep, &s, &c);
  cav_angle_sincos (0.5 * segment->sweep, &half_s, &half_c);
  bulge = 0.5 * scale * (segment->sweep * RADIANS - s);
  moment = scale * 2.0 / 3.0 * half_s * half_s * half_s;
  cav_angle_sincos (segment->start + 0.5 * segment->sweep, &s, &c);
  *area += bulge;
  *moment_x += bulge * (frame.centre.x - origin.x) + moment * (frame.xx * c + frame.xy * s);
  *moment_y += bulge * (frame.centre.y - origin.y) + moment * (frame.yx * c + frame.yy * s);
}
