/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sweeps of tools that stand on the grid of rows, from tables made once for a configuration. */
#include "milling/cav-stand-private.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

#define RADIANS(degrees) ((degrees)*G_PI / 180)
#define GROWTH CAV_STAND_GROWTH
/* Depth of a tool where it is not so wide at all, micrometres. */
#define TOO_DEEP (1 << 30)

/* How many values from the first on are equal and above 0. */
static int
count_alike (const gint32 *values, int n)
{
  int i = 0;

  while (i < n && values[i] == values[0] && values[i] > 0)
    i++;
  return i;
}

static void
fill_halves (CavConfig *config, const CavStand *stand, double *widest)
{
  int n = config->n_halves = (int)ceil (config->limit / CAV_ROW_HEIGHT) + 2;
  g_autofree double *halves = g_new (double, n);

  if (config->machine == CAV_MACHINE_COVE)
    for (int i = 0; i < n; i++)
      halves[i] = cav_stand_get_cove_half_width (stand, config->limit - (i + 0.5) * CAV_ROW_HEIGHT);
  else
    cav_cutter_sample_radii (stand->tool->cutter, 0.5, CAV_ROW_HEIGHT, n, halves);
  config->halves = g_new (gint32, n);
  for (int i = 0; i < n; i++)
    {
      config->halves[i] = cav_stand_to_microns (halves[i]);
      *widest = MAX (*widest, halves[i]);
    }
  config->n_alike = count_alike (config->halves, n);
}

/* Depth at which a tool is so wide, and that at which it no longer is. */
static CavSpan
get_depths (const CavConfig *config, const CavStandCrossing *crossing, int layer)
{
  CavSpan span = { TOO_DEEP, TOO_DEEP };

  if (layer >= crossing->n)
    return span;
  span.a = cav_stand_to_microns (config->limit - crossing->to[layer]);
  if (crossing->from[layer] > 0)
    span.b = cav_stand_to_microns (config->limit - crossing->from[layer]);
  return span;
}

/* How many rows beside the axis stand as high as the first, where all others are empty. */
static int
count_level (const CavConfig *config)
{
  int n = 0, i;

  while (n < config->n_depths && config->depths[n].a == config->depths[0].a
         && config->depths[n].a < TOO_DEEP)
    n++;
  for (i = n; i < config->n_depths && config->depths[i].a == TOO_DEEP; i++)
    ;
  return config->n_layers == 1 && i == config->n_depths ? n : 0;
}

/* Of a cutter that widens: from some depth on it is so wide. */
static void
fill_rising_depths (CavConfig *config, const GArray *silhouette, double shift)
{
  guint at = 0;

  for (int i = 0; i < config->n_depths; i++)
    {
      double d = (i + 0.5) * CAV_ROW_HEIGHT - shift, z;
      const CavSilhouettePoint *p;

      config->depths[i] = (CavSpan){ TOO_DEEP, TOO_DEEP };
      while (at < silhouette->len && g_array_index (silhouette, CavSilhouettePoint, at).r < d)
        at++;
      if (at == silhouette->len)
        continue;
      p = &g_array_index (silhouette, CavSilhouettePoint, at);
      z = p->z;
      if (at > 0 && p[-1].r < p->r)
        z = p[-1].z + (d - p[-1].r) / (p->r - p[-1].r) * (p->z - p[-1].z);
      config->depths[i].a = cav_stand_to_microns (config->limit - (config->limit - z));
    }
}

static void
fill_depths (CavConfig *config, const CavStand *stand, double widest)
{
  int n = config->n_layers;
  /* A wall right in the middle of a row takes it, as spans are grown too. */
  double shift = n == 1 ? GROWTH / CAV_MICRONS : 0;

  config->n_depths = (int)ceil (widest / CAV_ROW_HEIGHT) + 2;
  config->depths = g_new (CavSpan, config->n_depths * n);
  if (config->machine == CAV_MACHINE_ROUTER && stand->tool->widens)
    fill_rising_depths (config, stand->tool->cutter->silhouette, shift);
  else
    for (int i = 0; i < config->n_depths; i++)
      {
        CavStandCrossing crossing = { .n = 0 };

        cav_stand_cross_at_distance (stand, (i + 0.5) * CAV_ROW_HEIGHT - shift, &crossing);
        for (int layer = 0; layer < n; layer++)
          config->depths[i * n + layer] = get_depths (config, &crossing, layer);
      }
  config->n_level = count_level (config);
}

static void
fill_tables (CavConfig *config, const CavTool *tool)
{
  double turn = RADIANS (config->angle), widest = 0;
  CavStand stand = { config, tool, 0, config->limit, 1, sin (turn), cos (turn) };

  config->n_layers = config->machine == CAV_MACHINE_ROUTER && !tool->widens ? 2 : 1;
  fill_halves (config, &stand, &widest);
  fill_depths (config, &stand, widest);
}

static void
measure_config (const CavConfig *config, const CavTool *tool)
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

/* A row along the table that is so far from the axis on either side; nothing where it lies beside
 * the wood. */
static inline CavSpan
get_flat_span (gint32 half, gint32 u, gint32 width)
{
  CavSpan span = { u - half - GROWTH, u + half + GROWTH };

  return half <= 0 || span.b <= 0 || span.a >= width ? (CavSpan){ 0, 0 } : span;
}

static gboolean
is_empty (CavSpan span)
{
  return span.b <= span.a;
}

/* Rows of one span each as they are entered, one after another, in a sweep that has room. */
typedef struct
{
  CavSpan *spans;
  gint32 *runs;
  gint32 width; /* of the blank */
  gint32 row;
  int n_runs;
  CavSpan last;
  gint32 length; /* of the last within the blank */
  CavStandMeasure measure;
} Rows;

static Rows
begin_rows (CavTask *task, CavSweepRows *sweep, gint32 width, int from, int to)
{
  cav_stand_make_room (task, sweep, to - from, 1);
  sweep->r0 = from;
  sweep->r1 = to;
  return (Rows){ sweep->spans, sweep->runs, width, from, 0, { 0, -1 }, 0, { 0, 0 } };
}

static inline void
repeat_row (Rows *rows)
{
  *rows->spans++ = rows->last;
  rows->row++;
  rows->measure.microns += rows->length;
}

static inline void
add_row (Rows *rows, CavSpan span)
{
  if (span.a != rows->last.a || span.b != rows->last.b)
    {
      if (rows->n_runs > 0)
        rows->runs[rows->n_runs - 1] = rows->row;
      rows->n_runs++;
      rows->last = span;
      rows->length = cav_stand_get_length (span, rows->width);
      cav_stand_measure_add (&rows->measure, span, rows->row);
    }
  repeat_row (rows);
}

static void
end_rows (const Rows *rows, CavCandidate *candidate)
{
  if (rows->n_runs > 0)
    rows->runs[rows->n_runs - 1] = rows->row;
  candidate->sweep.n_runs = rows->n_runs;
  cav_stand_set_measure (candidate, rows->measure);
}

/* A tool as rows see it that stand upright on the table. */
typedef struct
{
  gint32 height;
  gint32 width; /* of the blank */
  gboolean outside;
} Upright;

static inline CavSpan
get_upright_span (const Upright *tool, CavSpan depths)
{
  gint32 top = tool->height - depths.a, foot = MAX (tool->height - depths.b, 0);

  if (top <= foot)
    return (CavSpan){ 0, 0 };
  return tool->outside ? (CavSpan){ tool->width - top - GROWTH, tool->width - foot + GROWTH }
                       : (CavSpan){ foot - GROWTH, top + GROWTH };
}

/* n rows upright on the table, each as high as the tool is there. */
static inline void
add_upright_rows (const Upright *tool, const CavSpan *depths, int step, int n, Rows *rows)
{
  for (int i = 0; i < n; i++, depths += step)
    if (i > 0 && depths->a == depths[-step].a)
      repeat_row (rows);
    else
      add_row (rows, get_upright_span (tool, *depths));
}

/* Rows with two spans each, rising; the one nearest the axis first. */
static void
fill_layered_rows (const Upright *tool, const CavSpan *depths, int step, CavSpan *spans, int n)
{
  for (int i = 0; i < n; i++)
    {
      CavSpan one = get_upright_span (tool, depths[2 * i]);
      CavSpan other = get_upright_span (tool, depths[2 * i + 1]);
      gboolean swapped = one.a > other.a;

      spans[2 * i * step] = swapped ? other : one;
      spans[2 * i * step + 1] = swapped ? one : other;
    }
}

static gboolean
is_empty_row (const CavSweepRows *sweep, int i)
{
  const CavSpan *spans = &sweep->spans[i * sweep->stride];

  return spans[0].b <= spans[0].a && (sweep->n_layers == 1 || spans[1].b <= spans[1].a);
}

/* Leaves out the rows at either end that nothing is taken from. */
static void
trim_rows (CavSweepRows *sweep, int from, int to)
{
  CavSpan *spans = sweep->spans;
  int first = 0, last = to - from;

  while (first < last && is_empty_row (sweep, first))
    first++;
  while (last > first && is_empty_row (sweep, last - 1))
    last--;
  if (first > 0)
    memmove (spans, spans + first * sweep->stride,
             sizeof (CavSpan) * (gsize)((last - first) * sweep->stride));
  sweep->r0 = from + first;
  sweep->r1 = from + last;
}

/* Rows that are all alike. */
static void
set_alike (CavTask *task, CavCandidate *candidate, int from, int to, CavSpan span)
{
  CavSweepRows *sweep = &candidate->sweep;

  cav_stand_make_room (task, sweep, 1, 0);
  sweep->spans[0] = span;
  sweep->r0 = from;
  sweep->r1 = span.b > span.a ? MAX (from, to) : from;
  cav_stand_measure_rows (task, candidate);
}

static void
fill_flat (CavTask *task,
           const CavStand *stand,
           gboolean face,
           int at,
           int thickness,
           CavCandidate *candidate)
{
  const CavConfig *config = stand->config;
  int from = face ? MAX (thickness - at, 0) : 0;
  int to = MAX (face ? task->n_rows : MIN (at, task->n_rows), from), step = face ? 1 : -1;
  gint32 width = cav_stand_to_microns (task->blank.width), u = cav_stand_to_microns (stand->u);
  const gint32 *halves = config->halves + (face ? from - (thickness - at) : at - 1);
  Rows rows;

  if (at <= config->n_alike)
    {
      set_alike (task, candidate, from, to, get_flat_span (config->halves[0], u, width));
      return;
    }
  for (; from < to && is_empty (get_flat_span (halves[0], u, width)); from++)
    halves += step;
  while (to > from && is_empty (get_flat_span (halves[(to - from - 1) * step], u, width)))
    to--;
  rows = begin_rows (task, &candidate->sweep, width, from, to);
  for (int i = 0; i < to - from; i++, halves += step)
    if (i > 0 && halves[0] == halves[-step])
      repeat_row (&rows);
    else
      add_row (&rows, get_flat_span (halves[0], u, width));
  end_rows (&rows, candidate);
}

/* How far from its axis a tool that widens is at least so high. */
static int
get_upright_reach (const CavConfig *config, gint32 height)
{
  int low = 0, high = config->n_depths;

  while (low < high)
    {
      int middle = (low + high) / 2;

      if (config->depths[middle].a < height)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

static void
fill_layered (
    CavTask *task, const Upright *tool, const CavConfig *config, int at, CavCandidate *candidate)
{
  CavSweepRows *sweep = &candidate->sweep;
  int from = MAX (at - config->n_depths, 0);
  int to = MAX (MIN (at + config->n_depths, task->n_rows), from), middle = CLAMP (at, from, to);
  CavSpan *spans;

  cav_stand_make_room (task, sweep, to - from, 2);
  spans = sweep->spans + (middle - from) * 2;
  fill_layered_rows (tool, config->depths + 2 * (middle - at), 1, spans, to - middle);
  fill_layered_rows (tool, config->depths + 2 * (at - middle), -1, spans - 2, middle - from);
  trim_rows (sweep, from, to);
  cav_stand_measure_rows (task, candidate);
}

static void
fill_upright (CavTask *task, const CavStand *stand, int at, CavCandidate *candidate)
{
  const CavConfig *config = stand->config;
  const Upright tool
      = { cav_stand_to_microns (stand->height), cav_stand_to_microns (task->blank.width),
          candidate->down == CAV_SIDE_OUTSIDE };
  int reach, from, to, middle;
  Rows rows;

  if (config->n_layers > 1)
    {
      fill_layered (task, &tool, config, at, candidate);
      return;
    }
  reach = config->n_level > 0 ? config->n_level : get_upright_reach (config, tool.height);
  from = MAX (at - reach, 0);
  to = MAX (MIN (at + reach, task->n_rows), from);
  middle = CLAMP (at, from, to);
  if (config->n_level > 0)
    {
      set_alike (task, candidate, from, to, get_upright_span (&tool, config->depths[0]));
      return;
    }
  rows = begin_rows (task, &candidate->sweep, tool.width, from, to);
  add_upright_rows (&tool, config->depths + (at - from - 1), -1, middle - from, &rows);
  add_upright_rows (&tool, config->depths + (middle - at), 1, to - middle, &rows);
  end_rows (&rows, candidate);
}

gboolean
cav_stand_fill_from_table (CavTask *task, const CavStand *stand, CavCandidate *candidate)
{
  gboolean flat = cav_side_is_flat (candidate->down), face = candidate->down == CAV_SIDE_FACE;
  int at, thickness = 0;

  if (!is_on_row (flat ? stand->height : stand->u, &at)
      || (face && !is_on_row (task->blank.thickness, &thickness)))
    return FALSE;
  measure_config (stand->config, stand->tool);
  if (flat)
    fill_flat (task, stand, face, at, thickness, candidate);
  else
    fill_upright (task, stand, at, candidate);
  return TRUE;
}
