/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing-samples.h"

#include <math.h>

#include "milling/cav-placement.h"
#include "milling/cav-plan-private.h"

static void
add_cut (CavProject *project, CavCut *cut)
{
  cav_project_add_cut (project, cut);
  cav_cut_free (cut);
}

CavProject *
sample_project_new_plain (double width, double thickness)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  cav_project_set_title (project, "Fern frame");
  cav_project_set_blank (project, (CavBlank){ width, thickness });
  cav_project_set_wood (project, cav_wood_get (0));
  cav_project_set_shop (project, shop);
  cav_project_set_rails (project, 4, 3200);
  return project;
}

CavProject *
sample_project_new (void)
{
  CavProject *project = sample_project_new_plain (60, 22);
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  cut->numbers[CAV_CUT_WIDTH] = 6.35;
  cut->numbers[CAV_CUT_DEPTH] = 9.5;
  add_cut (project, cut);
  cut = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_OUTSIDE);
  cut->numbers[CAV_CUT_WIDTH] = 9.525;
  cut->numbers[CAV_CUT_DEPTH] = 9.525;
  add_cut (project, cut);
  cut = cav_cut_new_at_corner (CAV_CUT_CHAMFER, CAV_CORNER_FACE_INSIDE);
  add_cut (project, cut);
  cut = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  cut->numbers[CAV_CUT_POSITION] = 26;
  cut->numbers[CAV_CUT_WIDTH] = 12;
  cut->numbers[CAV_CUT_DEPTH] = 2.5;
  add_cut (project, cut);
  return project;
}

CavSheetOptions
sample_options (CavUnit unit, CavPaper paper)
{
  return (CavSheetOptions){ .unit = unit, .denominator = 64, .paper = paper, .date = "2025-03-01" };
}

CavPlan *
sample_plan_new_empty (CavProject *project)
{
  CavPlan *plan = cav_plan_new ();

  plan->blank = cav_project_get_blank (project);
  plan->profile = cav_region_ref (cav_project_get_profile (project)->region);
  plan->shop = cav_shop_copy (cav_project_get_shop (project));
  plan->rails = cav_project_get_rails (project);
  plan->length = cav_project_get_length (project);
  plan->leftover = cav_region_new_empty ();
  plan->usable = TRUE;
  return plan;
}

CavSetup *
sample_plan_add_setup (CavPlan *plan, CavMachine machine, const char *tool, double degrees)
{
  CavSetup *setup = cav_setup_new (machine, tool);

  setup->tilt = machine == CAV_MACHINE_SAW ? degrees : 0;
  setup->angle = machine == CAV_MACHINE_COVE ? degrees : 0;
  setup->minutes = 3;
  g_ptr_array_add (plan->setups, setup);
  return setup;
}

/* The sweeps, in (u, v), by the formulas of the milling model. */

static CavRegion *
sweep_blade (const CavBlade *blade, double tilt, double fence, double height)
{
  double t = tilt * G_PI / 180;
  double across = blade->kerf / cos (t);
  /* The end is square to the blade: the far corner is lower. */
  double far_height = height - (t > 0 ? blade->kerf * sin (t) : 0);
  double near_height = height - (t < 0 ? blade->kerf * sin (-t) : 0);
  CavPoint points[] = { { fence, 0 },
                        { fence + across, 0 },
                        { fence + across + far_height * tan (t), far_height },
                        { fence + near_height * tan (t), near_height } };

  return cav_region_new_polygon (points, G_N_ELEMENTS (points), NULL);
}

static CavRegion *
sweep_cove (const CavBlade *blade, double angle, double fence, double height)
{
  double a = angle * G_PI / 180;
  double rx = blade->diameter / 2 * sin (a);
  double ry = blade->diameter / 2;
  double flat = blade->kerf * cos (a) / 2;
  double start = asin ((ry - height) / ry) * 180 / G_PI;
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_arc (path, CAV_POINT (fence + flat, height - ry), rx, ry, start, 90 - start);
  cav_path_arc (path, CAV_POINT (fence - flat, height - ry), rx, ry, 90, 90 - start);
  cav_path_close (path);
  return cav_region_new_from_path (path, NULL);
}

static CavRegion *
sweep_cutter (const CavCutter *cutter, double fence, double height)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  g_autoptr (CavRegion) whole = NULL;
  g_autoptr (CavRegion) above = cav_region_new_box (-500, 0, 1000, 1000);

  for (guint i = 0; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      g_array_append_val (points, CAV_POINT (fence + p.r, height - p.z));
    }
  for (guint i = cutter->silhouette->len; i-- > 0;)
    {
      CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      if (p.r > 0)
        g_array_append_val (points, CAV_POINT (fence - p.r, height - p.z));
    }
  whole = cav_region_new_polygon ((const CavPoint *)points->data, points->len, NULL);
  return cav_region_intersection (whole, above, NULL);
}

static CavRegion *
sweep (const CavPlan *plan, const CavSetup *setup, double fence, double height)
{
  if (setup->machine == CAV_MACHINE_ROUTER)
    return sweep_cutter (cav_shop_find_cutter (plan->shop, setup->tool), fence, height);
  if (setup->machine == CAV_MACHINE_COVE)
    return sweep_cove (cav_shop_find_blade (plan->shop, setup->tool), setup->angle, fence, height);
  return sweep_blade (cav_shop_find_blade (plan->shop, setup->tool), setup->tilt, fence, height);
}

static CavRegion *
dup_largest_piece (const CavRegion *region)
{
  CavRegion *largest = cav_region_new_empty ();

  for (guint i = 0; i < cav_region_get_piece_count (region); i++)
    {
      CavRegion *piece = cav_region_dup_piece (region, i);

      if (cav_region_get_area (piece) > cav_region_get_area (largest))
        {
          CavRegion *old = largest;

          largest = piece;
          piece = old;
        }
      cav_region_unref (piece);
    }
  return largest;
}

static CavRegion *
dup_rail (const CavPlan *plan)
{
  for (guint i = plan->setups->len; i-- > 0;)
    {
      CavSetup *setup = g_ptr_array_index (plan->setups, i);

      if (setup->passes->len > 0)
        {
          CavPass *last = g_ptr_array_index (setup->passes, setup->passes->len - 1);

          return cav_region_ref (last->after);
        }
    }
  return cav_blank_create_region (&plan->blank);
}

CavPass *
sample_plan_add_pass (
    CavPlan *plan, CavSide down, CavSide against, double fence, double height, guint cautions)
{
  CavSetup *setup = g_ptr_array_index (plan->setups, plan->setups->len - 1);
  CavPass *pass = cav_pass_new ();
  g_autoptr (CavRegion) swept = sweep (plan, setup, fence, height);
  g_autoptr (CavRegion) rest = NULL;
  g_autoptr (CavRegion) chips = NULL;

  pass->down = down;
  pass->against = against;
  pass->fence = fence;
  pass->height = height;
  pass->cautions = cautions;
  pass->before = dup_rail (plan);
  pass->swept
      = cav_region_transformed (swept, cav_placement_get_inverse (&plan->blank, down, against));
  rest = cav_region_difference (pass->before, pass->swept, NULL);
  chips = cav_region_intersection (pass->before, pass->swept, NULL);
  pass->after = dup_largest_piece (rest);
  pass->removes = cav_region_get_area (chips);
  pass->bite = cav_region_get_bounds (chips).y1 - cav_region_get_bounds (chips).y0;
  pass->severs = cav_region_get_piece_count (rest) > 1;
  pass->sacrificial = (cautions & CAV_CAUTION_SACRIFICIAL) != 0;
  g_ptr_array_add (setup->passes, pass);
  return pass;
}

CavPlan *
sample_plan_new (CavProject *project)
{
  CavPlan *plan = sample_plan_new_empty (project);

  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);
  sample_plan_add_pass (plan, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 50.45, 9.5,
                        CAV_CAUTION_HIDDEN_BLADE | CAV_CAUTION_ALTERNATE);
  sample_plan_add_pass (plan, CAV_SIDE_INSIDE, CAV_SIDE_FACE, 9.3, 6.35,
                        CAV_CAUTION_SEVERS | CAV_CAUTION_FEATHERBOARD);
  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 45);
  sample_plan_add_pass (plan, CAV_SIDE_INSIDE, CAV_SIDE_BACK, 17.5, 2.5, 0);
  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, -1.2, 1.4,
                        CAV_CAUTION_SACRIFICIAL | CAV_CAUTION_SMALL_RAIL | CAV_CAUTION_SHORT_RAIL);
  sample_plan_add_setup (plan, CAV_MACHINE_COVE, "rip", 12);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, 1.2,
                        CAV_CAUTION_COVING | CAV_CAUTION_HIDDEN_BLADE);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, 2.5,
                        CAV_CAUTION_COVING | CAV_CAUTION_HIDDEN_BLADE);
  sample_plan_add_setup (plan, CAV_MACHINE_ROUTER, "cove-9.5", 0);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, -3.2, 5.3, CAV_CAUTION_LARGE_CUTTER);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, -3.2, 9.5,
                        CAV_CAUTION_LARGE_CUTTER | CAV_CAUTION_THIN_WALL);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 0, 9.5, CAV_CAUTION_LARGE_CUTTER);
  plan->minutes = 61.5;
  plan->minutes_setups = 32;
  plan->minutes_passes = 24.5;
  plan->minutes_hand = 5;
  plan->leftover_area = 3.4;
  plan->leftover_thickness = 0.4;
  return plan;
}

CavPlan *
sample_plan_new_long (CavProject *project, guint n_passes, guint per_setup)
{
  CavPlan *plan = sample_plan_new_empty (project);

  for (guint i = 0; i < n_passes; i++)
    {
      if (i % per_setup == 0)
        sample_plan_add_setup (plan, CAV_MACHINE_ROUTER, "straight-6.35", 0);
      sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 10 + 0.15 * i, 1.0 + 0.05 * i,
                            CAV_CAUTION_HIDDEN_BLADE);
    }
  return plan;
}
