/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price-private.h"

#include <math.h>

/* A pair of kerfs pays from this severed area on, mm². */
#define PAIR_LEAST 4.0
/* So many kerfs of each side are tried with those of its neighbours. */
#define PAIR_KERFS 14
/* Kerfs of one side that leave most of the outline or reach deepest, for pairs. */
static int
choose_kerfs (const CavPrices *prices, CavSide down, int *out_kerfs)
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
      score = cav_outline_get_contact (task, &c->sweep) + c->height / 10;
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

/* A kerf that may be one of a pair. */
typedef struct
{
  gboolean severs; /* a piece of the blank, alone */
  int r0, r1;
  gint32 x0, x1;
} Kerf;

static Kerf
measure_kerf (CavPrices *prices, int candidate)
{
  const CavCandidate *c = cav_task_candidate (prices->task, candidate);
  const CavRail *blank = cav_rail_store_get_blank (prices->store), *left;
  const CavStep *step = cav_rail_store_step (prices->store, blank, c, &left);
  Kerf kerf
      = { left != NULL
              && blank->standing.area - left->standing.area - (double)step->removed > PAIR_LEAST,
          c->sweep.r0, c->sweep.r1, G_MAXINT32, G_MININT32 };

  for (int run = 0, row = c->sweep.r0; run < c->sweep.n_runs; row = c->sweep.runs[run++])
    for (int i = 0; i < c->sweep.n_layers; i++)
      {
        CavSpan span = cav_sweep_rows_get (&c->sweep, row)[i];

        kerf.x0 = span.b > span.a ? MIN (kerf.x0, span.a) : kerf.x0;
        kerf.x1 = span.b > span.a ? MAX (kerf.x1, span.b) : kerf.x1;
      }
  return kerf;
}

/* Two kerfs that do not meet drop nothing that one of them does not drop alone. */
static gboolean
may_drop (const Kerf *a, const Kerf *b)
{
  return a->severs || b->severs
         || (a->r0 <= b->r1 && b->r0 <= a->r1 && a->x0 <= b->x1 + CAV_SPAN_LEAST
             && b->x0 <= a->x1 + CAV_SPAN_LEAST);
}

void
cav_prices_collect_pairs (CavPrices *prices)
{
  int indices[CAV_N_SIDES][PAIR_KERFS], n[CAV_N_SIDES] = { 0 };
  Kerf kerfs[CAV_N_SIDES][PAIR_KERFS];

  for (int side = 0; side < CAV_N_SIDES; side++)
    {
      n[side] = choose_kerfs (prices, (CavSide)side, indices[side]);
      for (int i = 0; i < n[side]; i++)
        kerfs[side][i] = measure_kerf (prices, indices[side][i]);
    }
  for (int flat = CAV_SIDE_BACK; flat <= CAV_SIDE_FACE; flat++)
    for (int edge = CAV_SIDE_INSIDE; edge <= CAV_SIDE_OUTSIDE; edge++)
      for (int i = 0; i < n[flat]; i++)
        for (int j = 0; j < n[edge]; j++)
          if (may_drop (&kerfs[flat][i], &kerfs[edge][j])
              && !try_pair (prices, indices[edge][j], indices[flat][i]))
            try_pair (prices, indices[flat][i], indices[edge][j]);
}
