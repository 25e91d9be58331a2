/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"
#include "sections.h"

#include "milling/cav-placement.h"

/* What a pass may enter the profile by. */
#define GOUGE 0.02

/* Deepest place of an outline inside the profile. */
static double
get_deepest (const CavRegion *common, const CavRegion *profile)
{
  double deepest = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (common); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (common, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];
          int n_probes = 1 + (int)(cav_point_distance (p, q) / 0.3);

          for (int k = 0; k < n_probes; k++)
            {
              CavPoint at = { p.x + (q.x - p.x) * k / n_probes, p.y + (q.y - p.y) * k / n_probes };

              if (cav_region_contains (profile, at))
                deepest = fmax (deepest, cav_region_get_distance (profile, at));
            }
        }
    }
  return deepest;
}

static void
assert_no_gouge (const Rig *rig, const CavCandidate *c)
{
  CavFence fence = c->fences & (1u << CAV_FENCE_LOW) ? CAV_FENCE_LOW : CAV_FENCE_HIGH;
  CavSweepSetting setting = rig_get_setting (rig, c, fence);
  g_autoptr (CavRegion) swept = cav_sweep_create_region (&setting, &rig->blank, 0, NULL);
  g_autoptr (CavRegion) common = NULL;
  double deepest;

  g_assert_nonnull (swept);
  common = cav_region_intersection (swept, rig->profile, NULL);
  g_assert_nonnull (common);
  deepest = get_deepest (common, rig->profile);
  if (deepest > GOUGE)
    g_test_message (
        "%s %s, tilt %.4f angle %.1f, %s down, fence %d at %.2f, height %.2f: %.4f deep",
        cav_machine_to_string (setting.machine),
        setting.blade != NULL ? setting.blade->id : setting.cutter->id, setting.tilt, setting.angle,
        cav_side_to_string (c->down), fence, setting.fence, setting.height, deepest);
  g_assert_cmpfloat (deepest, <=, GOUGE);
}

static Rig *
create_rig (const char *section, SectionShop shop, CavEffort effort)
{
  g_autoptr (CavProfile) profile = section_create_profile (section_find (section));
  Rig *rig = rig_new (profile->blank, cav_region_ref (profile->region), section_shop_create (shop),
                      effort);

  cav_reach_collect (rig->task);
  return rig;
}

static void
test_no_gouge (void)
{
  const struct
  {
    const char *section;
    SectionShop shop;
    CavEffort effort;
    guint every; /* candidate that is looked at */
  } rows[] = {
    { "rabbet", SECTION_SHOP_DEFAULT, CAV_EFFORT_THOROUGH, 1 },
    { "rabbet-cove", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK, 1 },
    { "eight", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK, 1 },
    { "eight", SECTION_SHOP_DEFAULT, CAV_EFFORT_THOROUGH, 7 },
    { "t-slot", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK, 1 },
    { "sight-strip", SECTION_SHOP_GROOVING, CAV_EFFORT_QUICK, 1 },
    { "rabbet-cove", SECTION_SHOP_SAW, CAV_EFFORT_THOROUGH, 2 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (Rig) rig = create_rig (rows[i].section, rows[i].shop, rows[i].effort);

      g_test_message ("%s: %u candidates", rows[i].section, rig->task->candidates->len);
      g_assert_cmpuint (rig->task->candidates->len, >, 20);
      for (guint k = 0; k < rig->task->candidates->len; k += rows[i].every)
        assert_no_gouge (rig, cav_task_candidate (rig->task, k));
    }
}

/* Every fence and height on the grid of settings, heights within what the tool can do. */
static void
test_settings (void)
{
  g_autoptr (Rig) rig = create_rig ("eight", SECTION_SHOP_DEFAULT, CAV_EFFORT_QUICK);
  CavTask *task = rig->task;
  guint machines[3] = { 0 };

  for (guint i = 0; i < task->candidates->len; i++)
    {
      const CavCandidate *c = cav_task_candidate (task, i);
      const CavConfig *config = cav_task_config (task, c->config);
      double most = cav_placement_get_height (&rig->blank, c->down) + CAV_THROUGH;

      machines[config->machine]++;
      g_assert_cmpfloat_with_epsilon (c->height, cav_snap (c->height, 0.05), 1e-6);
      g_assert_cmpfloat (c->height, <=, fmin (config->limit, most) + 1e-9);
      for (int fence = 0; fence < 2; fence++)
        if (c->fences & (1u << fence))
          g_assert_cmpfloat_with_epsilon (c->fence[fence], cav_snap (c->fence[fence], 0.05), 1e-6);
    }
  for (int machine = 0; machine < 3; machine++)
    g_assert_cmpuint (machines[machine], >, 0);
}

/* Greatest heights against what the drawing says: a rabbet of 6 x 9 at the back and inside, a
 * groove of 12 x 5 in the face from 20 to 32. */
static void
test_height (void)
{
  const CavBlank blank = { 45, 24 };
  const CavBox cuts[] = { { -1, -1, 6, 9 }, { 20, 19, 32, 25 } };
  g_autoptr (Rig) rig
      = rig_new (blank, rig_box_less (blank, cuts, 2), cav_shop_new_default (), CAV_EFFORT_QUICK);
  CavTask *task = rig->task;
  int saw = cav_task_add_config (task, CAV_MACHINE_SAW, rig_find_tool (rig, "rip"), 0);
  int straight
      = cav_task_add_config (task, CAV_MACHINE_ROUTER, rig_find_tool (rig, "straight-6.35"), 0);
  const struct
  {
    int config;
    CavSide down;
    CavFence fence;
    double distance;
    double height;
  } rows[] = {
    { saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 2.8, 9 },
    { saw, CAV_SIDE_BACK, CAV_FENCE_LOW, 2.85, 0 },
    { saw, CAV_SIDE_BACK, CAV_FENCE_LOW, -3, 9 },
    { saw, CAV_SIDE_BACK, CAV_FENCE_HIGH, 39, 9 },
    { saw, CAV_SIDE_BACK, CAV_FENCE_HIGH, 38.95, 0 },
    { saw, CAV_SIDE_INSIDE, CAV_FENCE_LOW, 5.8, 6 },
    { saw, CAV_SIDE_FACE, CAV_FENCE_LOW, 20, 5 },
    { saw, CAV_SIDE_FACE, CAV_FENCE_LOW, 28.8, 5 },
    { saw, CAV_SIDE_FACE, CAV_FENCE_LOW, 19.95, 0 },
    { saw, CAV_SIDE_FACE, CAV_FENCE_HIGH, 13, 5 },
    { saw, CAV_SIDE_FACE, CAV_FENCE_LOW, 45, 24.6 },
    { straight, CAV_SIDE_FACE, CAV_FENCE_LOW, 26, 5 },
    { straight, CAV_SIDE_FACE, CAV_FENCE_LOW, 23, 0 },
    { straight, CAV_SIDE_BACK, CAV_FENCE_LOW, 2.8, 9 },
    { straight, CAV_SIDE_BACK, CAV_FENCE_HIGH, 42.2, 9 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("row %u", i);
      g_assert_cmpfloat_with_epsilon (cav_reach_get_height (task,
                                                            cav_task_config (task, rows[i].config),
                                                            task->lines[rows[i].down], rows[i].down,
                                                            rows[i].fence, rows[i].distance),
                                      rows[i].height, 1e-9);
    }
}

/* The cuts that anybody would make are among the candidates. */
static void
test_finds (void)
{
  const CavBlank blank = { 45, 24 };
  const CavBox cuts[] = { { -1, -1, 6, 9 }, { 20, 19, 32, 25 } };
  g_autoptr (Rig) rig
      = rig_new (blank, rig_box_less (blank, cuts, 2), cav_shop_new_default (), CAV_EFFORT_QUICK);
  CavTask *task = rig->task;
  const struct
  {
    const char *desc;
    const char *tool;
    CavSide down;
    double distance;
    double height;
  } rows[] = {
    { "rabbet's upright wall", "rip", CAV_SIDE_BACK, 2.8, 9 },
    { "rabbet's bottom", "rip", CAV_SIDE_INSIDE, 5.8, 6 },
    { "groove's inner wall", "rip", CAV_SIDE_FACE, 20, 5 },
    { "groove's outer wall", "rip", CAV_SIDE_FACE, 28.8, 5 },
  };

  cav_reach_collect (task);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      int tool = rig_find_tool (rig, rows[i].tool);
      gboolean found = FALSE;

      for (guint k = 0; k < task->candidates->len && !found; k++)
        {
          const CavCandidate *c = cav_task_candidate (task, k);
          const CavConfig *config = cav_task_config (task, c->config);

          found = config->machine == CAV_MACHINE_SAW && config->tool == tool
                  && fabs (config->tilt) < 1e-9 && c->down == rows[i].down
                  && fabs (c->fence[CAV_FENCE_LOW] - rows[i].distance) < 1e-6
                  && fabs (c->height - rows[i].height) < 1e-6;
        }
      g_test_message ("%s", rows[i].desc);
      g_assert_true (found);
    }
}

/* Drawn faces ask for their own tilt. */
static void
test_tilts (void)
{
  const CavPoint points[]
      = { { 0, 0 }, { 50, 0 }, { 50, 24 }, { 14, 24 }, { 0, 24 - 14 / tan (RADIANS (35)) } };
  g_autoptr (Rig) rig = rig_new ((CavBlank){ 50, 24 }, rig_polygon (points, 5),
                                 cav_shop_new_saw_only (), CAV_EFFORT_THOROUGH);
  gboolean away = FALSE, toward = FALSE;

  cav_reach_collect (rig->task);
  for (guint i = 0; i < rig->task->configs->len; i++)
    {
      const CavConfig *config = cav_task_config (rig->task, i);

      g_assert_cmpfloat (fabs (config->tilt), <=, 45 + 1e-9);
      away |= fabs (config->tilt - 35) < 1e-3;
      toward |= fabs (config->tilt + 35) < 1e-3;
    }
  g_assert_true (away);
  g_assert_true (toward);
}

static void
test_cancelled (void)
{
  const int cancelled = 1;
  g_autoptr (CavProfile) profile = section_create_profile (section_find ("eight"));
  g_autoptr (Rig) rig = rig_new (profile->blank, cav_region_ref (profile->region),
                                 cav_shop_new_default (), CAV_EFFORT_THOROUGH);

  rig->task->cancelled = &cancelled;
  g_assert_true (cav_task_is_cancelled (rig->task));
  cav_reach_collect (rig->task);
  g_assert_cmpuint (rig->task->candidates->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/reach/no-gouge", test_no_gouge);
  g_test_add_func ("/milling/reach/settings", test_settings);
  g_test_add_func ("/milling/reach/height", test_height);
  g_test_add_func ("/milling/reach/finds", test_finds);
  g_test_add_func ("/milling/reach/tilts", test_tilts);
  g_test_add_func ("/milling/reach/cancelled", test_cancelled);
  return g_test_run ();
}
