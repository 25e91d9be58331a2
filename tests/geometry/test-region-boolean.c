/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region.h"

#include "geometry/cav-region-private.h"

#include "geometry-shapes.h"

/* A rabbet, a cove and a bead on a blank: nothing but what was drawn, to the last bit. */
static void
test_profile (void)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 60.0, 22.0);
  g_autoptr (CavRegion) rabbet = cav_region_new_box (-1.0, -1.0, 6.35, 9.525);
  g_autoptr (CavRegion) cove = shapes_circle (60.0, 22.0, 12.7);
  g_autoptr (CavRegion) hollow = shapes_ellipse (25.0, 22.0, 11.0, 6.5);
  g_autoptr (CavRegion) one = shapes_difference (blank, rabbet);
  g_autoptr (CavRegion) two = shapes_difference (one, cove);
  g_autoptr (CavRegion) three = shapes_difference (two, hollow);

  shapes_assert_invariants (three);
  g_assert_cmpuint (cav_region_get_piece_count (three), ==, 1);
  g_assert_cmpuint (shapes_count (three, CAV_SEGMENT_ARC), ==, 2);
  g_assert_cmpuint (shapes_count (three, CAV_SEGMENT_LINE), ==, 7);
  g_assert_cmpuint (shapes_count_arcs_of (three, 60.0, 22.0, 12.7, 12.7), ==, 1);
  g_assert_cmpuint (shapes_count_arcs_of (three, 25.0, 22.0, 11.0, 6.5), ==, 1);
  shapes_assert_near (
      cav_region_get_area (three),
      60.0 * 22.0 - 6.35 * 9.525 - 12.7 * 12.7 * G_PI / 4.0 - 11.0 * 6.5 * G_PI / 2.0, 1e-7);
}

static void
test_corner_points_are_kept (void)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 60.1, 22.3);
  g_autoptr (CavRegion) cut = cav_region_new_box (10.0 / 3.0, -1.0, 20.0 / 3.0, 7.77);
  g_autoptr (CavRegion) rest = shapes_difference (blank, cut);
  const CavPath *path = cav_region_get_ring (rest, 0);
  guint found = 0;

  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 8);
  for (guint i = 0; i < 8; i++)
    {
      CavPoint from = cav_path_get_segment (path, i)->from;

      found += cav_point_near (from, CAV_POINT (10.0 / 3.0, 7.77), 0.0);
      found += cav_point_near (from, CAV_POINT (20.0 / 3.0, 7.77), 0.0);
      found += cav_point_near (from, CAV_POINT (60.1, 22.3), 0.0);
      found += cav_point_near (from, CAV_POINT (10.0 / 3.0, 0.0), 1e-12);
    }
  g_assert_cmpuint (found, ==, 4);
}

/* Where a line crosses an arc, the corner stands on both, not on the chord. */
static void
test_crossings_are_exact (void)
{
  g_autoptr (CavRegion) circle = shapes_circle (0.0, 0.0, 20.0);
  g_autoptr (CavRegion) box = cav_region_new_box (-30.0, -30.0, 30.0, 7.3);
  g_autoptr (CavRegion) cap = shapes_difference (circle, box);
  g_autoptr (CavRegion) other = shapes_circle (15.0, 3.0, 11.0);
  g_autoptr (CavRegion) lens = shapes_intersection (circle, other);
  const CavPath *path = cav_region_get_ring (cap, 0);
  double x = sqrt (400.0 - 7.3 * 7.3);

  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      shapes_assert_near (fabs (cav_path_get_segment (path, i)->from.x), x, 1e-9);
      shapes_assert_near (cav_path_get_segment (path, i)->from.y, 7.3, 1e-9);
    }
  path = cav_region_get_ring (lens, 0);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      CavPoint from = cav_path_get_segment (path, i)->from;

      shapes_assert_near (hypot (from.x, from.y), 20.0, 1e-9);
      shapes_assert_near (hypot (from.x - 15.0, from.y - 3.0), 11.0, 1e-9);
    }
}

/* The area two circles share, by the closed formula. */
static void
test_lens_area (void)
{
  double r = 9.0, q = 6.0;

  for (double d = 3.5; d < 15.0; d += 0.5)
    {
      g_autoptr (CavRegion) a = shapes_circle (1.0, 2.0, r);
      g_autoptr (CavRegion) b = shapes_circle (1.0 + 0.8 * d, 2.0 + 0.6 * d, q);
      g_autoptr (CavRegion) lens = shapes_intersection (a, b);
      double alpha = acos ((d * d + r * r - q * q) / (2.0 * d * r));
      double beta = acos ((d * d + q * q - r * r) / (2.0 * d * q));

      shapes_assert_near (cav_region_get_area (lens),
                          r * r * (alpha - 0.5 * sin (2.0 * alpha))
                              + q * q * (beta - 0.5 * sin (2.0 * beta)),
                          1e-4);
      g_assert_cmpuint (shapes_count (lens, CAV_SEGMENT_ARC), ==, 2);
      g_assert_cmpuint (shapes_count (lens, CAV_SEGMENT_LINE), ==, 0);
    }
}

/* Halves of a circle put together again are the circle. */
static void
test_halves_join (void)
{
  g_autoptr (CavRegion) left = shapes_sector (3.0, 4.0, 7.0, 90.0, 180.0);
  g_autoptr (CavRegion) right = shapes_sector (3.0, 4.0, 7.0, 270.0, 180.0);
  g_autoptr (CavRegion) whole = shapes_union (left, right);
  const CavSegment *arc = cav_path_get_segment (cav_region_get_ring (whole, 0), 0);

  shapes_assert_invariants (whole);
  g_assert_cmpuint (shapes_count (whole, CAV_SEGMENT_LINE), ==, 0);
  g_assert_cmpuint (shapes_count (whole, CAV_SEGMENT_ARC), ==, 1);
  shapes_assert_exact (fabs (arc->sweep), 360.0);
  shapes_assert_near (cav_region_get_area (whole), 49.0 * G_PI, 1e-9);
}

static void
test_boxes_join (void)
{
  g_autoptr (CavRegion) left = cav_region_new_box (0.0, 0.0, 10.0 / 3.0, 5.0);
  g_autoptr (CavRegion) right = cav_region_new_box (10.0 / 3.0, 0.0, 8.0, 5.0);
  g_autoptr (CavRegion) whole = shapes_union (left, right);

  g_assert_cmpuint (shapes_count (whole, CAV_SEGMENT_LINE), ==, 4);
  shapes_assert_near (cav_region_get_area (whole), 40.0, 1e-12);
}

/* A copy that differs by rounding leaves exactly nothing, and changes nothing. */
static void
test_shifted_copies (void)
{
  static const double shifts[] = { 0.0, 1e-12, 1e-9, -1e-9, 1e-7, 1e-6 };
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (61));

  for (int i = 0; i < 60; i++)
    {
      double shift = shifts[i % G_N_ELEMENTS (shifts)];
      g_autoptr (CavRegion) one = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) other = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) region = shapes_union (one, other);
      g_autoptr (CavRegion) copy
          = cav_region_transformed (region, cav_transform_translation (shift, -0.7 * shift));
      g_autoptr (CavRegion) nothing = shapes_difference (region, copy);
      g_autoptr (CavRegion) same = shapes_intersection (region, copy);
      g_autoptr (CavRegion) both = shapes_union (region, copy);

      g_assert_true (cav_region_is_empty (nothing));
      shapes_assert_near (cav_region_get_area (same), cav_region_get_area (region), 1e-3);
      g_assert_cmpuint (cav_region_get_piece_count (both), ==, cav_region_get_piece_count (region));
      g_assert_cmpuint (cav_region_get_ring_count (both), ==, cav_region_get_ring_count (region));
    }
}

/* A copy that has been turned about and back, as a rail is laid eight ways. */
static void
test_turned_copies (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (62));

  for (int i = 0; i < 40; i++)
    {
      double turn = i % 2 == 0 ? 90.0 * (i % 4) : g_rand_double_range (rand, -45.0, 45.0);
      CavTransform there = cav_transform_compose (cav_transform_translation (13.7, -2.1),
                                                  cav_transform_rotation (turn));
      CavTransform back = cav_transform_compose (cav_transform_rotation (-turn),
                                                 cav_transform_translation (-13.7, 2.1));
      g_autoptr (CavRegion) one = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) other = shapes_random_shape (rand, i % 3);
      g_autoptr (CavRegion) region = shapes_union (one, other);
      g_autoptr (CavRegion) turned = cav_region_transformed (region, there);
      g_autoptr (CavRegion) copy = cav_region_transformed (turned, back);
      g_autoptr (CavRegion) nothing = shapes_difference (region, copy);
      g_autoptr (CavRegion) nothing_either = shapes_difference (copy, region);

      g_assert_true (cav_region_is_empty (nothing));
      g_assert_true (cav_region_is_empty (nothing_either));
    }
}

/* Two kerfs that share a wall, straight or leaning, leave no film between them. */
static void
test_shared_walls (void)
{
  for (double tilt = 0.0; tilt <= 45.0; tilt += 7.5)
    for (int i = 0; i < 20; i++)
      {
        CavTransform lean = cav_transform_compose (cav_transform_rotation (tilt),
                                                   cav_transform_translation (10.0 / 7.0, 0.1));
        double kerf = 3.2, f = 5.0 + i * 0.05;
        g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 60.0, 20.0);
        g_autoptr (CavRegion) upright = cav_region_new_box (f, -30.0, f + kerf, 6.0);
        g_autoptr (CavRegion) beside = cav_region_new_box (f + kerf, -30.0, f + 2.0 * kerf, 6.0);
        g_autoptr (CavRegion) one = cav_region_transformed (upright, lean);
        g_autoptr (CavRegion) two = cav_region_transformed (beside, lean);
        g_autoptr (CavRegion) first = shapes_difference (blank, one);
        g_autoptr (CavRegion) rest = shapes_difference (first, two);
        g_autoptr (CavRegion) chips = shapes_intersection (first, two);
        g_autoptr (CavRegion) whole = shapes_intersection (blank, two);

        g_assert_cmpuint (cav_region_get_piece_count (rest), ==, 1);
        g_assert_cmpuint (shapes_count (rest, CAV_SEGMENT_LINE), ==, 8);
        shapes_assert_same (chips, whole, 0.0);
      }
}

/* A cut exactly along a wall takes nothing and leaves the wall as it was. */
static void
test_touching (void)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 20.1, 10.3);
  g_autoptr (CavRegion) beside = cav_region_new_box (20.1, -5.0, 25.0, 5.0);
  g_autoptr (CavRegion) corner = cav_region_new_box (20.1, 10.3, 25.0, 15.0);
  g_autoptr (CavRegion) tangent = shapes_circle (30.1, 5.0, 10.0);
  const CavRegion *cuts[] = { beside, corner, tangent };

  for (guint i = 0; i < G_N_ELEMENTS (cuts); i++)
    {
      g_autoptr (CavRegion) rest = shapes_difference (blank, cuts[i]);
      g_autoptr (CavRegion) chips = shapes_intersection (blank, cuts[i]);

      g_assert_true (cav_region_is_empty (chips));
      shapes_assert_near (cav_region_get_area (rest), 20.1 * 10.3, 1e-9);
    }
}

/* Slivers, and fins on what is left, are dropped; a wall that can be seen is not. */
static void
test_slivers (void)
{
  static const struct
  {
    const char *desc;
    double width;
    guint pieces;
  } rows[] = {
    { "a film", 2e-5, 1 },
    { "still a film", 9e-5, 1 },
    { "a thin wall", 2e-3, 2 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavRegion) blank = cav_region_new_box (0.0, 0.0, 30.0, 10.0);
      g_autoptr (CavRegion) kerf = cav_region_new_box (rows[i].width, -1.0, 3.0, 11.0);
      g_autoptr (CavRegion) rest = shapes_difference (blank, kerf);
      g_autoptr (CavRegion) stopped = cav_region_new_box (rows[i].width, 2.0, 3.0, 11.0);
      g_autoptr (CavRegion) finned = shapes_difference (blank, stopped);

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpuint (cav_region_get_piece_count (rest), ==, rows[i].pieces);
      g_assert_cmpuint (cav_region_get_piece_count (finned), ==, 1);
      shapes_assert_near (cav_region_get_bounds (finned).y1, 10.0, 1e-9);
      /* Six corners without the fin, eight with it. */
      g_assert_cmpuint (shapes_count (finned, CAV_SEGMENT_LINE), ==, rows[i].pieces == 1 ? 6 : 8);
    }
}

/* Lines that graze an arc at any depth: neither gaps nor pieces that are not there. */
static void
test_grazing (void)
{
  for (double depth = -0.01; depth < 0.05; depth += 0.0007)
    {
      double r = 12.0;
      g_autoptr (CavRegion) blank = cav_region_new_box (-20.0, 0.0, 20.0, 10.0);
      g_autoptr (CavRegion) circle = shapes_circle (0.3, 10.0 + r - depth, r);
      g_autoptr (CavRegion) rest = shapes_difference (blank, circle);
      g_autoptr (CavRegion) chips = shapes_intersection (blank, circle);
      double half = depth > 0.0 ? acos (1.0 - depth / r) : 0.0;
      double area = r * r * (half - sin (half) * cos (half));

      shapes_assert_invariants (rest);
      g_assert_cmpuint (cav_region_get_piece_count (rest), ==, 1);
      shapes_assert_near (cav_region_get_area (rest), 400.0 - area, 2e-3);
      shapes_assert_near (cav_region_get_area (chips), area, 2e-3);
      if (depth > 0.003)
        g_assert_cmpuint (shapes_count (rest, CAV_SEGMENT_ARC), ==, 1);
    }
}

static void
test_empty_operands (void)
{
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 2.0, 2.0);
  g_autoptr (CavRegion) far = cav_region_new_box (10.0, 0.0, 12.0, 2.0);
  CavRegion *sums[] = { shapes_union (box, empty),    shapes_union (empty, box),
                        shapes_union (box, box),      shapes_difference (box, empty),
                        shapes_difference (box, far), shapes_intersection (box, box) };
  CavRegion *none[] = { shapes_difference (empty, box), shapes_difference (box, box),
                        shapes_intersection (box, empty), shapes_intersection (box, far),
                        shapes_union (empty, empty) };

  for (guint i = 0; i < G_N_ELEMENTS (sums); i++)
    {
      shapes_assert_exact (cav_region_get_area (sums[i]), 4.0);
      cav_region_unref (sums[i]);
    }
  for (guint i = 0; i < G_N_ELEMENTS (none); i++)
    {
      g_assert_true (cav_region_is_empty (none[i]));
      cav_region_unref (none[i]);
    }
}

static void
test_union_all (void)
{
  g_autoptr (CavRegion) none = cav_region_union_all (NULL, 0, NULL);
  CavRegion *parts[41];
  g_autoptr (CavRegion) one = NULL;
  g_autoptr (CavRegion) all = NULL;

  for (int i = 0; i < 40; i++)
    parts[i] = cav_region_new_box (i * 0.25, 0.0, i * 0.25 + 0.3, 2.0);
  parts[40] = cav_region_new_empty ();
  one = cav_region_union_all (parts + 39, 2, NULL);
  all = cav_region_union_all (parts, 41, NULL);
  g_assert_true (cav_region_is_empty (none));
  g_assert_true (one == parts[39]);
  g_assert_cmpuint (shapes_count (all, CAV_SEGMENT_LINE), ==, 4);
  shapes_assert_near (cav_region_get_area (all), 2.0 * 10.05, 1e-9);
  for (int i = 0; i <= 40; i++)
    cav_region_unref (parts[i]);
}

/* Many small holes in one plate. */
static void
test_many_holes (void)
{
  g_autoptr (CavRegion) plate = cav_region_new_box (0.0, 0.0, 100.0, 50.0);
  CavRegion *holes[200];
  g_autoptr (CavRegion) all = NULL;
  g_autoptr (CavRegion) rest = NULL;

  for (int i = 0; i < 200; i++)
    holes[i] = shapes_circle (3.0 + (i % 20) * 4.8, 3.0 + (i / 20) * 4.8, 1.5);
  all = cav_region_union_all (holes, 200, NULL);
  rest = shapes_difference (plate, all);
  g_assert_cmpuint (cav_region_get_ring_count (rest), ==, 201);
  g_assert_cmpuint (shapes_count (rest, CAV_SEGMENT_ARC), ==, 200);
  shapes_assert_near (cav_region_get_area (rest), 5000.0 - 200.0 * 2.25 * G_PI, 1e-6);
  for (int i = 0; i < 200; i++)
    cav_region_unref (holes[i]);
}

/* Two pieces that overlap by less than chords differ from curves can come out of an overlay at a
 * narrow neck, and GEOS refuses them; the room mends them instead of failing. */
static void
test_mends_operands (void)
{
  GArray *rings = cav_rings_new ();
  g_autoptr (CavRegion) left = cav_region_new_box (0.0, 0.0, 10.0, 10.0);
  g_autoptr (CavRegion) right = cav_region_new_box (9.999, 2.0, 20.0, 8.0);
  g_autoptr (CavRegion) cut = cav_region_new_box (5.0, -1.0, 15.0, 5.0);
  g_autoptr (CavRegion) broken = NULL;
  g_autoptr (CavRegion) rest = NULL;
  g_autoptr (CavRegion) chips = NULL;
  g_autoptr (CavRegion) sum = NULL;

  cav_rings_append_copy (rings, &left->rings[0]);
  cav_rings_append_copy (rings, &right->rings[0]);
  broken = cav_region_new_take_rings (rings);
  rest = shapes_difference (broken, cut);
  chips = shapes_intersection (broken, cut);
  sum = shapes_union (broken, cut);
  shapes_assert_invariants (rest);
  shapes_assert_near (cav_region_get_area (rest), 75.0 + 45.0, 0.01);
  shapes_assert_near (cav_region_get_area (chips), 25.0 + 15.0, 0.01);
  shapes_assert_near (cav_region_get_area (sum), 100.0 + 60.0 + 20.0, 0.02);
}

static gpointer
thread_cb (gpointer data)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (GPOINTER_TO_UINT (data));
  double *sum = g_new0 (double, 1);

  for (int i = 0; i < 40; i++)
    {
      g_autoptr (CavRegion) a = shapes_random_shape (rand, 1);
      g_autoptr (CavRegion) b = shapes_random_shape (rand, 1);
      g_autoptr (CavRegion) both = shapes_union (a, b);

      *sum += cav_region_get_area (both);
    }
  return sum;
}

/* The same work in several threads at once comes to the same as alone. */
static void
test_threads (void)
{
  g_autofree double *alone = thread_cb (GUINT_TO_POINTER (7));
  GThread *threads[4];

  for (int i = 0; i < 4; i++)
    threads[i] = g_thread_new ("overlay", thread_cb, GUINT_TO_POINTER (7));
  for (int i = 0; i < 4; i++)
    {
      g_autofree double *sum = g_thread_join (threads[i]);

      shapes_assert_exact (*sum, *alone);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/boolean/profile", test_profile);
  g_test_add_func ("/geometry/region/boolean/corner-points-are-kept", test_corner_points_are_kept);
  g_test_add_func ("/geometry/region/boolean/crossings-are-exact", test_crossings_are_exact);
  g_test_add_func ("/geometry/region/boolean/lens-area", test_lens_area);
  g_test_add_func ("/geometry/region/boolean/halves-join", test_halves_join);
  g_test_add_func ("/geometry/region/boolean/boxes-join", test_boxes_join);
  g_test_add_func ("/geometry/region/boolean/shifted-copies", test_shifted_copies);
  g_test_add_func ("/geometry/region/boolean/turned-copies", test_turned_copies);
  g_test_add_func ("/geometry/region/boolean/shared-walls", test_shared_walls);
  g_test_add_func ("/geometry/region/boolean/touching", test_touching);
  g_test_add_func ("/geometry/region/boolean/slivers", test_slivers);
  g_test_add_func ("/geometry/region/boolean/grazing", test_grazing);
  g_test_add_func ("/geometry/region/boolean/empty-operands", test_empty_operands);
  g_test_add_func ("/geometry/region/boolean/union-all", test_union_all);
  g_test_add_func ("/geometry/region/boolean/many-holes", test_many_holes);
  g_test_add_func ("/geometry/region/boolean/mends-operands", test_mends_operands);
  g_test_add_func ("/geometry/region/boolean/threads", test_threads);
  return g_test_run ();
}
