/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-scan.h"

#define N_WAVES 12
/* Heights and depths are rounded to whole micrometres. */
#define ROUNDING 0.0011

/* A region whose lower edge waves with slopes up to 1, 40 wide. */
static CavRegion *
create_waves (GRand *rand)
{
  CavPoint points[N_WAVES + 3];
  double u = 0, height = 10;

  for (int i = 0; i <= N_WAVES; i++)
    {
      points[i] = CAV_POINT (u, height);
      u += 40.0 / N_WAVES;
      height = CLAMP (height + g_rand_double_range (rand, -1, 1) * 40.0 / N_WAVES, 1, 30);
    }
  points[N_WAVES + 1] = CAV_POINT (40, 50);
  points[N_WAVES + 2] = CAV_POINT (0, 50);
  return rig_polygon (points, N_WAVES + 3);
}

/* Flat tip, then a cone whose slope is at most 1. */
static void
init_cone (CavToolTop *top, double *r, double *z, GRand *rand)
{
  *top = (CavToolTop){ g_rand_int_range (rand, 1, 3), r, z };
  r[0] = g_rand_double_range (rand, 0.3, 5);
  z[0] = 0;
  r[1] = r[0] + g_rand_double_range (rand, 1, 6);
  z[1] = (r[1] - r[0]) * g_rand_double_range (rand, 0.1, 1);
}

static double
sample (const CavLowerLine *line, int i)
{
  /* The line is sampled over its own reach alone. */
  if (i < 0 || i > 800)
    return CAV_LOWER_LINE_OPEN;
  return cav_lower_line_at (line, i * CAV_SCAN_STEP);
}

static double
get_depth (const CavToolTop *top, double d)
{
  if (d <= top->r[0])
    return 0;
  return (d - top->r[0]) / (top->r[1] - top->r[0]) * top->z[1];
}

static void
test_tip (void)
{
  g_autoptr (GRand) rand = rig_rand_new (31);

  for (int trial = 0; trial < 60; trial++)
    {
      CavToolTop top;
      double r[2], z[2];
      g_autoptr (CavRegion) region = create_waves (rand);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());

      init_cone (&top, r, z, rand);
      g_autoptr (CavScanTool) tool = cav_scan_tool_new (&top);
      g_autoptr (CavScanLine) scan = cav_scan_line_new (line, 40, tool->n);

      g_assert_cmpint (scan->n, ==, 801);
      for (int i = -tool->n; i <= 800 + tool->n; i += 7)
        {
          double least = CAV_LOWER_LINE_OPEN, found = cav_scan_get_tip (scan, tool, i), exact;

          for (int k = 1 - tool->n; k < tool->n; k++)
            least = fmin (least, sample (line, i + k) + get_depth (&top, abs (k) * CAV_SCAN_STEP));
          if (least >= CAV_LOWER_LINE_OPEN)
            {
              g_assert_cmpfloat (found, >=, CAV_LOWER_LINE_OPEN);
              continue;
            }
          g_assert_cmpfloat_with_epsilon (found, least, ROUNDING);
          /* The exact line at most a step's slopes lower; the line ends at its own edges, and a
           * rim that just gets there is the exact line's matter. */
          exact = cav_lower_line_get_tip (line, &top, i * CAV_SCAN_STEP);
          if (exact >= CAV_LOWER_LINE_OPEN)
            continue;
          g_assert_cmpfloat (exact, <=, found + ROUNDING);
          g_assert_cmpfloat (exact, >=, found - 2 * CAV_SCAN_STEP - ROUNDING);
        }
    }
}

static void
test_contact (void)
{
  g_autoptr (GRand) rand = rig_rand_new (32);
  int n_touching = 0;

  for (int trial = 0; trial < 60; trial++)
    {
      CavToolTop top;
      double r[2], z[2], slack = 0.0305;
      g_autoptr (CavRegion) region = create_waves (rand);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());

      init_cone (&top, r, z, rand);
      g_autoptr (CavScanTool) tool = cav_scan_tool_new (&top);
      g_autoptr (CavScanLine) scan = cav_scan_line_new (line, 40, tool->n);

      for (int i = 0; i <= 800; i += 9)
        {
          double tip = cav_scan_get_tip (scan, tool, i), contact;
          int fewest = 0, most = 0;

          contact = cav_scan_get_contact (scan, tool, i, tip, slack);
          for (int k = 0; k < 2 * tool->n; k++)
            {
              int d = k / 2, way = k % 2 == 0 ? 1 : -1;
              double gap = sample (line, i + way * d) + get_depth (&top, d * CAV_SCAN_STEP) - tip;

              fewest += gap < slack - 2 * ROUNDING;
              most += gap < slack + 2 * ROUNDING;
            }
          /* The axis is counted from both sides. */
          g_assert_cmpfloat (contact, >=, fewest * CAV_SCAN_STEP - 1e-9);
          g_assert_cmpfloat (contact, <=, most * CAV_SCAN_STEP + 1e-9);
          n_touching += most > 0;
        }
      g_assert_cmpfloat_with_epsilon (
          cav_scan_get_contact (scan, tool, 400, CAV_LOWER_LINE_OPEN, slack), 0, 1e-12);
    }
  g_assert_cmpint (n_touching, >, 1000);
}

/* A tool that comes from the side: sample k of it lies k samples below where it stands, its depths
 * are its radii with a minus. */
static void
test_side (void)
{
  g_autoptr (GRand) rand = rig_rand_new (33);

  for (int trial = 0; trial < 40; trial++)
    {
      g_autoptr (CavRegion) region = create_waves (rand);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());
      CavScanTool tool = { .n = g_rand_int_range (rand, 3, 200) };

      tool.depths = cav_scan_depths_new ((guint)tool.n);
      for (int k = 0; k < tool.n; k++)
        tool.depths[k] = -g_rand_int_range (rand, 1000, 9000);
      g_autoptr (CavScanLine) scan = cav_scan_line_new (line, 40, tool.n);

      for (int i = 0; i <= 800; i += 13)
        {
          double least = CAV_LOWER_LINE_OPEN, found = cav_scan_get_side (scan, &tool, i), contact;
          int fewest = 0, most = 0;

          for (int k = 0; k < tool.n; k++)
            least = fmin (least, sample (line, i - k) + tool.depths[k] / 1000.0);
          g_assert_cmpfloat_with_epsilon (found, least, ROUNDING);
          contact = cav_scan_get_side_contact (scan, &tool, i, found, 0.0305);
          for (int k = 0; k < tool.n; k++)
            {
              double gap = sample (line, i - k) + tool.depths[k] / 1000.0 - found;

              fewest += gap < 0.0305 - 2 * ROUNDING;
              most += gap < 0.0305 + 2 * ROUNDING;
            }
          g_assert_cmpfloat (contact, >=, fewest * CAV_SCAN_STEP - 1e-9);
          g_assert_cmpfloat (contact, <=, most * CAV_SCAN_STEP + 1e-9);
        }
      g_assert_cmpfloat (cav_scan_get_side (scan, &tool, -8), >=, CAV_LOWER_LINE_OPEN);
      g_assert_cmpfloat_with_epsilon (
          cav_scan_get_side_contact (scan, &tool, -8, CAV_LOWER_LINE_OPEN, 0.03), 0, 1e-12);
      g_free (tool.depths);
    }
}

/* Where wood lies on the table under the flat of the tip, and nowhere else. */
static void
test_blocked (void)
{
  const CavPoint feet[] = { { 0, 0 },    { 6, 0 },    { 6, 4 },  { 20, 4 },  { 20, 0 }, { 21, 0 },
                            { 21, 0.5 }, { 34, 0.5 }, { 40, 8 }, { 40, 20 }, { 0, 20 } };
  g_autoptr (CavRegion) region = rig_polygon (feet, G_N_ELEMENTS (feet));
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());
  double flat_r[] = { 2 }, flat_z[] = { 0 }, cone_r[] = { 1, 5 }, cone_z[] = { 0, 4 };
  const CavToolTop tops[] = { { 1, flat_r, flat_z }, { 2, cone_r, cone_z } };

  for (guint t = 0; t < G_N_ELEMENTS (tops); t++)
    {
      g_autoptr (CavScanTool) tool = cav_scan_tool_new (&tops[t]);
      g_autoptr (CavScanLine) scan = cav_scan_line_new (line, 40, tool->n);
      int n_blocked = 0;

      g_assert_cmpint (tool->n_flat, ==, t == 0 ? 41 : 21);
      for (int i = -tool->n; i <= 800 + tool->n; i++)
        {
          gboolean blocked = FALSE;

          for (int k = 1 - tool->n_flat; k < tool->n_flat; k++)
            blocked |= sample (line, i + k) <= 0;
          g_assert_cmpint (cav_scan_is_blocked (scan, tool, i), ==, blocked);
          if (blocked)
            g_assert_cmpfloat (cav_scan_get_tip (scan, tool, i), <, CAV_SCAN_STEP);
          n_blocked += blocked;
        }
      g_assert_cmpint (n_blocked, >, 150);
      g_assert_false (cav_scan_is_blocked (scan, tool, -5000));
      g_assert_false (cav_scan_is_blocked (scan, tool, 5000));
    }
}

/* Beyond all margins there is nothing to meet, and nothing is read. */
static void
test_far_off (void)
{
  g_autoptr (CavRegion) region = cav_region_new_box (0, 5, 40, 20);
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());
  double r[] = { 2 }, z[] = { 0 };
  const CavToolTop top = { 1, r, z };
  g_autoptr (CavScanTool) tool = cav_scan_tool_new (&top);
  g_autoptr (CavScanLine) scan = cav_scan_line_new (line, 40, tool->n);

  g_assert_cmpint (tool->n, ==, 41);
  g_assert_cmpfloat_with_epsilon (cav_scan_get_tip (scan, tool, -40), 5, 1e-9);
  g_assert_cmpfloat (cav_scan_get_tip (scan, tool, -41), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat_with_epsilon (cav_scan_get_tip (scan, tool, 840), 5, 1e-9);
  g_assert_cmpfloat (cav_scan_get_tip (scan, tool, 841), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_scan_get_tip (scan, tool, 849), >=, CAV_LOWER_LINE_OPEN);
  cav_scan_line_free (NULL);
  cav_scan_tool_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/scan/tip", test_tip);
  g_test_add_func ("/milling/scan/contact", test_contact);
  g_test_add_func ("/milling/scan/side", test_side);
  g_test_add_func ("/milling/scan/blocked", test_blocked);
  g_test_add_func ("/milling/scan/far-off", test_far_off);
  return g_test_run ();
}
