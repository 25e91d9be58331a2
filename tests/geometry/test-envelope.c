/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-envelope.h"

#include "geometry-shapes.h"

static gboolean
is_open (float height)
{
  return height >= CAV_ENVELOPE_OPEN;
}

static void
test_box (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (1.0, 2.0, 3.0, 9.0);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (box, 0.0, 4.01, 0.02);

  g_assert_cmpint (envelope->n_columns, ==, 201);
  shapes_assert_exact (envelope->origin, 0.0);
  shapes_assert_exact (envelope->step, 0.02);
  for (int i = 0; i < envelope->n_columns; i++)
    {
      /* Columns 50 to 149 hold wood; the one before and the one after only touch it. */
      if (i >= 50 && i < 150)
        shapes_assert_exact (envelope->heights[i], 2.0);
      else
        g_assert_true (is_open (envelope->heights[i]));
    }
}

/* A wall inside a column: the column has the lower side. */
static void
test_step (void)
{
  static const CavPoint points[]
      = { { 0, 0 }, { 1.01, 0 }, { 1.01, 3 }, { 2, 3 }, { 2, 9 }, { 0, 9 } };
  g_autoptr (CavRegion) region = cav_region_new_polygon (points, 6, NULL);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (region, 0.0, 2.0, 0.02);

  shapes_assert_exact (envelope->heights[49], 0.0);
  shapes_assert_exact (envelope->heights[50], 0.0);
  shapes_assert_exact (envelope->heights[51], 3.0);
  shapes_assert_exact (envelope->heights[99], 3.0);
}

/* Only what is lowest counts: a hole above and a second piece above change nothing. */
static void
test_shadow (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 10.0, 10.0);
  g_autoptr (CavRegion) hole = shapes_circle (5.0, 5.0, 3.0);
  g_autoptr (CavRegion) above = cav_region_new_box (0.0, 20.0, 12.0, 22.0);
  g_autoptr (CavRegion) holed = shapes_difference (box, hole);
  g_autoptr (CavRegion) region = shapes_union (holed, above);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (region, 0.0, 12.0, 0.5);

  for (int i = 0; i < 24; i++)
    shapes_assert_exact (envelope->heights[i], i < 20 ? 0.0 : 20.0);
}

static void
test_circle (void)
{
  double r = 10.0;
  g_autoptr (CavRegion) circle = shapes_circle (r, 0.0, r);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (circle, 0.0, 2.0 * r, 0.02);

  for (int i = 0; i < envelope->n_columns; i++)
    {
      double left = i * 0.02 - r, right = left + 0.02;
      double nearest = fmin (fabs (left), fabs (right));
      double lowest = left < -1e-9 && right > 1e-9 ? -r : -sqrt (r * r - nearest * nearest);

      g_assert_cmpfloat (envelope->heights[i], <=, lowest + 1e-12);
      shapes_assert_near (envelope->heights[i], lowest, 2e-6);
    }
}

/* The ends of an arc may stand a little off its curve: the envelope is below both. */
static void
test_ends_off_curve (void)
{
  double lift = 0.9 * CAV_TOLERANCE_CHORD;
  CavSegment arc = cav_segment_arc (CAV_POINT (0.0, 0.0), 8.0, 5.0, 0.0, 200.0, 140.0);
  CavPath *path = cav_path_new ();
  g_autoptr (CavRegion) region = NULL;
  g_autoptr (CavEnvelope) envelope = NULL;

  arc.from.y += lift;
  arc.to.y += lift;
  cav_path_append (path, &arc);
  region = shapes_region (path);
  envelope = cav_envelope_new (region, -8.0, 8.0, 0.02);
  for (double t = 0.0; t <= 1.0; t += 1.0 / 4096.0)
    {
      double angle = (200.0 + 140.0 * t) * RADIANS;
      int column = (int)floor ((8.0 * cos (angle) + 8.0) / 0.02);

      g_assert_cmpfloat (envelope->heights[column], <=, 5.0 * sin (angle) + 1e-9);
    }
}

static void
test_nothing_there (void)
{
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 1.0, 1.0);
  g_autoptr (CavEnvelope) none = cav_envelope_new (empty, 0.0, 1.0, 0.1);
  g_autoptr (CavEnvelope) beside = cav_envelope_new (box, 1.0, 2.0, 0.1);
  g_autoptr (CavEnvelope) before = cav_envelope_new (box, -1.0, 0.0, 0.1);
  g_autoptr (CavEnvelope) backward = cav_envelope_new (box, 1.0, 0.0, 0.1);

  g_assert_cmpint (none->n_columns, ==, 10);
  g_assert_cmpint (backward->n_columns, ==, 0);
  for (int i = 0; i < 10; i++)
    g_assert_true (is_open (none->heights[i]) && is_open (beside->heights[i])
                   && is_open (before->heights[i]));
  cav_envelope_free (NULL);
}

/* Only part of the region in view: cut off at both ends. */
static void
test_window (void)
{
  g_autoptr (CavRegion) plain = shapes_ellipse (0.0, 0.0, 10.0, 4.0);
  g_autoptr (CavRegion) region = cav_region_transformed (plain, cav_transform_rotation (25.0));
  g_autoptr (CavEnvelope) all = cav_envelope_new (region, -10.0, 10.0, 0.125);
  g_autoptr (CavEnvelope) part = cav_envelope_new (region, -3.0, 4.0, 0.125);

  g_assert_cmpint (part->n_columns, ==, 56);
  for (int i = 0; i < part->n_columns; i++)
    shapes_assert_near (part->heights[i], all->heights[56 + i], 1e-6);
}

/* The lowest point of a region over a column, by looking at many points of its outlines. */
static double *
brute_force (const CavRegion *region, double origin, double step, int n_columns)
{
  double *lowest = g_new (double, n_columns);

  for (int i = 0; i < n_columns; i++)
    lowest[i] = INFINITY;
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      const CavPath *path = cav_region_get_ring (region, ring);

      for (guint k = 0; k < cav_path_get_segment_count (path); k++)
        for (int j = 0; j <= 4000; j++)
          {
            CavPoint point = cav_segment_point_at (cav_path_get_segment (path, k), j / 4000.0);
            double place = (point.x - origin) / step;
            int i = (int)floor (place);

            if (i >= 0 && i < n_columns && place - i > 1e-4 && place - i < 1.0 - 1e-4)
              lowest[i] = fmin (lowest[i], point.y);
          }
    }
  return lowest;
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (51));

  for (int i = 0; i < 40; i++)
    {
      g_autoptr (CavRegion) a = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) flat = shapes_difference (a, b);
      g_autoptr (CavRegion) region
          = cav_region_transformed (flat, cav_transform_rotation (i % 2 * 37.0));
      g_autoptr (CavEnvelope) envelope = cav_envelope_new (region, -30.0, 60.0, 0.1);
      g_autofree double *lowest = brute_force (region, -30.0, 0.1, envelope->n_columns);
      int n_near = 0, n_wood = 0;

      for (int k = 0; k < envelope->n_columns; k++)
        {
          if (isinf (lowest[k]))
            continue;
          n_wood++;
          /* Never above the region, and nearly everywhere (but for steep walls) right on it. */
          g_assert_cmpfloat (envelope->heights[k], <=, lowest[k] + 1e-9);
          n_near += envelope->heights[k] >= lowest[k] - 0.05;
        }
      g_assert_cmpint (n_near, >=, n_wood * 9 / 10);
    }
}

static float *
brute_force_erode (const CavEnvelope *envelope, const float *depths, int n_depths)
{
  float *heights = g_new (float, envelope->n_columns + 1);

  for (int i = 0; i <= envelope->n_columns; i++)
    {
      heights[i] = CAV_ENVELOPE_OPEN;
      for (int d = 0; d < n_depths; d++)
        {
          if (i + d < envelope->n_columns)
            heights[i] = fminf (heights[i], envelope->heights[i + d] + depths[d]);
          if (i - 1 - d >= 0)
            heights[i] = fminf (heights[i], envelope->heights[i - 1 - d] + depths[d]);
        }
    }
  return heights;
}

static CavEnvelope *
random_envelope (GRand *rand, int n_columns)
{
  CavEnvelope *envelope = g_new (CavEnvelope, 1);

  envelope->origin = 0.0;
  envelope->step = 0.02;
  envelope->n_columns = n_columns;
  envelope->heights = g_new (float, n_columns + 1);
  for (int i = 0; i < n_columns; i++)
    envelope->heights[i] = g_rand_int_range (rand, 0, 8) == 0
                               ? CAV_ENVELOPE_OPEN
                               : (float)g_rand_double_range (rand, -20.0, 20.0);
  return envelope;
}

/* Sizes around the length of a block, and tools wider than the envelope. */
static void
test_erode_random (void)
{
  static const int columns[] = { 0, 1, 2, 62, 63, 64, 65, 127, 128, 300 };
  static const int widths[] = { 0, 1, 2, 7, 64, 100, 400 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (52));

  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    for (guint k = 0; k < G_N_ELEMENTS (widths); k++)
      {
        g_autoptr (CavEnvelope) envelope = random_envelope (rand, columns[i]);
        g_autofree float *depths = g_new (float, widths[k] + 1);
        g_autofree float *out = g_new (float, columns[i] + 1);
        g_autofree float *expected = NULL;

        for (int d = 0; d < widths[k]; d++)
          depths[d] = (float)g_rand_double_range (rand, 0.0, 15.0);
        cav_envelope_erode (envelope, depths, widths[k], out);
        expected = brute_force_erode (envelope, depths, widths[k]);
        for (int n = 0; n <= columns[i]; n++)
          shapes_assert_exact (out[n], expected[n]);
      }
}

/* A ball of radius r over a corner of a step: it may rise to where it touches the corner. */
static void
test_erode_ball (void)
{
  double r = 6.0, step = 0.02;
  g_autoptr (CavRegion) step_up = cav_region_new_box (-20.0, 0.0, 0.0, 5.0);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (step_up, -20.0, 20.0, step);
  int n_depths = (int)(r / step);
  g_autofree float *depths = g_new (float, n_depths);
  g_autofree float *out = g_new (float, envelope->n_columns + 1);

  for (int d = 0; d < n_depths; d++)
    depths[d] = (float)(r - sqrt (r * r - d * step * d * step));
  cav_envelope_erode (envelope, depths, n_depths, out);
  for (int i = 0; i <= envelope->n_columns; i++)
    {
      double x = envelope->origin + i * step;

      if (x <= 0.0)
        shapes_assert_near (out[i], 0.0, 1e-6);
      else if (x < r - 2.0 * step)
        shapes_assert_near (out[i], r - sqrt (r * r - x * x), 1e-5);
      else if (x > r + 2.0 * step)
        g_assert_true (is_open (out[i]));
    }
}

static void
test_erode_flat_random (void)
{
  static const int columns[] = { 0, 1, 2, 10, 63, 64, 65, 300 };
  static const int widths[] = { 1, 2, 3, 10, 64, 299, 300, 301, 1000 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (53));

  for (guint i = 0; i < G_N_ELEMENTS (columns); i++)
    for (guint k = 0; k < G_N_ELEMENTS (widths); k++)
      {
        g_autoptr (CavEnvelope) envelope = random_envelope (rand, columns[i]);
        g_autofree float *out = g_new (float, columns[i] + 1);

        cav_envelope_erode_flat (envelope, widths[k], out);
        for (int n = 0; n <= columns[i]; n++)
          {
            float expected = CAV_ENVELOPE_OPEN;

            for (int d = n; d < n + widths[k] && d < columns[i]; d++)
              expected = fminf (expected, envelope->heights[d]);
            shapes_assert_exact (out[n], expected);
          }
      }
}

/* A kerf right beside a wall, to the last column, is free. */
static void
test_flat_beside_wall (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 12.0, 20.0);
  g_autoptr (CavEnvelope) envelope = cav_envelope_new (box, 0.0, 20.0, 0.05);
  g_autofree float *out = g_new (float, envelope->n_columns + 1);

  cav_envelope_erode_flat (envelope, 64, out);
  shapes_assert_exact (out[239], 0.0);
  g_assert_true (is_open (out[240]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/envelope/box", test_box);
  g_test_add_func ("/geometry/envelope/step", test_step);
  g_test_add_func ("/geometry/envelope/shadow", test_shadow);
  g_test_add_func ("/geometry/envelope/circle", test_circle);
  g_test_add_func ("/geometry/envelope/ends-off-curve", test_ends_off_curve);
  g_test_add_func ("/geometry/envelope/nothing-there", test_nothing_there);
  g_test_add_func ("/geometry/envelope/window", test_window);
  g_test_add_func ("/geometry/envelope/random", test_random);
  g_test_add_func ("/geometry/envelope/erode/random", test_erode_random);
  g_test_add_func ("/geometry/envelope/erode/ball", test_erode_ball);
  g_test_add_func ("/geometry/envelope/erode/flat-random", test_erode_flat_random);
  g_test_add_func ("/geometry/envelope/erode/flat-beside-wall", test_flat_beside_wall);
  return g_test_run ();
}
