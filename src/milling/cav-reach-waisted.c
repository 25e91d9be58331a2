/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cutters that narrow below come from the side and not from underneath. */
#include "milling/cav-reach-private.h"

#include "milling/cav-placement.h"

#include <math.h>

/* A silhouette that turns by more than this has an edge there, degrees. */
#define EDGE_TURN 20
/* Farther than any profile, micrometres. */
#define FAR (1 << 28)
/* Contact where an edge of a cutter meets a corner of the profile by its height alone, mm: below,
 * it is chance and no curve that fits. */
#define CURVE_CONTACT 3.0
/* Cutters are looked at no more samples above the profile than this. */
#define ABOVE 32

#define RADIANS(degrees) ((degrees)*G_PI / 180)

/* Where the profile stands nearest to a fence at one height. */
typedef struct
{
  double v;
  double u;
} NearPlace;

/* The profile as seen from one fence: u over v, at its breaks exactly and pared by a slack above
 * and below. Steep parts of a curve would else keep a cutter of the very same curve away. */
struct _CavReachNear
{
  const CavLowerLine *line;
  CavLowerLine *own_line; /* the same, where the task has no such line */
  CavScanLine *scan;
  double slacks[2];
  NearPlace *places[2];
  int n_places[2];
};

void
cav_reach_near_free (CavReachNear *near)
{
  if (near == NULL)
    return;
  cav_lower_line_free (near->own_line);
  cav_scan_line_free (near->scan);
  for (int i = 0; i < 2; i++)
    g_free (near->places[i]);
  g_free (near);
}

/* interval: see cav_lower_line_at_next(). */
static double
get_pared_line (const CavLowerLine *line, double v, double slack, int *interval)
{
  double below, at, above;

  if (slack <= 0)
    return cav_lower_line_at_next (line, v, interval);
  below = cav_lower_line_at_next (line, v - slack, interval);
  at = cav_lower_line_at_next (line, v, interval);
  above = cav_lower_line_at_next (line, v + slack, interval);
  return MAX (at, MAX (below, above));
}

/* The line may jump at a break: what is pared off shows beside it. */
static void
list_places (CavReachNear *near, int which)
{
  const CavLowerLine *line = near->line;
  double slack = near->slacks[which];
  int n = 0, interval = -1;

  if (near->places[which] != NULL)
    return;
  near->places[which] = g_new (NearPlace, MAX (3 * line->n_breaks, 1));
  for (int i = 0; i < line->n_breaks; i++)
    for (int k = slack > 0 ? -1 : 0; k <= (slack > 0 ? 1 : 0); k++)
      {
        NearPlace place = { line->u[i] + k * slack, 0 };

        place.u = get_pared_line (line, place.v, slack, &interval);
        if (place.u < CAV_LOWER_LINE_OPEN)
          near->places[which][n++] = place;
      }
  near->n_places[which] = n;
}

static const CavReachNear *
get_near (CavReachSide *side, CavFence fence)
{
  const CavTask *task = side->task;
  CavSide against = cav_fence_get_side (side->down, fence);
  CavTransform map = cav_placement_get_transform (&task->blank, side->down, against);
  CavTransform swapped = { map.yx, map.yy, map.y0, map.xx, map.xy, map.x0 };
  CavReachNear *near = side->near[fence];

  if (near != NULL)
    return near;
  near = side->near[fence] = g_new0 (CavReachNear, 1);
  /* What lies down and what is at the fence change places. */
  if (cav_fence_get_side (against, CAV_FENCE_LOW) == side->down)
    near->line = task->lines[against];
  else
    near->line = near->own_line = cav_lower_line_new (task->profile, swapped);
  near->scan
      = cav_scan_line_new (near->line, cav_placement_get_height (&task->blank, side->down), ABOVE);
  near->slacks[0] = CAV_SLACK_UP;
  return near;
}

/* The radius of a cutter over the depth below its tip, for scanning from the side. */
static CavScanTool *
create_side_tool (const CavCutter *cutter)
{
  CavScanTool *tool = g_new0 (CavScanTool, 1);
  g_autofree double *radii = NULL;

  tool->n = (int)floor (cutter->length / CAV_SCAN_STEP) + 1;
  tool->depths = cav_scan_depths_new ((guint)tool->n);
  radii = g_new (double, tool->n);
  cav_cutter_sample_radii (cutter, 0, CAV_SCAN_STEP, tool->n, radii);
  for (int i = 0; i < tool->n; i++)
    tool->depths[i] = -(gint32)lround (radii[i] * CAV_MICRONS);
  /* A wall that begins where the tip ends is not in its way. */
  tool->depths[0] = FAR;
  return tool;
}

static const CavScanTool *
get_side_tool (const CavConfig *config, const CavCutter *cutter)
{
  CavConfig *self = (CavConfig *)config;

  if (g_once_init_enter (&self->has_side_scan))
    {
      self->side_scan = create_side_tool (cutter);
      g_once_init_leave (&self->has_side_scan, 1);
    }
  return config->side_scan;
}

/* How close to the fence side a waisted cutter may come at a height: exactly, or to the pared
 * profile. */
static double
get_side_approach (CavReachNear *near, int which, const CavCutter *cutter, double height)
{
  double axis = CAV_LOWER_LINE_OPEN, widest = cav_cutter_get_greatest_radius (cutter);
  int interval = -1;

  for (guint i = 0; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint p = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      if (height - p.z >= -1e-9 && near->line->lowest - p.r < axis)
        axis = MIN (axis, get_pared_line (near->line, height - p.z, near->slacks[which], &interval)
                              - p.r);
    }
  list_places (near, which);
  for (int i = 0; i < near->n_places[which]; i++)
    {
      NearPlace place = near->places[which][i];
      double z = height - place.v;

      /* Most stand so far back that not even the widest part would meet them. */
      if (place.u - widest < axis && z >= 0 && z <= cutter->length)
        axis = MIN (axis, place.u - cav_cutter_get_radius_at (cutter, z));
    }
  return axis;
}

/* Both ways: the exact one is nearer where the profile jumps, the pared one along curves. */
static void
place_waisted (const CavReachSide *side, int index, CavFence fence, double height)
{
  CavTask *task = side->task;
  const CavCutter *cutter = cav_task_tool (task, cav_task_config (task, index)->tool)->cutter;
  double step = task->shop->limits.step, at = cav_snap (height, step);

  for (int i = 0; i < 2; i++)
    {
      double axis = get_side_approach (side->near[fence], i, cutter, at);

      if (axis < CAV_LOWER_LINE_OPEN && axis + cav_cutter_get_greatest_radius (cutter) > step)
        cav_task_place (task, index, side->down, fence,
                        cav_snap_down (axis + CAV_SLACK_ASIDE, step), at);
    }
}

/* TRUE where a silhouette has an edge at a point: its tip, its end, where a curve begins. */
static gboolean
is_edge (const GArray *silhouette, guint i)
{
  const CavSilhouettePoint *p = &g_array_index (silhouette, CavSilhouettePoint, i);

  if (i == 0 || i + 1 == silhouette->len)
    return TRUE;
  return fabs (remainder (atan2 (p[1].r - p[0].r, p[1].z - p[0].z)
                              - atan2 (p[0].r - p[-1].r, p[0].z - p[-1].z),
                          2 * G_PI))
         > RADIANS (EDGE_TURN);
}

/* Heights at which an edge of the cutter meets a corner of the profile: curves fit each other there
 * and nowhere near. */
static void
look_at_corners (const CavTask *task,
                 const CavCutter *cutter,
                 CavTransform map,
                 const CavScanLine *scan,
                 const CavScanTool *tool,
                 double limit,
                 GArray *found)
{
  for (guint i = 0; i < cutter->silhouette->len; i++)
    for (guint j = 0, n = is_edge (cutter->silhouette, i) ? task->corners->len : 0; j < n; j++)
      {
        double z = g_array_index (cutter->silhouette, CavSilhouettePoint, i).z;
        double v = cav_transform_point (map, g_array_index (task->corners, CavPoint, j)).y + z;
        int at = (int)lround (v / CAV_SCAN_STEP);
        CavReachFound one = { 0, at * CAV_SCAN_STEP, 0 };

        if (at < 1 || one.height > limit + 1e-9)
          continue;
        one.u = cav_scan_get_side (scan, tool, at);
        one.contact = cav_scan_get_side_contact (scan, tool, at, one.u, CAV_REACH_SLACK);
        if (one.contact > CURVE_CONTACT)
          g_array_append_val (found, one);
      }
}

/* For each height a waisted cutter has one closest fence distance. */
static void
collect_from_fence (CavReachSide *side, int index, CavFence fence)
{
  CavTask *task = side->task;
  const CavConfig *config = cav_task_config (task, index);
  const CavCutter *cutter = cav_task_tool (task, config->tool)->cutter;
  double limit = cav_reach_get_top_limit (task, config, side->down);
  CavTransform map = cav_placement_get_transform (&task->blank, side->down,
                                                  cav_fence_get_side (side->down, fence));
  const CavReachNear *near = get_near (side, fence);
  const CavScanTool *tool = get_side_tool (config, cutter);
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (CavReachFound));
  int spacing = task->thorough ? 2 : CAV_REACH_LOOK;
  guint keep = task->thorough ? CAV_REACH_CONTACTS : CAV_REACH_CONTACTS_QUICK;

  for (int i = 1; i * CAV_SCAN_STEP < limit + CAV_SCAN_STEP / 2; i += spacing)
    {
      CavReachFound one = { cav_scan_get_side (near->scan, tool, i), i * CAV_SCAN_STEP, 0 };

      one.contact = cav_scan_get_side_contact (near->scan, tool, i, one.u, CAV_REACH_SLACK);
      if (one.contact > CAV_REACH_LEAST_CONTACT)
        g_array_append_val (found, one);
    }
  look_at_corners (task, cutter, map, near->scan, tool, limit, found);
  g_array_sort (found, cav_reach_compare_contacts);
  for (guint k = 0; k < MIN (found->len, keep); k++)
    {
      CavReachFound one = g_array_index (found, CavReachFound, k), best = one;
      int middle = (int)lround (one.height / CAV_SCAN_STEP);

      for (int i = MAX (1, middle - spacing); i <= middle + spacing; i++)
        {
          double u = cav_scan_get_side (near->scan, tool, i);
          double contact = cav_scan_get_side_contact (near->scan, tool, i, u, CAV_REACH_SLACK);

          if (contact > best.contact && i * CAV_SCAN_STEP <= limit)
            best = (CavReachFound){ u, i * CAV_SCAN_STEP, contact };
        }
      place_waisted (side, index, fence, best.height);
    }
}

void
cav_reach_collect_waisted (CavReachSide *side, int index)
{
  for (int fence = 0; fence < 2; fence++)
    collect_from_fence (side, index, (CavFence)fence);
}
