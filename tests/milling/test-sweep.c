/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "geometry/cav-tolerance.h"
#include "milling/cav-placement.h"

/* Sweeps against closed formulas for their areas. All areas are of what stands above the table. */

static const CavBlank blank = { 80, 40 };

static CavSweepSetting
set_saw (const CavBlade *blade, double tilt, double fence, double height)
{
  return (CavSweepSetting){ .machine = CAV_MACHINE_SAW,
                            .blade = blade,
                            .tilt = tilt,
                            .down = CAV_SIDE_BACK,
                            .against = CAV_SIDE_INSIDE,
                            .fence = fence,
                            .height = height };
}

static CavRegion *
create (const CavSweepSetting *setting, double growth)
{
  g_autoptr (GError) error = NULL;
  CavRegion *region = cav_sweep_create_region (setting, &blank, growth, &error);

  g_assert_no_error (error);
  g_assert_nonnull (region);
  return region;
}

static double
get_area (const CavSweepSetting *setting)
{
  g_autoptr (CavRegion) region = create (setting, 0);

  return cav_region_get_area (region);
}

static void
assert_bounds (const CavRegion *region, double x0, double y0, double x1, double y1, double within)
{
  CavBox box = cav_region_get_bounds (region);

  g_assert_cmpfloat_with_epsilon (box.x0, x0, within);
  g_assert_cmpfloat_with_epsilon (box.y0, y0, within);
  g_assert_cmpfloat_with_epsilon (box.x1, x1, within);
  g_assert_cmpfloat_with_epsilon (box.y1, y1, within);
}

static void
test_upright (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  CavSweepSetting setting = set_saw (blade, 0, 12, 7);
  const struct
  {
    CavSide down;
    CavSide against;
    CavBox box;
  } rows[] = {
    { CAV_SIDE_BACK, CAV_SIDE_INSIDE, { 12, 0, 15.2, 7 } },
    { CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, { 64.8, 0, 68, 7 } },
    { CAV_SIDE_FACE, CAV_SIDE_INSIDE, { 12, 33, 15.2, 40 } },
    { CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, { 64.8, 33, 68, 40 } },
    { CAV_SIDE_INSIDE, CAV_SIDE_BACK, { 0, 12, 7, 15.2 } },
    { CAV_SIDE_INSIDE, CAV_SIDE_FACE, { 0, 24.8, 7, 28 } },
    { CAV_SIDE_OUTSIDE, CAV_SIDE_BACK, { 73, 12, 80, 15.2 } },
    { CAV_SIDE_OUTSIDE, CAV_SIDE_FACE, { 73, 24.8, 80, 28 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      setting.down = rows[i].down;
      setting.against = rows[i].against;
      g_autoptr (CavRegion) region = create (&setting, 0);

      g_assert_cmpfloat_with_epsilon (cav_region_get_area (region), 3.2 * 7, 1e-9);
      assert_bounds (region, rows[i].box.x0, rows[i].box.y0, rows[i].box.x1, rows[i].box.y1, 1e-9);
    }
}

/* Grown for subtraction: wider all round, and down through the table. */
static void
test_growth (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  const double g = 0.01;
  CavSweepSetting upright = set_saw (blade, 0, 12, 7), tilted = set_saw (blade, 30, 12, 7);
  g_autoptr (CavRegion) box = create (&upright, g);
  g_autoptr (CavRegion) leaning = create (&tilted, g);
  double t = RADIANS (30), along = 7 / cos (t) + g, near = (-1 + g * -sin (t)) / cos (t);
  double far = (-1 + (3.2 + g) * sin (t)) / cos (t);

  assert_bounds (box, 12 - g, -1, 15.2 + g, 7 + g, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (box), (3.2 + 2 * g) * (8 + g), 1e-9);
  /* Between both faces, from 1 below the table to the square end. */
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (leaning),
                                  (3.2 + 2 * g) * (2 * along - near - far) / 2, 1e-9);
}

/* A kerf that leans is a strip of width k, cut off square at its end and by the table at its foot.
 * Where the end meets the table a right-angled triangle is left, whose longer face is h / cos t
 * whichever way it leans. */
static double
get_tilted_area (double k, double tilt, double height)
{
  double t = RADIANS (fabs (tilt)), longer = height / cos (t), shorter = longer - k * tan (t);

  return shorter > 0 ? k * (longer + shorter) / 2 : longer * longer / tan (t) / 2;
}

static void
test_tilted (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  static const double tilts[] = { 0.5, 10, 22.5, 45, -0.5, -10, -22.5, -45 };
  static const double heights[] = { 0.05, 0.4, 1.5, 2.0, 2.3, 12, 30 };

  for (guint i = 0; i < G_N_ELEMENTS (tilts); i++)
    for (guint j = 0; j < G_N_ELEMENTS (heights); j++)
      {
        CavSweepSetting setting = set_saw (blade, tilts[i], 40, heights[j]);
        double t = RADIANS (tilts[i]);
        g_autoptr (CavRegion) region = create (&setting, 0);
        CavBox box = cav_region_get_bounds (region);

        g_test_message ("tilt %.1f, height %.2f", tilts[i], heights[j]);
        g_assert_cmpfloat_with_epsilon (cav_region_get_area (region),
                                        get_tilted_area (3.2, tilts[i], heights[j]), 1e-9);
        /* The highest corner stands at the height, nothing below the table. */
        g_assert_cmpfloat_with_epsilon (box.y1, heights[j], 1e-9);
        g_assert_cmpfloat_with_epsilon (box.y0, 0, 1e-9);
        /* Away from the fence the near face begins at the fence distance; toward it, the far
         * face meets the table a kerf's width on. */
        if (t > 0)
          g_assert_cmpfloat_with_epsilon (box.x0, 40, 1e-9);
        else
          g_assert_cmpfloat_with_epsilon (box.x1, 40 + 3.2 / cos (t), 1e-9);
      }
}

/* Grown low kerfs hold the plain ones. */
static void
test_tilted_growth (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);

  for (double tilt = -45; tilt <= 45; tilt += 15)
    for (double height = 0.05; height < 4; height += 0.35)
      {
        CavSweepSetting setting = set_saw (blade, tilt, 40, height);
        g_autoptr (CavRegion) plain = create (&setting, 0);
        g_autoptr (CavRegion) grown = create (&setting, 0.0005);
        g_autoptr (CavRegion) outside = cav_region_difference (plain, grown, NULL);

        g_assert_cmpfloat_with_epsilon (cav_region_get_area (outside), 0, 1e-6);
        g_assert_cmpfloat_with_epsilon (cav_region_get_bounds (grown).y0, -1, 1e-9);
      }
}

/* Segment of the ellipse with half-axes (D / 2) sin a and D / 2, and the flat between its halves.
 */
static double
get_cove_area (double diameter, double kerf, double angle, double height)
{
  double b = diameter / 2, a = b * sin (RADIANS (angle)), s = 1 - height / b;

  return a * b * (acos (s) - s * sqrt (1 - s * s)) + kerf * cos (RADIANS (angle)) * height;
}

static void
test_cove (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  static const double angles[] = { 8, 24.5, 45, 60 }, heights[] = { 0.4, 3, 12.5, 40 };

  for (guint i = 0; i < G_N_ELEMENTS (angles); i++)
    for (guint j = 0; j < G_N_ELEMENTS (heights); j++)
      {
        CavSweepSetting setting = { .machine = CAV_MACHINE_COVE,
                                    .blade = blade,
                                    .angle = angles[i],
                                    .down = CAV_SIDE_FACE,
                                    .against = CAV_SIDE_OUTSIDE,
                                    .fence = 35,
                                    .height = heights[j] };
        double half = sin (RADIANS (angles[i])) * sqrt (heights[j] * (254 - heights[j]))
                      + 1.6 * cos (RADIANS (angles[i]));
        g_autoptr (CavRegion) region = create (&setting, 0);
        double area = cav_region_get_area (region);
        double exact = get_cove_area (254, 3.2, angles[i], heights[j]);

        g_test_message ("angle %.1f, height %.1f", angles[i], heights[j]);
        g_assert_cmpfloat (area, <=, exact + 1e-9);
        g_assert_cmpfloat (area, >=, exact - 2 * half * CAV_TOLERANCE_CHORD);
        assert_bounds (region, 45 - half, 40 - heights[j], 45 + half, 40, 1e-6);
        g_assert_cmpfloat_with_epsilon (cav_sweep_get_near_edge (&setting), 35 - half, 1e-9);
        g_assert_cmpfloat_with_epsilon (cav_sweep_get_middle (&setting), 35, 1e-9);
      }
}

static CavSweepSetting
set_router (const CavCutter *cutter, double fence, double height)
{
  return (CavSweepSetting){ .machine = CAV_MACHINE_ROUTER,
                            .cutter = cutter,
                            .down = CAV_SIDE_FACE,
                            .against = CAV_SIDE_INSIDE,
                            .fence = fence,
                            .height = height };
}

static CavCutter *
create_cutter (CavCutterFamily family, const double *numbers)
{
  g_autoptr (GError) error = NULL;
  CavCutter *cutter = cav_cutter_new ("tried", family, numbers, &error);

  g_assert_no_error (error);
  return cutter;
}

static void
test_cutters (void)
{
  const double straight[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_DIAMETER] = 12.7, [CAV_CUTTER_CUTTING_LENGTH] = 30 };
  const double nose[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_RADIUS] = 6, [CAV_CUTTER_DIAMETER] = 12, [CAV_CUTTER_CUTTING_LENGTH] = 20 };
  const double vee[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_ANGLE] = 90, [CAV_CUTTER_DIAMETER] = 19, [CAV_CUTTER_CUTTING_LENGTH] = 12 };
  const double dovetail[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_ANGLE] = 10, [CAV_CUTTER_DIAMETER] = 12, [CAV_CUTTER_CUTTING_LENGTH] = 15 };
  g_autoptr (CavCutter) a = create_cutter (CAV_CUTTER_STRAIGHT, straight);
  g_autoptr (CavCutter) b = create_cutter (CAV_CUTTER_ROUND_NOSE, nose);
  g_autoptr (CavCutter) c = create_cutter (CAV_CUTTER_VEE, vee);
  g_autoptr (CavCutter) d = create_cutter (CAV_CUTTER_DOVETAIL, dovetail);
  CavSweepSetting upright = set_router (a, 20, 8.35), round = set_router (b, 20, 10);
  CavSweepSetting low = set_router (b, 20, 2.5), pointed = set_router (c, 20, 7);
  CavSweepSetting waisted = set_router (d, 20, 9);
  /* The circle's segment of height h. */
  double segment = 36 * acos (1 - 2.5 / 6) - 3.5 * sqrt (36 - 3.5 * 3.5);

  g_assert_cmpfloat_with_epsilon (get_area (&upright), 12.7 * 8.35, 1e-9);
  g_assert_cmpfloat_with_epsilon (get_area (&round), G_PI * 18 + 12 * 4, 12 * 0.005);
  g_assert_cmpfloat_with_epsilon (get_area (&low), segment, 12 * 0.005);
  g_assert_cmpfloat_with_epsilon (get_area (&pointed), 49, 1e-6);
  g_assert_cmpfloat_with_epsilon (get_area (&waisted), 9 * (12 - 9 * tan (RADIANS (10))), 1e-6);
}

/* Any silhouette: twice the integral of r down to the table. */
static void
test_silhouettes (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  for (guint i = 0; i < shop->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (shop->cutters, i);

      for (double share = 0.1; share <= 1; share += 0.18)
        {
          double height = share * cutter->length, area = 0;
          CavSweepSetting setting = set_router (cutter, 30, height);

          for (guint k = 1; k < cutter->silhouette->len; k++)
            {
              CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, k - 1);
              CavSilhouettePoint q = g_array_index (cutter->silhouette, CavSilhouettePoint, k);
              double to = fmin (q.z, height), r = q.r;

              if (to <= p.z)
                continue;
              r = p.r + (to - p.z) / (q.z - p.z) * (q.r - p.r);
              area += (p.r + r) * (to - p.z);
            }
          g_assert_cmpfloat_with_epsilon (get_area (&setting), area, 1e-4);
        }
    }
}

static void
test_edges (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  CavSweepSetting upright = set_saw (blade, 0, 25, 10), tilted = set_saw (blade, -30, 25, 10);

  g_assert_cmpfloat_with_epsilon (cav_sweep_get_middle (&upright), 26.6, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_sweep_get_middle (&tilted), 25 + 1.6 / cos (RADIANS (30)),
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_sweep_get_near_edge (&upright), 25, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_sweep_get_near_edge (&tilted), 25, 1e-9);
}

static void
test_pilot (void)
{
  const double cove[CAV_N_CUTTER_NUMBERS] = { [CAV_CUTTER_RADIUS] = 6.35,
                                              [CAV_CUTTER_TIP_DIAMETER] = 12.7,
                                              [CAV_CUTTER_DIAMETER] = 25.4,
                                              [CAV_CUTTER_CUTTING_LENGTH] = 12 };
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254, 3.2);
  g_autoptr (CavCutter) cutter = create_cutter (CAV_CUTTER_COVE, cove);
  CavSweepSetting setting = set_router (cutter, 3, 8), saw = set_saw (blade, 0, 12, 7);

  g_assert_null (cav_sweep_create_pilot (&setting, &blank, 0));
  g_assert_null (cav_sweep_create_pilot (&saw, &blank, 0));
  cav_cutter_set_pilot (cutter, 6, 5);
  g_autoptr (CavRegion) whole = cav_sweep_create_pilot (&setting, &blank, 0);
  g_autoptr (CavRegion) inner = cav_sweep_create_pilot (&setting, &blank, 0.02);

  assert_bounds (whole, -3, 27, 9, 32, 1e-9);
  assert_bounds (inner, -2.98, 27.02, 8.98, 31.98, 1e-9);
  setting.down = CAV_SIDE_OUTSIDE;
  setting.against = CAV_SIDE_FACE;
  g_autoptr (CavRegion) on_edge = cav_sweep_create_pilot (&setting, &blank, 0);

  assert_bounds (on_edge, 67, 31, 72, 43, 1e-9);
  g_assert_null (cav_sweep_create_pilot (&setting, &blank, 6));
  g_assert_null (cav_sweep_create_pilot (&setting, &blank, 2.5));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/sweep/upright", test_upright);
  g_test_add_func ("/milling/sweep/growth", test_growth);
  g_test_add_func ("/milling/sweep/tilted", test_tilted);
  g_test_add_func ("/milling/sweep/tilted-growth", test_tilted_growth);
  g_test_add_func ("/milling/sweep/cove", test_cove);
  g_test_add_func ("/milling/sweep/cutters", test_cutters);
  g_test_add_func ("/milling/sweep/silhouettes", test_silhouettes);
  g_test_add_func ("/milling/sweep/edges", test_edges);
  g_test_add_func ("/milling/sweep/pilot", test_pilot);
  return g_test_run ();
}
