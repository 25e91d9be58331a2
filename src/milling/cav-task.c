/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-task.h"

#include "milling/cav-arc.h"
#include "milling/cav-parallel.h"
#include "milling/cav-placement.h"

#include <math.h>

static void
config_clear (gpointer data)
{
  CavConfig *config = data;

  g_free (config->top.r);
  g_free (config->top.z);
  cav_scan_tool_free (config->scan);
  cav_scan_tool_free (config->side_scan);
  g_free (config->halves);
  g_free (config->depths);
}

static void
add_tools (CavTask *task)
{
  const CavShop *shop = task->shop;

  for (guint i = 0; i < shop->blades->len; i++)
    {
      const CavBlade *blade = g_ptr_array_index (shop->blades, i);
      g_autofree char *reason = cav_shop_explain_blade (shop, blade);
      CavTool tool = { .blade = blade, .bite = blade->bite, .diameter = blade->diameter };

      if (reason == NULL)
        g_array_append_val (task->tools, tool);
    }
  for (guint i = 0; i < shop->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (shop->cutters, i);
      g_autofree char *reason = cav_shop_explain_cutter (shop, cutter);
      CavTool tool = { .cutter = cutter,
                       .bite = cutter->bite,
                       .diameter = 2 * cav_cutter_get_greatest_radius (cutter),
                       .widens = cav_cutter_widens (cutter) };

      if (reason == NULL)
        g_array_append_val (task->tools, tool);
    }
}

static void
append_top (CavToolTop *top, double r, double z)
{
  r = fmax (r, 0);
  /* Equal points and steps back in r (rounding) are left out. */
  if (top->n_points > 0 && r <= top->r[top->n_points - 1])
    return;
  top->r[top->n_points] = r;
  top->z[top->n_points++] = z;
}

/* What an upright lift must respect: the widest that the cutter is down to each depth. */
static void
set_cutter_top (CavToolTop *top, const CavCutter *cutter)
{
  guint n = cutter->silhouette->len;

  top->r = g_new (double, 2 * n + 1);
  top->z = g_new (double, 2 * n + 1);
  for (guint i = 0; i < n; i++)
    {
      CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      append_top (top, p.r - CAV_SLACK_ASIDE, p.z);
    }
}

static void
set_blade_top (CavToolTop *top, double kerf)
{
  top->r = g_new (double, 1);
  top->z = g_new (double, 1);
  top->r[0] = fmax (kerf / 2 - CAV_SLACK_ASIDE, 0);
  top->z[0] = 0;
  top->n_points = 1;
}

void
cav_tool_top_init_cove (CavToolTop *top, const CavBlade *blade, double degrees)
{
  double angle = degrees * G_PI / 180, radius = blade->diameter / 2;
  double flat = blade->kerf * cos (angle) / 2, last = fmin (blade->height, radius);
  int n = 160;

  top->r = g_new (double, n + 2);
  top->z = g_new (double, n + 2);
  for (int i = 0; i <= n; i++)
    {
      /* Dense near the crown, where the curve is flat. */
      double z = last * i * i / (double)(n * n);
      double s = 1 - z / radius;

      append_top (top, flat + radius * sin (angle) * sqrt (fmax (0, 1 - s * s)) - CAV_SLACK_ASIDE,
                  z);
    }
}

int
cav_task_add_config (CavTask *task, CavMachine machine, int tool_index, double turn)
{
  const CavTool *tool = cav_task_tool (task, tool_index);
  const CavRates *rates = &task->shop->rates;
  CavConfig config = { .machine = machine, .tool = tool_index };

  for (guint i = 0; i < task->configs->len; i++)
    {
      const CavConfig *other = cav_task_config (task, i);

      if (other->machine == machine && other->tool == tool_index
          && fabs (other->tilt + other->angle - turn) < 1e-9)
        return (int)i;
    }
  switch (machine)
    {
    case CAV_MACHINE_SAW:
      config.tilt = turn;
      config.limit = tool->blade->height * cos (turn * G_PI / 180);
      config.minutes = fabs (turn) > 1e-9 ? rates->tilt_setup : rates->saw_setup;
      set_blade_top (&config.top, tool->blade->kerf);
      break;
    case CAV_MACHINE_COVE:
      config.angle = turn;
      config.limit = tool->blade->height;
      config.minutes = rates->cove_setup;
      cav_tool_top_init_cove (&config.top, tool->blade, turn);
      break;
    case CAV_MACHINE_ROUTER:
    default:
      config.limit = tool->cutter->length;
      config.minutes = rates->router_setup;
      set_cutter_top (&config.top, tool->cutter);
      break;
    }
  g_array_append_val (task->configs, config);
  return (int)task->configs->len - 1;
}

const CavScanTool *
cav_config_get_scan (const CavConfig *config)
{
  CavConfig *self = (CavConfig *)config;

  if (g_once_init_enter (&self->has_scan))
    {
      self->scan = cav_scan_tool_new (&self->top);
      g_once_init_leave (&self->has_scan, 1);
    }
  return config->scan;
}

/* Waste that stands farther from the profile than the limit of leftover. */
static CavRows *
create_beyond_rows (const CavTask *task)
{
  g_autoptr (CavRows) near
      = cav_rows_new_grown (task->profile, task->shop->limits.leftover, task->n_rows);
  CavRows *beyond = g_new0 (CavRows, 1);
  gint32 width = (gint32)lround (task->blank.width * CAV_MICRONS);
  int n = 0;

  beyond->n_rows = task->n_rows;
  beyond->first = g_new0 (gint32, task->n_rows + 1);
  beyond->spans = g_new (CavSpan, near->first[task->n_rows] + task->n_rows + 1);
  for (int row = 0; row < task->n_rows; row++)
    {
      gint32 from = 0;

      beyond->first[row] = n;
      for (int i = near->first[row]; i < near->first[row + 1]; i++)
        {
          if (near->spans[i].a > from)
            beyond->spans[n++] = (CavSpan){ from, MIN (near->spans[i].a, width) };
          from = MAX (from, near->spans[i].b);
        }
      if (from < width)
        beyond->spans[n++] = (CavSpan){ from, width };
    }
  beyond->first[task->n_rows] = n;
  return beyond;
}

/* What takes its time and does not depend on each other. */
#define N_PREPARATIONS 3
static void
prepare_job (gpointer data, int job)
{
  CavTask *task = data;

  switch (job)
    {
    case 0:
      task->beyond_rows = create_beyond_rows (task);
      break;
    case 1:
      for (int side = 0; side < CAV_N_SIDES; side++)
        task->lines[side] = cav_lower_line_new (
            task->profile,
            cav_placement_get_transform (&task->blank, (CavSide)side,
                                         cav_fence_get_side ((CavSide)side, CAV_FENCE_LOW)));
      break;
    default:
      cav_outline_collect (task);
      cav_arc_collect (task);
      break;
    }
}

CavTask *
cav_task_new (const CavPlanRequest *request, const CavBlank *blank, const CavRegion *profile)
{
  CavTask *task = g_new0 (CavTask, 1);
  const CavRates *rates = &request->shop->rates;

  task->blank = *blank;
  task->profile = profile;
  task->shop = request->shop;
  task->rails = request->rails;
  task->metres = request->length / 1000;
  task->cancelled = request->cancelled;
  task->thorough = request->effort == CAV_EFFORT_THOROUGH;
  task->pass_minutes = rates->metre * task->metres + rates->rail * task->rails;
  task->cove_minutes = rates->cove_metre * task->metres + rates->rail * task->rails;
  task->n_rows = cav_rows_count_for (blank->thickness);
  task->profile_rows = cav_rows_new_from_region (profile, task->n_rows);
  task->tools = g_array_new (FALSE, FALSE, sizeof (CavTool));
  task->configs = g_array_new (FALSE, TRUE, sizeof (CavConfig));
  g_array_set_clear_func (task->configs, config_clear);
  task->candidates = g_ptr_array_new ();
  add_tools (task);
  cav_parallel_run (N_PREPARATIONS, prepare_job, task);
  return task;
}

void
cav_task_free (CavTask *task)
{
  if (task == NULL)
    return;
  g_clear_pointer (&task->profile_rows, cav_rows_free);
  g_clear_pointer (&task->beyond_rows, cav_rows_free);
  g_array_unref (task->samples);
  g_array_unref (task->corners);
  g_array_unref (task->edges);
  g_array_unref (task->arcs);
  g_array_unref (task->tools);
  g_array_unref (task->configs);
  g_ptr_array_unref (task->candidates);
  cav_room_clear (&task->room);
  cav_places_clear (&task->places);
  cav_places_clear (&task->fresh);
  for (int side = 0; side < CAV_N_SIDES; side++)
    cav_lower_line_free (task->lines[side]);
  g_free (task);
}

gboolean
cav_task_is_cancelled (const CavTask *task)
{
  return task->cancelled != NULL && g_atomic_int_get (task->cancelled) != 0;
}
