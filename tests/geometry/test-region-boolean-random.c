/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random shapes, judged by their properties and by GEOS alone. */
#include "geometry/cav-region.h"

#include <geos_c.h>

#include "geometry-shapes.h"

/* Greatest distance that a found outline may have from the drawn curve. */
#define DRAWN_TOLERANCE 0.005

/* Every point of the outline lies on an outline of one of the operands. */
static void
assert_drawn (const CavRegion *region, const CavRegion *a, const CavRegion *b)
{
  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *path = cav_region_get_ring (region, i);

      for (guint k = 0; k < cav_path_get_segment_count (path); k++)
        for (double t = 0.0; t <= 1.0; t += 0.0625)
          {
            CavPoint point = cav_segment_point_at (cav_path_get_segment (path, k), t);
            double distance
                = fmin (cav_region_get_distance (a, point), cav_region_get_distance (b, point));

            g_assert_cmpfloat (distance, <=, DRAWN_TOLERANCE);
          }
    }
}

/* Milling at random on the grid of a machine: what was removed and what is left is the blank. */
static void
test_milling_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (63));

  for (int i = 0; i < 12; i++)
    {
      g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 60.0, 25.0);
      CavRegion *rest = cav_region_ref (blank);
      double removed = 0.0;

      for (int pass = 0; pass < 10; pass++)
        {
          double x = 0.05 * g_rand_int_range (rand, 0, 1200);
          double depth = 0.05 * g_rand_int_range (rand, 20, 240);
          double r = 0.25 * g_rand_int_range (rand, 8, 50);
          g_autoptr (CavRegion) sweep
              = pass % 3 == 0 ? shapes_circle (x, 25.0 + r - depth, r)
                              : cav_region_new_box (x, pass % 3 == 1 ? -1.0 : 26.0 - depth, x + 3.2,
                                                    pass % 3 == 1 ? depth : 26.0);
          g_autoptr (CavRegion) chips = shapes_intersection (rest, sweep);
          CavRegion *next = shapes_difference (rest, sweep);

          removed += cav_region_get_area (chips);
          shapes_assert_invariants (next);
          shapes_assert_near (cav_region_get_area (next) + cav_region_get_area (chips),
                              cav_region_get_area (rest), 2e-3);
          cav_region_unref (rest);
          rest = next;
        }
      shapes_assert_near (cav_region_get_area (rest) + removed, 60.0 * 25.0, 1e-2);
      cav_region_unref (rest);
    }
}

/* What GEOS alone says of the same shapes, in chords ten times as fine. */
static GEOSGeometry *
fine_polygons (GEOSContextHandle_t geos, const CavRegion *region)
{
  GEOSGeometry *all = GEOSGeom_createEmptyPolygon_r (geos);

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      g_autoptr (GArray) points = cav_path_linearise (cav_region_get_ring (region, i), 2e-4);
      GEOSCoordSequence *sequence = GEOSCoordSeq_create_r (geos, points->len + 1, 2);
      GEOSGeometry *polygon, *sum;

      for (guint k = 0; k <= points->len; k++)
        {
          CavPoint point = g_array_index (points, CavPoint, k % points->len);

          GEOSCoordSeq_setXY_r (geos, sequence, k, point.x, point.y);
        }
      polygon
          = GEOSGeom_createPolygon_r (geos, GEOSGeom_createLinearRing_r (geos, sequence), NULL, 0);
      sum = cav_region_ring_is_hole (region, i) ? GEOSDifference_r (geos, all, polygon)
                                                : GEOSUnion_r (geos, all, polygon);
      GEOSGeom_destroy_r (geos, all);
      GEOSGeom_destroy_r (geos, polygon);
      all = sum;
    }
  return all;
}

static void
assert_like_geos (GEOSContextHandle_t geos,
                  const CavRegion *region,
                  GEOSGeometry *expected,
                  double tolerance)
{
  GEOSGeometry *found = fine_polygons (geos, region);
  GEOSGeometry *apart = GEOSSymDifference_r (geos, found, expected);
  double area = G_MAXDOUBLE;

  g_assert_true (apart != NULL);
  GEOSArea_r (geos, apart, &area);
  shapes_assert_near (area, 0.0, tolerance);
  GEOSGeom_destroy_r (geos, found);
  GEOSGeom_destroy_r (geos, apart);
  GEOSGeom_destroy_r (geos, expected);
}

static void
test_against_geos (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (64));
  GEOSContextHandle_t geos = GEOS_init_r ();

  for (int i = 0; i < 80; i++)
    {
      g_autoptr (CavRegion) a = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) sum = shapes_union (a, b);
      g_autoptr (CavRegion) shared = shapes_intersection (a, b);
      g_autoptr (CavRegion) rest = shapes_difference (a, b);
      GEOSGeometry *one = fine_polygons (geos, a);
      GEOSGeometry *other = fine_polygons (geos, b);
      /* Chords of both, over both outlines. */
      double tolerance
          = 2e-4 * (cav_region_get_perimeter (a) + cav_region_get_perimeter (b)) + 1e-4;

      assert_like_geos (geos, sum, GEOSUnion_r (geos, one, other), tolerance);
      assert_like_geos (geos, shared, GEOSIntersection_r (geos, one, other), tolerance);
      assert_like_geos (geos, rest, GEOSDifference_r (geos, one, other), tolerance);
      GEOSGeom_destroy_r (geos, one);
      GEOSGeom_destroy_r (geos, other);
    }
  GEOS_finish_r (geos);
}

static void
test_properties_random (void)
{
  guint32 seed = shapes_seed (1000);

  for (guint32 i = 0; i < 150; i++)
    {
      g_autoptr (GRand) rand = g_rand_new_with_seed (seed + i);
      int per_mm = i % 3 == 0 ? 0 : i % 3 == 1 ? 1 : 10;
      g_autoptr (CavRegion) raw = shapes_random_shape (rand, per_mm);
      g_autoptr (CavRegion) bite = shapes_random_shape (rand, per_mm);
      g_autoptr (CavRegion) a = shapes_difference (raw, bite);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, per_mm);
      g_autoptr (CavRegion) sum = shapes_union (a, b);
      g_autoptr (CavRegion) shared = shapes_intersection (a, b);
      g_autoptr (CavRegion) rest = shapes_difference (a, b);
      g_autoptr (CavRegion) other_rest = shapes_difference (b, a);
      g_autoptr (CavRegion) none = shapes_intersection (rest, b);
      g_autoptr (CavRegion) again = shapes_union (rest, shared);
      CavRegion *parts[] = { rest, shared, other_rest };
      g_autoptr (CavRegion) all = cav_region_union_all (parts, 3, NULL);
      double tolerance = 1e-3;

      g_test_message ("seed %u", seed + i);
      shapes_assert_invariants (sum);
      shapes_assert_invariants (shared);
      shapes_assert_invariants (rest);
      shapes_assert_near (cav_region_get_area (a) + cav_region_get_area (b),
                          cav_region_get_area (sum) + cav_region_get_area (shared), tolerance);
      shapes_assert_near (cav_region_get_area (a),
                          cav_region_get_area (rest) + cav_region_get_area (shared), tolerance);
      g_assert_true (cav_region_is_empty (none));
      shapes_assert_same (again, a, 1e-4);
      shapes_assert_same (all, sum, 1e-4);
      assert_drawn (sum, a, b);
      assert_drawn (rest, a, b);
    }
}

/* A point is in the result as the operands say. */
static void
test_points_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (65));

  for (int i = 0; i < 60; i++)
    {
      g_autoptr (CavRegion) a = shapes_random_shape (rand, 0);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, 0);
      g_autoptr (CavRegion) sum = shapes_union (a, b);
      g_autoptr (CavRegion) shared = shapes_intersection (a, b);
      g_autoptr (CavRegion) rest = shapes_difference (a, b);

      for (int k = 0; k < 200; k++)
        {
          CavPoint point = CAV_POINT (g_rand_double_range (rand, -10.0, 55.0),
                                      g_rand_double_range (rand, -10.0, 40.0));
          gboolean in_a = cav_region_contains (a, point), in_b = cav_region_contains (b, point);

          if (cav_region_get_distance (a, point) < DRAWN_TOLERANCE
              || cav_region_get_distance (b, point) < DRAWN_TOLERANCE)
            continue;
          g_assert_true (cav_region_contains (sum, point) == (in_a || in_b));
          g_assert_true (cav_region_contains (shared, point) == (in_a && in_b));
          g_assert_true (cav_region_contains (rest, point) == (in_a && !in_b));
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/boolean/milling-random", test_milling_random);
  g_test_add_func ("/geometry/region/boolean/against-geos", test_against_geos);
  g_test_add_func ("/geometry/region/boolean/properties-random", test_properties_random);
  g_test_add_func ("/geometry/region/boolean/points-random", test_points_random);
  return g_test_run ();
}
