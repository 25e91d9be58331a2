/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-task.h"

#include "milling/cav-placement.h"
#include "milling/cav-stand.h"

#include <math.h>
#include <string.h>

/* A blade that leans toward the fence shows at least so much of its near face. */
#define BLADE_END_LEAST 0.2

#define RADIANS(degrees) ((degrees)*G_PI / 180)

CavSide
cav_fence_get_side (CavSide down, CavFence fence)
{
  if (cav_side_is_flat (down))
    return fence == CAV_FENCE_LOW ? CAV_SIDE_INSIDE : CAV_SIDE_OUTSIDE;
  return fence == CAV_FENCE_LOW ? CAV_SIDE_BACK : CAV_SIDE_FACE;
}

double
cav_snap_down (double value, double step)
{
  return floor (value / step + 1e-6) * step;
}

double
cav_snap (double value, double step)
{
  return round (value / step) * step;
}

/* The pilot's box in the blank, drawn in by what may stand in it. FALSE where the finished profile
 * would be in its way. */
static gboolean
place_pilot (const CavTask *task, const CavStand *stand, CavSide down, CavCandidate *candidate)
{
  const CavCutter *cutter = stand->tool->cutter;
  double u0 = stand->u - cutter->pilot_radius + 0.02, u1 = stand->u + cutter->pilot_radius - 0.02;
  double v0 = stand->height + 0.02, v1 = stand->height + cutter->pilot_length - 0.02;
  double box[4];

  switch (down)
    {
    case CAV_SIDE_FACE:
      box[0] = u0, box[1] = u1;
      box[2] = task->blank.thickness - v1, box[3] = task->blank.thickness - v0;
      break;
    case CAV_SIDE_INSIDE:
      box[0] = v0, box[1] = v1, box[2] = u0, box[3] = u1;
      break;
    case CAV_SIDE_OUTSIDE:
      box[0] = task->blank.width - v1, box[1] = task->blank.width - v0, box[2] = u0, box[3] = u1;
      break;
    case CAV_SIDE_BACK:
    default:
      box[0] = u0, box[1] = u1, box[2] = v0, box[3] = v1;
      break;
    }
  candidate->has_pilot = TRUE;
  candidate->pilot[0] = box[0] * CAV_MICRONS;
  candidate->pilot[1] = box[1] * CAV_MICRONS;
  candidate->pilot[2] = MAX (ceil (box[2] / CAV_ROW_HEIGHT - 0.5), 0);
  candidate->pilot[3] = MIN (ceil (box[3] / CAV_ROW_HEIGHT - 0.5), task->n_rows);
  for (int row = (int)candidate->pilot[2]; row < (int)candidate->pilot[3]; row++)
    for (int i = task->profile_rows->first[row]; i < task->profile_rows->first[row + 1]; i++)
      if (task->profile_rows->spans[i].b > candidate->pilot[0]
          && task->profile_rows->spans[i].a < candidate->pilot[1])
        return FALSE;
  return TRUE;
}

/* Width of the tool at the table, and where its near face stands, seen from the low fence. */
static void
get_foot (const CavStand *stand, double *out_from, double *out_to)
{
  if (stand->config->machine == CAV_MACHINE_SAW)
    {
      double width = stand->tool->blade->kerf / cos (RADIANS (stand->config->tilt));

      *out_from = stand->sense > 0 ? stand->u : stand->u - width;
      *out_to = stand->sense > 0 ? stand->u + width : stand->u;
    }
  else
    {
      double w = stand->config->machine == CAV_MACHINE_COVE
                     ? cav_stand_get_cove_half_width (stand, 0)
                     : stand->tool->diameter / 2;

      *out_from = stand->u - w;
      *out_to = stand->u + w;
    }
}

static gboolean
is_on_grid (double value, double step)
{
  return fabs (value - cav_snap (value, step)) < 1e-6;
}

/* Which fences the placement can be set from, and at which distance. */
static void
set_fences (
    const CavTask *task, const CavStand *stand, CavFence fence, double distance, CavCandidate *c)
{
  double reach = cav_placement_get_reach (&task->blank, c->down);
  double step = task->shop->limits.step, from, to, other;
  double least;

  get_foot (stand, &from, &to);
  c->edge[CAV_FENCE_LOW] = from;
  c->edge[CAV_FENCE_HIGH] = reach - to;
  c->fence[fence] = distance;
  c->fences = 1u << fence;
  if (stand->config->machine == CAV_MACHINE_SAW && fabs (stand->config->tilt) > 1e-9)
    {
      /* No part of a tilted blade stands in the fence. */
      double lean = cav_stand_get_blade_end (stand) * sin (RADIANS (stand->config->tilt));

      if (distance + fmin (lean, 0) < -1e-9 || cav_stand_get_blade_end (stand) < BLADE_END_LEAST)
        c->fences = 0;
      return;
    }
  other = stand->config->machine == CAV_MACHINE_SAW ? reach - distance - stand->tool->blade->kerf
                                                    : reach - distance;
  if (is_on_grid (other, step))
    {
      c->fence[!fence] = cav_snap (other, step);
      c->fences |= 1u << !fence;
    }
  if (stand->config->machine == CAV_MACHINE_ROUTER)
    return;
  least = stand->config->machine == CAV_MACHINE_SAW ? -stand->tool->blade->kerf : 0;
  for (int i = 0; i < 2; i++)
    if (c->edge[i] < least - 1e-9)
      c->fences &= ~(1u << i);
}

/* A placement as one number that stands for it alone, stirred so that a table spreads it well
 * (odd multiples and shifts can be undone, so no two meet). */
static guint64
name_place (int config, CavSide down, CavFence fence, double distance, double height)
{
  guint64 name = (guint64)config << 3 | (guint64)down << 1 | (guint64)fence;

  name = name << 25 | ((guint64)(gint64)((distance + 2 * CAV_BLANK_MAX) * 1e4 + 0.5) & 0x1ffffff);
  name = name << 23 | ((guint64)(gint64)(height * 1e4 + 0.5) & 0x7fffff);
  name *= 0x9e3779b97f4a7c15u;
  return name ^ (name >> 32);
}

gboolean
cav_task_is_fresh (CavTask *task, int config, CavSide down, CavFence fence, double distance)
{
  return cav_places_add (&task->fresh, name_place (config, down, fence, distance, 0), 0);
}

int
cav_task_place (
    CavTask *task, int config_index, CavSide down, CavFence fence, double distance, double height)
{
  const CavConfig *config = cav_task_config (task, config_index);
  const CavTool *tool = cav_task_tool (task, config->tool);
  double reach = cav_placement_get_reach (&task->blank, down);
  gboolean low = fence == CAV_FENCE_LOW;
  double turn = RADIANS (config->tilt + config->angle);
  CavStand stand = { config,     tool,      low ? distance : reach - distance, height, low ? 1 : -1,
                     sin (turn), cos (turn) };
  CavCandidate *c;
  guint64 name;
  int known;

  if (height < task->shop->limits.step / 2)
    return -1;
  /* An upright blade is the same from both fences: its face nearer the low one leads. */
  if (config->machine == CAV_MACHINE_SAW && fabs (config->tilt) < 1e-9)
    {
      stand.sense = 1;
      if (!low)
        stand.u -= tool->blade->kerf;
    }
  if (fabs (config->tilt) > 1e-9)
    name = name_place (config_index, down, fence, distance, height);
  else
    name = name_place (config_index, down, CAV_FENCE_LOW, stand.u, height);
  if (cav_places_find (&task->places, name, &known))
    return known;

  c = cav_room_take (&task->room, sizeof *c);
  *c = (CavCandidate){ .config = config_index,
                       .down = down,
                       .height = height,
                       .severs = config->machine != CAV_MACHINE_ROUTER && config->tilt >= 0,
                       .middle = stand.u };
  if (config->machine == CAV_MACHINE_SAW)
    {
      c->middle += stand.sense * tool->blade->kerf / 2 / cos (RADIANS (config->tilt));
      c->lean = stand.sense * tan (RADIANS (config->tilt));
    }
  set_fences (task, &stand, fence, distance, c);
  if (c->fences != 0)
    cav_stand_fill_rows (task, &stand, c);
  if (c->area < 0.02
      || (tool->cutter != NULL && tool->cutter->has_pilot && !place_pilot (task, &stand, down, c)))
    {
      cav_places_add (&task->places, name, -1);
      return -1;
    }
  g_ptr_array_add (task->candidates, c);
  cav_places_add (&task->places, name, (int)task->candidates->len - 1);
  return (int)task->candidates->len - 1;
}
