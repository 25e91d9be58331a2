/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-reach-private.h"

#include "milling/cav-parallel.h"
#include "milling/cav-placement.h"

#include <math.h>
#include <stdlib.h>

/* How many placements of each kind are kept for one configuration and side. */
#define KEEP_PEAKS 6
#define KEEP_PEAKS_QUICK 1
/* Spacing of the first look along a side, in samples of the grid. */
#define LOOK_QUICK 10

#define RADIANS(degrees) ((degrees)*G_PI / 180)

double
cav_reach_get_top_limit (const CavTask *task, const CavConfig *config, CavSide down)
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
  double limit = cav_reach_get_top_limit (task, config, down), tip;

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

int
cav_reach_compare_contacts (const void *a, const void *b)
{
  const CavReachFound *p = a, *q = b;

  if (p->contact > q->contact || p->contact < q->contact)
    return p->contact < q->contact ? 1 : -1;
  return (p->u > q->u) - (p->u < q->u);
}

static int
compare_heights (const void *a, const void *b)
{
  const CavReachFound *p = a, *q = b;

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
place_at (CavTask *task, int index, CavSide down, CavFence fence, double distance, double height)
{
  const CavConfig *config = cav_task_config (task, index);
  const CavTool *tool = cav_task_tool (task, config->tool);
  double step = task->shop->limits.step;

  cav_task_place (task, index, down, fence, distance, height);
  /* A kerf of just one bite severs as well as a deeper one. */
  if (config->machine == CAV_MACHINE_SAW && height * tool->blade->kerf > tool->bite)
    cav_task_place (task, index, down, fence, distance,
                    cav_snap_down (tool->bite / tool->blade->kerf, step));
}

/* The neighbours on the grid of one distance, the far one first to be left out. In a quick plan
 * only the one that reaches higher, or else the nearer one, is placed: as a rule the other enters a
 * wall. */
static void
place_neighbours (CavTask *task, int index, CavSide down, CavFence fence, double distance, int n)
{
  const CavConfig *config = cav_task_config (task, index);
  double step = task->shop->limits.step, low = cav_snap_down (distance, step), heights[2] = { 0 };
  gboolean fresh[2] = { FALSE };

  for (int i = 0; i < n; i++)
    {
      fresh[i] = cav_task_is_fresh (task, index, down, fence, low + i * step);
      if (fresh[i] || (n > 1 && !task->thorough))
        heights[i]
            = cav_reach_get_height (task, config, task->lines[down], down, fence, low + i * step);
    }
  if (n > 1 && !task->thorough)
    {
      gboolean second = heights[1] > heights[0] + step / 2
                        || (heights[1] > heights[0] - step / 2 && distance - low > step / 2);

      fresh[!second] = FALSE;
    }
  for (int i = 0; i < n; i++)
    if (fresh[i])
      place_at (task, index, down, fence, low + i * step, heights[i]);
}

void
cav_reach_place_near (CavTask *task, int index, CavSide down, double axis)
{
  const CavConfig *config = cav_task_config (task, index);
  double step = task->shop->limits.step;
  double reach = cav_placement_get_reach (&task->blank, down);
  double low = axis_to_distance (task, config, axis);
  double high = axis_to_distance (task, config, reach - axis);
  double off = fabs (low + high - cav_snap (low + high, step));
  gboolean on_grid = fabs (low - cav_snap (low, step)) < 1e-6;

  place_neighbours (task, index, down, CAV_FENCE_LOW, low, on_grid && off <= 1e-6 ? 1 : 2);
  if (off > 1e-6)
    place_neighbours (task, index, down, CAV_FENCE_HIGH, high, 2);
}

/* One configuration as it is moved along one side. */
typedef struct
{
  const CavReachSide *side;
  int index;
  const CavConfig *config;
  const CavScanTool *tool;
  double limit; /* of its height */
  double rim;
} Walk;

/* A look at one sample of a side. */
static CavReachFound
look (const Walk *walk, int i)
{
  const CavScanLine *scan = walk->side->scan;
  CavReachFound found = { i * CAV_SCAN_STEP, 0, 0 };

  if (cav_scan_is_blocked (scan, walk->tool, i))
    return found;
  found.height = cav_scan_get_tip (scan, walk->tool, i);
  if (found.height > walk->limit)
    found.height = walk->limit;
  else if (found.height > 0)
    found.contact = cav_scan_get_contact (scan, walk->tool, i, found.height, CAV_REACH_SLACK);
  return found;
}

/* The place of most contact in the neighbourhood. */
static CavReachFound
refine (const Walk *walk, CavReachFound found, int span)
{
  CavReachFound best = found;
  int middle = (int)lround (found.u / CAV_SCAN_STEP);

  for (int i = middle - span; i <= middle + span; i++)
    {
      CavReachFound one = look (walk, i);

      if (one.contact > best.contact + 1e-9)
        best = one;
    }
  return best;
}

/* Walks a configuration along one side and keeps where it fits the outline best and where it
 * reaches highest. */
static void
scan_side (const Walk *walk)
{
  CavTask *task = walk->side->task;
  CavSide down = walk->side->down;
  int spacing = task->thorough ? CAV_REACH_LOOK : LOOK_QUICK;
  int n = (int)ceil ((walk->side->reach + 2 * walk->rim) / CAV_SCAN_STEP / spacing) + 1;
  int first = -(int)floor (walk->rim / CAV_SCAN_STEP), n_contacts = 0, n_peaks = 0;
  int keep = task->thorough ? CAV_REACH_CONTACTS : CAV_REACH_CONTACTS_QUICK;
  int keep_peaks = task->thorough ? KEEP_PEAKS : KEEP_PEAKS_QUICK;
  g_autofree CavReachFound *all = g_new (CavReachFound, 3 * n);
  CavReachFound *contacts = all + n, *peaks = all + 2 * n;

  for (int i = 0; i < n; i++)
    all[i] = look (walk, first + i * spacing);
  for (int i = 1; i < n - 1; i++)
    {
      if (all[i].contact > CAV_REACH_LEAST_CONTACT && all[i].contact >= all[i - 1].contact
          && all[i].contact >= all[i + 1].contact
          && (all[i].contact > all[i - 1].contact || all[i].contact > all[i + 1].contact))
        contacts[n_contacts++] = all[i];
      if (all[i].height >= all[i - 1].height && all[i].height >= all[i + 1].height
          && (all[i].height > all[i - 1].height || all[i].height > all[i + 1].height))
        peaks[n_peaks++] = all[i];
    }
  qsort (contacts, (size_t)n_contacts, sizeof (CavReachFound), cav_reach_compare_contacts);
  qsort (peaks, (size_t)n_peaks, sizeof (CavReachFound), compare_heights);
  for (int i = 0; i < MIN (n_contacts, keep); i++)
    cav_reach_place_near (task, walk->index, down, refine (walk, contacts[i], spacing).u);
  for (int i = 0; i < MIN (n_peaks, keep_peaks); i++)
    cav_reach_place_near (task, walk->index, down, peaks[i].u);
}

/* TRUE where no neighbour on the grid can rise. */
static gboolean
is_blocked_around (const Walk *walk, double axis)
{
  int first = (int)floor (axis / CAV_SCAN_STEP) - 1;
  gboolean blocked = TRUE;

  for (int i = first; i <= first + 3 && blocked; i++)
    blocked = cav_scan_is_blocked (walk->side->scan, walk->tool, i);
  return blocked;
}

/* Places that were proposed for one walk. */
typedef struct
{
  double *axes;
  int n;
  guint8 *near; /* by sample, which of them have one */
  int before;   /* samples below 0 */
} Proposed;

/* TRUE where a place was proposed before: many corners stand over each other. */
static gboolean
is_known (Proposed *proposed, double axis)
{
  guint8 *near = &proposed->near[(int)floor (axis / CAV_SCAN_STEP) + proposed->before];

  for (int i = 0, n = near[-1] | near[0] | near[1] ? proposed->n : 0; i < n; i++)
    if (fabs (proposed->axes[i] - axis) < 1e-9)
      return TRUE;
  proposed->axes[proposed->n++] = axis;
  near[0] = 1;
  return FALSE;
}

/* A place that walls propose. In a quick plan a look comes first: a cutter that fits nothing there
 * is passed over. */
static void
propose (const Walk *walk, double axis, Proposed *proposed)
{
  CavTask *task = walk->side->task;

  if (is_known (proposed, axis))
    return;
  if (!task->thorough && walk->config->machine == CAV_MACHINE_ROUTER)
    {
      CavReachFound found = look (walk, (int)lround (axis / CAV_SCAN_STEP));

      if (found.height < CAV_SCAN_STEP || found.contact < CAV_REACH_LEAST_CONTACT)
        return;
    }
  cav_reach_place_near (task, walk->index, walk->side->down, axis);
}

/* Places where a tool's flank or rim meets an upright wall, middles between walls, a coarse grid.
 */
static void
place_at_walls (const Walk *walk)
{
  CavTask *task = walk->side->task;
  const double *walls = walk->side->walls;
  int n = walk->side->n_walls;
  double rim = walk->rim, tip = walk->config->top.r[0] + CAV_SLACK_ASIDE;
  gboolean blade = walk->config->machine == CAV_MACHINE_SAW;
  double coarse = blade ? 2.4 : fmax (1.5, rim / 2);
  g_autofree double *axes = g_new (double, MAX (n * (n + 7) / 2, 1));
  /* No farther from the wood than three times the rim. */
  int before = (int)ceil (3 * rim / CAV_SCAN_STEP) + 3;
  int size = 2 * before + (int)ceil (walk->side->reach / CAV_SCAN_STEP);
  g_autofree guint8 *near = g_new0 (guint8, size);
  Proposed proposed = { axes, 0, near, before };

  for (int i = 0; i < n; i++)
    {
      double u = walls[i];

      propose (walk, u + rim, &proposed);
      propose (walk, u - rim, &proposed);
      if (blade)
        {
          propose (walk, u + 3 * rim, &proposed);
          propose (walk, u - 3 * rim, &proposed);
        }
      else if (rim - tip > 0.1)
        {
          propose (walk, u + tip, &proposed);
          propose (walk, u - tip, &proposed);
        }
      for (int j = i + 1; j < n && !blade && task->thorough; j++)
        if (fabs (u - walls[j]) > 0.5 && fabs (u - walls[j]) <= 4 * rim)
          propose (walk, (u + walls[j]) / 2, &proposed);
    }
  if (!task->thorough)
    coarse = blade ? 4.8 : fmax (4, rim);
  for (double u = -rim / 2; u < walk->side->reach + rim; u += coarse)
    if (!is_blocked_around (walk, u))
      cav_reach_place_near (task, walk->index, walk->side->down, u);
}

static double
get_widest_rim (const CavTask *task)
{
  double widest = 0;

  for (guint i = 0; i < task->tools->len; i++)
    if (cav_task_tool (task, i)->cutter != NULL)
      widest = fmax (widest, cav_task_tool (task, i)->diameter / 2);
  return widest;
}

/* A grooving head, which does not tilt, is not made for feeding across. */
static gboolean
may_cross (const CavTask *task, const CavTool *tool)
{
  return tool->blade != NULL && task->shop->coving && task->curved && tool->blade->tilt > 0;
}

/* Where corners stand, each place once. */
static void
list_walls (CavReachSide *side)
{
  const CavTask *task = side->task;
  CavTransform map = cav_placement_get_transform (&task->blank, side->down,
                                                  cav_fence_get_side (side->down, CAV_FENCE_LOW));

  side->walls = g_new (double, MAX (task->corners->len, 1));
  for (guint i = 0; i < task->corners->len; i++)
    {
      double u = cav_transform_point (map, g_array_index (task->corners, CavPoint, i)).x;
      int at = 0;

      while (at < side->n_walls && (side->walls[at] < u || side->walls[at] > u))
        at++;
      if (at == side->n_walls)
        side->walls[side->n_walls++] = u;
    }
}

static void
collect_side (CavReachSide *side)
{
  CavTask *task = side->task;

  list_walls (side);
  for (guint i = 0; i < task->tools->len && !cav_task_is_cancelled (task); i++)
    {
      const CavTool *tool = cav_task_tool (task, i);
      gboolean blade = tool->blade != NULL;
      int index
          = cav_task_add_config (task, blade ? CAV_MACHINE_SAW : CAV_MACHINE_ROUTER, (int)i, 0);

      const CavConfig *config = cav_task_config (task, index);
      Walk walk = { side,
                    index,
                    config,
                    cav_config_get_scan (config),
                    cav_reach_get_top_limit (task, config, side->down),
                    get_rim (task, config) };

      place_at_walls (&walk);
      scan_side (&walk);
      if (!blade && !tool->widens)
        cav_reach_collect_waisted (side, index);
      if (may_cross (task, tool) && side->reach > 20)
        cav_reach_collect_coves (side, (int)i);
    }
}

static void
clear_side (CavReachSide *side)
{
  cav_scan_line_free (side->scan);
  g_free (side->walls);
  for (int fence = 0; fence < 2; fence++)
    cav_reach_near_free (side->near[fence]);
}

/* All configurations are there before the sides are looked at side by side. */
static void
add_configs (CavTask *task)
{
  for (guint i = 0; i < task->tools->len; i++)
    {
      const CavTool *tool = cav_task_tool (task, i);

      cav_task_add_config (task, tool->blade != NULL ? CAV_MACHINE_SAW : CAV_MACHINE_ROUTER, (int)i,
                           0);
      if (may_cross (task, tool))
        cav_reach_add_coves (task, (int)i);
      if (tool->blade != NULL)
        cav_reach_add_tilts (task, (int)i);
    }
}

/* The collecting of each side, upright and tilted, with candidates and places of its own. */
typedef struct
{
  CavTask task[2 * CAV_N_SIDES]; /* copies that share all else */
  int margin;
} Collecting;

/* Upright first, then tilted: placements are found in the order in which they are tried. */
static void
collect_job (gpointer data, int job)
{
  Collecting *collecting = data;
  CavTask *task = &collecting->task[job];
  CavReachSide side = { task,
                        (CavSide)(job % CAV_N_SIDES),
                        cav_placement_get_reach (&task->blank, (CavSide)(job % CAV_N_SIDES)),
                        NULL,
                        NULL,
                        0,
                        { NULL } };

  if (job >= CAV_N_SIDES)
    {
      for (guint i = 0; i < task->tools->len; i++)
        if (cav_task_tool (task, i)->blade != NULL)
          cav_reach_collect_tilts (task, (int)i, (CavSide)(job - CAV_N_SIDES));
      return;
    }
  side.scan = cav_scan_line_new (task->lines[job], side.reach, collecting->margin);
  collect_side (&side);
  clear_side (&side);
}

/* Takes what was collected for one side, which is then empty. */
static void
take_candidates (CavTask *task, CavTask *side)
{
  int before = (int)task->candidates->len;

  g_ptr_array_extend_and_steal (task->candidates, side->candidates);
  cav_room_join (&task->room, &side->room);
  for (guint i = 0; i < side->places.size; i++)
    if (side->places.names[i] != 0)
      cav_places_add (&task->places, side->places.names[i],
                      side->places.numbers[i] < 0 ? -1 : before + side->places.numbers[i]);
  cav_places_clear (&side->places);
  cav_places_clear (&side->fresh);
}

void
cav_reach_collect (CavTask *task)
{
  Collecting collecting = { .margin = (int)ceil (get_widest_rim (task) / CAV_SCAN_STEP) + 1 };

  add_configs (task);
  for (int job = 0; job < 2 * CAV_N_SIDES; job++)
    {
      collecting.task[job] = *task;
      collecting.task[job].candidates = g_ptr_array_new ();
      collecting.task[job].places = collecting.task[job].fresh = (CavPlaces){ NULL };
      collecting.task[job].room = (CavRoom){ NULL };
    }
  cav_parallel_run (2 * CAV_N_SIDES, collect_job, &collecting);
  for (int job = 0; job < 2 * CAV_N_SIDES; job++)
    take_candidates (task, &collecting.task[job]);
}
