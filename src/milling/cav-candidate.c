/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-task.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

/* Sweeps are grown by this when they are subtracted, so that two cuts that share a wall leave no
 * film between them (micrometres). */
#define GROWTH 3

/* Above any placement, within what a name can hold, mm. */
#define NO_HEIGHT 830.0
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

/* Interval of a sweep on a line of constant v (u from .. to) or constant u (v from .. to). */
typedef struct
{
  double from[2];
  double to[2];
  int n;
} Interval;

/* A tool as it stands, on the axis of the low fence. */
typedef struct
{
  const CavConfig *config;
  const CavTool *tool;
  double u; /* near face or axis at the table */
  double height;
  double sense;    /* +1: leans toward greater u, -1: toward smaller */
  double sin_turn; /* of the tilt or the angle */
  double cos_turn;
} Stand;

static void
set_interval (Interval *interval, double from, double to)
{
  interval->n = to > from;
  interval->from[0] = from;
  interval->to[0] = to;
}

/* Half width of the crossed blade's ellipse at height v. */
static double
get_cove_half_width (const Stand *stand, double v)
{
  double radius = stand->tool->blade->diameter / 2;
  double s = (v - (stand->height - radius)) / radius;

  return stand->tool->blade->kerf * stand->cos_turn / 2
         + radius * stand->sin_turn * sqrt (fmax (0, 1 - s * s));
}

static double
get_cove_top (const Stand *stand, double distance)
{
  double radius = stand->tool->blade->diameter / 2;
  double flat = stand->tool->blade->kerf * stand->cos_turn / 2;
  double s = fmax (0, distance - flat) / (radius * stand->sin_turn);

  return s >= 1 ? -1 : stand->height - radius + radius * sqrt (1 - s * s);
}

/* Distance along a tilted blade from the table to the square end of its kerf; the highest corner
 * is the near one where it leans away from the fence, the far one where it leans toward it. */
static double
get_blade_end (const Stand *stand)
{
  return (stand->height - stand->tool->blade->kerf * fmax (0, -stand->sin_turn)) / stand->cos_turn;
}

/* What the tool covers at height v. */
static void
cross_at_height (const Stand *stand, double v, Interval *interval)
{
  interval->n = 0;
  if (v < 0 || v > stand->height)
    return;
  if (stand->config->machine == CAV_MACHINE_ROUTER)
    {
      double r = cav_cutter_get_radius_at (stand->tool->cutter, stand->height - v);

      set_interval (interval, stand->u - r, stand->u + r);
    }
  else if (stand->config->machine == CAV_MACHINE_COVE)
    {
      double w = get_cove_half_width (stand, v);

      set_interval (interval, stand->u - w, stand->u + w);
    }
  else if (fabs (stand->config->tilt) < 1e-9)
    set_interval (interval, stand->u, stand->u + stand->tool->blade->kerf);
  else
    {
      /* In the blade's own frame: between its faces, and below the square end of the kerf. */
      double sine = stand->sin_turn, end = get_blade_end (stand) - v * stand->cos_turn;
      double near = v * sine / stand->cos_turn;
      double far = near + stand->tool->blade->kerf / stand->cos_turn;

      if (sine > 0)
        far = fmin (far, end / sine);
      else
        near = fmax (near, end / sine);
      if (far <= near)
        return;
      if (stand->sense > 0)
        set_interval (interval, stand->u + near, stand->u + far);
      else
        set_interval (interval, stand->u - far, stand->u - near);
    }
}

/* First point of a silhouette that is at least d wide; 0 where it has to be searched for because
 * the cutter narrows in places. */
static guint
find_first_wide (const CavTool *tool, double d)
{
  const GArray *points = tool->cutter->silhouette;
  guint low = 0, high = tool->widens ? points->len : 0;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (points, CavSilhouettePoint, middle).r >= d)
        high = middle;
      else
        low = middle + 1;
    }
  return low;
}

/* Depths at which a cutter is at least d wide to one side, as heights. */
static void
cross_cutter (const Stand *stand, double d, Interval *interval)
{
  const GArray *points = stand->tool->cutter->silhouette;
  gboolean inside = FALSE;
  double from = 0;

  interval->n = 0;
  for (guint i = find_first_wide (stand->tool, d); i < points->len && interval->n < 2; i++)
    {
      CavSilhouettePoint p = g_array_index (points, CavSilhouettePoint, i);
      CavSilhouettePoint q = g_array_index (points, CavSilhouettePoint, MAX (i, 1) - 1);

      if (!inside && p.r >= d)
        {
          inside = TRUE;
          from = i == 0 || q.r >= p.r ? p.z : q.z + (d - q.r) / (p.r - q.r) * (p.z - q.z);
          if (stand->tool->widens)
            break;
        }
      else if (inside && p.r < d)
        {
          double to = q.z + (q.r - d) / (q.r - p.r) * (p.z - q.z);

          inside = FALSE;
          interval->to[interval->n] = stand->height - from;
          interval->from[interval->n++] = fmax (0, stand->height - to);
        }
    }
  if (inside && interval->n < 2)
    {
      interval->to[interval->n] = stand->height - from;
      interval->from[interval->n++] = 0;
    }
}

/* What the tool covers at distance u. */
static void
cross_at_distance (const Stand *stand, double u, Interval *interval)
{
  double d = fabs (u - stand->u);

  interval->n = 0;
  if (stand->config->machine == CAV_MACHINE_ROUTER)
    cross_cutter (stand, d, interval);
  else if (stand->config->machine == CAV_MACHINE_COVE)
    set_interval (interval, 0, get_cove_top (stand, d));
  else if (fabs (stand->config->tilt) < 1e-9)
    {
      if (u > stand->u && u < stand->u + stand->tool->blade->kerf)
        set_interval (interval, 0, stand->height);
    }
  else
    {
      double sine = stand->sin_turn, x = stand->sense * (u - stand->u);
      double near = x * stand->cos_turn / sine;
      double far = near - stand->tool->blade->kerf / sine;

      set_interval (interval, fmax (0, fmin (near, far)),
                    fmin (fmax (near, far), (get_blade_end (stand) - x * sine) / stand->cos_turn));
    }
}

/* Rows that a sweep can reach: those up to its height where rows run along the table, those within
 * its widest extent where they stand on it. */
static void
get_row_range (const CavTask *task, const Stand *stand, CavSide down, int *out_from, int *out_to)
{
  double from = 0, to = stand->height, half, tilt_run;

  if (down == CAV_SIDE_FACE)
    {
      from = task->blank.thickness - stand->height;
      to = task->blank.thickness;
    }
  else if (!cav_side_is_flat (down))
    {
      switch (stand->config->machine)
        {
        case CAV_MACHINE_ROUTER:
          half = stand->tool->diameter / 2;
          break;
        case CAV_MACHINE_COVE:
          half = get_cove_half_width (stand, 0);
          break;
        case CAV_MACHINE_SAW:
        default:
          tilt_run = get_blade_end (stand) * fabs (stand->sin_turn);
          half = tilt_run + stand->tool->blade->kerf / stand->cos_turn;
          break;
        }
      from = stand->u - half;
      to = stand->u + half;
    }
  *out_from = CLAMP ((int)floor (from / CAV_ROW_HEIGHT) - 1, 0, task->n_rows);
  *out_to = CLAMP ((int)ceil (to / CAV_ROW_HEIGHT) + 1, 0, task->n_rows);
}

static gint32
to_microns (double x)
{
  return (gint32)(x * CAV_MICRONS + (x < 0 ? -0.5 : 0.5));
}

static CavSpan
get_span (const CavTask *task, CavSide down, double from, double to)
{
  CavSpan span = { to_microns (from) - GROWTH, to_microns (to) + GROWTH };

  if (down == CAV_SIDE_OUTSIDE)
    {
      span.a = to_microns (task->blank.width - to) - GROWTH;
      span.b = to_microns (task->blank.width - from) + GROWTH;
    }
  if (to - from < 1e-9 || span.b <= 0 || span.a >= to_microns (task->blank.width))
    return (CavSpan){ 0, 0 };
  return span;
}

static void
find_runs (CavSweepRows *sweep)
{
  gsize size = sizeof (CavSpan) * (gsize)sweep->n_layers;

  sweep->runs = g_new (gint32, MAX (sweep->r1 - sweep->r0, 1));
  for (int row = sweep->r0; row < sweep->r1; row++)
    {
      const CavSpan *spans = &sweep->spans[(row - sweep->r0) * sweep->n_layers];

      if (row == sweep->r0 || memcmp (spans, spans - sweep->n_layers, size) != 0)
        sweep->n_runs++;
      sweep->runs[sweep->n_runs - 1] = row + 1;
    }
}

/* The sweep in the blank's rows. */
static void
fill_rows (const CavTask *task, const Stand *stand, CavSide down, CavSweepRows *sweep)
{
  gboolean flat = cav_side_is_flat (down);
  int n_layers, from, to;

  n_layers = !flat && stand->config->machine == CAV_MACHINE_ROUTER && !stand->tool->widens ? 2 : 1;
  get_row_range (task, stand, down, &from, &to);
  sweep->n_layers = n_layers;
  sweep->spans = g_new0 (CavSpan, MAX ((to - from) * n_layers, 1));
  sweep->r0 = to;
  sweep->r1 = from;
  for (int row = from; row < to; row++)
    {
      double y = (row + 0.5) * CAV_ROW_HEIGHT;
      CavSpan *at;
      Interval interval;

      if (flat)
        cross_at_height (stand, down == CAV_SIDE_BACK ? y : task->blank.thickness - y, &interval);
      else
        cross_at_distance (stand, y, &interval);
      if (interval.n == 0 && sweep->r0 == to)
        continue;
      /* The first row with wood begins the sweep; what comes before is left out. */
      if (sweep->r0 == to)
        sweep->r0 = row;
      at = &sweep->spans[(row - sweep->r0) * n_layers];
      for (int i = 0; i < interval.n && i < n_layers; i++)
        at[i] = get_span (task, down, interval.from[i], interval.to[i]);
      if (interval.n > 0)
        sweep->r1 = row + 1;
      /* Two layers come from the tip down; rising order is what subtraction wants. */
      if (n_layers == 2 && at[0].a > at[1].a)
        {
          CavSpan swap = at[0];

          at[0] = at[1];
          at[1] = swap;
        }
    }
  if (sweep->r0 == to)
    sweep->r0 = sweep->r1 = 0;
  find_runs (sweep);
}

static guint64
hash_sweep (const CavSweepRows *sweep)
{
  guint64 hash = 0x9e3779b97f4a7c15u ^ (guint64)sweep->r0;
  int n = (sweep->r1 - sweep->r0) * sweep->n_layers;

  for (int i = 0; i < n; i++)
    {
      hash ^= ((guint64)(guint32)sweep->spans[i].a << 32) | (guint32)sweep->spans[i].b;
      hash *= 0xff51afd7ed558ccdu;
      hash ^= hash >> 32;
    }
  return hash | 1;
}

static double
get_swept_area (const CavTask *task, const CavSweepRows *sweep)
{
  gint32 width = (gint32)lround (task->blank.width * CAV_MICRONS);
  gint64 microns = 0;
  int n = (sweep->r1 - sweep->r0) * sweep->n_layers;

  for (int i = 0; i < n; i++)
    {
      gint32 a = MAX (sweep->spans[i].a, 0), b = MIN (sweep->spans[i].b, width);

      if (b > a)
        microns += b - a;
    }
  return (double)microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}

/* The pilot's box in the blank, drawn in by what may stand in it. FALSE where the finished profile
 * would be in its way. */
static gboolean
place_pilot (const CavTask *task, const Stand *stand, CavSide down, CavCandidate *candidate)
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
get_foot (const Stand *stand, double *out_from, double *out_to)
{
  if (stand->config->machine == CAV_MACHINE_SAW)
    {
      double width = stand->tool->blade->kerf / cos (RADIANS (stand->config->tilt));

      *out_from = stand->sense > 0 ? stand->u : stand->u - width;
      *out_to = stand->sense > 0 ? stand->u + width : stand->u;
    }
  else
    {
      double w = stand->config->machine == CAV_MACHINE_COVE ? get_cove_half_width (stand, 0)
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
    const CavTask *task, const Stand *stand, CavFence fence, double distance, CavCandidate *c)
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
      double lean = get_blade_end (stand) * sin (RADIANS (stand->config->tilt));

      if (distance + fmin (lean, 0) < -1e-9 || get_blade_end (stand) < BLADE_END_LEAST)
        c->fences = 0;
      return;
    }
  other = stand->config->machine == CAV_MACHINE_SAW ? reach - distance - stand->tool->blade->kerf
                                                    : reach - distance;
  if (!is_on_grid (other, step))
    return;
  c->fence[!fence] = cav_snap (other, step);
  c->fences |= 1u << !fence;
  if (stand->config->machine == CAV_MACHINE_ROUTER)
    return;
  least = stand->config->machine == CAV_MACHINE_SAW ? -stand->tool->blade->kerf : 0;
  for (int i = 0; i < 2; i++)
    if (c->edge[i] < least - 1e-9)
      c->fences &= ~(1u << i);
}

/* A placement as one number that stands for it alone, stirred so that a table spreads it well
 * (odd multiples and shifts can be undone, so no two meet). */
static gpointer
name_place (int config, CavSide down, CavFence fence, double distance, double height)
{
  guint64 name = (guint64)config << 3 | (guint64)down << 1 | (guint64)fence;

  name = name << 25 | ((guint64)lround ((distance + 2 * CAV_BLANK_MAX) * 1e4) & 0x1ffffff);
  name = name << 23 | ((guint64)lround (height * 1e4) & 0x7fffff);
  name *= 0x9e3779b97f4a7c15u;
  return GSIZE_TO_POINTER (name ^ (name >> 32));
}

gboolean
cav_task_is_fresh (CavTask *task, int config, CavSide down, CavFence fence, double distance)
{
  /* No placement has this height, so the name is free for the distance itself. */
  return g_hash_table_insert (task->places, name_place (config, down, fence, distance, NO_HEIGHT),
                              GINT_TO_POINTER (-1));
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
  Stand stand = { config,     tool,      low ? distance : reach - distance, height, low ? 1 : -1,
                  sin (turn), cos (turn) };
  gpointer name, known;
  CavCandidate *c;

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
  if (g_hash_table_lookup_extended (task->places, name, NULL, &known))
    return GPOINTER_TO_INT (known);

  c = g_new0 (CavCandidate, 1);
  c->config = config_index;
  c->down = down;
  c->height = height;
  c->severs = config->machine != CAV_MACHINE_ROUTER && config->tilt >= 0;
  c->middle = stand.u;
  if (config->machine == CAV_MACHINE_SAW)
    {
      c->middle += stand.sense * tool->blade->kerf / 2 / cos (RADIANS (config->tilt));
      c->lean = stand.sense * tan (RADIANS (config->tilt));
    }
  set_fences (task, &stand, fence, distance, c);
  fill_rows (task, &stand, down, &c->sweep);
  c->key = hash_sweep (&c->sweep);
  c->area = get_swept_area (task, &c->sweep);
  if (c->fences == 0 || c->area < 0.02
      || (tool->cutter != NULL && tool->cutter->has_pilot && !place_pilot (task, &stand, down, c)))
    {
      cav_candidate_free (c);
      g_hash_table_insert (task->places, name, GINT_TO_POINTER (-1));
      return -1;
    }
  c->name = name;
  g_ptr_array_add (task->candidates, c);
  g_hash_table_insert (task->places, name, GINT_TO_POINTER ((int)task->candidates->len - 1));
  return (int)task->candidates->len - 1;
}

void
cav_task_forget_last (CavTask *task)
{
  CavCandidate *last = cav_task_candidate (task, task->candidates->len - 1);

  g_hash_table_remove (task->places, last->name);
  g_ptr_array_set_size (task->candidates, (int)task->candidates->len - 1);
}

void
cav_candidate_free (CavCandidate *candidate)
{
  g_free (candidate->sweep.spans);
  g_free (candidate->sweep.runs);
  g_free (candidate->bits);
  g_free (candidate);
}
