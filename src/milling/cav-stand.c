/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-stand-private.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

#define RADIANS(degrees) ((degrees)*G_PI / 180)

/* Farther from the wood than any tool reaches, and well within what a gint32 holds, mm. */
#define FARTHEST 1e6

gint32
cav_stand_to_microns (double x)
{
  x = CLAMP (x, -FARTHEST, FARTHEST);
  return (gint32)(x * CAV_MICRONS + (x < 0 ? -0.5 : 0.5));
}

static void
set_interval (CavStandCrossing *interval, double from, double to)
{
  interval->n = to > from;
  interval->from[0] = from;
  interval->to[0] = to;
}

/* Half width of the crossed blade's ellipse at height v. */
double
cav_stand_get_cove_half_width (const CavStand *stand, double v)
{
  double radius = stand->tool->blade->diameter / 2;
  double s = (v - (stand->height - radius)) / radius;

  return stand->tool->blade->kerf * stand->cos_turn / 2
         + radius * stand->sin_turn * sqrt (fmax (0, 1 - s * s));
}

static double
get_cove_top (const CavStand *stand, double distance)
{
  double radius = stand->tool->blade->diameter / 2;
  double flat = stand->tool->blade->kerf * stand->cos_turn / 2;
  double s = fmax (0, distance - flat) / (radius * stand->sin_turn);

  return s >= 1 ? -1 : stand->height - radius + radius * sqrt (1 - s * s);
}

/* Distance along a tilted blade from the table to the square end of its kerf; the highest corner
 * is the near one where it leans away from the fence, the far one where it leans toward it. */
double
cav_stand_get_blade_end (const CavStand *stand)
{
  return (stand->height - stand->tool->blade->kerf * fmax (0, -stand->sin_turn)) / stand->cos_turn;
}

/* What the tool covers at height v. */
static void
cross_at_height (const CavStand *stand, double v, CavStandCrossing *interval)
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
      double w = cav_stand_get_cove_half_width (stand, v);

      set_interval (interval, stand->u - w, stand->u + w);
    }
  else if (fabs (stand->config->tilt) < 1e-9)
    set_interval (interval, stand->u, stand->u + stand->tool->blade->kerf);
  else
    {
      /* In the blade's own frame: between its faces, and below the square end of the kerf. */
      double sine = stand->sin_turn, end = cav_stand_get_blade_end (stand) - v * stand->cos_turn;
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
cross_cutter (const CavStand *stand, double d, CavStandCrossing *interval)
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

void
cav_stand_cross_at_distance (const CavStand *stand, double u, CavStandCrossing *interval)
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

      set_interval (
          interval, fmax (0, fmin (near, far)),
          fmin (fmax (near, far), (cav_stand_get_blade_end (stand) - x * sine) / stand->cos_turn));
    }
}

/* Rows that a sweep can reach: those up to its height where rows run along the table, those within
 * its widest extent where they stand on it. */
static void
get_row_range (const CavTask *task, const CavStand *stand, CavSide down, int *out_from, int *out_to)
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
          half = cav_stand_get_cove_half_width (stand, 0);
          break;
        case CAV_MACHINE_SAW:
        default:
          tilt_run = cav_stand_get_blade_end (stand) * fabs (stand->sin_turn);
          half = tilt_run + stand->tool->blade->kerf / stand->cos_turn;
          break;
        }
      from = stand->u - half;
      to = stand->u + half;
    }
  *out_from = CLAMP ((int)floor (from / CAV_ROW_HEIGHT) - 1, 0, task->n_rows);
  *out_to = CLAMP ((int)ceil (to / CAV_ROW_HEIGHT) + 1, 0, task->n_rows);
}

static CavSpan
get_span (const CavTask *task, CavSide down, double from, double to)
{
  CavSpan span = { cav_stand_to_microns (from) - CAV_STAND_GROWTH,
                   cav_stand_to_microns (to) + CAV_STAND_GROWTH };

  if (down == CAV_SIDE_OUTSIDE)
    {
      span.a = cav_stand_to_microns (task->blank.width - to) - CAV_STAND_GROWTH;
      span.b = cav_stand_to_microns (task->blank.width - from) + CAV_STAND_GROWTH;
    }
  if (to - from < 1e-9 || span.b <= 0 || span.a >= cav_stand_to_microns (task->blank.width))
    return (CavSpan){ 0, 0 };
  return span;
}

void
cav_stand_make_room (CavTask *task, CavSweepRows *sweep, int n_rows, int stride)
{
  gsize n = (gsize)MAX (n_rows, 1), n_spans = stride > 0 ? n * (gsize)stride : 1;

  sweep->stride = stride;
  sweep->spans = cav_room_take (&task->room, n_spans * sizeof (CavSpan) + n * sizeof (gint32));
  sweep->runs = (gint32 *)(sweep->spans + n_spans);
}

static void
cross_row (
    const CavTask *task, const CavStand *stand, CavSide down, int row, CavStandCrossing *crossing)
{
  double y = (row + 0.5) * CAV_ROW_HEIGHT;

  if (cav_side_is_flat (down))
    cross_at_height (stand, down == CAV_SIDE_BACK ? y : task->blank.thickness - y, crossing);
  else
    cav_stand_cross_at_distance (stand, y, crossing);
}

/* An upright blade takes the same from all rows that it meets. */
static void
fill_alike (CavTask *task, const CavStand *stand, CavSide down, CavSweepRows *sweep)
{
  CavStandCrossing crossing = { .n = 0 };
  int from, to;

  get_row_range (task, stand, down, &from, &to);
  for (; from < to; from++)
    {
      cross_row (task, stand, down, from, &crossing);
      if (crossing.n > 0)
        break;
    }
  cav_stand_make_room (task, sweep, 1, 0);
  sweep->spans[0] = (CavSpan){ 0, 0 };
  if (from < to)
    sweep->spans[0] = get_span (task, down, crossing.from[0], crossing.to[0]);
  while (to > from)
    {
      cross_row (task, stand, down, to - 1, &crossing);
      if (crossing.n > 0)
        break;
      to--;
    }
  sweep->r0 = from;
  sweep->r1 = to;
}

/* Row by row; what comes before the first row with wood and after the last is left out. */
static void
fill_row_by_row (CavTask *task, const CavStand *stand, CavSide down, CavSweepRows *sweep)
{
  int n = sweep->n_layers, from, to;

  get_row_range (task, stand, down, &from, &to);
  cav_stand_make_room (task, sweep, to - from, n);
  memset (sweep->spans, 0, sizeof (CavSpan) * (gsize)(MAX (to - from, 0) * n));
  sweep->r0 = to;
  sweep->r1 = from;
  for (int row = from; row < to; row++)
    {
      CavSpan *at;
      CavStandCrossing crossing;

      cross_row (task, stand, down, row, &crossing);
      if (crossing.n == 0)
        continue;
      sweep->r0 = MIN (sweep->r0, row);
      sweep->r1 = row + 1;
      at = &sweep->spans[(row - sweep->r0) * n];
      for (int i = 0; i < crossing.n && i < n; i++)
        at[i] = get_span (task, down, crossing.from[i], crossing.to[i]);
      /* Two layers come from the tip down; rising order is what subtraction wants. */
      if (n == 2 && at[0].a > at[1].a)
        {
          CavSpan swap = at[0];

          at[0] = at[1];
          at[1] = swap;
        }
    }
  if (sweep->r0 == to)
    sweep->r0 = sweep->r1 = 0;
}

/* Ends of the stretches of rows that have the same spans. */
static void
find_runs (CavSweepRows *sweep)
{
  int n_rows = sweep->r1 - sweep->r0, n = sweep->stride, n_runs = 0;
  gint32 *runs = sweep->runs;

  for (int i = 0; n == 1 && i < n_rows; i++)
    {
      const CavSpan *span = &sweep->spans[i];

      n_runs += i == 0 || span[0].a != span[-1].a || span[0].b != span[-1].b;
      runs[n_runs - 1] = sweep->r0 + i + 1;
    }
  for (int i = 0; n > 1 && i < n_rows; i++)
    {
      const CavSpan *spans = &sweep->spans[i * n];

      n_runs += i == 0 || memcmp (spans, spans - n, sizeof (CavSpan) * (gsize)n) != 0;
      runs[n_runs - 1] = sweep->r0 + i + 1;
    }
  if (n == 0 && n_rows > 0)
    runs[n_runs++] = sweep->r1;
  sweep->n_runs = n_runs;
}

void
cav_stand_set_measure (CavCandidate *candidate, CavStandMeasure measure)
{
  guint64 key = measure.key ^ (guint64)(guint32)candidate->sweep.r1;

  key = (key ^ key >> 29) * 0xc4ceb9fe1a85ec53u;
  candidate->key = (key ^ key >> 32) | 1;
  candidate->area = (double)measure.microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}

void
cav_stand_measure_rows (const CavTask *task, CavCandidate *candidate)
{
  CavSweepRows *sweep = &candidate->sweep;
  gint32 width = cav_stand_to_microns (task->blank.width);
  CavStandMeasure measure = { 0, 0 };
  int row = sweep->r0;

  find_runs (sweep);
  for (int run = 0; run < sweep->n_runs; row = sweep->runs[run++])
    for (int i = 0; i < sweep->n_layers; i++)
      {
        CavSpan span = cav_sweep_rows_get (sweep, row)[i];

        cav_stand_measure_add (&measure, span, row);
        measure.microns += (gint64)cav_stand_get_length (span, width) * (sweep->runs[run] - row);
      }
  cav_stand_set_measure (candidate, measure);
}

void
cav_stand_fill_rows (CavTask *task, const CavStand *stand, CavCandidate *candidate)
{
  gboolean saw = stand->config->machine == CAV_MACHINE_SAW;
  gboolean layered = stand->config->machine == CAV_MACHINE_ROUTER && !stand->tool->widens;

  candidate->sweep.n_layers = layered && !cav_side_is_flat (candidate->down) ? 2 : 1;
  if (!saw && cav_stand_fill_from_table (task, stand, candidate))
    return;
  if (saw && fabs (stand->config->tilt) < 1e-9)
    fill_alike (task, stand, candidate->down, &candidate->sweep);
  else
    fill_row_by_row (task, stand, candidate->down, &candidate->sweep);
  cav_stand_measure_rows (task, candidate);
}
