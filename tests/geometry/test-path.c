/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-path.h"

#include "geometry-shapes.h"

static CavPath *
new_square (double side)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (side, 0.0));
  cav_path_line_to (path, CAV_POINT (side, side));
  cav_path_line_to (path, CAV_POINT (0.0, side));
  cav_path_close (path);
  return path;
}

static void
test_empty (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (GArray) points = cav_path_linearise (path, 0.01);
  CavBox box = cav_path_get_bounds (path);

  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 0);
  g_assert_true (!cav_path_is_closed (path));
  shapes_assert_exact (cav_path_get_length (path), 0.0);
  g_assert_cmpfloat (box.x1, <, box.x0);
  g_assert_cmpuint (points->len, ==, 0);
  cav_path_close (path);
  g_assert_true (!cav_path_is_closed (path));
  cav_path_free (NULL);
}

static void
test_square (void)
{
  g_autoptr (CavPath) path = new_square (10.0);
  g_autoptr (GArray) points = cav_path_linearise (path, 0.01);
  CavBox box = cav_path_get_bounds (path);

  g_assert_true (cav_path_is_closed (path));
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 4);
  shapes_assert_exact (cav_path_get_length (path), 40.0);
  shapes_assert_exact (cav_path_get_signed_area (path), 100.0);
  shapes_assert_exact (box.x0 + box.y0, 0.0);
  shapes_assert_exact (box.x1 + box.y1, 20.0);
  g_assert_cmpuint (points->len, ==, 4);
  shapes_assert_exact (cav_path_get_distance (path, CAV_POINT (5.0, 4.0)), 4.0);
  shapes_assert_exact (cav_path_get_distance (path, CAV_POINT (13.0, 14.0)), 5.0);
  cav_path_close (path);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 4);
}

static void
test_open (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (GArray) points = NULL;

  cav_path_move_to (path, CAV_POINT (1.0, 1.0));
  cav_path_line_to (path, CAV_POINT (4.0, 5.0));
  points = cav_path_linearise (path, 0.01);
  g_assert_true (!cav_path_is_closed (path));
  g_assert_cmpuint (points->len, ==, 2);
  shapes_assert_exact (cav_path_get_length (path), 5.0);
  shapes_assert_point (cav_path_get_start (path), 1.0, 1.0, 0.0);
}

/* An arc that begins elsewhere gets a line to its start; one that begins here gets none. */
static void
test_arc_joins (void)
{
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_arc (path, CAV_POINT (0.0, 0.0), 5.0, 5.0, 0.0, 90.0);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 1);
  shapes_assert_point (cav_path_get_start (path), 5.0, 0.0, 0.0);
  cav_path_arc (path, CAV_POINT (-5.0, 5.0), 5.0, 5.0, 0.0, 90.0);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  cav_path_arc (path, CAV_POINT (-10.0, 0.0), 2.0, 1.0, 0.0, -90.0);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 4);
  g_assert_true (cav_path_get_segment (path, 2)->kind == CAV_SEGMENT_LINE);
  cav_path_close (path);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 5);
  for (guint i = 0; i < 5; i++)
    g_assert_true (cav_point_near (cav_path_get_segment (path, i)->to,
                                   cav_path_get_segment (path, (i + 1) % 5)->from, 0.0));
}

static void
test_short_segments (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  CavSegment thin = cav_segment_arc (CAV_POINT (0.0, 0.0), 3.0, 1e-9, 0.0, 0.0, 180.0);

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (5e-7, 0.0));
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 0);
  cav_path_line_to (path, CAV_POINT (3.0, 0.0));
  cav_path_arc (path, CAV_POINT (0.0, 0.0), 3.0, 3.0, 0.0, 1e-6);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 1);
  /* An arc without breadth is a line. */
  cav_path_append (path, &thin);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  g_assert_true (cav_path_get_segment (path, 1)->kind == CAV_SEGMENT_LINE);
  /* An end next to the start is the start. */
  cav_path_line_to (path, CAV_POINT (1.0, 7.0));
  cav_path_line_to (path, CAV_POINT (4e-7, 4e-7));
  cav_path_close (path);
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 4);
  shapes_assert_point (cav_path_get_segment (path, 3)->to, 0.0, 0.0, 0.0);
}

/* Signed areas against the closed formulas of a textbook. */
static void
test_areas (void)
{
  static const struct
  {
    const char *desc;
    double rx, ry, start, sweep;
    gboolean through_centre;
    double area;
  } rows[] = {
    { "circle", 3.0, 3.0, 10.0, 360.0, FALSE, 9.0 * G_PI },
    { "circle, clockwise", 3.0, 3.0, 10.0, -360.0, FALSE, -9.0 * G_PI },
    { "ellipse", 3.0, 2.0, 77.0, 360.0, FALSE, 6.0 * G_PI },
    { "half circle", 2.0, 2.0, 30.0, 180.0, FALSE, 2.0 * G_PI },
    { "quarter", 2.0, 2.0, 90.0, 90.0, TRUE, G_PI },
    { "quarter of an ellipse", 4.0, 1.0, 180.0, -90.0, TRUE, -G_PI },
    { "segment of a quarter turn", 2.0, 2.0, 45.0, 90.0, FALSE, G_PI - 2.0 },
    { "three quarters", 2.0, 2.0, 0.0, 270.0, TRUE, 3.0 * G_PI },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavPath) path = cav_path_new ();

      g_test_message ("%s", rows[i].desc);
      if (rows[i].through_centre)
        cav_path_move_to (path, CAV_POINT (50.0, -20.0));
      cav_path_arc (path, CAV_POINT (50.0, -20.0), rows[i].rx, rows[i].ry, rows[i].start,
                    rows[i].sweep);
      cav_path_close (path);
      shapes_assert_near (cav_path_get_signed_area (path), rows[i].area, 1e-11);
    }
}

/* What a quarter circle leaves of its square: r² (1 - pi / 4). */
static void
test_spandrel (void)
{
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (6.0, 0.0));
  cav_path_arc (path, CAV_POINT (6.0, 6.0), 6.0, 6.0, 270.0, -90.0);
  cav_path_close (path);
  shapes_assert_near (cav_path_get_signed_area (path), 36.0 * (1.0 - G_PI / 4.0), 1e-12);
}

static void
test_reversed (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavPath) back = NULL;

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (10.0, 0.0));
  cav_path_arc (path, CAV_POINT (5.0, 0.0), 5.0, 7.0, 0.0, 120.0);
  cav_path_close (path);
  back = cav_path_reversed (path);
  g_assert_true (cav_path_is_closed (back));
  shapes_assert_near (cav_path_get_signed_area (back), -cav_path_get_signed_area (path), 1e-12);
  shapes_assert_near (cav_path_get_length (back), cav_path_get_length (path), 1e-12);
  g_assert_true (cav_point_near (cav_path_get_segment (back, 0)->from,
                                 cav_path_get_segment (path, 2)->to, 0.0));
}

static void
test_transformed (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavPath) mirrored = NULL;
  g_autoptr (CavPath) sheared = NULL;
  CavTransform shear = { 1.0, 0.8, 5.0, 0.0, 2.0, -3.0 };
  double area;

  cav_path_arc (path, CAV_POINT (5.0, 0.0), 5.0, 7.0, 0.0, 250.0);
  cav_path_close (path);
  area = cav_path_get_signed_area (path);
  mirrored = cav_path_transformed (path, cav_transform_scale (-1.0, 1.0));
  sheared = cav_path_transformed (path, shear);
  shapes_assert_near (cav_path_get_signed_area (mirrored), -area, 1e-11);
  shapes_assert_near (cav_path_get_signed_area (sheared), 2.0 * area, 1e-10);
  g_assert_true (cav_path_is_closed (sheared));
}

static void
test_copy_is_apart (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavPath) copy = NULL;

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (1.0, 0.0));
  copy = cav_path_copy (path);
  cav_path_line_to (path, CAV_POINT (1.0, 1.0));
  g_assert_cmpuint (cav_path_get_segment_count (path), ==, 2);
  g_assert_cmpuint (cav_path_get_segment_count (copy), ==, 1);
}

static void
test_not_finite (void)
{
  for (int i = 0; i < 6; i++)
    {
      g_autoptr (CavPath) path = cav_path_new ();
      CavSegment line = cav_segment_line (CAV_POINT (0.0, NAN), CAV_POINT (1.0, 0.0));
      double bad = i % 2 == 0 ? NAN : INFINITY;

      if (i < 2)
        cav_path_move_to (path, CAV_POINT (bad, 0.0));
      else
        cav_path_move_to (path, CAV_POINT (0.0, 0.0));
      cav_path_line_to (path, CAV_POINT (4.0, i < 4 ? bad : 0.0));
      cav_path_line_to (path, CAV_POINT (4.0, 3.0));
      if (i == 4)
        cav_path_arc (path, CAV_POINT (0.0, 0.0), 5.0, 5.0, bad, 90.0);
      if (i == 5)
        cav_path_append (path, &line);
      cav_path_close (path);
      g_assert_true (!cav_path_is_finite (path));
      g_assert_true (isfinite (cav_path_get_length (path)));
      g_assert_true (isfinite (cav_path_get_distance (path, CAV_POINT (1.0, 1.0))));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/path/empty", test_empty);
  g_test_add_func ("/geometry/path/square", test_square);
  g_test_add_func ("/geometry/path/open", test_open);
  g_test_add_func ("/geometry/path/arc-joins", test_arc_joins);
  g_test_add_func ("/geometry/path/short-segments", test_short_segments);
  g_test_add_func ("/geometry/path/areas", test_areas);
  g_test_add_func ("/geometry/path/spandrel", test_spandrel);
  g_test_add_func ("/geometry/path/reversed", test_reversed);
  g_test_add_func ("/geometry/path/transformed", test_transformed);
  g_test_add_func ("/geometry/path/copy-is-apart", test_copy_is_apart);
  g_test_add_func ("/geometry/path/not-finite", test_not_finite);
  return g_test_run ();
}
