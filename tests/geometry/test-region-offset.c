/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region.h"

#include "geometry-shapes.h"

/* Steiner's formula: a convex shape grown by d gains d times its outline and pi d². */
static double
grown_area (const CavRegion *region, double d)
{
  return cav_region_get_area (region) + d * cav_region_get_perimeter (region) + G_PI * d * d;
}

static void
test_box (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);
  g_autoptr (CavRegion) grown = shapes_offset (box, 3.0);
  g_autoptr (CavRegion) shrunk = shapes_offset (box, -3.0);

  shapes_assert_invariants (grown);
  shapes_assert_near (cav_region_get_area (grown), 200.0 + 180.0 + 9.0 * G_PI, 1e-9);
  g_assert_cmpuint (shapes_count (grown, CAV_SEGMENT_LINE), ==, 4);
  g_assert_cmpuint (shapes_count (grown, CAV_SEGMENT_ARC), ==, 4);
  g_assert_cmpuint (shapes_count_arcs_of (grown, 20.0, 10.0, 3.0, 3.0), ==, 1);
  shapes_assert_near (cav_region_get_area (shrunk), 14.0 * 4.0, 1e-9);
  g_assert_cmpuint (shapes_count (shrunk, CAV_SEGMENT_LINE), ==, 4);
}

static void
test_vanishes (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);
  g_autoptr (CavRegion) circle = shapes_circle (0.0, 0.0, 4.0);
  g_autoptr (CavRegion) line = shapes_offset (box, -5.0);
  g_autoptr (CavRegion) nothing = shapes_offset (box, -6.0);
  g_autoptr (CavRegion) no_circle = shapes_offset (circle, -4.0);

  g_assert_true (cav_region_is_empty (line));
  g_assert_true (cav_region_is_empty (nothing));
  g_assert_true (cav_region_is_empty (no_circle));
}

static void
test_circle (void)
{
  for (double d = -3.5; d < 5.0; d += 0.75)
    {
      g_autoptr (CavRegion) circle = shapes_circle (1.0, 2.0, 4.0);
      g_autoptr (CavRegion) moved = shapes_offset (circle, d);

      shapes_assert_invariants (moved);
      g_assert_cmpuint (shapes_count (moved, CAV_SEGMENT_LINE), ==, 0);
      g_assert_cmpuint (shapes_count (moved, CAV_SEGMENT_ARC), ==, 1);
      shapes_assert_near (cav_region_get_area (moved), G_PI * (4.0 + d) * (4.0 + d), 1e-6);
    }
}

static void
test_nothing_to_do (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) same = shapes_offset (box, 0.0);
  g_autoptr (CavRegion) still_empty = shapes_offset (empty, 5.0);

  g_assert_true (same == box);
  g_assert_true (cav_region_is_empty (still_empty));
}

static void
test_refused (void)
{
  static const double distances[] = { NAN, INFINITY, -INFINITY, 1e6 };
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);

  for (guint i = 0; i < G_N_ELEMENTS (distances); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_true (cav_region_offset (box, distances[i], &error) == NULL);
      g_assert_true (g_error_matches (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_FINITE));
    }
}

/* Holes grow where the region shrinks. */
static void
test_hole (void)
{
  g_autoptr (CavRegion) outer = shapes_circle (0.0, 0.0, 10.0);
  g_autoptr (CavRegion) inner = cav_region_new_box (-2.0, -3.0, 2.0, 3.0);
  g_autoptr (CavRegion) region = shapes_difference (outer, inner);
  g_autoptr (CavRegion) shrunk = shapes_offset (region, -1.0);
  g_autoptr (CavRegion) grown = shapes_offset (region, 1.0);
  g_autoptr (CavRegion) filled = shapes_offset (region, 2.5);

  shapes_assert_near (cav_region_get_area (shrunk), 81.0 * G_PI - (24.0 + 20.0 + G_PI), 1e-6);
  g_assert_cmpuint (shapes_count (shrunk, CAV_SEGMENT_ARC), ==, 5);
  shapes_assert_near (cav_region_get_area (grown), 121.0 * G_PI - 2.0 * 4.0, 1e-6);
  g_assert_cmpuint (cav_region_get_ring_count (filled), ==, 1);
}

/* A cove's concave arc shrinks as the region grows, and is gone beyond its centre. */
static void
test_cove (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);
  g_autoptr (CavRegion) circle = shapes_circle (0.0, 0.0, 5.0);
  g_autoptr (CavRegion) region = shapes_difference (box, circle);
  g_autoptr (CavRegion) little = shapes_offset (region, 1.5);
  g_autoptr (CavRegion) much = shapes_offset (region, 6.0);
  g_autoptr (CavRegion) shrunk = shapes_offset (region, -1.5);

  g_assert_cmpuint (shapes_count_arcs_of (little, 0.0, 0.0, 3.5, 3.5), ==, 1);
  g_assert_cmpuint (shapes_count_arcs_of (shrunk, 0.0, 0.0, 6.5, 6.5), ==, 1);
  g_assert_cmpuint (shapes_count (shrunk, CAV_SEGMENT_LINE), ==, 4);
  shapes_assert_invariants (much);
  g_assert_true (cav_region_contains (much, CAV_POINT (0.0, 0.0)));
  g_assert_cmpuint (cav_region_get_ring_count (much), ==, 1);
}

static void
test_convex_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (71));

  for (int i = 0; i < 30; i++)
    {
      double rx = g_rand_double_range (rand, 1.0, 12.0), ry = g_rand_double_range (rand, 1.0, 12.0);
      double d = g_rand_double_range (rand, 0.01, 8.0);
      g_autoptr (CavRegion) shape
          = i % 3 == 0 ? cav_region_new_box (0.0, 0.0, rx, ry)
            : i % 3 == 1
                ? shapes_ellipse (0.0, 0.0, rx, ry)
                : shapes_sector (0.0, 0.0, rx, 20.0, g_rand_double_range (rand, 5.0, 179.0));
      g_autoptr (CavRegion) turned = cav_region_transformed (shape, cav_transform_rotation (31.0));
      g_autoptr (CavRegion) grown = shapes_offset (turned, d);

      shapes_assert_invariants (grown);
      g_assert_cmpuint (cav_region_get_ring_count (grown), ==, 1);
      shapes_assert_near (cav_region_get_area (grown), grown_area (turned, d),
                          0.002 * cav_region_get_perimeter (grown));
    }
}

/* Every corner of the new outline lies at the distance from the old one, and any point is inside
 * as its distance says. */
static void
test_distances_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (72));

  for (int i = 0; i < 40; i++)
    {
      double d = g_rand_double_range (rand, 0.05, 4.0) * (i % 2 == 0 ? 1.0 : -1.0);
      g_autoptr (CavRegion) a = shapes_random_shape (rand, 1);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, 1);
      g_autoptr (CavRegion) region = shapes_difference (a, b);
      g_autoptr (CavRegion) moved = shapes_offset (region, d);

      shapes_assert_invariants (moved);
      for (guint ring = 0; ring < cav_region_get_ring_count (moved); ring++)
        {
          const CavPath *path = cav_region_get_ring (moved, ring);

          for (guint k = 0; k < cav_path_get_segment_count (path); k++)
            for (double t = 0.0; t < 1.0; t += 0.25)
              shapes_assert_near (
                  cav_region_get_distance (
                      region, cav_segment_point_at (cav_path_get_segment (path, k), t)),
                  fabs (d), 0.005);
        }
      for (int k = 0; k < 200; k++)
        {
          CavPoint point = CAV_POINT (g_rand_double_range (rand, -15.0, 60.0),
                                      g_rand_double_range (rand, -15.0, 45.0));
          double depth = cav_region_get_distance (region, point);

          if (cav_region_is_empty (region) || fabs (depth - fabs (d)) < 0.005)
            continue;
          if (!cav_region_contains (region, point))
            depth = -depth;
          g_assert_true (cav_region_contains (moved, point) == (depth > -d));
        }
    }
}

/* The distances by which a planner makes room: hundredths and thousandths. */
static void
test_small (void)
{
  static const double distances[] = { 0.0025, 0.012, 0.02, 0.1 };
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 30.0, 12.0);
  g_autoptr (CavRegion) circle = shapes_circle (30.0, 12.0, 8.0);
  g_autoptr (CavRegion) region = shapes_difference (box, circle);

  for (guint i = 0; i < G_N_ELEMENTS (distances); i++)
    {
      double d = distances[i];
      g_autoptr (CavRegion) grown = shapes_offset (region, d);
      g_autoptr (CavRegion) shrunk = shapes_offset (region, -d);
      /* Five corners that turn out by a right angle: as many quarters of a circle. */
      double corners = 5.0 * G_PI / 4.0 * d * d;

      shapes_assert_near (cav_region_get_area (grown) - cav_region_get_area (region),
                          d * cav_region_get_perimeter (region) + corners - 0.25 * G_PI * d * d,
                          1e-6 + d * 1e-3);
      shapes_assert_near (cav_region_get_area (region) - cav_region_get_area (shrunk),
                          d * cav_region_get_perimeter (region), 1e-6 + 10.0 * d * d);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/offset/box", test_box);
  g_test_add_func ("/geometry/region/offset/vanishes", test_vanishes);
  g_test_add_func ("/geometry/region/offset/circle", test_circle);
  g_test_add_func ("/geometry/region/offset/nothing-to-do", test_nothing_to_do);
  g_test_add_func ("/geometry/region/offset/refused", test_refused);
  g_test_add_func ("/geometry/region/offset/hole", test_hole);
  g_test_add_func ("/geometry/region/offset/cove", test_cove);
  g_test_add_func ("/geometry/region/offset/convex-random", test_convex_random);
  g_test_add_func ("/geometry/region/offset/distances-random", test_distances_random);
  g_test_add_func ("/geometry/region/offset/small", test_small);
  return g_test_run ();
}
