/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-placement.h"

#include <math.h>

/* The table of the milling model: what v is with a side down, what u with a side at the fence. */
typedef struct
{
  CavSide down;
  CavSide against;
  double u; /* of the point 7, 3 in a blank of 60 x 22 */
  double v;
} Row;

static const Row rows[] = {
  { CAV_SIDE_BACK, CAV_SIDE_INSIDE, 7, 3 },   { CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 53, 3 },
  { CAV_SIDE_FACE, CAV_SIDE_INSIDE, 7, 19 },  { CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 53, 19 },
  { CAV_SIDE_INSIDE, CAV_SIDE_BACK, 3, 7 },   { CAV_SIDE_INSIDE, CAV_SIDE_FACE, 19, 7 },
  { CAV_SIDE_OUTSIDE, CAV_SIDE_BACK, 3, 53 }, { CAV_SIDE_OUTSIDE, CAV_SIDE_FACE, 19, 53 },
};

static const CavBlank blank = { 60, 22 };

static void
test_transform (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavTransform map = cav_placement_get_transform (&blank, rows[i].down, rows[i].against);
      CavTransform back = cav_placement_get_inverse (&blank, rows[i].down, rows[i].against);
      CavPoint there = cav_transform_point (map, CAV_POINT (7, 3));
      CavPoint again = cav_transform_point (back, there);

      g_test_message ("%s down, %s at the fence", cav_side_to_string (rows[i].down),
                      cav_side_to_string (rows[i].against));
      g_assert_cmpfloat_with_epsilon (there.x, rows[i].u, 1e-12);
      g_assert_cmpfloat_with_epsilon (there.y, rows[i].v, 1e-12);
      g_assert_cmpfloat_with_epsilon (again.x, 7, 1e-12);
      g_assert_cmpfloat_with_epsilon (again.y, 3, 1e-12);
    }
}

/* Side down lies on v = 0 and side at the fence on u = 0, all over the blank's four corners. */
static void
test_corners (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavTransform map = cav_placement_get_transform (&blank, rows[i].down, rows[i].against);
      double reach = cav_placement_get_reach (&blank, rows[i].down);
      double height = cav_placement_get_height (&blank, rows[i].down);

      for (int corner = 0; corner < 4; corner++)
        {
          CavPoint at = { corner & 1 ? 60 : 0, corner & 2 ? 22 : 0 };
          CavPoint there = cav_transform_point (map, at);
          gboolean on_down = rows[i].down == ((corner & 2) ? CAV_SIDE_FACE : CAV_SIDE_BACK)
                             || rows[i].down == ((corner & 1) ? CAV_SIDE_OUTSIDE : CAV_SIDE_INSIDE);
          gboolean on_fence
              = rows[i].against == ((corner & 2) ? CAV_SIDE_FACE : CAV_SIDE_BACK)
                || rows[i].against == ((corner & 1) ? CAV_SIDE_OUTSIDE : CAV_SIDE_INSIDE);

          g_assert_cmpfloat_with_epsilon (there.x, on_fence ? 0 : reach, 1e-12);
          g_assert_cmpfloat_with_epsilon (there.y, on_down ? 0 : height, 1e-12);
        }
    }
}

static void
test_possible (void)
{
  guint n = 0;

  for (int down = 0; down < CAV_N_SIDES; down++)
    for (int against = 0; against < CAV_N_SIDES; against++)
      {
        gboolean listed = FALSE;

        for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
          listed |= rows[i].down == (CavSide)down && rows[i].against == (CavSide)against;
        g_assert_cmpint (cav_placement_is_possible ((CavSide)down, (CavSide)against), ==, listed);
        n += listed;
      }
  g_assert_cmpuint (n, ==, 8);
}

static void
test_extent (void)
{
  g_assert_cmpfloat_with_epsilon (cav_placement_get_reach (&blank, CAV_SIDE_BACK), 60, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_placement_get_reach (&blank, CAV_SIDE_OUTSIDE), 22, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_placement_get_height (&blank, CAV_SIDE_FACE), 22, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_placement_get_height (&blank, CAV_SIDE_INSIDE), 60, 1e-12);
}

static void
test_sides (void)
{
  g_assert_cmpint (cav_side_get_opposite (CAV_SIDE_BACK), ==, CAV_SIDE_FACE);
  g_assert_cmpint (cav_side_get_opposite (CAV_SIDE_FACE), ==, CAV_SIDE_BACK);
  g_assert_cmpint (cav_side_get_opposite (CAV_SIDE_INSIDE), ==, CAV_SIDE_OUTSIDE);
  g_assert_cmpint (cav_side_get_opposite (CAV_SIDE_OUTSIDE), ==, CAV_SIDE_INSIDE);
  g_assert_true (cav_side_is_flat (CAV_SIDE_BACK));
  g_assert_true (cav_side_is_flat (CAV_SIDE_FACE));
  g_assert_false (cav_side_is_flat (CAV_SIDE_INSIDE));
  g_assert_false (cav_side_is_flat (CAV_SIDE_OUTSIDE));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/placement/transform", test_transform);
  g_test_add_func ("/milling/placement/corners", test_corners);
  g_test_add_func ("/milling/placement/possible", test_possible);
  g_test_add_func ("/milling/placement/extent", test_extent);
  g_test_add_func ("/milling/placement/sides", test_sides);
  return g_test_run ();
}
