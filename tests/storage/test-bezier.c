/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-bezier.h"

#include <math.h>

#include "storage-test.h"

#define MOST 20000

static CavPoint
curve_point (const CavPoint p[4], double t)
{
  double s = 1 - t;

  return CAV_POINT (
      s * s * s * p[0].x + 3 * s * s * t * p[1].x + 3 * s * t * t * p[2].x + t * t * t * p[3].x,
      s * s * s * p[0].y + 3 * s * s * t * p[1].y + 3 * s * t * t * p[2].y + t * t * t * p[3].y);
}

static double
distance_to_all (GArray *segments, CavPoint point)
{
  double nearest = INFINITY;

  for (guint i = 0; i < segments->len; i++)
    nearest
        = fmin (nearest, cav_segment_distance (&g_array_index (segments, CavSegment, i), point));
  return nearest;
}

/* Halves the step around a sample until that says no more. */
static double
refine (const CavPoint p[4], double at, CavPoint point)
{
  double nearest = cav_point_distance (curve_point (p, at), point);

  for (double step = 1.0 / 4000; step > 1e-9; step /= 2)
    for (int side = -1; side <= 1; side += 2)
      {
        double t = CLAMP (at + side * step, 0.0, 1.0);
        double d = cav_point_distance (curve_point (p, t), point);
        if (d < nearest)
          {
            nearest = d;
            at = t;
          }
      }
  return nearest;
}

/* Where the curve crosses itself, the nearest sample may be on the wrong branch: all that come
 * near are refined. */
static double
distance_to_curve (const CavPoint p[4], CavPoint point)
{
  double nearest = INFINITY;

  for (int i = 0; i <= 2000; i++)
    if (cav_point_distance (curve_point (p, i / 2000.0), point) < 0.5)
      nearest = fmin (nearest, refine (p, i / 2000.0, point));
  return nearest;
}

/* Both ways round: the curve near the segments and the segments near the curve. */
static void
assert_follows (const CavPoint p[4], GArray *segments, double tolerance)
{
  g_assert_cmpuint (segments->len, >, 0);
  g_assert_true (cav_point_near (g_array_index (segments, CavSegment, 0).from, p[0], 1e-12));
  g_assert_true (
      cav_point_near (g_array_index (segments, CavSegment, segments->len - 1).to, p[3], 1e-12));
  for (int i = 0; i <= 777; i++)
    g_assert_cmpfloat (distance_to_all (segments, curve_point (p, i / 777.0)), <=, tolerance);
  for (guint i = 0; i < segments->len; i++)
    {
      const CavSegment *segment = &g_array_index (segments, CavSegment, i);

      if (i > 0)
        g_assert_true (cav_point_near ((segment - 1)->to, segment->from, 1e-12));
      for (int k = 1; k < 4; k++)
        g_assert_cmpfloat (distance_to_curve (p, cav_segment_point_at (segment, k / 4.0)), <=,
                           tolerance);
    }
}

static GArray *
fit (const CavPoint p[4])
{
  GArray *segments = g_array_new (FALSE, FALSE, sizeof (CavSegment));

  cav_bezier_append (p, MOST, segments);
  return segments;
}

static void
test_named_curves (void)
{
  static const struct
  {
    const char *desc;
    CavPoint p[4];
    guint most;
  } rows[] = {
    { "S", { { 0, 0 }, { 10, 0 }, { 10, 20 }, { 20, 20 } }, 40 },
    { "arch", { { 0, 0 }, { 0, 30 }, { 40, 30 }, { 40, 0 } }, 60 },
    { "loop", { { 0, 0 }, { 60, 30 }, { -20, 30 }, { 40, 0 } }, 80 },
    { "cusp", { { 0, 0 }, { 30, 30 }, { 0, 30 }, { 30, 0 } }, 400 },
    { "first control on the start", { { 0, 0 }, { 0, 0 }, { 10, 10 }, { 20, 0 } }, 40 },
    { "both controls on the ends", { { 0, 0 }, { 0, 0 }, { 20, 5 }, { 20, 5 } }, 1 },
    { "all but the start together", { { 0, 0 }, { 20, 5 }, { 20, 5 }, { 20, 5 } }, 1 },
    { "straight", { { 0, 0 }, { 1, 2 }, { 2, 4 }, { 3, 6 } }, 1 },
    { "straight, there and back", { { 0, 0 }, { 30, 0 }, { -20, 0 }, { 10, 0 } }, 400 },
    { "closed", { { 0, 0 }, { 30, 30 }, { -30, 30 }, { 0, 0 } }, 80 },
    { "small", { { 0, 0 }, { 0.01, 0 }, { 0.01, 0.01 }, { 0.02, 0.01 } }, 4 },
    { "large", { { 0, 0 }, { 0, 400 }, { 300, 500 }, { 500, 0 } }, 200 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GArray) segments = fit (rows[i].p);

      g_test_message ("%s: %u", rows[i].desc, segments->len);
      assert_follows (rows[i].p, segments, CAV_BEZIER_TOLERANCE);
      g_assert_cmpuint (segments->len, <=, rows[i].most);
    }
}

static void
test_random_curves (void)
{
  for (int i = 0; i < 30; i++)
    {
      CavPoint p[4];

      for (int k = 0; k < 4; k++)
        p[k] = CAV_POINT (g_test_rand_double_range (0, 60), g_test_rand_double_range (0, 60));
      g_autoptr (GArray) segments = fit (p);
      assert_follows (p, segments, CAV_BEZIER_TOLERANCE);
    }
}

/* A quarter turn with controls at 0.5522847 of the radius is the usual way to write a circle: its
 * distance from the circle is at most 0.00027 of the radius (recalled, and measured below). */
static void
test_circle (void)
{
  for (double r = 1; r < 17; r += 2.5)
    {
      const double k = 0.5522847 * r;
      const CavPoint p[4] = { { r, 0 }, { r, k }, { k, r }, { 0, r } };
      g_autoptr (GArray) segments = fit (p);
      const CavSegment *arc = &g_array_index (segments, CavSegment, 0);

      g_assert_cmpuint (segments->len, ==, 1);
      g_assert_cmpint (arc->kind, ==, CAV_SEGMENT_ARC);
      g_assert_cmpfloat_with_epsilon (arc->rx, r, 1e-6);
      g_assert_cmpfloat_with_epsilon (arc->centre.x, 0, 1e-6);
      g_assert_cmpfloat_with_epsilon (arc->sweep, 90, 1e-6);
      assert_follows (p, segments, CAV_BEZIER_CIRCLE_TOLERANCE);
    }
  /* Of a large circle the curve is too far away for that. */
  const CavPoint large[4] = { { 100, 0 }, { 100, 55.22847 }, { 55.22847, 100 }, { 0, 100 } };
  g_autoptr (GArray) segments = fit (large);
  g_assert_cmpuint (segments->len, >, 1);
  assert_follows (large, segments, CAV_BEZIER_TOLERANCE);
}

/* Where the curve is smooth, the arcs meet without a corner. */
static void
test_smooth (void)
{
  const CavPoint p[4] = { { 0, 0 }, { 10, 0 }, { 10, 20 }, { 20, 20 } };
  g_autoptr (GArray) segments = fit (p);

  for (guint i = 1; i < segments->len; i++)
    {
      const CavSegment *a = &g_array_index (segments, CavSegment, i - 1);
      const CavSegment *b = &g_array_index (segments, CavSegment, i);
      CavPoint before = cav_segment_point_at (a, 1 - 1e-5), after = cav_segment_point_at (b, 1e-5);
      CavPoint in = { a->to.x - before.x, a->to.y - before.y };
      CavPoint out = { after.x - b->from.x, after.y - b->from.y };
      double turn = (in.x * out.y - in.y * out.x) / (hypot (in.x, in.y) * hypot (out.x, out.y));

      g_assert_cmpfloat_with_epsilon (turn, 0, 1e-3);
    }
}

static void
test_point (void)
{
  const CavPoint p[4] = { { 3, 4 }, { 3, 4 }, { 3, 4 }, { 3, 4 } };
  g_autoptr (GArray) segments = fit (p);

  g_assert_cmpuint (segments->len, ==, 0);
}

/* A list that is full is left as it is. */
static void
test_most (void)
{
  const CavPoint p[4] = { { 0, 0 }, { 60, 30 }, { -20, 30 }, { 40, 0 } };
  g_autoptr (GArray) segments = g_array_new (FALSE, FALSE, sizeof (CavSegment));

  cav_bezier_append (p, 5, segments);
  g_assert_cmpuint (segments->len, >=, 5);
  g_assert_cmpuint (segments->len, <=, 6);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/bezier/named-curves", test_named_curves);
  g_test_add_func ("/storage/bezier/random-curves", test_random_curves);
  g_test_add_func ("/storage/bezier/circle", test_circle);
  g_test_add_func ("/storage/bezier/smooth", test_smooth);
  g_test_add_func ("/storage/bezier/point", test_point);
  g_test_add_func ("/storage/bezier/most", test_most);
  return g_test_run ();
}
