/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-checker.h"

static void
ring_free (gpointer data)
{
  g_array_unref (data);
}

static void
tool_free (gpointer data)
{
  CheckTool *tool = data;

  g_free (tool->id);
  g_array_unref (tool->silhouette);
  g_free (tool);
}

static void
setup_free (gpointer data)
{
  CheckSetup *setup = data;

  g_free (setup->tool);
  g_array_unref (setup->passes);
  g_free (setup);
}

CheckPlan *
check_plan_new (void)
{
  CheckPlan *plan = g_new0 (CheckPlan, 1);

  plan->rails = 4;
  plan->length = 3200;
  plan->step = 0.05;
  plan->push_gap = 20;
  plan->cove_layer = 1.6;
  plan->leftover_limit = 1.5;
  plan->rates = (CheckRates){
    .saw_setup = 3,
    .tilt_setup = 6,
    .cove_setup = 12,
    .blade_change = 4,
    .router_setup = 5,
    .router_return = 2,
    .turn = 1,
    .move = 0.5,
    .metre = 1.0 / 3.0,
    .cove_metre = 1,
    .rail = 0.25,
    .scrape_metre = 1,
    .hand_volume = 0.25,
    .hand_surface = 0.1,
  };
  plan->profile = g_ptr_array_new_with_free_func (ring_free);
  plan->tools = g_ptr_array_new_with_free_func (tool_free);
  plan->setups = g_ptr_array_new_with_free_func (setup_free);
  plan->places = g_array_new (FALSE, FALSE, sizeof (CheckPlace));
  return plan;
}

void
check_plan_free (CheckPlan *plan)
{
  if (plan == NULL)
    return;
  g_ptr_array_unref (plan->profile);
  g_ptr_array_unref (plan->tools);
  g_ptr_array_unref (plan->setups);
  g_array_unref (plan->places);
  g_free (plan);
}

static CheckTool *
add_tool (CheckPlan *plan, const char *id)
{
  CheckTool *tool = g_new0 (CheckTool, 1);

  tool->id = g_strdup (id);
  tool->silhouette = g_array_new (FALSE, FALSE, sizeof (CheckPoint));
  g_ptr_array_add (plan->tools, tool);
  return tool;
}

CheckTool *
check_plan_add_blade (CheckPlan *plan, const char *id, double diameter, double kerf)
{
  CheckTool *tool = add_tool (plan, id);

  tool->diameter = diameter;
  tool->kerf = kerf;
  tool->height = 75;
  tool->tilt = 45;
  tool->bite = 80;
  return tool;
}

CheckTool *
check_plan_add_cutter (CheckPlan *plan, const char *id, const double *silhouette, guint n_points)
{
  CheckTool *tool = add_tool (plan, id);

  tool->is_cutter = TRUE;
  tool->bite = 40;
  tool->speed = 18000;
  for (guint i = 0; i < n_points; i++)
    {
      CheckPoint point = { silhouette[2 * i], silhouette[2 * i + 1] };

      g_array_append_val (tool->silhouette, point);
      tool->length = point.y;
    }
  return tool;
}

CheckSetup *
check_plan_add_setup (CheckPlan *plan, CheckMachine machine, const char *tool)
{
  CheckSetup *setup = g_new0 (CheckSetup, 1);

  setup->machine = machine;
  setup->tool = g_strdup (tool);
  setup->passes = g_array_new (FALSE, FALSE, sizeof (CheckPass));
  g_ptr_array_add (plan->setups, setup);
  return setup;
}

void
check_setup_add_pass (
    CheckSetup *setup, CheckSide down, CheckSide against, double fence, double height)
{
  CheckPass pass = { down, against, fence, height, 0 };

  g_array_append_val (setup->passes, pass);
}

void
check_plan_add_ring (CheckPlan *plan, const double *xy, guint n_points)
{
  GArray *ring = g_array_new (FALSE, FALSE, sizeof (CheckPoint));

  for (guint i = 0; i < n_points; i++)
    {
      CheckPoint point = { xy[2 * i], xy[2 * i + 1] };

      g_array_append_val (ring, point);
    }
  g_ptr_array_add (plan->profile, ring);
}

const CheckTool *
check_plan_find_tool (const CheckPlan *plan, const char *id)
{
  for (guint i = 0; i < plan->tools->len; i++)
    {
      const CheckTool *tool = g_ptr_array_index (plan->tools, i);

      if (g_strcmp0 (tool->id, id) == 0)
        return tool;
    }
  return NULL;
}

void
check_plan_claim (CheckPlan *plan, const CheckReport *report)
{
  guint number = 0;

  for (guint s = 0; s < plan->setups->len; s++)
    {
      CheckSetup *setup = g_ptr_array_index (plan->setups, s);

      for (guint p = 0; p < setup->passes->len && number < report->passes->len; p++)
        g_array_index (setup->passes, CheckPass, p).removes
            = g_array_index (report->passes, CheckPassFigures, number++).chips;
    }
  plan->leftover_area = report->leftover_area;
  plan->leftover_thickness = report->leftover_thickness;
  plan->minutes = report->minutes;
  plan->minutes_setups = report->minutes_setups;
  plan->minutes_passes = report->minutes_passes;
  plan->minutes_hand = report->minutes_hand;
}
