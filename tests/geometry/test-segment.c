/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-segment.h"

#include "geometry/cav-segment-private.h"

#include "geometry-shapes.h"

#define SAMPLES 2000

static void
test_line (void)
{
  CavSegment line = cav_segment_line (CAV_POINT (1.0, 1.0), CAV_POINT (4.0, 5.0));
  CavSegment back = cav_segment_reversed (&line);
  CavBox box = cav_segment_bounds (&back);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));

  shapes_assert_exact (cav_segment_length (&line), 5.0);
  shapes_assert_point (cav_segment_point_at (&line, 0.5), 2.5, 3.0, 1e-15);
  shapes_assert_point (back.from, 4.0, 5.0, 0.0);
  shapes_assert_point (back.to, 1.0, 1.0, 0.0);
  shapes_assert_exact (box.x0, 1.0);
  shapes_assert_exact (box.y0, 1.0);
  shapes_assert_exact (box.x1, 4.0);
  shapes_assert_exact (box.y1, 5.0);
  cav_segment_linearise (&line, 0.01, points);
  g_assert_cmpuint (points->len, ==, 1);
  shapes_assert_point (g_array_index (points, CavPoint, 0), 4.0, 5.0, 0.0);
}

static void
test_arc_ends (void)
{
  CavSegment arc = cav_segment_arc (CAV_POINT (10.0, 20.0), 5.0, 3.0, 0.0, 90.0, -90.0);
  CavSegment full = cav_segment_arc (CAV_POINT (0.1, 0.2), 5.3, 5.3, 0.0, 33.0, 360.0);
  CavSegment turned = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 3.0, 90.0, 0.0, 90.0);

  shapes_assert_point (arc.from, 10.0, 23.0, 0.0);
  shapes_assert_point (arc.to, 15.0, 20.0, 0.0);
  shapes_assert_point (cav_segment_point_at (&arc, 0.0), 10.0, 23.0, 0.0);
  shapes_assert_point (cav_segment_point_at (&arc, 1.0), 15.0, 20.0, 0.0);
  shapes_assert_point (cav_segment_point_at (&arc, 0.5), 10.0 + 5.0 * G_SQRT2 / 2.0,
                       20.0 + 3.0 * G_SQRT2 / 2.0, 1e-14);
  g_assert_true (cav_point_near (full.from, full.to, 0.0));
  shapes_assert_point (turned.from, 0.0, 5.0, 1e-15);
  shapes_assert_point (turned.to, -3.0, 0.0, 1e-15);
}

/* More than a turn is a turn; radii may be given with a sign; a circle has no rotation. */
static void
test_arc_is_tidied (void)
{
  CavSegment over = cav_segment_arc (CAV_POINT (0.0, 0.0), -2.0, 2.0, 30.0, 345.0, 500.0);

  shapes_assert_exact (over.rx, 2.0);
  shapes_assert_exact (over.sweep, 360.0);
  shapes_assert_exact (over.rotation, 0.0);
  shapes_assert_near (over.start, 15.0, 1e-12);
}

/* The four arcs through (1, 0) and (0, 1) on circles of radius 1: their centres are the origin
 * and (1, 1). */
static void
test_flags (void)
{
  static const struct
  {
    gboolean large, ccw;
    double cx, cy, sweep;
  } rows[] = {
    { FALSE, TRUE, 0.0, 0.0, 90.0 },
    { TRUE, FALSE, 0.0, 0.0, -270.0 },
    { FALSE, FALSE, 1.0, 1.0, -90.0 },
    { TRUE, TRUE, 1.0, 1.0, 270.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSegment arc = cav_segment_arc_from_endpoints (CAV_POINT (1.0, 0.0), CAV_POINT (0.0, 1.0),
                                                       1.0, 1.0, 77.0, rows[i].large, rows[i].ccw);

      g_assert_true (arc.kind == CAV_SEGMENT_ARC);
      shapes_assert_point (arc.centre, rows[i].cx, rows[i].cy, 1e-14);
      shapes_assert_near (arc.sweep, rows[i].sweep, 1e-12);
    }
}

/* SVG 1.1, F.6.5, written down step by step as the specification has it. */
static void
svg_formula (CavPoint p1,
             CavPoint p2,
             double rx,
             double ry,
             double phi,
             gboolean large,
             gboolean sweep_flag,
             CavPoint *out_centre,
             double *out_theta,
             double *out_delta)
{
  double c = cos (phi * RADIANS), s = sin (phi * RADIANS);
  double x = c * (p1.x - p2.x) / 2.0 + s * (p1.y - p2.y) / 2.0;
  double y = -s * (p1.x - p2.x) / 2.0 + c * (p1.y - p2.y) / 2.0;
  double lambda = x * x / (rx * rx) + y * y / (ry * ry);
  double factor, cx, cy, ux, uy, vx, vy, delta;

  if (lambda > 1.0)
    {
      rx *= sqrt (lambda);
      ry *= sqrt (lambda);
    }
  factor = sqrt (fmax (0.0, rx * rx * ry * ry - rx * rx * y * y - ry * ry * x * x)
                 / (rx * rx * y * y + ry * ry * x * x));
  if (large == sweep_flag)
    factor = -factor;
  cx = factor * rx * y / ry;
  cy = -factor * ry * x / rx;
  *out_centre
      = CAV_POINT (c * cx - s * cy + (p1.x + p2.x) / 2.0, s * cx + c * cy + (p1.y + p2.y) / 2.0);
  ux = (x - cx) / rx;
  uy = (y - cy) / ry;
  vx = (-x - cx) / rx;
  vy = (-y - cy) / ry;
  *out_theta = atan2 (uy, ux) / RADIANS;
  delta = atan2 (ux * vy - uy * vx, ux * vx + uy * vy) / RADIANS;
  if (sweep_flag && delta < 0.0)
    delta += 360.0;
  if (!sweep_flag && delta > 0.0)
    delta -= 360.0;
  *out_delta = delta;
}

static void
test_endpoints_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (21));

  for (int i = 0; i < 2000; i++)
    {
      CavPoint p1 = CAV_POINT (g_rand_double_range (rand, -9.0, 9.0),
                               g_rand_double_range (rand, -9.0, 9.0));
      CavPoint p2 = CAV_POINT (g_rand_double_range (rand, -9.0, 9.0),
                               g_rand_double_range (rand, -9.0, 9.0));
      double rx = g_rand_double_range (rand, 1.0, 20.0);
      double ry = g_rand_double_range (rand, 1.0, 20.0);
      double phi = g_rand_double_range (rand, -180.0, 180.0);
      gboolean large = g_rand_boolean (rand), ccw = g_rand_boolean (rand);
      CavSegment arc = cav_segment_arc_from_endpoints (p1, p2, rx, ry, phi, large, ccw);
      CavSegment ideal;
      CavPoint centre;
      double theta, delta;

      svg_formula (p1, p2, rx, ry, phi, large, ccw, &centre, &theta, &delta);
      shapes_assert_point (arc.centre, centre.x, centre.y, 1e-5);
      shapes_assert_near (remainder (arc.start - theta, 360.0), 0.0, 1e-4);
      shapes_assert_near (arc.sweep, delta, 1e-4);
      ideal = cav_segment_arc (arc.centre, arc.rx, arc.ry, arc.rotation, arc.start, arc.sweep);
      g_assert_true (cav_point_near (ideal.from, p1, 1e-9));
      g_assert_true (cav_point_near (ideal.to, p2, 1e-9));
      g_assert_true (cav_point_near (arc.from, p1, 0.0));
      g_assert_true (cav_point_near (arc.to, p2, 0.0));
    }
}

/* Radii that do not span the ends grow until they do (F.6.6.3). */
static void
test_endpoints_small_radii (void)
{
  CavSegment arc = cav_segment_arc_from_endpoints (CAV_POINT (0.0, 0.0), CAV_POINT (20.0, 0.0), 2.0,
                                                   1.0, 0.0, FALSE, TRUE);

  shapes_assert_point (arc.centre, 10.0, 0.0, 1e-12);
  shapes_assert_near (arc.rx, 10.0, 1e-12);
  shapes_assert_near (arc.ry, 5.0, 1e-12);
  shapes_assert_near (arc.sweep, 180.0, 1e-9);
}

static void
test_endpoints_degenerate (void)
{
  CavPoint a = CAV_POINT (0.0, 0.0), b = CAV_POINT (3.0, 4.0);
  CavSegment flat = cav_segment_arc_from_endpoints (a, b, 0.0, 5.0, 0.0, TRUE, TRUE);
  CavSegment dot = cav_segment_arc_from_endpoints (b, b, 5.0, 5.0, 0.0, TRUE, TRUE);

  g_assert_true (flat.kind == CAV_SEGMENT_LINE);
  shapes_assert_exact (cav_segment_length (&flat), 5.0);
  g_assert_true (dot.kind == CAV_SEGMENT_LINE);
  shapes_assert_exact (cav_segment_length (&dot), 0.0);
}

/* The pieces hang together and none of them turns back in x or y. */
static void
test_monotone_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (24));

  for (int i = 0; i < 200; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      CavArcFrame frame = cav_arc_frame (&arc);
      CavMonotone pieces[CAV_MONOTONE_MAX];
      guint n = cav_segment_split_monotone (&arc, pieces);

      g_assert_cmpuint (n, >=, 1);
      g_assert_cmpuint (n, <=, CAV_MONOTONE_MAX);
      g_assert_true (cav_point_near (pieces[0].from, arc.from, 0.0));
      g_assert_true (cav_point_near (pieces[n - 1].to, arc.to, 0.0));
      for (guint k = 0; k < n; k++)
        {
          CavPoint last = pieces[k].from;
          double sx = pieces[k].to.x < pieces[k].from.x ? -1.0 : 1.0;
          double sy = pieces[k].to.y < pieces[k].from.y ? -1.0 : 1.0;

          if (k > 0)
            g_assert_true (cav_point_near (pieces[k].from, pieces[k - 1].to, 0.0));
          for (int j = 1; j <= 20; j++)
            {
              double t = pieces[k].t0 + (pieces[k].t1 - pieces[k].t0) * j / 20.0;
              CavPoint point = cav_arc_frame_point (&frame, t);

              g_assert_cmpfloat ((point.x - last.x) * sx, >=, -1e-10);
              g_assert_cmpfloat ((point.y - last.y) * sy, >=, -1e-10);
              last = point;
            }
        }
    }
}

static void
test_reversed_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (25));

  for (int i = 0; i < 100; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      CavSegment back = cav_segment_reversed (&arc);

      for (double t = 0.0; t <= 1.0; t += 0.125)
        {
          CavPoint point = cav_segment_point_at (&arc, t);

          g_assert_true (cav_point_near (point, cav_segment_point_at (&back, 1.0 - t), 1e-11));
        }
    }
}

static CavTransform
random_transform (GRand *rand, int kind)
{
  CavTransform turn = cav_transform_rotation (g_rand_double_range (rand, -180.0, 180.0));
  CavTransform move = cav_transform_translation (g_rand_double_range (rand, -9.0, 9.0),
                                                 g_rand_double_range (rand, -9.0, 9.0));

  if (kind == 1)
    turn = cav_transform_compose (cav_transform_scale (-1.0, 1.0), turn);
  if (kind == 2)
    turn = cav_transform_compose (turn, cav_transform_scale (1.7, -0.6));
  if (kind == 3)
    turn.xy += 1.3;
  return cav_transform_compose (turn, move);
}

/* Point by point: what the arc's points are mapped to is the new arc, and nothing else. */
static void
test_transformed_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (26));

  for (int i = 0; i < 400; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      CavTransform map = random_transform (rand, i % 4);
      CavSegment image = cav_segment_transformed (&arc, map);

      g_assert_true (image.kind == CAV_SEGMENT_ARC);
      for (double t = 0.0; t <= 1.0; t += 0.0625)
        {
          CavPoint point = cav_transform_point (map, cav_segment_point_at (&arc, t));

          g_assert_true (cav_point_near (point, cav_segment_point_at (&image, t), 1e-8));
          g_assert_cmpfloat (cav_segment_distance (&image, point), <=, 1e-8);
        }
    }
}

/* A circle stays the same circle in all eight ways to lay a rail. */
static void
test_transformed_circle (void)
{
  CavSegment arc = cav_segment_arc (CAV_POINT (30.0, 22.0), 9.5, 9.5, 0.0, 180.0, 90.0);

  for (int i = 0; i < 8; i++)
    {
      CavTransform map = cav_transform_compose (cav_transform_scale (i < 4 ? 1.0 : -1.0, 1.0),
                                                cav_transform_rotation (90.0 * (i % 4)));
      CavSegment image = cav_segment_transformed (&arc, map);

      shapes_assert_exact (image.rx, 9.5);
      shapes_assert_exact (image.ry, 9.5);
      shapes_assert_exact (image.rotation, 0.0);
      shapes_assert_exact (image.sweep, i < 4 ? 90.0 : -90.0);
    }
}

static void
test_transformed_flat (void)
{
  CavSegment arc = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 5.0, 0.0, 0.0, 90.0);
  CavSegment image = cav_segment_transformed (&arc, cav_transform_scale (0.0, 1.0));

  g_assert_true (image.kind == CAV_SEGMENT_LINE);
  shapes_assert_point (image.from, 0.0, 0.0, 1e-15);
  shapes_assert_point (image.to, 0.0, 5.0, 1e-15);
}

/* Greatest distance from the curve between two chord points to their chord. */
static double
chord_error (const CavSegment *arc, const GArray *points)
{
  double worst = 0.0;

  for (int k = 0; k <= SAMPLES; k++)
    {
      CavPoint point = cav_segment_point_at (arc, (double)k / SAMPLES);
      CavPoint from = arc->from;
      double nearest = G_MAXDOUBLE;

      for (guint i = 0; i < points->len; i++)
        {
          CavSegment chord = cav_segment_line (from, g_array_index (points, CavPoint, i));

          nearest = fmin (nearest, cav_segment_distance (&chord, point));
          from = chord.to;
        }
      worst = fmax (worst, nearest);
    }
  return worst;
}

static void
test_linearise_random (void)
{
  static const double tolerances[] = { 0.1, 0.01, CAV_TOLERANCE_CHORD };
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (27));

  for (int i = 0; i < 24; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      double tolerance = tolerances[i % 3];
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));

      cav_segment_linearise (&arc, tolerance, points);
      g_assert_true (
          cav_point_near (g_array_index (points, CavPoint, points->len - 1), arc.to, 0.0));
      g_assert_cmpfloat (chord_error (&arc, points), <=, tolerance * 1.0001);
      for (guint k = 0; k < points->len; k++)
        g_assert_cmpfloat (cav_segment_distance (&arc, g_array_index (points, CavPoint, k)), <=,
                           1e-9);
    }
}

/* Two arcs of one circle share their chord points where they overlap, whichever way they run. */
static void
test_linearise_shared (void)
{
  CavSegment one = cav_segment_arc (CAV_POINT (7.0, 3.0), 11.0, 11.0, 0.0, 10.0, 100.0);
  CavSegment other = cav_segment_arc (CAV_POINT (7.0, 3.0), 11.0, 11.0, 0.0, 147.0, -90.0);
  g_autoptr (GArray) first = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  g_autoptr (GArray) second = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  guint shared = 0;

  cav_segment_linearise (&one, CAV_TOLERANCE_CHORD, first);
  cav_segment_linearise (&other, CAV_TOLERANCE_CHORD, second);
  for (guint i = 0; i < first->len; i++)
    for (guint k = 0; k < second->len; k++)
      shared += cav_point_near (g_array_index (first, CavPoint, i),
                                g_array_index (second, CavPoint, k), 1e-12);
  /* 53 degrees are shared, at a step of a little over 2 degrees. */
  g_assert_cmpuint (shared, >=, 22);
  g_assert_cmpuint (shared, <=, 28);
}

/* An arc of a kilometre's radius is not cut into kilometres of chords. */
static void
test_linearise_large (void)
{
  CavSegment arc = cav_segment_arc (CAV_POINT (0.0, -1e6), 1e6, 1e6, 0.0, 89.999, 0.002);
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));

  cav_segment_linearise (&arc, CAV_TOLERANCE_CHORD, points);
  g_assert_cmpuint (points->len, <=, 3);
  g_assert_cmpfloat (chord_error (&arc, points), <=, CAV_TOLERANCE_CHORD * 1.01);
}

static void
test_same_ellipse (void)
{
  CavSegment a = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 3.0, 30.0, 0.0, 90.0);
  CavSegment turned = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 3.0, 210.0, 0.0, 90.0);
  CavSegment leaning = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 3.0, 31.0, 0.0, 90.0);
  CavSegment moved = cav_segment_arc (CAV_POINT (0.001, 0.0), 5.0, 3.0, 30.0, 0.0, 90.0);
  CavSegment larger = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.001, 3.0, 30.0, 0.0, 90.0);

  g_assert_true (cav_arc_same_ellipse (&a, &a));
  g_assert_true (cav_arc_same_ellipse (&a, &turned));
  g_assert_true (!cav_arc_same_ellipse (&a, &leaning));
  g_assert_true (!cav_arc_same_ellipse (&a, &moved));
  g_assert_true (!cav_arc_same_ellipse (&a, &larger));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/segment/line", test_line);
  g_test_add_func ("/geometry/segment/arc/ends", test_arc_ends);
  g_test_add_func ("/geometry/segment/arc/is-tidied", test_arc_is_tidied);
  g_test_add_func ("/geometry/segment/endpoints/flags", test_flags);
  g_test_add_func ("/geometry/segment/endpoints/random", test_endpoints_random);
  g_test_add_func ("/geometry/segment/endpoints/small-radii", test_endpoints_small_radii);
  g_test_add_func ("/geometry/segment/endpoints/degenerate", test_endpoints_degenerate);
  g_test_add_func ("/geometry/segment/monotone/random", test_monotone_random);
  g_test_add_func ("/geometry/segment/reversed/random", test_reversed_random);
  g_test_add_func ("/geometry/segment/transformed/random", test_transformed_random);
  g_test_add_func ("/geometry/segment/transformed/circle", test_transformed_circle);
  g_test_add_func ("/geometry/segment/transformed/flat", test_transformed_flat);
  g_test_add_func ("/geometry/segment/linearise/random", test_linearise_random);
  g_test_add_func ("/geometry/segment/linearise/shared", test_linearise_shared);
  g_test_add_func ("/geometry/segment/linearise/large", test_linearise_large);
  g_test_add_func ("/geometry/segment/same-ellipse", test_same_ellipse);
  return g_test_run ();
}
