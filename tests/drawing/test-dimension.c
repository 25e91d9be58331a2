/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-dimension.h"

static const CavDimension wide = {
  .from = 20, .to = 80, .line = 30, .start_from = 10, .start_to = 12, .text = "60", .height = 3
};

static void
test_value_between_arrows (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 100);
  CavDimensionRoom room = cav_dimension_get_room (scene, &wide);

  /* ISO 129-1: the value stands above the line, at its middle. */
  g_assert_cmpfloat_with_epsilon ((room.text.x0 + room.text.x1) / 2, 50, 1e-9);
  g_assert_cmpfloat (room.text.y1, <, 30.2);
  g_assert_cmpfloat (room.text.y0, >, 25);
  g_assert_cmpfloat_with_epsilon (room.line.x0, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (room.line.x1, 80, 1e-9);
  /* Extension lines leave a gap to the part and pass the line. */
  g_assert_cmpfloat (room.extensions[0].y0, >, 10.4);
  g_assert_cmpfloat (room.extensions[1].y0, >, 12.4);
  g_assert_cmpfloat (room.extensions[0].y1, >, 31);
}

static void
test_narrow_ones_go_outside (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 100);
  CavDimension dimension = wide;
  CavDimensionRoom room;

  dimension.to = 23;
  dimension.text = "12.45";
  room = cav_dimension_get_room (scene, &dimension);
  g_assert_cmpfloat (room.text.x0, >, 23);
  g_assert_cmpfloat (room.line.x1, >=, room.text.x1);
  g_assert_cmpfloat (room.line.x0, <, 20);
  dimension.beyond_low = TRUE;
  room = cav_dimension_get_room (scene, &dimension);
  g_assert_cmpfloat (room.text.x1, <, 20);
  g_assert_cmpfloat (room.line.x0, <=, room.text.x0);
}

static void
test_upright (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 100);
  CavDimension dimension = wide;
  CavDimensionRoom room;
  const char *text;
  const CavTextStyle *style;

  dimension.upright = TRUE;
  room = cav_dimension_get_room (scene, &dimension);
  /* Read from the right: at the left of the line. */
  g_assert_cmpfloat (room.text.x1, <, 30.2);
  g_assert_cmpfloat_with_epsilon ((room.text.y0 + room.text.y1) / 2, 50, 1e-9);
  cav_dimension_draw (scene, &dimension);
  g_assert_cmpuint (cav_scene_get_text_count (scene), ==, 1);
  cav_scene_get_text (scene, 0, &text, &style);
  g_assert_cmpstr (text, ==, "60");
  g_assert_true (style->turned);
}

static void
test_nothing_to_measure (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 100);
  CavDimension dimension = wide;
  CavDimensionRoom room;

  dimension.to = dimension.from;
  dimension.text = "0";
  room = cav_dimension_get_room (scene, &dimension);
  cav_dimension_draw (scene, &dimension);
  g_assert_cmpfloat (room.text.x0, >, dimension.to);
  g_assert_cmpuint (cav_scene_get_text_count (scene), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/dimension/value-between-arrows", test_value_between_arrows);
  g_test_add_func ("/drawing/dimension/narrow-ones-go-outside", test_narrow_ones_go_outside);
  g_test_add_func ("/drawing/dimension/upright", test_upright);
  g_test_add_func ("/drawing/dimension/nothing-to-measure", test_nothing_to_measure);
  return g_test_run ();
}
