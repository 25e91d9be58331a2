/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-wall.h"

/* A blank of 40 x 20 with a profile that is low: from the outside a wall stands beside a slot. */
static void
check (double from, double to, gboolean expected)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0, 0, 40, 20);
  g_autoptr (CavRegion) profile = cav_region_new_box (0, 0, 40, 6);
  g_autoptr (CavRegion) swept = cav_region_new_box (from, 8, to, 30);
  g_autoptr (CavRegion) after = cav_region_difference (blank, swept, NULL);
  const CavPlan plan = { .blank = { 40, 20 }, .profile = profile };
  const CavPass pass = { .after = after, .swept = swept };
  CavThinWall wall;

  g_assert_cmpint (cav_pass_find_thin_wall (&plan, &pass, &wall), ==, expected);
  if (!expected)
    return;
  g_assert_cmpint (wall.near, ==, CAV_SIDE_OUTSIDE);
  g_assert_cmpfloat_with_epsilon (wall.thickness, 40 - to, 1e-3);
  g_assert_cmpfloat_with_epsilon (wall.height, 12, 0.06);
  g_assert_cmpfloat_with_epsilon (wall.from, (40 - to) / 2, 1e-3);
}

static void
test_upright (void)
{
  check (35, 38.5, TRUE);
  check (35, 37.9, FALSE);
}

/* Between two lying faces: a slot from the inside under the face. */
static void
test_lying (void)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0, 0, 40, 20);
  g_autoptr (CavRegion) profile = cav_region_new_box (0, 0, 40, 6);
  g_autoptr (CavRegion) swept = cav_region_new_box (-5, 15, 16, 18.2);
  g_autoptr (CavRegion) after = cav_region_difference (blank, swept, NULL);
  const CavPlan plan = { .blank = { 40, 20 }, .profile = profile };
  const CavPass pass = { .after = after, .swept = swept };
  CavThinWall wall;

  g_assert_true (cav_pass_find_thin_wall (&plan, &pass, &wall));
  g_assert_cmpint (wall.near, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat_with_epsilon (wall.thickness, 1.8, 1e-3);
  g_assert_cmpfloat_with_epsilon (wall.height, 16, 0.06);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/wall/upright", test_upright);
  g_test_add_func ("/milling/wall/lying", test_lying);
  return g_test_run ();
}
