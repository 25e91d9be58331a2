/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-feed.h"
#include "milling/cav-placement.h"

/* Each placement split into feeds, and these done again with exact regions. */

typedef struct
{
  const char *desc;
  CavMachine machine;
  const char *tool;
  double angle;
  CavSide down;
  CavFence fence;
  double distance;
  double height;
  double bite; /* of the tool here; 0: its own */
  int n;       /* feeds expected; 0: none can be found */
  gboolean shows;
} Row;

static const CavBlank blank = { 90, 40 };

static const Row rows[] = {
  { "kerf within the bite", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 24, 80, 1,
    FALSE },
  { "kerf of two bites", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 30, 80, 2,
    FALSE },
  { "kerf of five bites", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_FACE, CAV_FENCE_HIGH, 30, 30, 20, 5,
    FALSE },
  { "kerf on edge", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_INSIDE, CAV_FENCE_LOW, 20, 30, 30, 4,
    FALSE },
  { "a hair over two bites", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 12.6, 20,
    3, FALSE },
  { "no step within the bite", CAV_MACHINE_SAW, "rip", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 10, 0.1,
    0, FALSE },
  { "leaning kerf", CAV_MACHINE_SAW, "rip", 30, CAV_SIDE_BACK, CAV_FENCE_LOW, 30, 20, 30, 3,
    FALSE },
  { "straight cutter", CAV_MACHINE_ROUTER, "straight-12.7", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 40, 10,
    50, 3, FALSE },
  /* No thicker layer than the cutter is wide. */
  { "cutter as deep as three widths", CAV_MACHINE_ROUTER, "straight-6.35", 0, CAV_SIDE_BACK,
    CAV_FENCE_LOW, 40, 19, 500, 3, FALSE },
  /* 128 mm² in 3 feeds; where it shows the last is light. */
  { "shown straight cut", CAV_MACHINE_ROUTER, "straight-12.7", 0, CAV_SIDE_FACE, CAV_FENCE_LOW, 45,
    10.1, 60, 3, TRUE },
  { "cove of one layer", CAV_MACHINE_COVE, "rip", 30, CAV_SIDE_FACE, CAV_FENCE_LOW, 45, 0.8, 0, 1,
    FALSE },
  { "cove of 6", CAV_MACHINE_COVE, "rip", 30, CAV_SIDE_FACE, CAV_FENCE_LOW, 45, 6, 0, 5, TRUE },
  { "waisted cutter", CAV_MACHINE_ROUTER, "dovetail", 0, CAV_SIDE_BACK, CAV_FENCE_LOW, 10, 9, 30, 5,
    FALSE },
  { "waisted cutter on edge", CAV_MACHINE_ROUTER, "dovetail", 0, CAV_SIDE_OUTSIDE, CAV_FENCE_HIGH,
    10, 9, 30, 5, FALSE },
};

static Rig *
create_rig (const Row *row)
{
  CavShop *shop = cav_shop_new_default ();
  const double dovetail[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_ANGLE] = 14, [CAV_CUTTER_DIAMETER] = 12.7, [CAV_CUTTER_CUTTING_LENGTH] = 16 };
  /* A shown groove of just the straight cutter's sweep. */
  const CavBox groove = { 45 - 6.35, 40 - 10.1, 45 + 6.35, 41 };
  CavRegion *profile = row->machine == CAV_MACHINE_ROUTER && row->shows
                           ? rig_box_less (blank, &groove, 1)
                           : cav_region_new_box (1, 39, 2, 40);

  cav_shop_add_cutter (shop, cav_cutter_new ("dovetail", CAV_CUTTER_DOVETAIL, dovetail, NULL),
                       NULL);
  if (row->bite > 0 && row->machine == CAV_MACHINE_ROUTER)
    cav_shop_find_cutter (shop, row->tool)->bite = row->bite;
  else if (row->bite > 0)
    cav_shop_find_blade (shop, row->tool)->bite = row->bite;
  return rig_new (blank, profile, shop, CAV_EFFORT_QUICK);
}

/* Thickest layer upward, column by column. */
static double
get_layer (const CavRegion *chips, const CavSweepSetting *setting)
{
  CavTransform map = cav_placement_get_transform (&blank, setting->down, setting->against);
  CavTransform turned = { map.yx, map.yy, map.y0, map.xx, map.xy, map.x0 };
  g_autoptr (CavRegion) region = cav_region_transformed (chips, turned);
  int n = cav_rows_count_for (cav_placement_get_reach (&blank, setting->down));
  g_autoptr (CavRows) columns = cav_rows_new_from_region (region, n);
  double layer = 0;

  for (int i = 0; i < n; i++)
    {
      double taken = 0;

      for (int k = columns->first[i]; k < columns->first[i + 1]; k++)
        taken += (columns->spans[k].b - columns->spans[k].a) / CAV_MICRONS;
      layer = fmax (layer, taken);
    }
  return layer;
}

static void
assert_feeds (const Rig *rig, const Row *row, const CavCandidate *c, const CavFeed *feeds, int n)
{
  CavSweepSetting setting = rig_get_setting (rig, c, row->fence);
  const CavTool *tool = cav_task_tool (rig->task, cav_task_config (rig->task, c->config)->tool);
  g_autoptr (CavRegion) rail = cav_blank_create_region (&blank);
  gboolean cutter = row->machine == CAV_MACHINE_ROUTER;
  double least = G_MAXDOUBLE, most = 0, layer = 0;

  for (int i = 0; i < n; i++)
    {
      g_autoptr (CavRegion) swept = NULL;
      g_autoptr (CavRegion) chips = NULL;
      CavRegion *rest;
      double taken;

      setting.fence = feeds[i].fence;
      setting.height = feeds[i].height;
      swept = cav_sweep_create_region (&setting, &blank, 0, NULL);
      chips = cav_region_intersection (rail, swept, NULL);
      rest = cav_region_difference (rail, swept, NULL);
      cav_region_unref (rail);
      rail = rest;
      taken = cav_region_get_area (chips);
      layer = get_layer (chips, &setting);
      g_test_message ("  fence %.2f, height %.2f: %.2f mm², %.2f thick", feeds[i].fence,
                      feeds[i].height, taken, layer);
      g_assert_cmpfloat (taken, >, 0);
      g_assert_cmpfloat (taken, <=, tool->bite);
      if (row->machine == CAV_MACHINE_COVE)
        g_assert_cmpfloat (layer, <=, 1.6 + 0.002);
      if (cutter)
        g_assert_cmpfloat (layer, <=, tool->diameter + 0.001);
      g_assert_cmpfloat_with_epsilon (feeds[i].fence, cav_snap (feeds[i].fence, 0.05), 1e-6);
      g_assert_cmpfloat_with_epsilon (feeds[i].height, cav_snap (feeds[i].height, 0.05), 1e-6);
      /* Waisted cutters come from the side, all others from below. */
      if (cutter && !tool->widens)
        {
          g_assert_cmpfloat_with_epsilon (feeds[i].height, row->height, 1e-6);
          g_assert_true (i == 0 || feeds[i].fence > feeds[i - 1].fence);
        }
      else
        {
          g_assert_cmpfloat_with_epsilon (feeds[i].fence, row->distance, 1e-6);
          g_assert_true (i == 0 || feeds[i].height > feeds[i - 1].height);
        }
      if (i < n - 1 || !row->shows)
        {
          least = fmin (least, taken);
          most = fmax (most, taken);
        }
    }
  /* In all it is the placement as it was asked for. */
  g_assert_cmpfloat_with_epsilon (feeds[n - 1].fence, row->distance, 1e-6);
  g_assert_cmpfloat_with_epsilon (feeds[n - 1].height, row->height, 1e-6);
  if (row->shows)
    g_assert_cmpfloat (layer, <=, 0.8 + 1e-3);
  /* Feeds of bites that are nearly equal: the grid and layers leave a part. */
  if (row->machine == CAV_MACHINE_SAW && n > 1)
    g_assert_cmpfloat (least, >, 0.7 * most);
}

static void
test_split (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Row *row = &rows[i];
      g_autoptr (Rig) rig = create_rig (row);
      CavRailStore *store = cav_rail_store_new (rig->task);
      int config = cav_task_add_config (rig->task, row->machine, rig_find_tool (rig, row->tool),
                                        row->angle);
      int index
          = cav_task_place (rig->task, config, row->down, row->fence, row->distance, row->height);
      CavFeed feeds[CAV_FEEDS_MAX];
      int n = cav_feed_split (store, rig->task, cav_rail_store_get_blank (store), index, row->fence,
                              feeds);

      g_test_message ("%s: %d feeds", row->desc, n);
      if (n > 0)
        assert_feeds (rig, row, cav_task_candidate (rig->task, index), feeds, n);
      g_assert_cmpint (n, ==, row->n);
      cav_rail_store_free (store);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/feed/split", test_split);
  return g_test_run ();
}
