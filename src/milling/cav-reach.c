/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-task.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <stdlib.h>

/* How many placements of each kind are kept for one configuration and side. */
#define KEEP_CONTACTS 14
#define KEEP_PEAKS 6
#define KEEP_COVES 16
/* Contact that is worth a placement of its own, mm of outline. */
#define LEAST_CONTACT 0.4
#define COARSE_STEP 0.25
#define SCAN_SLACK 0.03

#define RADIANS(degrees) ((degrees)*G_PI / 180)

static double
get_top_limit (const CavTask *task, const CavConfig *config, CavSide down)
{
  double height = cav_placement_get_height (&task->blank, down) + CAV_THROUGH;

  return cav_snap_down (fmin (config->limit, height), task->shop->limits.step);
}

double
cav_reach_get_height (const CavTask *task,
                      const CavConfig *config,
                      const CavLowerLine *line,
                      CavSide down,
                      CavFence fence,
                      double distance)
{
  double reach = cav_placement_get_reach (&task->blank, down);
  double limit = get_top_limit (task, config, down), tip;

  if (config->machine == CAV_MACHINE_SAW)
    {
      double kerf = cav_task_tool (task, config->tool)->blade->kerf, t = RADIANS (config->tilt);

      if (fabs (config->tilt) > 1e-9)
        {
          /* In the blade's frame it is an upright slot from the fence distance's foot on. */
          tip = cav_lower_line_minimum (line, distance * cos (t) + CAV_SLACK_ASIDE,
                                        distance * cos (t) + kerf - CAV_SLACK_ASIDE);
          if (tip < CAV_LOWER_LINE_OPEN)
            tip = (tip - distance * sin (t)) * cos (t) + kerf * fmax (0, -sin (t));
        }
      else
        {
          double u = fence == CAV_FENCE_LOW ? distance : reach - distance - kerf;

          tip = cav_lower_line_minimum (line, u + CAV_SLACK_ASIDE, u + kerf - CAV_SLACK_ASIDE);
        }
    }
  else
    tip = cav_lower_line_get_tip (line, &config->top,
                                  fence == CAV_FENCE_LOW ? distance : reach - distance);
  return cav_snap_down (fmin (tip + CAV_SLACK_UP, limit), task->shop->limits.step);
}

/* A placement that the scan found. */
typedef struct
{
  double u;
  double height;
  double contact;
} Found;

static int
compare_contacts (const void *a, const void *b)
{
  const Found *p = a, *q = b;

  if (p->contact > q->contact || p->contact < q->contact)
    return p->contact < q->contact ? 1 : -1;
  return (p->u > q->u) - (p->u < q->u);
}

static int
compare_heights (const void *a, const void *b)
{
  const Found *p = a, *q = b;

  if (p->height > q->height || p->height < q->height)
    return p->height < q->height ? 1 : -1;
  return (p->u > q->u) - (p->u < q->u);
}

/* Half of a tool's width, from its axis; a blade's axis is the middle of its kerf. */
static double
get_rim (const CavTask *task, const CavConfig *config)
{
  const CavTool *tool = cav_task_tool (task, config->tool);

  return config->machine == CAV_MACHINE_SAW ? tool->blade->kerf / 2 : tool->diameter / 2;
}

/* The fence distance of an upright blade is that of its near face. */
static double
axis_to_distance (const CavTask *task, const CavConfig *config, double axis)
{
  if (config->machine == CAV_MACHINE_SAW)
    return axis - cav_task_tool (task, config->tool)->blade->kerf / 2;
  return axis;
}

static void
place_at (CavTask *task, int index, CavSide down, CavFence fence, double distance)
{
  const CavConfig *config = cav_task_config (task, index);
  const CavTool *tool = cav_task_tool (task, config->tool);
  double step = task->shop->limits.step;
  double height = cav_reach_get_height (task, config, task->lines[down], down, fence, distance);

  cav_task_place (task, index, down, fence, distance, height);
  /* A kerf of just one bite severs as well as a deeper one. */
  if (config->machine == CAV_MACHINE_SAW && height * tool->blade->kerf > tool->bite)
    cav_task_place (task, index, down, fence, distance,
                    cav_snap_down (tool->bite / tool->blade->kerf, step));
}

/* Both neighbours on the grid, set from the low fence; from the high one too where the blank puts
 * its settings off the low one's grid. */
static void
place_near (CavTask *task, int index, CavSide down, double axis)
{
  const CavConfig *config = cav_task_config (task, index);
  double step = task->shop->limits.step;
  double reach = cav_placement_get_reach (&task->blank, down);
  double low = axis_to_distance (task, config, axis);
  double high = axis_to_distance (task, config, reach - axis);
  double off = fabs (low + high - cav_snap (low + high, step));

  for (int i = 0; i < 2; i++)
    {
      place_at (task, index, down, CAV_FENCE_LOW, cav_snap_down (low, step) + i * step);
      if (off > 1e-6)
        place_at (task, index, down, CAV_FENCE_HIGH, cav_snap_down (high, step) + i * step);
      if (fabs (low - cav_snap (low, step)) < 1e-6 && off <= 1e-6)
        break;
    }
}

/* Climbs to the place of most contact in the neighbourhood, in steps of the grid. */
static Found
refine (const CavTask *task, const CavConfig *config, CavSide down, Found found, double span)
{
  double step = task->shop->limits.step;
  Found best = found;

  for (double u = found.u - span; u < found.u + span + step / 2; u += step)
    {
      double at = cav_snap (axis_to_distance (task, config, u), step);
      double axis = u + at - axis_to_distance (task, config, u);
      double height
          = cav_reach_get_height (task, config, task->lines[down], down, CAV_FENCE_LOW, at);
      double contact;

      if (height < step / 2)
        continue;
      contact
          = cav_lower_line_get_contact (task->lines[down], &config->top, axis, height, SCAN_SLACK);
      if (contact > best.contact + 1e-9)
        best = (Found){ axis, height, contact };
    }
  return best;
}

/* Walks a configuration along one side and keeps where it fits the outline best, where it reaches
 * highest, and a coarse grid. */
static void
scan_side (CavTask *task, int index, CavSide down)
{
  const CavConfig *config = cav_task_config (task, index);
  double reach = cav_placement_get_reach (&task->blank, down), rim = get_rim (task, config);
  double step = task->shop->limits.step;
  int n = (int)ceil ((reach + 2 * rim) / COARSE_STEP) + 1, n_contacts = 0, n_peaks = 0;
  g_autofree Found *all = g_new0 (Found, n), *contacts = g_new0 (Found, n);
  g_autofree Found *peaks = g_new0 (Found, n);

  for (int i = 0; i < n; i++)
    {
      double at = cav_snap (axis_to_distance (task, config, -rim + i * COARSE_STEP), step);

      all[i].u = at - axis_to_distance (task, config, 0);
      all[i].height
          = cav_reach_get_height (task, config, task->lines[down], down, CAV_FENCE_LOW, at);
      if (all[i].height > step / 2)
        all[i].contact = cav_lower_line_get_contact (task->lines[down], &config->top, all[i].u,
                                                     all[i].height, SCAN_SLACK);
    }
  for (int i = 1; i < n - 1; i++)
    {
      if (all[i].contact >= all[i - 1].contact && all[i].contact >= all[i + 1].contact
          && (all[i].contact > all[i - 1].contact || all[i].contact > all[i + 1].contact))
        contacts[n_contacts++] = all[i];
      if (all[i].height >= all[i - 1].height && all[i].height >= all[i + 1].height
          && (all[i].height > all[i - 1].height || all[i].height > all[i + 1].height))
        peaks[n_peaks++] = all[i];
    }
  qsort (contacts, (size_t)n_contacts, sizeof (Found), compare_contacts);
  qsort (peaks, (size_t)n_peaks, sizeof (Found), compare_heights);
  for (int i = 0; i < MIN (n_contacts, KEEP_CONTACTS); i++)
    place_near (task, index, down, refine (task, config, down, contacts[i], COARSE_STEP).u);
  for (int i = 0; i < MIN (n_peaks, KEEP_PEAKS); i++)
    place_near (task, index, down, refine (task, config, down, peaks[i], COARSE_STEP).u);
}

/* Places where a tool's flank or rim meets an upright wall, and middles between walls. */
static void
place_at_walls (CavTask *task, int index, CavSide down)
{
  const CavConfig *config = cav_task_config (task, index);
  CavTransform map
      = cav_placement_get_transform (&task->blank, down, cav_fence_get_side (down, CAV_FENCE_LOW));
  double rim = get_rim (task, config), tip = config->top.r[0] + CAV_SLACK_ASIDE;
  gboolean blade = config->machine == CAV_MACHINE_SAW;
  double reach = cav_placement_get_reach (&task->blank, down);
  double coarse = blade ? 2.4 : fmax (1.5, rim / 2);

  for (guint i = 0; i < task->corners->len; i++)
    {
      double u = cav_transform_point (map, g_array_index (task->corners, CavPoint, i)).x;

      place_near (task, index, down, u + rim);
      place_near (task, index, down, u - rim);
      if (blade)
        {
          place_near (task, index, down, u + 3 * rim);
          place_near (task, index, down, u - 3 * rim);
        }
      else if (rim - tip > 0.1)
        {
          place_near (task, index, down, u + tip);
          place_near (task, index, down, u - tip);
        }
      for (guint j = i + 1; j < task->corners->len && !blade; j++)
        {
          double other = cav_transform_point (map, g_array_index (task->corners, CavPoint, j)).x;

          if (fabs (u - other) > 0.5 && fabs (u - other) <= 4 * rim)
            place_near (task, index, down, (u + other) / 2);
        }
    }
  for (double u = -rim / 2; u < reach + rim; u += coarse)
    place_near (task, index, down, u);
}

static void
collect_upright (CavTask *task, int index)
{
  for (int side = 0; side < CAV_N_SIDES && !cav_task_is_cancelled (task); side++)
    {
      place_at_walls (task, index, (CavSide)side);
      scan_side (task, index, (CavSide)side);
    }
}

/* How close to the fence side a waisted cutter may come at a height: it narrows below, so it comes
 * from the side and not from underneath. near is the outline as the fence sees it. */
static double
get_side_approach (const CavLowerLine *near, const CavCutter *cutter, double height)
{
  double axis = CAV_LOWER_LINE_OPEN;

  for (guint i = 0; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      if (height - p.z >= -1e-9)
        axis = fmin (axis, cav_lower_line_at (near, height - p.z) - p.r);
    }
  for (int i = 0; i < near->n_breaks; i++)
    {
      double z = height - near->u[i];
      double u = cav_lower_line_at (near, near->u[i]);

      if (z >= 0 && z <= cutter->length && u < CAV_LOWER_LINE_OPEN)
        axis = fmin (axis, u - cav_cutter_get_radius_at (cutter, z));
    }
  return axis;
}

static void
collect_waisted (CavTask *task, int index, CavSide down, CavFence fence)
{
  const CavConfig *config = cav_task_config (task, index);
  const CavCutter *cutter = cav_task_tool (task, config->tool)->cutter;
  double step = task->shop->limits.step, limit = get_top_limit (task, config, down);
  CavTransform map
      = cav_placement_get_transform (&task->blank, down, cav_fence_get_side (down, fence));
  CavTransform swapped = { map.yx, map.yy, map.y0, map.xx, map.xy, map.x0 };
  g_autoptr (CavLowerLine) near = cav_lower_line_new (task->profile, swapped);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (Found));

  for (double height = step; height < limit + step / 2; height += step)
    {
      double axis = get_side_approach (near, cutter, height);
      Found one;
      int candidate;

      if (axis >= CAV_LOWER_LINE_OPEN || axis + cav_cutter_get_greatest_radius (cutter) < step)
        continue;
      one = (Found){ cav_snap_down (axis + CAV_SLACK_ASIDE, step), cav_snap (height, step), 0 };
      candidate = cav_task_place (task, index, down, fence, one.u, one.height);
      if (candidate < 0)
        continue;
      one.contact = cav_outline_get_contact (task, &cav_task_candidate (task, candidate)->sweep);
      /* Only the best are kept; the rest would crowd the search. */
      if (candidate == (int)task->candidates->len - 1)
        cav_task_forget_last (task);
      if (one.contact >= LEAST_CONTACT)
        g_array_append_val (found, one);
    }
  qsort (found->data, found->len, sizeof (Found), compare_contacts);
  for (guint i = 0; i < MIN (found->len, KEEP_CONTACTS); i++)
    {
      Found one = g_array_index (found, Found, i);

      cav_task_place (task, index, down, fence, one.u, one.height);
    }
}

static void
place_tilted (CavTask *task,
              int index,
              CavSide down,
              CavFence fence,
              const CavLowerLine *line,
              double distance)
{
  const CavConfig *config = cav_task_config (task, index);
  double step = task->shop->limits.step;

  for (int i = 0; i < 2; i++)
    {
      double at = cav_snap_down (distance, step) + i * step;
      double height;

      if (at < -task->blank.width || at > cav_placement_get_reach (&task->blank, down))
        continue;
      height = cav_reach_get_height (task, config, line, down, fence, at);
      cav_task_place (task, index, down, fence, at, height);
    }
}

/* Leaning away from the fence (tilt > 0), what the blade severs lies on top; leaning toward it, it
 * severs nothing, but may be the only way for a rail that has lost its other side. */
static void
collect_tilted (CavTask *task, int tool, double tilt)
{
  int index = cav_task_add_config (task, CAV_MACHINE_SAW, tool, tilt);
  double t = RADIANS (tilt), kerf = cav_task_tool (task, tool)->blade->kerf;
  CavTransform turn = { cos (t), -sin (t), 0, sin (t), cos (t), 0 };

  for (int side = 0; side < CAV_N_SIDES; side++)
    for (int fence = 0; fence < 2; fence++)
      {
        CavSide down = (CavSide)side;
        CavTransform map = cav_placement_get_transform (&task->blank, down,
                                                        cav_fence_get_side (down, (CavFence)fence));
        CavTransform blade = cav_transform_compose (map, turn);
        g_autoptr (CavLowerLine) line = cav_lower_line_new (task->profile, blade);

        for (guint i = 0; i < task->corners->len; i++)
          {
            double n = cav_transform_point (blade, g_array_index (task->corners, CavPoint, i)).x;

            for (int shift = -2; shift <= 1; shift++)
              place_tilted (task, index, down, (CavFence)fence, line, (n + shift * kerf) / cos (t));
          }
        for (double u = 0; u < cav_placement_get_reach (&task->blank, down); u += 2.4)
          place_tilted (task, index, down, (CavFence)fence, line, u);
      }
}

static void
collect_tilts (CavTask *task, int tool)
{
  double limit = cav_task_tool (task, tool)->blade->tilt;
  g_autoptr (GArray) tilts = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint i = 0; i < task->edges->len + (task->curved ? 1 : 0); i++)
    {
      double angles[2] = { 22.5, 45 };

      if (i < task->edges->len)
        {
          CavOutlineEdge edge = g_array_index (task->edges, CavOutlineEdge, i);

          angles[0]
              = atan2 (fabs (edge.to.y - edge.from.y), fabs (edge.to.x - edge.from.x)) * 180 / G_PI;
          angles[0] = round (angles[0] * 1e4) / 1e4;
          angles[1] = 90 - angles[0];
        }
      for (int j = 0; j < 2; j++)
        {
          gboolean known = FALSE;

          for (guint k = 0; k < tilts->len; k++)
            known |= fabs (g_array_index (tilts, double, k) - angles[j]) < 0.04;
          if (!known && angles[j] >= 0.5 && angles[j] <= limit + 1e-9)
            g_array_append_val (tilts, angles[j]);
        }
    }
  for (guint i = 0; i < MIN (tilts->len, 12) && !cav_task_is_cancelled (task); i++)
    {
      collect_tilted (task, tool, g_array_index (tilts, double, i));
      if (task->thorough)
        collect_tilted (task, tool, -g_array_index (tilts, double, i));
    }
}

/* A hollow that a crossed blade might cut. */
typedef struct
{
  double angle;
  Found found;
} Crossing;

static int
compare_crossings (const void *a, const void *b)
{
  return compare_contacts (&((const Crossing *)a)->found, &((const Crossing *)b)->found);
}

static gboolean
cove_clears_fence (
    const CavTask *task, int tool, double angle, double u, double height, double reach)
{
  const CavBlade *blade = cav_task_tool (task, tool)->blade;
  double half = sin (RADIANS (angle)) * sqrt (fmax (0, height * (blade->diameter - height)))
                + blade->kerf * cos (RADIANS (angle)) / 2;

  return u - half >= 0 || reach - u - half >= 0;
}

static void
collect_coves (CavTask *task, int tool, CavSide down)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));
  double reach = cav_placement_get_reach (&task->blank, down), step = task->shop->limits.step;

  for (double angle = 8; angle <= 60; angle += 2)
    {
      CavConfig config = { .machine = CAV_MACHINE_COVE, .tool = tool, .angle = angle };

      config.limit = cav_task_tool (task, tool)->blade->height;
      cav_tool_top_init_cove (&config.top, cav_task_tool (task, tool)->blade, angle);
      for (double u = 5; u < reach - 5; u += 0.5)
        {
          double height
              = cav_reach_get_height (task, &config, task->lines[down], down, CAV_FENCE_LOW, u);
          Crossing crossing = { angle, { u, height, 0 } };

          if (height < step / 2 || height > 60
              || !cove_clears_fence (task, tool, angle, u, height, reach))
            continue;
          crossing.found.contact
              = cav_lower_line_get_contact (task->lines[down], &config.top, u, height, 0.25);
          if (crossing.found.contact > 6)
            g_array_append_val (crossings, crossing);
        }
      g_free (config.top.r);
      g_free (config.top.z);
    }
  qsort (crossings->data, crossings->len, sizeof (Crossing), compare_crossings);
  for (guint i = 0; i < MIN (crossings->len, KEEP_COVES); i++)
    {
      Crossing *crossing = &g_array_index (crossings, Crossing, i);
      int index = cav_task_add_config (task, CAV_MACHINE_COVE, tool, crossing->angle);

      place_near (task, index, down, crossing->found.u);
    }
}

void
cav_reach_collect (CavTask *task)
{
  for (guint i = 0; i < task->tools->len; i++)
    if (cav_task_tool (task, i)->cutter != NULL && !cav_task_tool (task, i)->widens)
      {
        int index = cav_task_add_config (task, CAV_MACHINE_ROUTER, (int)i, 0);

        for (int side = 0; side < CAV_N_SIDES; side++)
          for (int fence = 0; fence < 2; fence++)
            collect_waisted (task, index, (CavSide)side, (CavFence)fence);
      }
  for (guint i = 0; i < task->tools->len; i++)
    {
      gboolean blade = cav_task_tool (task, i)->blade != NULL;

      collect_upright (task, cav_task_add_config (
                                 task, blade ? CAV_MACHINE_SAW : CAV_MACHINE_ROUTER, (int)i, 0));
      if (!blade)
        continue;
      collect_tilts (task, (int)i);
      /* A grooving head, which does not tilt, is not made for feeding across. */
      if (task->shop->coving && task->curved && cav_task_tool (task, i)->blade->tilt > 0)
        for (int side = 0; side < CAV_N_SIDES; side++)
          if (cav_placement_get_reach (&task->blank, (CavSide)side) > 20)
            collect_coves (task, (int)i, (CavSide)side);
    }
}
