/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-tool-outline.h"

#include <math.h>

#include "drawing-tools.h"
#include "geometry/cav-region.h"
#include "shop/cav-shop.h"

/* Dots to the millimetre, and the dot of the origin. */
#define SCALE 8.0
#define SIZE 640
#define ORIGIN_X 320
#define ORIGIN_Y 80

typedef struct
{
  int x0, y0, x1, y1;
} Extent;

static cairo_surface_t *
draw (const CavCutter *cutter, const CavBlade *blade)
{
  const CavToolLook look = { .scale = SCALE };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, SIZE, SIZE);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_translate (cr, ORIGIN_X, ORIGIN_Y);
  if (cutter != NULL)
    cav_cutter_draw_picture (cr, cutter, &look);
  else
    cav_blade_draw_picture (cr, blade, &look);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static Extent
find_extent (cairo_surface_t *surface, int from_y, int to_y)
{
  Extent extent = { G_MAXINT, G_MAXINT, -1, -1 };

  for (int y = from_y; y < to_y; y++)
    for (int x = 0; x < SIZE; x++)
      if (tool_get_colour (surface, x, y) != 0xffffff)
        {
          extent.x0 = MIN (extent.x0, x);
          extent.x1 = MAX (extent.x1, x);
          extent.y0 = MIN (extent.y0, y);
          extent.y1 = MAX (extent.y1, y);
        }
  return extent;
}

/* Lines are 1.3 dots wide and half of that lies outside, at either end; smoothing touches one dot
 * more at either end. */
static void
assert_near (int dots, double millimetres)
{
  g_assert_cmpfloat_with_epsilon (dots, millimetres * SCALE, 3.5);
}

/* Every cutter of the stock shop is as wide as twice its greatest radius or its shank, and as
 * long as its cutting part and a piece of shank. */
static void
test_cutters_are_to_scale (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  g_assert_cmpuint (shop->cutters->len, >, 10);
  for (guint i = 0; i < shop->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (shop->cutters, i);
      CavBox box = cav_cutter_get_picture_box (cutter);
      cairo_surface_t *surface = draw (cutter, NULL);
      Extent extent = find_extent (surface, 0, SIZE);
      double widest = fmax (2 * cav_cutter_get_greatest_radius (cutter), cutter->shank);

      g_test_message ("%s", cutter->id);
      g_assert_cmpfloat_with_epsilon (box.x1 - box.x0, widest, 1e-9);
      g_assert_cmpfloat (box.y1, >, cutter->length);
      assert_near (extent.x1 - extent.x0 + 1, widest);
      assert_near (extent.y0 - ORIGIN_Y, box.y0);
      assert_near (extent.y1 - extent.y0 + 1, box.y1 - box.y0);
      cairo_surface_destroy (surface);
    }
}

/* The area of the closed outline is twice the integral of r over z. */
static double
measure_area (const CavPath *path)
{
  return fabs (cav_path_get_signed_area (path));
}

static void
test_cutter_paths_have_their_area (void)
{
  static const struct
  {
    const char *desc;
    CavCutterFamily family;
    double numbers[CAV_N_CUTTER_NUMBERS];
    double area;
  } rows[] = {
    { "straight",
      CAV_CUTTER_STRAIGHT,
      { [CAV_CUTTER_DIAMETER] = 10, [CAV_CUTTER_CUTTING_LENGTH] = 20 },
      200 },
    { "half circle and straight",
      CAV_CUTTER_ROUND_NOSE,
      { [CAV_CUTTER_DIAMETER] = 10, [CAV_CUTTER_CUTTING_LENGTH] = 20 },
      G_PI * 25 / 2 + 150 },
    { "two hollows of a quarter circle",
      CAV_CUTTER_ROUND_OVER,
      { [CAV_CUTTER_RADIUS] = 6, [CAV_CUTTER_TIP_DIAMETER] = 8, [CAV_CUTTER_CUTTING_LENGTH] = 9 },
      20 * 9 - G_PI * 36 / 2 },
    { "roof",
      CAV_CUTTER_VEE,
      { [CAV_CUTTER_ANGLE] = 90, [CAV_CUTTER_DIAMETER] = 20, [CAV_CUTTER_CUTTING_LENGTH] = 10 },
      100 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavCutter) cutter = cav_cutter_new ("c", rows[i].family, rows[i].numbers, &error);
      g_autoptr (CavPath) path = NULL;

      g_test_message ("%s", rows[i].desc);
      g_assert_no_error (error);
      path = cav_cutter_create_picture_path (cutter);
      g_assert_true (cav_path_is_closed (path));
      g_assert_cmpfloat_with_epsilon (measure_area (path), rows[i].area, 1e-6);
    }
}

static void
test_cutters_are_symmetric (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autoptr (CavPath) path = cav_cutter_create_picture_path (cav_shop_find_cutter (shop, "ogee-4"));
  CavBox box = cav_path_get_bounds (path);

  g_assert_cmpfloat_with_epsilon (box.x0, -box.x1, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1, 10, 1e-9);
}

static void
test_bearing_stands_above_the_tip (void)
{
  const double numbers[CAV_N_CUTTER_NUMBERS] = {
    [CAV_CUTTER_RADIUS] = 6.35, [CAV_CUTTER_TIP_DIAMETER] = 6.4, [CAV_CUTTER_CUTTING_LENGTH] = 9.35
  };
  g_autoptr (GError) error = NULL;
  g_autoptr (CavCutter) cutter = cav_cutter_new ("c", CAV_CUTTER_ROUND_OVER, numbers, &error);
  cairo_surface_t *surface;
  Extent above;

  g_assert_no_error (error);
  cav_cutter_set_pilot (cutter, 6.35, 5);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_picture_box (cutter).y0, -5, 1e-9);
  surface = draw (cutter, NULL);
  above = find_extent (surface, 0, ORIGIN_Y - 2);
  assert_near (above.x1 - above.x0 + 1, 12.7);
  assert_near (ORIGIN_Y - above.y0, 5);
  cairo_surface_destroy (surface);
}

/* Teeth as wide as the kerf, the body below them narrower. */
static void
test_blade_is_to_scale (void)
{
  static const CavGrind grinds[] = { CAV_GRIND_FLAT, CAV_GRIND_ALTERNATE };

  for (guint i = 0; i < G_N_ELEMENTS (grinds); i++)
    {
      g_autoptr (CavBlade) blade = cav_blade_new ("b", 254, 3.2);
      CavBox box = cav_blade_get_picture_box (blade);
      cairo_surface_t *surface;
      Extent teeth;
      Extent body;

      blade->grind = grinds[i];
      surface = draw (NULL, blade);
      teeth = find_extent (surface, 0, ORIGIN_Y + 40);
      body = find_extent (surface, ORIGIN_Y + 80, SIZE);
      assert_near (teeth.x1 - teeth.x0 + 1, 3.2);
      assert_near (teeth.y0 - ORIGIN_Y, 0);
      g_assert_cmpint (body.x1 - body.x0, <, teeth.x1 - teeth.x0 - 4);
      assert_near (body.y1 - ORIGIN_Y, box.y1);
      /* Flat teeth are dark in the middle of the crown, between alternate ones there is air. */
      g_assert_true ((tool_get_colour (surface, ORIGIN_X, ORIGIN_Y + 1) != 0xffffff)
                     == (grinds[i] == CAV_GRIND_FLAT));
      cairo_surface_destroy (surface);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/tool-outline/cutters-to-scale", test_cutters_are_to_scale);
  g_test_add_func ("/drawing/tool-outline/areas", test_cutter_paths_have_their_area);
  g_test_add_func ("/drawing/tool-outline/symmetric", test_cutters_are_symmetric);
  g_test_add_func ("/drawing/tool-outline/bearing", test_bearing_stands_above_the_tip);
  g_test_add_func ("/drawing/tool-outline/blade", test_blade_is_to_scale);
  return g_test_run ();
}
