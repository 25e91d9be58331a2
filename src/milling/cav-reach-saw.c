/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-reach-private.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <stdlib.h>

#define MOST_TILTS 12
#define KEEP_COVES 16
#define KEEP_COVES_QUICK 4
/* Angles of the fence to the blade, degrees. */
#define COVE_FIRST 8
#define COVE_LAST 60
#define COVE_SLACK 0.25
/* A hollow has to be this wide for the fence to be set across. */
#define COVE_CONTACT 6

#define RADIANS(degrees) ((degrees)*G_PI / 180)

/* One tilted blade with one side down and one at the fence. */
typedef struct
{
  CavTask *task;
  int config;
  CavSide down;
  CavFence fence;
  CavTransform blade; /* from the blank to the blade's own frame */
  CavLowerLine *line; /* in that frame, or NULL until it is asked for */
  double t;           /* radians */
  double kerf;
} Lean;

static void
place_leaning (Lean *lean, double distance)
{
  CavTask *task = lean->task;
  double step = task->shop->limits.step, reach = cav_placement_get_reach (&task->blank, lean->down);
  /* A blade that leans away from the fence stands beyond its own foot, and not in the fence. */
  gboolean away = lean->t > 0;
  double least = away ? -step / 2 : -task->blank.width;
  double most = away ? reach + CAV_ROW_HEIGHT : reach + task->blank.width;

  for (int i = 0; i < 2; i++)
    {
      double at = cav_snap_down (distance, step) + i * step, height;

      if (at < least || at > most
          || !cav_task_is_fresh (task, lean->config, lean->down, lean->fence, at))
        continue;
      if (lean->line == NULL)
        lean->line = cav_lower_line_new (task->profile, lean->blade);
      height = cav_reach_get_height (task, cav_task_config (task, lean->config), lean->line,
                                     lean->down, lean->fence, at);
      cav_task_place (task, lean->config, lean->down, lean->fence, at, height);
    }
}

/* The kerf with a face along an edge that runs with the blade, and kerf beside kerf along an edge
 * that runs with its square end. */
static void
place_along_edge (Lean *lean, CavOutlineEdge edge)
{
  CavPoint p = cav_transform_point (lean->blade, edge.from);
  CavPoint q = cav_transform_point (lean->blade, edge.to);
  double n0 = fmin (p.x, q.x), n1 = fmax (p.x, q.x), length = cav_point_distance (p, q);

  if (n1 - n0 < 0.02 + 1e-3 * length)
    {
      place_leaning (lean, n0 / cos (lean->t));
      place_leaning (lean, (n0 - lean->kerf) / cos (lean->t));
    }
  else if (fabs (p.y - q.y) < 0.02 + 1e-3 * length)
    {
      double n;

      for (n = n0; n < n1 - lean->kerf; n += lean->kerf - 0.05)
        place_leaning (lean, n / cos (lean->t));
      place_leaning (lean, (n1 - lean->kerf) / cos (lean->t));
    }
}

static void
collect_lean (Lean *lean)
{
  CavTask *task = lean->task;
  double reach = cav_placement_get_reach (&task->blank, lean->down);

  for (guint i = 0; i < task->edges->len; i++)
    place_along_edge (lean, g_array_index (task->edges, CavOutlineEdge, i));
  if (!task->thorough)
    return;
  for (guint i = 0; i < task->corners->len; i++)
    {
      double n = cav_transform_point (lean->blade, g_array_index (task->corners, CavPoint, i)).x;

      for (int shift = -2; shift <= 1; shift++)
        place_leaning (lean, (n + shift * lean->kerf) / cos (lean->t));
    }
  for (double u = 0; u < reach; u += 2.4)
    place_leaning (lean, u);
}

/* Leaning away from the fence (tilt > 0), what the blade severs lies on top; leaning toward it, it
 * severs nothing, but may be the only way for a rail that has lost its other side. */
static void
collect_tilted (CavTask *task, int tool, double tilt, CavSide down)
{
  Lean lean
      = { .task = task, .t = RADIANS (tilt), .kerf = cav_task_tool (task, tool)->blade->kerf };
  CavTransform turn = { cos (lean.t), -sin (lean.t), 0, sin (lean.t), cos (lean.t), 0 };

  lean.config = cav_task_add_config (task, CAV_MACHINE_SAW, tool, tilt);
  for (int fence = 0; fence < 2; fence++)
    {
      lean.down = down;
      lean.fence = (CavFence)fence;
      lean.blade = cav_transform_compose (
          cav_placement_get_transform (&task->blank, lean.down,
                                       cav_fence_get_side (lean.down, lean.fence)),
          turn);
      collect_lean (&lean);
      g_clear_pointer (&lean.line, cav_lower_line_free);
    }
}

static void
add_tilt (GArray *tilts, double tilt, double limit)
{
  for (guint k = 0; k < tilts->len; k++)
    if (fabs (g_array_index (tilts, double, k) - tilt) < 0.04)
      return;
  if (tilt >= 0.5 && tilt <= limit + 1e-9)
    g_array_append_val (tilts, tilt);
}

/* Tilts that a blade may be set to for this profile: some leaning toward the fence, with a minus.
 */
static GArray *
list_tilts (const CavTask *task, int tool)
{
  double limit = cav_task_tool (task, tool)->blade->tilt;
  g_autoptr (GArray) away = g_array_new (FALSE, FALSE, sizeof (double));
  GArray *tilts = g_array_new (FALSE, FALSE, sizeof (double));

  /* A face asks for its own angle, from the upright or from the flat. */
  for (guint i = 0; i < task->edges->len; i++)
    {
      CavOutlineEdge edge = g_array_index (task->edges, CavOutlineEdge, i);
      double angle = atan2 (fabs (edge.to.y - edge.from.y), fabs (edge.to.x - edge.from.x));

      angle = round (angle * 180 / G_PI * 1e4) / 1e4;
      add_tilt (away, angle, limit);
      add_tilt (away, 90 - angle, limit);
    }
  if (task->curved && task->thorough)
    {
      add_tilt (away, 22.5, limit);
      add_tilt (away, 45, limit);
    }
  for (guint i = 0; i < MIN (away->len, MOST_TILTS); i++)
    {
      double tilt = g_array_index (away, double, i), toward = -tilt;

      g_array_append_val (tilts, tilt);
      if (task->thorough)
        g_array_append_val (tilts, toward);
    }
  return tilts;
}

void
cav_reach_add_tilts (CavTask *task, int tool)
{
  g_autoptr (GArray) tilts = list_tilts (task, tool);

  for (guint i = 0; i < tilts->len; i++)
    cav_task_add_config (task, CAV_MACHINE_SAW, tool, g_array_index (tilts, double, i));
}

void
cav_reach_collect_tilts (CavTask *task, int tool, CavSide down)
{
  g_autoptr (GArray) tilts = list_tilts (task, tool);

  for (guint i = 0; i < tilts->len && !cav_task_is_cancelled (task); i++)
    collect_tilted (task, tool, g_array_index (tilts, double, i), down);
}

/* Angles that are looked at, from the first to the last. */
static int
get_cove_spacing (const CavTask *task)
{
  return task->thorough ? 2 : 4;
}

void
cav_reach_add_coves (CavTask *task, int tool)
{
  for (int angle = COVE_FIRST; angle <= COVE_LAST; angle += get_cove_spacing (task))
    cav_task_add_config (task, CAV_MACHINE_COVE, tool, angle);
}

/* A hollow that a crossed blade might cut. */
typedef struct
{
  CavReachFound found; /* first, so that crossings sort by contact */
  int config;
} Crossing;

static gboolean
cove_clears_fence (const CavBlade *blade, double angle, double u, double height, double reach)
{
  double half = sin (RADIANS (angle)) * sqrt (fmax (0, height * (blade->diameter - height)))
                + blade->kerf * cos (RADIANS (angle)) / 2;

  return u - half >= 0 || reach - u - half >= 0;
}

static void
look_across (const CavReachSide *side, int index, GArray *crossings)
{
  const CavConfig *config = cav_task_config (side->task, index);
  const CavBlade *blade = cav_task_tool (side->task, config->tool)->blade;
  const CavScanTool *tool = cav_config_get_scan (config);
  int spacing = side->task->thorough ? 10 : 20;
  double step = side->task->shop->limits.step;

  for (int i = 100; i < side->scan->n - 100; i += spacing)
    {
      Crossing crossing = { { i * CAV_SCAN_STEP, 0, 0 }, index };

      if (cav_scan_is_blocked (side->scan, tool, i))
        continue;
      crossing.found.height = cav_scan_get_tip (side->scan, tool, i);
      if (crossing.found.height < step || crossing.found.height > 60
          || !cove_clears_fence (blade, config->angle, crossing.found.u, crossing.found.height,
                                 side->reach))
        continue;
      crossing.found.contact
          = cav_scan_get_contact (side->scan, tool, i, crossing.found.height, COVE_SLACK);
      if (crossing.found.contact > COVE_CONTACT)
        g_array_append_val (crossings, crossing);
    }
}

void
cav_reach_collect_coves (const CavReachSide *side, int tool)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));
  int keep = side->task->thorough ? KEEP_COVES : KEEP_COVES_QUICK;

  for (int angle = COVE_FIRST; angle <= COVE_LAST; angle += get_cove_spacing (side->task))
    look_across (side, cav_task_add_config (side->task, CAV_MACHINE_COVE, tool, angle), crossings);
  g_array_sort (crossings, cav_reach_compare_contacts);
  for (guint i = 0; i < MIN (crossings->len, (guint)keep); i++)
    {
      Crossing crossing = g_array_index (crossings, Crossing, i);

      cav_reach_place_near (side->task, crossing.config, side->down, crossing.found.u);
    }
}
