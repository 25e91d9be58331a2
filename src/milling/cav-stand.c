/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-stand.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

/* Sweeps are grown by this when they are subtracted, so that two cuts that share a wall leave no
 * film between them (micrometres). */
#define GROWTH 3

#define RADIANS(degrees) ((degrees)*G_PI / 180)

/* Farther from the wood than any tool reaches, and well within what a gint32 holds, mm. */
#define FARTHEST 1e6

static gint32
to_microns (double x)
{
  x = CLAMP (x, -FARTHEST, FARTHEST);
  return (gint32)(x * CAV_MICRONS + (x < 0 ? -0.5 : 0.5));
}

/* Depth of a tool where it is not so wide at all, micrometres. */
#define TOO_DEEP (1 << 30)

/* Interval of a sweep on a line of constant v (u from .. to) or constant u (v from .. to). */
typedef struct
{
  double from[2];
  double to[2];
  int n;
} Interval;

static void
set_interval (Interval *interval, double from, double to)
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
cross_at_height (const CavStand *stand, double v, Interval *interval)
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
cross_cutter (const CavStand *stand, double d, Interval *interval)
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
cross_at_distance (const CavStand *stand, double u, Interval *interval)
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

/* Ends of the stretches of rows that have the same spans. */
static void
find_runs (CavSweepRows *sweep)
{
  int n = sweep->n_layers;

  sweep->runs = g_new (gint32, MAX (sweep->r1 - sweep->r0, 1));
  for (int row = sweep->r0; row < sweep->r1; row++)
    {
      const CavSpan *spans = &sweep->spans[(row - sweep->r0) * n];
      gboolean same = row > sweep->r0;

      for (int i = 0; i < n && same; i++)
        same = spans[i].a == spans[i - n].a && spans[i].b == spans[i - n].b;
      if (!same)
        sweep->n_runs++;
      sweep->runs[sweep->n_runs - 1] = row + 1;
    }
}

/* The same where each row has one span. */
static void
find_single_runs (CavSweepRows *sweep)
{
  int n_rows = sweep->r1 - sweep->r0, n_runs = 0;
  gint32 *runs = g_new (gint32, MAX (n_rows, 1));

  for (int i = 0; i < n_rows; i++)
    {
      n_runs += i == 0 || sweep->spans[i].a != sweep->spans[i - 1].a
                || sweep->spans[i].b != sweep->spans[i - 1].b;
      runs[n_runs - 1] = sweep->r0 + i + 1;
    }
  sweep->runs = runs;
  sweep->n_runs = n_runs;
}

static void
fill_tables (CavConfig *config, const CavTool *tool)
{
  double turn = RADIANS (config->angle), widest = 0;
  CavStand stand = { config, tool, 0, config->limit, 1, sin (turn), cos (turn) };

  if (config->machine == CAV_MACHINE_SAW)
    return;
  config->n_halves = (int)ceil (config->limit / CAV_ROW_HEIGHT) + 2;
  config->halves = g_new (gint32, config->n_halves);
  for (int i = 0; i < config->n_halves; i++)
    {
      double depth = (i + 0.5) * CAV_ROW_HEIGHT;

      double half = config->machine == CAV_MACHINE_COVE
                        ? cav_stand_get_cove_half_width (&stand, config->limit - depth)
                        : cav_cutter_get_radius_at (tool->cutter, depth);

      config->halves[i] = to_microns (half);
      widest = fmax (widest, half);
    }
  if (config->machine == CAV_MACHINE_ROUTER && !tool->widens)
    return;
  config->n_depths = (int)ceil (widest / CAV_ROW_HEIGHT) + 2;
  config->depths = g_new (gint32, config->n_depths);
  for (int i = 0; i < config->n_depths; i++)
    {
      /* A wall right in the middle of a row takes it, as spans are grown too. */
      double d = (i + 0.5) * CAV_ROW_HEIGHT - GROWTH / CAV_MICRONS;
      Interval interval = { .n = 0 };

      if (config->machine == CAV_MACHINE_COVE)
        set_interval (&interval, 0, get_cove_top (&stand, d));
      else
        cross_cutter (&stand, d, &interval);
      config->depths[i] = interval.n > 0 ? to_microns (config->limit - interval.to[0]) : TOO_DEEP;
    }
}

void
cav_config_measure (const CavConfig *config, const CavTool *tool)
{
  CavConfig *self = (CavConfig *)config;

  if (!g_once_init_enter (&self->has_tables))
    return;
  fill_tables (self, tool);
  g_once_init_leave (&self->has_tables, 1);
}

static gboolean
is_on_row (double value, int *out_row)
{
  *out_row = (int)lround (value / CAV_ROW_HEIGHT);
  return fabs (value - *out_row * CAV_ROW_HEIGHT) < 1e-7;
}

/* A span, or nothing where it lies beside the wood. */
static inline CavSpan
keep_in_wood (CavSpan span, gint32 width)
{
  return span.b <= 0 || span.a >= width ? (CavSpan){ 0, 0 } : span;
}

/* Rows along the table, each as wide as the tool is at its height. */
static void
fill_flat_rows (const gint32 *halves, gint32 u, gint32 width, int step, CavSpan *spans, int n)
{
  for (int i = 0; i < n; i++)
    {
      gint32 half = halves[i * step];

      spans[i] = half > 0 ? keep_in_wood ((CavSpan){ u - half - GROWTH, u + half + GROWTH }, width)
                          : (CavSpan){ 0, 0 };
    }
}

/* Rows upright on the table, each as high as the tool is there; the one nearest its axis first. */
static void
fill_upright_rows (const gint32 *depths,
                   gint32 height,
                   gint32 width,
                   gboolean outside,
                   int step,
                   CavSpan *spans,
                   int n)
{
  for (int i = 0; i < n; i++)
    {
      gint32 top = height - depths[i];
      CavSpan span = outside ? (CavSpan){ width - top - GROWTH, width + GROWTH }
                             : (CavSpan){ -GROWTH, top + GROWTH };

      spans[i * step] = top <= 0 ? (CavSpan){ 0, 0 } : keep_in_wood (span, width);
    }
}

/* Leaves out the rows at either end that nothing is taken from. */
static void
trim_rows (CavSweepRows *sweep, int from, int to)
{
  CavSpan *spans = sweep->spans;
  int first = 0, last = to - from;

  while (first < last && spans[first].b <= spans[first].a)
    first++;
  while (last > first && spans[last - 1].b <= spans[last - 1].a)
    last--;
  if (first > 0)
    memmove (spans, spans + first, sizeof (CavSpan) * (gsize)(last - first));
  sweep->r0 = from + first;
  sweep->r1 = from + last;
}

/* Rows of a tool that stands on the grid, from the tables of its configuration. FALSE where it does
 * not, or has no such table. */
static gboolean
fill_rows_from_table (const CavTask *task, const CavStand *stand, CavSide down, CavSweepRows *sweep)
{
  const CavConfig *config = stand->config;
  gboolean flat = cav_side_is_flat (down), face = down == CAV_SIDE_FACE;
  gint32 width = to_microns (task->blank.width);
  int at, thickness = 0, from, to;

  cav_config_measure (config, stand->tool);
  if ((flat ? config->halves : config->depths) == NULL
      || !is_on_row (flat ? stand->height : stand->u, &at)
      || (face && !is_on_row (task->blank.thickness, &thickness)))
    return FALSE;
  if (!flat)
    {
      from = MAX (at - config->n_depths, 0);
      to = MIN (at + config->n_depths, task->n_rows);
    }
  else
    {
      from = face ? MAX (thickness - at, 0) : 0;
      to = face ? task->n_rows : MIN (at, task->n_rows);
    }
  to = MAX (to, from);
  sweep->n_layers = 1;
  sweep->spans = g_new (CavSpan, MAX (to - from, 1));
  if (flat)
    fill_flat_rows (config->halves + (face ? from - (thickness - at) : at - 1),
                    to_microns (stand->u), width, face ? 1 : -1, sweep->spans, to - from);
  else
    {
      gint32 height = to_microns (stand->height);
      gboolean outside = down == CAV_SIDE_OUTSIDE;
      int middle = CLAMP (at, from, to);
      CavSpan *spans = sweep->spans + (middle - from);

      fill_upright_rows (config->depths + (middle - at), height, width, outside, 1, spans,
                         to - middle);
      fill_upright_rows (config->depths + (at - middle), height, width, outside, -1, spans - 1,
                         middle - from);
    }
  trim_rows (sweep, from, to);
  return TRUE;
}

/* The sweep in the blank's rows. */
void
cav_stand_fill_rows (const CavTask *task, const CavStand *stand, CavSide down, CavSweepRows *sweep)
{
  gboolean flat = cav_side_is_flat (down);
  gboolean upright = stand->config->machine == CAV_MACHINE_SAW && fabs (stand->config->tilt) < 1e-9;
  int n_layers, from, to;

  if (fill_rows_from_table (task, stand, down, sweep))
    {
      find_single_runs (sweep);
      return;
    }
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

      /* An upright blade takes the same from all rows but those at its ends. */
      if (upright && sweep->r0 < row && row + 3 < to)
        {
          sweep->spans[row - sweep->r0] = sweep->spans[row - sweep->r0 - 1];
          sweep->r1 = row + 1;
          continue;
        }

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
