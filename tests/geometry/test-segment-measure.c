/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Length, distance and bounds of segments. */
#include "geometry/cav-segment.h"

#include "geometry-shapes.h"

#define SAMPLES 2000

static void
test_line_distance (void)
{
  static const struct
  {
    const char *desc;
    double x, y, distance;
  } rows[] = {
    { "on it", 5.0, 0.0, 0.0 },       { "beside it", 5.0, 3.0, 3.0 },
    { "before it", -3.0, 4.0, 5.0 },  { "behind it", 13.0, -4.0, 5.0 },
    { "at its end", 10.0, 0.0, 0.0 },
  };
  CavSegment line = cav_segment_line (CAV_POINT (0.0, 0.0), CAV_POINT (10.0, 0.0));
  CavSegment dot = cav_segment_line (CAV_POINT (1.0, 1.0), CAV_POINT (1.0, 1.0));

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].desc);
      shapes_assert_near (cav_segment_distance (&line, CAV_POINT (rows[i].x, rows[i].y)),
                          rows[i].distance, 1e-15);
    }
  shapes_assert_exact (cav_segment_distance (&dot, CAV_POINT (4.0, 5.0)), 5.0);
}

/* Circumference of an ellipse by the arithmetic-geometric mean, a method that shares nothing
 * with the quadrature (Abramowitz and Stegun, 17.6, for the complete integral E). */
static double
ellipse_circumference (double a, double b)
{
  double x = fmax (a, b), y = fmin (a, b), big = x;
  double sum = 0.5 * (x * x - y * y), power = 1.0;

  while (x - y > 1e-15 * big)
    {
      double mean = 0.5 * (x + y);
      double half = 0.5 * (x - y);

      y = sqrt (x * y);
      x = mean;
      sum += power * half * half;
      power *= 2.0;
    }
  return 2.0 * G_PI / x * (big * big - sum);
}

static void
test_length (void)
{
  static const double radii[][2] = {
    { 10.0, 10.0 }, { 10.0, 9.999 }, { 10.0, 4.0 }, { 1.0, 25.0 }, { 100.0, 0.1 }, { 7.0, 0.001 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (radii); i++)
    {
      double rx = radii[i][0], ry = radii[i][1];
      double whole = ellipse_circumference (rx, ry);
      CavSegment full = cav_segment_arc (CAV_POINT (3.0, 4.0), rx, ry, 20.0, 17.0, -360.0);
      CavSegment quarter = cav_segment_arc (CAV_POINT (3.0, 4.0), rx, ry, 0.0, 90.0, 90.0);

      shapes_assert_near (cav_segment_length (&full), whole, 1e-10 * whole);
      shapes_assert_near (cav_segment_length (&quarter), whole / 4.0, 1e-10 * whole);
    }
}

static void
test_distance_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (22));

  for (int i = 0; i < 300; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      CavPoint point = CAV_POINT (g_rand_double_range (rand, -40.0, 40.0),
                                  g_rand_double_range (rand, -40.0, 40.0));
      double distance = cav_segment_distance (&arc, point);
      double sampled = G_MAXDOUBLE;
      double step = cav_segment_length (&arc) / SAMPLES;

      for (int k = 0; k <= SAMPLES; k++)
        sampled = fmin (
            sampled, cav_point_distance (point, cav_segment_point_at (&arc, (double)k / SAMPLES)));
      g_assert_cmpfloat (distance, <=, sampled + 1e-9);
      g_assert_cmpfloat (distance, >=, sampled - 4.0 * step);
      /* Half way between two samples is where the sampled distance errs most. */
      if (sampled > 1.0)
        g_assert_cmpfloat (distance, >=, sampled - 8.0 * step * step);
    }
}

/* The centre of a circle, the foci and the centre of an ellipse, points of the curve. */
static void
test_distance_special (void)
{
  CavSegment circle = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 5.0, 0.0, 0.0, 360.0);
  CavSegment quarter = cav_segment_arc (CAV_POINT (0.0, 0.0), 5.0, 5.0, 0.0, 0.0, 90.0);
  CavSegment flat = cav_segment_arc (CAV_POINT (0.0, 0.0), 100.0, 0.5, 0.0, 0.0, 360.0);

  shapes_assert_near (cav_segment_distance (&circle, CAV_POINT (0.0, 0.0)), 5.0, 1e-15);
  shapes_assert_near (cav_segment_distance (&circle, CAV_POINT (3.0, 4.0)), 0.0, 1e-15);
  shapes_assert_near (cav_segment_distance (&quarter, CAV_POINT (-3.0, -4.0)), hypot (8.0, 4.0),
                      1e-14);
  shapes_assert_near (cav_segment_distance (&flat, CAV_POINT (0.0, 0.0)), 0.5, 1e-12);
  shapes_assert_near (cav_segment_distance (&flat, CAV_POINT (100.0, 0.0)), 0.0, 1e-12);
  shapes_assert_near (cav_segment_distance (&flat, CAV_POINT (101.0, 0.0)), 1.0, 1e-12);
}

/* Points on the axes, where two feet of perpendiculars fall together, seen from halves and
 * quarters that hold only one of them. */
static void
test_distance_on_axes (void)
{
  static const struct
  {
    const char *desc;
    double rx, ry, start, sweep, x, y, distance;
  } rows[] = {
    { "across the short axis", 2.0, 11.0, 158.0, -173.0, -0.15, 0.0, 2.15 },
    { "from the other side", 2.0, 11.0, 90.0, 180.0, 0.15, 0.0, 2.15 },
    { "lying, from above", 11.0, 2.0, 180.0, 180.0, 0.0, 0.5, 2.5 },
    { "lying, from below", 11.0, 2.0, 0.0, 180.0, 0.0, -0.5, 2.5 },
    { "centre, lower half", 11.0, 2.0, 180.0, 180.0, 0.0, 0.0, 2.0 },
    { "centre, right half", 2.0, 11.0, -90.0, 180.0, 0.0, 0.0, 2.0 },
    { "centre, left half", 2.0, 11.0, 90.0, 180.0, 0.0, 0.0, 2.0 },
    { "on the long axis, outside", 11.0, 2.0, 0.0, 360.0, -14.0, 0.0, 3.0 },
    { "on the short axis, outside", 11.0, 2.0, 0.0, 360.0, 0.0, -14.0, 12.0 },
    { "beyond the evolute", 11.0, 2.0, 0.0, 360.0, 10.9, 0.0, 0.1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSegment arc = cav_segment_arc (CAV_POINT (0.0, 0.0), rows[i].rx, rows[i].ry, 0.0,
                                        rows[i].start, rows[i].sweep);

      g_test_message ("%s", rows[i].desc);
      shapes_assert_near (cav_segment_distance (&arc, CAV_POINT (rows[i].x, rows[i].y)),
                          rows[i].distance, 1e-12);
    }
}

static void
test_bounds_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (23));

  for (int i = 0; i < 300; i++)
    {
      CavSegment arc = shapes_random_arc (rand);
      CavBox box = cav_segment_bounds (&arc);
      CavBox sampled = { INFINITY, INFINITY, -INFINITY, -INFINITY };
      double sagitta = 60.0 / SAMPLES;

      for (int k = 0; k <= SAMPLES; k++)
        {
          CavPoint point = cav_segment_point_at (&arc, (double)k / SAMPLES);

          sampled.x0 = fmin (sampled.x0, point.x);
          sampled.y0 = fmin (sampled.y0, point.y);
          sampled.x1 = fmax (sampled.x1, point.x);
          sampled.y1 = fmax (sampled.y1, point.y);
        }
      shapes_assert_near (box.x0, sampled.x0 - 0.5 * sagitta * 0.01, sagitta * 0.01);
      shapes_assert_near (box.y0, sampled.y0 - 0.5 * sagitta * 0.01, sagitta * 0.01);
      shapes_assert_near (box.x1, sampled.x1 + 0.5 * sagitta * 0.01, sagitta * 0.01);
      shapes_assert_near (box.y1, sampled.y1 + 0.5 * sagitta * 0.01, sagitta * 0.01);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/segment/line/distance", test_line_distance);
  g_test_add_func ("/geometry/segment/length", test_length);
  g_test_add_func ("/geometry/segment/distance/random", test_distance_random);
  g_test_add_func ("/geometry/segment/distance/special", test_distance_special);
  g_test_add_func ("/geometry/segment/distance/on-axes", test_distance_on_axes);
  g_test_add_func ("/geometry/segment/bounds/random", test_bounds_random);
  return g_test_run ();
}
