/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price-private.h"

#include <math.h>

/* A pair of kerfs pays from this severed area on, mm². */
#define PAIR_LEAST 4.0
/* So many kerfs of each side are tried with those of its neighbours. */
#define PAIR_KERFS 14
/* So many samples of the outline, one after the other, share a box. */
#define STRETCH 16

/* Rows and places along them, all of them within. */
typedef struct
{
  int r0, r1;
  gint32 x0, x1;
} Extent;

static gboolean
is_apart (const Extent *a, const Extent *b)
{
  return a->r0 > b->r1 || b->r0 > a->r1 || a->x0 > b->x1 || b->x0 > a->x1;
}

static Extent
measure_sweep (const CavSweepRows *sweep)
{
  Extent extent = { sweep->r0, sweep->r1, G_MAXINT32, G_MININT32 };

  for (int run = 0, row = sweep->r0; run < sweep->n_runs; row = sweep->runs[run++])
    for (int i = 0; i < sweep->n_layers; i++)
      {
        CavSpan span = cav_sweep_rows_get (sweep, row)[i];

        extent.x0 = span.b > span.a ? MIN (extent.x0, span.a) : extent.x0;
        extent.x1 = span.b > span.a ? MAX (extent.x1, span.b) : extent.x1;
      }
  return extent;
}

/* Boxes of the stretches of the outline. */
static Extent *
measure_outline (const CavTask *task)
{
  guint n = task->samples->len;
  Extent *stretches = g_new (Extent, n / STRETCH + 1);

  for (guint i = 0; i < n; i++)
    {
      const CavOutlineSample *s = &g_array_index (task->samples, CavOutlineSample, i);
      Extent *e = &stretches[i / STRETCH];

      if (i % STRETCH == 0)
        *e = (Extent){ s->over_row, s->over_row, s->over_x, s->over_x };
      *e = (Extent){ MIN (e->r0, s->over_row), MAX (e->r1, s->over_row), MIN (e->x0, s->over_x),
                     MAX (e->x1, s->over_x) };
    }
  return stretches;
}

/* Length of finished outline that a sweep leaves behind it. */
static double
get_contact (const CavTask *task, const Extent *stretches, const CavSweepRows *sweep)
{
  Extent extent = measure_sweep (sweep);
  double contact = 0;

  for (guint from = 0; from < task->samples->len; from += STRETCH)
    for (guint i = from, to = MIN (from + STRETCH, task->samples->len);
         i < to && !is_apart (&extent, &stretches[from / STRETCH]); i++)
      {
        const CavOutlineSample *sample = &g_array_index (task->samples, CavOutlineSample, i);

        if (cav_sweep_rows_contain (sweep, sample->over_row, sample->over_x))
          contact += sample->length;
      }
  return contact;
}

/* Kerfs of one side that leave most of the outline or reach deepest, for pairs. */
static int
choose_kerfs (const CavPrices *prices, const Extent *stretches, CavSide down, int *out_kerfs)
{
  const CavTask *task = prices->task;
  double scores[PAIR_KERFS];
  int n = 0;

  for (guint i = 0; i < task->candidates->len; i++)
    {
      const CavCandidate *c = cav_task_candidate (task, i);
      const CavConfig *config = cav_task_config (task, c->config);
      double score;
      int at;

      if (config->machine != CAV_MACHINE_SAW || c->down != down)
        continue;
      score = get_contact (task, stretches, &c->sweep) + c->height / 10;
      if (fabs (config->tilt) > 1e-9)
        score /= 2;
      if (n == PAIR_KERFS && score <= scores[n - 1])
        continue;
      at = n < PAIR_KERFS ? n++ : n - 1;
      while (at > 0 && scores[at - 1] < score)
        {
          scores[at] = scores[at - 1];
          out_kerfs[at] = out_kerfs[at - 1];
          at--;
        }
      scores[at] = score;
      out_kerfs[at] = (int)i;
    }
  return n;
}

/* TRUE where the second kerf of the two drops something that is worth it. */
static gboolean
try_pair (CavPrices *prices, int first, int second)
{
  CavTask *task = prices->task;
  const CavCandidate *a = cav_task_candidate (task, first), *b = cav_task_candidate (task, second);
  const CavRail *blank = cav_rail_store_get_blank (prices->store), *one, *two;
  const CavStep *step = cav_rail_store_step (prices->store, blank, a, &one);
  double severed;
  CavPair pair = { first, second, 0, NULL, { { 0 }, { 0 } } };
  int feeds = step->n_passes;

  if (one == NULL || step->frees)
    return FALSE;
  /* A thorough search comes back to all that is tried here. */
  if (!task->thorough && !cav_rail_store_drops (prices->store, one, b))
    return FALSE;
  severed = cav_rail_get_standing (prices->store, one)->area;
  step = cav_rail_store_step (prices->store, one, b, &two);
  if (two == NULL)
    return FALSE;
  severed -= (double)step->removed + cav_rail_get_standing (prices->store, two)->area;
  if (severed < PAIR_LEAST)
    return FALSE;
  feeds += step->n_passes;
  pair.minutes = feeds * (task->pass_minutes + task->shop->rates.move);
  pair.bits = g_memdup2 (cav_prices_get_rail_bits (prices, blank),
                         sizeof (guint64) * (gsize)prices->n_words);
  const guint64 *left = cav_prices_get_rail_bits (prices, two);
  for (int w = 0; w < prices->n_words; w++)
    pair.bits[w] &= ~left[w];
  cav_prices_measure_extent (prices, pair.bits, &pair.extent);
  g_array_append_val (prices->pairs, pair);
  return TRUE;
}

/* Two kerfs that do not meet drop nothing that one of them does not drop alone. */
static gboolean
do_meet (Extent a, Extent b)
{
  a.x0 -= CAV_SPAN_LEAST;
  a.x1 += CAV_SPAN_LEAST;
  return !is_apart (&a, &b);
}

void
cav_prices_collect_pairs (CavPrices *prices)
{
  int indices[CAV_N_SIDES][PAIR_KERFS], n[CAV_N_SIDES] = { 0 };
  Extent extents[CAV_N_SIDES][PAIR_KERFS];
  g_autofree Extent *stretches = measure_outline (prices->task);

  for (int side = 0; side < CAV_N_SIDES; side++)
    {
      n[side] = choose_kerfs (prices, stretches, (CavSide)side, indices[side]);
      for (int i = 0; i < n[side]; i++)
        {
          const CavCandidate *c = cav_task_candidate (prices->task, indices[side][i]);

          extents[side][i] = measure_sweep (&c->sweep);
        }
    }
  for (int flat = CAV_SIDE_BACK; flat <= CAV_SIDE_FACE; flat++)
    for (int edge = CAV_SIDE_INSIDE; edge <= CAV_SIDE_OUTSIDE; edge++)
      for (int i = 0; i < n[flat]; i++)
        for (int j = 0; j < n[edge]; j++)
          if (do_meet (extents[flat][i], extents[edge][j])
              && !try_pair (prices, indices[edge][j], indices[flat][i]))
            try_pair (prices, indices[flat][i], indices[edge][j]);
}
