/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-rig.h"

#include <math.h>

static const double straight[] = { 6.35, 0, 6.35, 32 };
static const double slim[] = { 3, 0, 3, 32 };
static const double stub[] = { 6.35, 0, 6.35, 5 };
static const double broad[] = { 15, 0, 15, 20 };
static const double chamfer[] = { 6, 0, 16, 10 };
static const double waisted[] = { 8, 0, 4.8, 3.2, 8, 6.4 };

CheckPlan *
rig_create_plan (double width, double thickness)
{
  CheckPlan *plan = check_plan_new ();
  CheckTool *tool;

  plan->width = width;
  plan->thickness = thickness;
  tool = check_plan_add_blade (plan, "rip", 254, 3.2);
  tool->bite = 400;
  tool = check_plan_add_blade (plan, "dado", 203.2, 19);
  tool->bite = 400;
  tool->tilt = 0;
  tool = check_plan_add_blade (plan, "weak", 254, 3.2);
  tool->bite = 32;
  check_plan_add_cutter (plan, "straight", straight, 2);
  tool = check_plan_add_cutter (plan, "strong", straight, 2);
  tool->bite = 400;
  tool = check_plan_add_cutter (plan, "slim", slim, 2);
  tool->bite = 400;
  tool = check_plan_add_cutter (plan, "stub", stub, 2);
  tool->bite = 400;
  tool = check_plan_add_cutter (plan, "fast", broad, 2);
  tool->speed = 20000;
  check_plan_add_cutter (plan, "slow", broad, 2);
  tool = check_plan_add_cutter (plan, "chamfer", chamfer, 2);
  tool->pilot_radius = 6;
  tool->pilot_length = 5;
  check_plan_add_cutter (plan, "waisted", waisted, 3);
  return plan;
}

void
rig_add_box (CheckPlan *plan, double x0, double y0, double x1, double y1)
{
  const double box[] = { x0, y0, x1, y0, x1, y1, x0, y1 };

  check_plan_add_ring (plan, box, 4);
}

void
rig_add_rabbet (CheckPlan *plan, double width, double depth)
{
  double w = plan->width;
  double t = plan->thickness;
  const double ring[] = { width, 0, w, 0, w, t, 0, t, 0, depth, width, depth };

  check_plan_add_ring (plan, ring, 6);
}

void
rig_add_passes (CheckPlan *plan, const RigPass *rows)
{
  CheckSetup *setup = NULL;

  for (int i = 0; i < RIG_PASSES && rows[i].tool != NULL; i++)
    {
      const RigPass *row = &rows[i];
      gboolean same = i > 0 && g_str_equal (row->tool, rows[i - 1].tool)
                      && row->machine == rows[i - 1].machine
                      && fabs (row->degrees - rows[i - 1].degrees) < 1e-9;

      if (!same)
        {
          setup = check_plan_add_setup (plan, row->machine, row->tool);
          setup->tilt = row->machine == SAW ? row->degrees : 0;
          setup->angle = row->machine == COVE ? row->degrees : 0;
        }
      check_setup_add_pass (setup, row->down, row->against, row->fence, row->height);
    }
}

CheckReport *
rig_run_honest (CheckPlan *plan)
{
  CheckReport *first = check_plan_run (plan);

  check_plan_claim (plan, first);
  check_report_free (first);
  return check_plan_run (plan);
}
