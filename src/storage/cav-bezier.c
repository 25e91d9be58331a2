/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-bezier.h"

#include <math.h>

#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

/*
 * A stretch of the curve is replaced by two circular arcs that leave its ends in its own
 * directions and meet smoothly (a biarc); where the sampled curve lies too far from them, the
 * stretch is halved. The error of a biarc falls eightfold with each halving, so only cusps come
 * anywhere near the greatest depth.
 */
#define MOST_HALVINGS 24
#define N_SAMPLES 16
/* Longest step from sample to sample, as a share of the stretch; even ones are 1 / N_SAMPLES. */
#define LONGEST_GAP 0.2
/* What sampling may miss between the samples is left as room below the tolerance. */
#define SAMPLE_TOLERANCE (0.75 * CAV_BEZIER_TOLERANCE)
/* Nearer to its chord than this a stretch is straight. */
#define STRAIGHT (0.05 * CAV_BEZIER_TOLERANCE)
/* Arcs of larger circles are drawn as lines, for their centres lie out of range. */
#define LARGEST_RADIUS (0.5 * CAV_COORDINATE_MAX)

typedef struct
{
  GArray *segments;
  guint most;
} Fit;

static CavPoint
minus (CavPoint a, CavPoint b)
{
  return CAV_POINT (a.x - b.x, a.y - b.y);
}

static CavPoint
along (CavPoint from, CavPoint direction, double distance)
{
  return CAV_POINT (from.x + distance * direction.x, from.y + distance * direction.y);
}

static CavPoint
halfway (CavPoint a, CavPoint b)
{
  return CAV_POINT (0.5 * (a.x + b.x), 0.5 * (a.y + b.y));
}

static double
dot (CavPoint a, CavPoint b)
{
  return a.x * b.x + a.y * b.y;
}

static double
cross (CavPoint a, CavPoint b)
{
  return a.x * b.y - a.y * b.x;
}

static CavPoint
curve_point (const CavPoint p[4], double t)
{
  double s = 1.0 - t;
  double b0 = s * s * s, b1 = 3.0 * s * s * t, b2 = 3.0 * s * t * t, b3 = t * t * t;

  return CAV_POINT (b0 * p[0].x + b1 * p[1].x + b2 * p[2].x + b3 * p[3].x,
                    b0 * p[0].y + b1 * p[1].y + b2 * p[2].y + b3 * p[3].y);
}

/* De Casteljau's halving. */
static void
halve (const CavPoint p[4], CavPoint first[4], CavPoint second[4])
{
  CavPoint a = halfway (p[0], p[1]), b = halfway (p[1], p[2]), c = halfway (p[2], p[3]);
  CavPoint ab = halfway (a, b), bc = halfway (b, c), middle = halfway (ab, bc);

  first[0] = p[0], first[1] = a, first[2] = ab, first[3] = middle;
  second[0] = middle, second[1] = bc, second[2] = c, second[3] = p[3];
}

/* The direction of the first of the vectors that is long enough to have one. */
static gboolean
get_direction (CavPoint a, CavPoint b, CavPoint c, CavPoint *out_direction)
{
  const CavPoint vectors[] = { a, b, c };

  for (guint i = 0; i < G_N_ELEMENTS (vectors); i++)
    {
      double length = hypot (vectors[i].x, vectors[i].y);

      if (length > CAV_TOLERANCE_POINT)
        {
          *out_direction = CAV_POINT (vectors[i].x / length, vectors[i].y / length);
          return TRUE;
        }
    }
  return FALSE;
}

/* All control points near the chord and in its order: then the curve is, too. */
static gboolean
is_straight (const CavPoint p[4])
{
  CavPoint chord = minus (p[3], p[0]);
  double length = hypot (chord.x, chord.y);

  if (length <= CAV_TOLERANCE_POINT)
    return FALSE;
  double at1 = dot (minus (p[1], p[0]), chord) / length;
  double at2 = dot (minus (p[2], p[0]), chord) / length;
  return fabs (cross (chord, minus (p[1], p[0]))) <= STRAIGHT * length
         && fabs (cross (chord, minus (p[2], p[0]))) <= STRAIGHT * length && at1 >= -STRAIGHT
         && at1 <= at2 + STRAIGHT && at2 <= length + STRAIGHT;
}

/* The arc that leaves from in the direction tangent and ends at to. */
static CavSegment
arc_from_tangent (CavPoint from, CavPoint tangent, CavPoint to)
{
  CavPoint chord = minus (to, from);
  CavPoint normal = CAV_POINT (-tangent.y, tangent.x);
  double side = dot (normal, chord);

  if (2.0 * LARGEST_RADIUS * fabs (side) <= dot (chord, chord))
    return cav_segment_line (from, to);

  double radius = dot (chord, chord) / (2.0 * side);
  CavPoint centre = along (from, normal, radius);
  double sweep = 2.0 * CAV_DEGREES (atan2 (cross (tangent, chord), dot (tangent, chord)));
  double start = CAV_DEGREES (atan2 (from.y - centre.y, from.x - centre.x));
  CavSegment arc = cav_segment_arc (centre, fabs (radius), fabs (radius), 0.0, start, sweep);

  arc.from = from;
  arc.to = to;
  return arc;
}

typedef struct
{
  CavSegment arcs[2];
  CavPoint joint;
  CavPoint tangent; /* at the joint */
} Biarc;

/*
 * The biarc with equal tangent lengths d: with v the chord and t the sum of the end tangents,
 * the joint's tangent is as long as 2 d, |v - d t| = 2 d, which is a quadratic in d. FALSE where
 * the stretch turns too much for one biarc.
 */
static gboolean
make_biarc (const CavPoint p[4], Biarc *out)
{
  CavPoint t0, t1;
  CavPoint v = minus (p[3], p[0]);
  double length = hypot (v.x, v.y);

  if (!get_direction (minus (p[1], p[0]), minus (p[2], p[0]), v, &t0)
      || !get_direction (minus (p[3], p[2]), minus (p[3], p[1]), v, &t1))
    return FALSE;
  /* Within 60 degrees of the chord (a quarter turn has 45), so that the curve cannot turn back on
   * itself. */
  if (length <= CAV_TOLERANCE_POINT || dot (t0, v) < 0.5 * length || dot (t1, v) < 0.5 * length)
    return FALSE;

  double a = 2.0 * (1.0 - dot (t0, t1));
  double b = 2.0 * (dot (v, t0) + dot (v, t1));
  double d = 2.0 * length * length / (b + sqrt (b * b + 4.0 * a * length * length));
  CavPoint q0 = along (p[0], t0, d);
  CavPoint q1 = along (p[3], t1, -d);

  out->joint = halfway (q0, q1);
  if (!get_direction (minus (q1, q0), v, v, &out->tangent))
    return FALSE;
  out->arcs[0] = arc_from_tangent (p[0], t0, out->joint);
  out->arcs[1] = arc_from_tangent (out->joint, out->tangent, p[3]);
  return TRUE;
}

static double
distance_to_circle (const CavSegment *segment, CavPoint point)
{
  if (segment->kind == CAV_SEGMENT_LINE)
    return cav_segment_distance (segment, point);
  return fabs (cav_point_distance (point, segment->centre) - segment->rx);
}

/* Near a cusp the samples crowd together and leave the rest of the stretch unseen; then the
 * stretch is too long. */
static gboolean
biarc_follows (const Biarc *biarc, const CavPoint p[4], double tolerance)
{
  double farthest = LONGEST_GAP * cav_point_distance (p[0], p[3]);
  CavPoint before = p[0];

  for (int i = 1; i <= N_SAMPLES; i++)
    {
      CavPoint point = curve_point (p, (double)i / N_SAMPLES);
      int half = dot (minus (point, biarc->joint), biarc->tangent) < 0.0 ? 0 : 1;

      if (distance_to_circle (&biarc->arcs[half], point) > tolerance
          || cav_point_distance (before, point) > farthest)
        return FALSE;
      before = point;
    }
  return TRUE;
}

static gboolean
is_one_circle (const Biarc *biarc)
{
  const CavSegment *a = &biarc->arcs[0], *b = &biarc->arcs[1];

  return a->kind == CAV_SEGMENT_ARC && b->kind == CAV_SEGMENT_ARC
         && cav_point_near (a->centre, b->centre, CAV_TOLERANCE_POINT) && a->sweep * b->sweep > 0.0;
}

static void
append (Fit *fit, CavSegment segment)
{
  g_array_append_val (fit->segments, segment);
}

static void
append_biarc (Fit *fit, const Biarc *biarc)
{
  CavSegment whole = biarc->arcs[0];

  if (is_one_circle (biarc))
    {
      whole.to = biarc->arcs[1].to;
      whole.sweep += biarc->arcs[1].sweep;
      append (fit, whole);
      return;
    }
  append (fit, biarc->arcs[0]);
  append (fit, biarc->arcs[1]);
}

/* Drawing programs write a circular arc as a curve that leaves it by up to a share of 0.00027 of
 * the radius (a quarter turn). The arc is what was meant. */
static gboolean
append_circular (Fit *fit, const CavPoint p[4])
{
  Biarc biarc;

  if (!make_biarc (p, &biarc) || !is_one_circle (&biarc)
      || !biarc_follows (&biarc, p,
                         MIN (0.95 * CAV_BEZIER_CIRCLE_TOLERANCE, 3e-4 * biarc.arcs[0].rx)))
    return FALSE;
  append_biarc (fit, &biarc);
  return TRUE;
}

static void
follow (Fit *fit, const CavPoint p[4], int halvings)
{
  Biarc biarc;
  CavPoint first[4], second[4];

  if (fit->segments->len >= fit->most)
    return;
  if (halvings == MOST_HALVINGS || is_straight (p))
    {
      append (fit, cav_segment_line (p[0], p[3]));
      return;
    }
  if (make_biarc (p, &biarc) && biarc_follows (&biarc, p, SAMPLE_TOLERANCE))
    {
      append_biarc (fit, &biarc);
      return;
    }
  halve (p, first, second);
  follow (fit, first, halvings + 1);
  follow (fit, second, halvings + 1);
}

/* TRUE where the whole curve is one point. */
static gboolean
is_point (const CavPoint p[4])
{
  for (int i = 1; i < 4; i++)
    if (!cav_point_near (p[0], p[i], CAV_TOLERANCE_POINT))
      return FALSE;
  return TRUE;
}

void
cav_bezier_append (const CavPoint control[4], guint most, GArray *segments)
{
  Fit fit = { segments, most };

  if (!is_point (control) && !append_circular (&fit, control))
    follow (&fit, control, 0);
}
