/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region.h"

#include "geometry-shapes.h"

/* Area and centroid of sectors: the centroid stands 2 r sin (a) / (3 a) from the centre, a half
 * the angle in radians (any handbook of mechanics; from memory). */
static void
test_sectors (void)
{
  for (double sweep = 15.0; sweep < 360.0; sweep += 15.0)
    for (double start = 0.0; start < 360.0; start += 52.0)
      {
        double r = 4.5, half = 0.5 * sweep * RADIANS;
        double away = 2.0 * r * sin (half) / (3.0 * half);
        double middle = (start + 0.5 * sweep) * RADIANS;
        g_autoptr (CavRegion) region = shapes_sector (100.0, 50.0, r, start, sweep);
        CavPoint centroid;

        g_assert_true (cav_region_get_centroid (region, &centroid));
        shapes_assert_near (cav_region_get_area (region), r * r * half, 1e-10);
        shapes_assert_point (centroid, 100.0 + away * cos (middle), 50.0 + away * sin (middle),
                             1e-10);
        shapes_assert_near (cav_region_get_perimeter (region), 2.0 * r + 2.0 * half * r, 1e-10);
      }
}

static CavRegion *
quarter_ellipse (double a, double b, gboolean spandrel)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, spandrel ? CAV_POINT (a, b) : CAV_POINT (0.0, 0.0));
  cav_path_arc (path, CAV_POINT (0.0, 0.0), a, b, 0.0, 90.0);
  return shapes_region (path);
}

/* Quarter of an ellipse: pi a b / 4, centroid at 4 a / 3 pi, 4 b / 3 pi; and what it leaves of its
 * box, by subtraction. */
static void
test_quarter_ellipse (void)
{
  double a = 7.0, b = 3.0, box = a * b, quarter = G_PI * a * b / 4.0;
  double cx = 4.0 * a / (3.0 * G_PI), cy = 4.0 * b / (3.0 * G_PI);
  g_autoptr (CavRegion) inside = quarter_ellipse (a, b, FALSE);
  g_autoptr (CavRegion) outside = quarter_ellipse (a, b, TRUE);
  CavPoint centroid;

  g_assert_true (cav_region_get_centroid (inside, &centroid));
  shapes_assert_near (cav_region_get_area (inside), quarter, 1e-12);
  shapes_assert_point (centroid, cx, cy, 1e-12);
  g_assert_true (cav_region_get_centroid (outside, &centroid));
  shapes_assert_near (cav_region_get_area (outside), box - quarter, 1e-12);
  shapes_assert_point (centroid, (box * a / 2.0 - quarter * cx) / (box - quarter),
                       (box * b / 2.0 - quarter * cy) / (box - quarter), 1e-11);
}

static void
test_annulus (void)
{
  g_autoptr (CavRegion) outer = shapes_circle (5.0, 5.0, 4.0);
  g_autoptr (CavRegion) inner = shapes_circle (6.0, 5.0, 2.0);
  g_autoptr (CavRegion) region = shapes_difference (outer, inner);
  CavPoint centroid;
  CavBox box = cav_region_get_bounds (region);

  shapes_assert_near (cav_region_get_area (region), 12.0 * G_PI, 1e-10);
  shapes_assert_near (cav_region_get_perimeter (region), 12.0 * G_PI, 1e-10);
  g_assert_true (cav_region_get_centroid (region, &centroid));
  shapes_assert_point (centroid, (16.0 * 5.0 - 4.0 * 6.0) / 12.0, 5.0, 1e-10);
  shapes_assert_near (box.x0, 1.0, 1e-12);
  shapes_assert_near (box.y1, 9.0, 1e-12);
}

/* Far from the origin a small region keeps its centroid. */
static void
test_centroid_far_away (void)
{
  g_autoptr (CavRegion) region = cav_region_new_box (90000.0, -90000.0, 90000.01, -89999.99);
  CavPoint centroid;

  g_assert_true (cav_region_get_centroid (region, &centroid));
  shapes_assert_point (centroid, 90000.005, -89999.995, 1e-9);
}

static void
test_contains_box (void)
{
  g_autoptr (CavRegion) region = cav_region_new_box (0.0, 0.0, 10.0, 5.0);

  g_assert_true (cav_region_contains (region, CAV_POINT (5.0, 2.0)));
  g_assert_true (!cav_region_contains (region, CAV_POINT (-1.0, 2.0)));
  g_assert_true (!cav_region_contains (region, CAV_POINT (11.0, 2.0)));
  g_assert_true (!cav_region_contains (region, CAV_POINT (5.0, 6.0)));
  g_assert_true (!cav_region_contains (region, CAV_POINT (-1.0, 0.0)));
  g_assert_true (!cav_region_contains (region, CAV_POINT (-1.0, 5.0)));
}

/* Points at the heights of corners, seams and extremes, where a ray can miscount; and points
 * between a chord and its arc. */
static void
test_contains_special (void)
{
  g_autoptr (CavRegion) circle = shapes_circle (0.0, 0.0, 10.0);
  g_autoptr (CavRegion) left = shapes_sector (0.0, 0.0, 10.0, 90.0, 180.0);

  g_assert_true (cav_region_contains (circle, CAV_POINT (0.0, 0.0)));
  g_assert_true (cav_region_contains (circle, CAV_POINT (-9.9999, 0.0)));
  g_assert_true (cav_region_contains (circle, CAV_POINT (9.9999, 0.0)));
  g_assert_true (!cav_region_contains (circle, CAV_POINT (10.0001, 0.0)));
  g_assert_true (!cav_region_contains (circle, CAV_POINT (-20.0, 0.0)));
  g_assert_true (!cav_region_contains (circle, CAV_POINT (-20.0, 10.0)));
  g_assert_true (!cav_region_contains (circle, CAV_POINT (-20.0, -10.0)));
  g_assert_true (cav_region_contains (left, CAV_POINT (-1.0, 0.0)));
  g_assert_true (!cav_region_contains (left, CAV_POINT (1.0, 0.0)));
  g_assert_true (!cav_region_contains (left, CAV_POINT (-11.0, 0.0)));
}

/* Whether a sector about the centre holds a point, by radius and angle; *out_close: nobody can
 * tell. */
static gboolean
sector_holds (double r, double start, double sweep, CavPoint point, gboolean *out_close)
{
  double away = hypot (point.x, point.y);
  double along = fmod (atan2 (point.y, point.x) / RADIANS - start + 720.0, 360.0);
  double from_edge = fmin (fmin (along, 360.0 - along), fabs (along - sweep)) * RADIANS * away;

  *out_close = fabs (away - r) < 1e-6 || from_edge < 1e-6;
  return away < r && along < sweep;
}

/* Arcs of circles that begin and end at and between the quarters, run either way round, and are
 * looked at from points at the heights of their ends, of their extremes and of their centre. */
static void
test_contains_sectors (void)
{
  const double r = 8.0;
  g_autoptr (CavRegion) box = cav_region_new_box (-20.0, -20.0, 20.0, 20.0);
  guint n_told = 0;

  for (double start = 0.0; start < 360.0; start += 15.0)
    for (double sweep = 15.0; sweep < 360.0; sweep += 15.0)
      {
        g_autoptr (CavRegion) region = shapes_sector (0.0, 0.0, r, start, sweep);
        g_autoptr (CavRegion) around = cav_region_difference (box, region, NULL);

        for (double height = 0.0; height < 360.0; height += 7.5)
          for (double x = -10.0; x <= 10.0; x += 0.625)
            {
              CavPoint point = { x, r * sin (height * RADIANS) };
              gboolean close, holds = sector_holds (r, start, sweep, point, &close);

              if (close)
                continue;
              n_told++;
              g_assert_true (cav_region_contains (region, point) == holds);
              g_assert_true (cav_region_contains (around, point) == !holds);
            }
      }
  g_assert_cmpuint (n_told, >, 500000);
}

/* Against the definition of an ellipse, to a hair's breadth of the curve itself. */
static void
test_contains_ellipse_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (41));

  for (int i = 0; i < 50; i++)
    {
      double rx = g_rand_double_range (rand, 1.0, 20.0), ry = g_rand_double_range (rand, 1.0, 20.0);
      double turn = g_rand_double_range (rand, -180.0, 180.0);
      g_autoptr (CavRegion) plain = shapes_ellipse (0.0, 0.0, rx, ry);
      g_autoptr (CavRegion) region = cav_region_transformed (plain, cav_transform_rotation (turn));

      for (int k = 0; k < 200; k++)
        {
          double angle = g_rand_double_range (rand, 0.0, 2.0 * G_PI);
          double share = k % 2 == 0 ? g_rand_double_range (rand, 0.0, 2.0)
                                    : 1.0 + (k % 4 == 1 ? 1e-7 : -1e-7);
          CavPoint point = cav_transform_point (
              cav_transform_rotation (turn),
              CAV_POINT (share * rx * cos (angle), share * ry * sin (angle)));

          g_assert_true (cav_region_contains (region, point) == (share < 1.0));
        }
    }
}

/* Area by throwing points: what contains() says agrees with what get_area() says. */
static void
test_contains_against_area (void)
{
  g_autoptr (CavRegion) box = cav_region_new_box (0.0, 0.0, 20.0, 10.0);
  g_autoptr (CavRegion) cove = shapes_circle (20.0, 10.0, 7.0);
  g_autoptr (CavRegion) hole = shapes_ellipse (6.0, 5.0, 4.0, 2.0);
  g_autoptr (CavRegion) rest = shapes_difference (box, cove);
  g_autoptr (CavRegion) region = shapes_difference (rest, hole);
  guint inside = 0;

  for (int i = 0; i < 400; i++)
    for (int k = 0; k < 200; k++)
      inside += cav_region_contains (region, CAV_POINT ((i + 0.5) * 0.05, (k + 0.5) * 0.05));
  shapes_assert_near (inside * 0.0025, cav_region_get_area (region), 0.3);
  shapes_assert_near (cav_region_get_area (region), 200.0 - 49.0 * G_PI / 4.0 - 8.0 * G_PI, 1e-9);
}

static void
test_distance (void)
{
  g_autoptr (CavRegion) outer = cav_region_new_box (0.0, 0.0, 20.0, 20.0);
  g_autoptr (CavRegion) inner = shapes_circle (10.0, 10.0, 4.0);
  g_autoptr (CavRegion) region = shapes_difference (outer, inner);

  shapes_assert_near (cav_region_get_distance (region, CAV_POINT (10.0, 10.0)), 4.0, 1e-12);
  shapes_assert_near (cav_region_get_distance (region, CAV_POINT (10.0, 5.0)), 1.0, 1e-12);
  shapes_assert_near (cav_region_get_distance (region, CAV_POINT (23.0, 24.0)), 5.0, 1e-12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/measure/sectors", test_sectors);
  g_test_add_func ("/geometry/region/measure/quarter-ellipse", test_quarter_ellipse);
  g_test_add_func ("/geometry/region/measure/annulus", test_annulus);
  g_test_add_func ("/geometry/region/measure/centroid-far-away", test_centroid_far_away);
  g_test_add_func ("/geometry/region/contains/box", test_contains_box);
  g_test_add_func ("/geometry/region/contains/special", test_contains_special);
  g_test_add_func ("/geometry/region/contains/sectors", test_contains_sectors);
  g_test_add_func ("/geometry/region/contains/ellipse-random", test_contains_ellipse_random);
  g_test_add_func ("/geometry/region/contains/against-area", test_contains_against_area);
  g_test_add_func ("/geometry/region/distance", test_distance);
  return g_test_run ();
}
