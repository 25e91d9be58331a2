/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-sweep.h"

#include <math.h>

/*
 * The crossed blade against published worked examples. L. Urban's letter to Popular Woodworking
 * gives the fence angle for a blade without thickness as asin (w / (2 sqrt (h (D - h)))); a hobby
 * tutorial of 2019, "Making Cove Profiles on a Table Saw", works an example with a kerf of 1/8 in:
 * diameter 10, depth 0.5, half width 1.5, setting triangle with legs 7.085 and 6.341. The rows
 * marked derived follow from the same relation for coves whose sizes were published without their
 * angles.
 */

#define INCH 25.4

typedef struct
{
  const char *desc;
  double diameter; /* inches, all of them */
  double width;
  double depth;
  double kerf;  /* 0: as thin as the sweep can be */
  double angle; /* degrees */
  double slack; /* of the angle as it was published */
} Example;

static const Example examples[] = {
  { "Urban's formula, 3 wide and 1/2 deep", 10, 3, 0.5, 0, 43.5, 0.05 },
  { "tutorial, the same with a kerf of 1/8", 10, 3, 0.5, 0.125, 41.83, 0.006 },
  { "derived, 2-1/2 wide and 1-1/4 deep", 10, 2.5, 1.25, 0, 22.2, 0.05 },
  { "derived, the same with a kerf of 1/8", 10, 2.5, 1.25, 0.125, 21.1, 0.05 },
  { "derived, 3-1/2 wide and 5/8 deep", 10, 3.5, 0.625, 0, 46.3, 0.05 },
  { "derived, the same with a kerf of 1/8", 10, 3.5, 0.625, 0.125, 44.8, 0.05 },
  { "derived, blade of 12, 3 wide and 3/4 deep", 12, 3, 0.75, 0.125, 29.9, 0.05 },
};

static const CavBlank blank = { 300, 60 };

/* Width of the hollow at the table, mm. */
static double
get_width (const Example *example, double angle)
{
  double kerf = example->kerf > 0 ? example->kerf * INCH : 1e-4;
  g_autoptr (CavBlade) blade = cav_blade_new ("b", example->diameter * INCH, kerf);
  CavSweepSetting setting = { .machine = CAV_MACHINE_COVE,
                              .blade = blade,
                              .angle = angle,
                              .down = CAV_SIDE_FACE,
                              .against = CAV_SIDE_INSIDE,
                              .fence = 150,
                              .height = example->depth * INCH };
  g_autoptr (GError) error = NULL;
  g_autoptr (CavRegion) swept = cav_sweep_create_region (&setting, &blank, 0, &error);
  CavBox box;

  g_assert_no_error (error);
  box = cav_region_get_bounds (swept);
  g_assert_cmpfloat_with_epsilon (box.y1 - box.y0, example->depth * INCH, 1e-6);
  return box.x1 - box.x0;
}

/* The published width lies between those of the angles that round to the published one. */
static void
test_widths (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      const Example *example = &examples[i];

      g_test_message ("%s", example->desc);
      g_assert_cmpfloat (get_width (example, example->angle - example->slack), <=,
                         example->width * INCH + 0.01);
      g_assert_cmpfloat (get_width (example, example->angle + example->slack), >=,
                         example->width * INCH - 0.01);
    }
}

/* The tutorial's setting triangle. */
static void
test_triangle (void)
{
  double angle = atan2 (6.341, 7.085) * 180 / G_PI;

  g_assert_cmpfloat_with_epsilon (angle, 41.83, 0.01);
  g_assert_cmpfloat_with_epsilon (get_width (&examples[1], angle), 3 * INCH, 0.02);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/coving/widths", test_widths);
  g_test_add_func ("/milling/coving/triangle", test_triangle);
  return g_test_run ();
}
