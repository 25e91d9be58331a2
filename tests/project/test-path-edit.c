/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-path-edit.h"

#include <math.h>
#include <string.h>

#define NEAR 1e-9

/* A square of 10 whose third side, from (10, 10) to (0, 10), is a half circle outward. */
static CavPath *
create_arch (void)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (10.0, 0.0));
  cav_path_line_to (path, CAV_POINT (10.0, 10.0));
  cav_path_arc (path, CAV_POINT (5.0, 10.0), 5.0, 5.0, 0.0, 180.0);
  cav_path_close (path);
  return path;
}

static void
assert_at (CavPoint point, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (point.x, x, 1e-6);
  g_assert_cmpfloat_with_epsilon (point.y, y, 1e-6);
}

static double
get_area (const CavPath *path)
{
  return fabs (cav_path_get_signed_area (path));
}

static void
test_find (void)
{
  g_autoptr (CavPath) path = create_arch ();
  CavPoint nearest;
  guint segment;

  g_assert_true (cav_path_edit_find_segment (path, CAV_POINT (4.0, -0.5), 1.0, &segment, &nearest));
  g_assert_cmpuint (segment, ==, 0);
  assert_at (nearest, 4.0, 0.0);
  g_assert_true (cav_path_edit_find_segment (path, CAV_POINT (5.0, 16.0), 2.0, &segment, &nearest));
  g_assert_cmpuint (segment, ==, 2);
  assert_at (nearest, 5.0, 15.0);
  g_assert_true (cav_path_edit_find_segment (path, CAV_POINT (9.0, 13.0), 2.0, &segment, &nearest));
  assert_at (nearest, 9.0, 13.0);
  g_assert_false (cav_path_edit_find_segment (path, CAV_POINT (5.0, 5.0), 4.0, &segment, &nearest));
  g_assert_false (
      cav_path_edit_find_segment (path, CAV_POINT (99.0, 99.0), 4.0, &segment, &nearest));
}

static void
test_insert (void)
{
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) line = cav_path_edit_insert_point (path, 0, CAV_POINT (4.0, 1.0));
  g_autoptr (CavPath) arc = cav_path_edit_insert_point (path, 2, CAV_POINT (5.0, 20.0));

  g_assert_cmpuint (cav_path_get_segment_count (line), ==, 5);
  assert_at (cav_path_edit_get_point (line, 1), 4.0, 0.0);
  assert_at (cav_path_edit_get_point (line, 2), 10.0, 0.0);
  g_assert_cmpuint (cav_path_get_segment_count (arc), ==, 5);
  assert_at (cav_path_edit_get_point (arc, 3), 5.0, 15.0);
  /* The curve is still the curve. */
  g_assert_cmpfloat_with_epsilon (get_area (arc), get_area (path), NEAR);
  g_assert_cmpfloat_with_epsilon (get_area (path), 100.0 + G_PI * 12.5, NEAR);
  g_assert_null (cav_path_edit_insert_point (path, 0, CAV_POINT (0.0, 0.0)));
  g_assert_null (cav_path_edit_insert_point (path, 0, CAV_POINT (30.0, 0.0)));
}

static void
test_remove (void)
{
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) less = cav_path_edit_remove_point (path, 1);
  g_autoptr (CavPath) first = cav_path_edit_remove_point (path, 0);
  g_autoptr (CavPath) two = NULL;

  g_assert_cmpuint (cav_path_get_segment_count (less), ==, 3);
  g_assert_cmpfloat_with_epsilon (get_area (less), 50.0 + G_PI * 12.5, NEAR);
  g_assert_cmpuint (cav_path_get_segment_count (first), ==, 3);
  g_assert_cmpfloat_with_epsilon (get_area (first), 50.0 + G_PI * 12.5, NEAR);
  /* A chord and its arc are enough; a chord alone is not. */
  two = cav_path_edit_remove_point (first, 0);
  g_assert_nonnull (two);
  g_assert_cmpuint (cav_path_get_segment_count (two), ==, 2);
  g_assert_cmpfloat_with_epsilon (get_area (two), G_PI * 12.5, NEAR);
  g_assert_null (cav_path_edit_remove_point (two, 0));
}

static void
test_remove_from_triangle (void)
{
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (10.0, 0.0));
  cav_path_line_to (path, CAV_POINT (0.0, 10.0));
  cav_path_close (path);
  for (guint i = 0; i < 3; i++)
    g_assert_null (cav_path_edit_remove_point (path, i));
}

static void
test_move (void)
{
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) moved = cav_path_edit_move_point (path, 2, CAV_POINT (20.0, 10.0));

  assert_at (cav_path_edit_get_point (moved, 2), 20.0, 10.0);
  /* The half circle is one still, over the longer chord. */
  g_assert_cmpfloat_with_epsilon (cav_path_get_segment (moved, 2)->rx, 10.0, NEAR);
  g_assert_cmpfloat_with_epsilon (get_area (moved), 150.0 + G_PI * 50.0, NEAR);
  g_assert_true (cav_path_is_closed (moved));
  g_assert_null (cav_path_edit_move_point (path, 2, CAV_POINT (10.0, 0.001)));
  g_assert_null (cav_path_edit_move_point (path, 2, CAV_POINT (0.0, 10.0)));
  g_clear_pointer (&moved, cav_path_free);
  moved = cav_path_edit_move_point (path, 0, CAV_POINT (-5.0, -5.0));
  assert_at (cav_path_get_start (moved), -5.0, -5.0);
  g_assert_cmpfloat_with_epsilon (get_area (moved), 100.0 + 50.0 + G_PI * 12.5, NEAR);
}

static void
test_bulge (void)
{
  static const double bulges[] = { 5.0, 1.0, 12.0, -3.0, -5.0, 0.02 };
  g_autoptr (CavPath) path = create_arch ();

  g_assert_cmpfloat_with_epsilon (cav_path_edit_get_bulge (path, 0), 0.0, NEAR);
  /* Outward is to the right of a path that runs counter-clockwise. */
  g_assert_cmpfloat_with_epsilon (cav_path_edit_get_bulge (path, 2), 5.0, NEAR);
  for (guint i = 0; i < G_N_ELEMENTS (bulges); i++)
    {
      double h = bulges[i];
      double radius = (25.0 + h * h) / (2.0 * fabs (h));
      g_autoptr (CavPath) bent = cav_path_edit_set_bulge (path, 0, h);
      const CavSegment *arc = cav_path_get_segment (bent, 0);

      g_assert_cmpint (arc->kind, ==, CAV_SEGMENT_ARC);
      g_assert_cmpfloat_with_epsilon (arc->rx, radius, 1e-9 * radius);
      g_assert_cmpfloat_with_epsilon (arc->ry, radius, 1e-9 * radius);
      assert_at (cav_segment_point_at (arc, 0.0), 0.0, 0.0);
      assert_at (cav_segment_point_at (arc, 1.0), 10.0, 0.0);
      assert_at (cav_segment_point_at (arc, 0.5), 5.0, -h);
      g_assert_cmpfloat_with_epsilon (cav_path_edit_get_bulge (bent, 0), h, 1e-7);
    }
}

static void
test_bend_through (void)
{
  static const CavPoint points[] = { { 3.0, -2.0 }, { 8.0, 4.0 }, { 5.0, -5.0 }, { -1.0, -6.0 } };
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) flat = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (points); i++)
    {
      g_autoptr (CavPath) bent = cav_path_edit_bend_through (path, 0, points[i]);
      const CavSegment *arc = cav_path_get_segment (bent, 0);

      g_assert_cmpint (arc->kind, ==, CAV_SEGMENT_ARC);
      g_assert_cmpfloat_with_epsilon (cav_segment_distance (arc, points[i]), 0.0, 1e-6);
    }
  flat = cav_path_edit_bend_through (path, 0, CAV_POINT (5.0, 0.001));
  g_assert_cmpint (cav_path_get_segment (flat, 0)->kind, ==, CAV_SEGMENT_LINE);
}

static void
test_straighten (void)
{
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) square = cav_path_edit_straighten (path, 2);
  g_autoptr (CavPath) again = cav_path_edit_set_bulge (square, 2, 5.0);

  g_assert_cmpint (cav_path_get_segment (square, 2)->kind, ==, CAV_SEGMENT_LINE);
  g_assert_cmpfloat_with_epsilon (get_area (square), 100.0, NEAR);
  g_assert_cmpfloat_with_epsilon (get_area (again), get_area (path), NEAR);
}

static void
test_check (void)
{
  g_autoptr (CavPath) path = create_arch ();
  g_autoptr (CavPath) crossed = cav_path_edit_move_point (path, 0, CAV_POINT (15.0, 5.0));
  g_autoptr (GError) error = NULL;

  g_assert_true (cav_path_edit_check (path, &error));
  g_assert_no_error (error);
  g_assert_false (cav_path_edit_check (crossed, &error));
  g_assert_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH);
  g_assert_nonnull (strstr (error->message, "crosses itself"));
}

/* Whatever is done to a path, it stays closed and in one run. */
static void
test_random_edits (void)
{
  g_autoptr (CavPath) path = create_arch ();

  for (int i = 0; i < 500; i++)
    {
      guint n = cav_path_get_segment_count (path);
      guint at = (guint)g_test_rand_int_range (0, (gint32)n);
      CavPoint point
          = CAV_POINT (g_test_rand_double_range (-20, 20), g_test_rand_double_range (-20, 20));
      CavPath *next = NULL;

      switch (g_test_rand_int_range (0, 5))
        {
        case 0:
          next = n < 30 ? cav_path_edit_insert_point (path, at, point) : NULL;
          break;
        case 1:
          next = cav_path_edit_remove_point (path, at);
          break;
        case 2:
          next = cav_path_edit_move_point (path, at, point);
          break;
        case 3:
          next = cav_path_edit_bend_through (path, at, point);
          break;
        case 4:
          next = cav_path_edit_set_bulge (path, at, point.x);
          break;
        }
      if (next == NULL)
        continue;
      cav_path_free (path);
      path = next;
      n = cav_path_get_segment_count (path);
      g_assert_cmpuint (n, >=, 2);
      g_assert_true (cav_path_is_closed (path) && cav_path_is_finite (path));
      for (guint k = 0; k < n; k++)
        {
          const CavSegment *segment = cav_path_get_segment (path, k);
          CavPoint end = cav_segment_point_at (segment, 1.0);
          double scale = 1.0 + fmax (segment->rx, segment->ry);

          assert_at (segment->to, cav_path_edit_get_point (path, (k + 1) % n).x,
                     cav_path_edit_get_point (path, (k + 1) % n).y);
          g_assert_cmpfloat_with_epsilon (end.x, segment->to.x, 1e-6 * scale);
          g_assert_cmpfloat_with_epsilon (end.y, segment->to.y, 1e-6 * scale);
        }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/path-edit/find", test_find);
  g_test_add_func ("/project/path-edit/insert", test_insert);
  g_test_add_func ("/project/path-edit/remove", test_remove);
  g_test_add_func ("/project/path-edit/remove-from-triangle", test_remove_from_triangle);
  g_test_add_func ("/project/path-edit/move", test_move);
  g_test_add_func ("/project/path-edit/bulge", test_bulge);
  g_test_add_func ("/project/path-edit/bend-through", test_bend_through);
  g_test_add_func ("/project/path-edit/straighten", test_straighten);
  g_test_add_func ("/project/path-edit/check", test_check);
  g_test_add_func ("/project/path-edit/random-edits", test_random_edits);
  return g_test_run ();
}
