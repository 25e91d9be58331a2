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

/* Parameters at which the distance to an ellipse is first looked at, per full turn. */
#define DISTANCE_SAMPLES 32
#define DISTANCE_ITERATIONS 60

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

static double
circle_distance (const CavSegment *arc, CavPoint point)
{
  double ends = fmin (cav_point_distance (arc->from, point), cav_point_distance (arc->to, point));

  if (arc_has_parameter (arc, cav_arc_parameter (arc, point)))
    return fmin (ends, fabs (cav_point_distance (arc->centre, point) - arc->rx));
  return ends;
}

/* Half the derivative of the squared distance between the ellipse at t and the point (x, y) of
 * its own axes. */
static double
distance_slope (const CavSegment *arc, double x, double y, double t)
{
  double s = sin (t);
  double c = cos (t);

  return (arc->ry * arc->ry - arc->rx * arc->rx) * s * c + arc->rx * x * s - arc->ry * y * c;
}

/* The squared distance is a trigonometric polynomial of second degree in t, whatever the shape
 * of the ellipse: what 32 samples a turn do not show as a minimum is none that counts. Each
 * one they show is closed in by halving. */
static double
ellipse_distance (const CavSegment *arc, CavPoint point)
{
  CavPoint unit = cav_arc_to_unit (arc, point);
  double x = unit.x * arc->rx;
  double y = unit.y * arc->ry;
  int n = MAX (2, (int)ceil (fabs (arc->sweep) / 360.0 * DISTANCE_SAMPLES));
  double step = arc->sweep * RADIANS / n;
  double start = arc->start * RADIANS;
  double best = fmin (cav_point_distance (arc->from, point), cav_point_distance (arc->to, point));
  double low_slope = distance_slope (arc, x, y, start) * step;

  for (int i = 0; i < n; i++)
    {
      double low = start + i * step;
      double high = start + (i + 1) * step;
      double high_slope = distance_slope (arc, x, y, high) * step;

      if (low_slope <= 0.0 && high_slope >= 0.0)
        {
          for (int k = 0; k < DISTANCE_ITERATIONS; k++)
            {
              double middle = 0.5 * (low + high);

              if (distance_slope (arc, x, y, middle) * step < 0.0)
                low = middle;
              else
                high = middle;
            }
          best = fmin (best, hypot (arc->rx * cos (low) - x, arc->ry * sin (low) - y));
        }
      low_slope = high_slope;
    }
  return best;
}

double
cav_segment_distance (const CavSegment *segment, CavPoint point)
{
  if (segment->kind == CAV_SEGMENT_LINE)
    return line_distance (segment->from, segment->to, point);
  return is_circle (segment) ? circle_distance (segment, point) : ellipse_distance (segment, point);
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
