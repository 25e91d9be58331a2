/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price.h"

#include "milling/cav-placement.h"

#include <math.h>
#include <string.h>

/* How many cells the waste is divided into. */
#define N_CELLS_QUICK 2500
#define N_CELLS 6000
/* Every so many outline samples share a bit. */
#define SAMPLES_PER_BIT 4
/* Leftover beyond the limit is so many times as dear. */
#define BEYOND_FACTOR 4
/* A pair of kerfs pays from this severed area on, mm². */
#define PAIR_LEAST 4.0
#define PAIR_KERFS 14

static void
add_bit (GArray *worth, GArray *rows, GArray *xs, double minutes, int row, gint32 x)
{
  g_array_append_val (worth, minutes);
  g_array_append_val (rows, row);
  g_array_append_val (xs, x);
}

static void
add_cells (CavPrices *prices, GArray *worth, GArray *rows, GArray *xs, gboolean beyond)
{
  const CavTask *task = prices->task;
  double waste = task->blank.width * task->blank.thickness - cav_rows_get_area (task->profile_rows);
  double size = sqrt (fmax (waste, 1) / (task->thorough ? N_CELLS : N_CELLS_QUICK));
  double minutes = task->shop->rates.hand_volume * task->metres * size * size;

  size = fmax (size, CAV_ROW_HEIGHT);
  for (double y = size / 2; y < task->blank.thickness; y += size)
    for (double x = size / 2; x < task->blank.width; x += size)
      {
        int row = (int)(y / CAV_ROW_HEIGHT);
        gint32 at = (gint32)lround (x * CAV_MICRONS);

        if (!cav_rows_contains (task->profile_rows, row, at)
            && cav_rows_contains (task->beyond_rows, row, at) == beyond)
          add_bit (worth, rows, xs, minutes * (beyond ? BEYOND_FACTOR : 1), row, at);
      }
}

static void
add_samples (CavPrices *prices, GArray *worth, GArray *rows, GArray *xs)
{
  const CavTask *task = prices->task;

  for (guint i = SAMPLES_PER_BIT / 2; i < task->samples->len; i += SAMPLES_PER_BIT)
    {
      const CavOutlineSample *s = &g_array_index (task->samples, CavOutlineSample, i);
      double x = s->point.x + 0.3 * s->normal.x, y = s->point.y + 0.3 * s->normal.y;
      int row = (int)floor (y / CAV_ROW_HEIGHT);
      gint32 at = (gint32)lround (x * CAV_MICRONS);

      if (row < 0 || row >= task->n_rows || x < 0 || x > task->blank.width
          || cav_rows_contains (task->profile_rows, row, at))
        continue;
      add_bit (worth, rows, xs,
               task->shop->rates.hand_surface * task->metres * s->length * SAMPLES_PER_BIT, row,
               at);
    }
}

static guint64 *
create_sweep_bits (const CavPrices *prices, const CavSweepRows *sweep)
{
  guint64 *bits = g_new0 (guint64, prices->n_words);

  for (int i = 0; i < prices->n_bits; i++)
    if (cav_sweep_rows_contain (sweep, prices->rows[i], prices->xs[i]))
      bits[i / 64] |= G_GUINT64_CONSTANT (1) << (i % 64);
  return bits;
}

const guint64 *
cav_prices_get_rail_bits (CavPrices *prices, const CavRail *rail)
{
  CavRail *self = (CavRail *)rail;

  if (self->bits == NULL)
    {
      self->bits = g_new0 (guint64, prices->n_words);
      for (int i = 0; i < prices->n_bits; i++)
        if (cav_rows_contains (&rail->rows, prices->rows[i], prices->xs[i]))
          self->bits[i / 64] |= G_GUINT64_CONSTANT (1) << (i % 64);
    }
  return self->bits;
}

double
cav_prices_get_worth (const CavPrices *prices, const guint64 *a, const guint64 *b)
{
  double worth = 0;

  for (int w = 0; w < prices->n_words; w++)
    for (guint64 rest = a[w] & b[w]; rest != 0; rest &= rest - 1)
      worth += prices->worth[w * 64 + __builtin_ctzll (rest)];
  return worth;
}

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
  CavPair pair = { first, second, 0, NULL };
  int feeds = step->n_passes;

  if (one == NULL || step->frees)
    return FALSE;
  severed = one->standing.area;
  step = cav_rail_store_step (prices->store, one, b, &two);
  if (two == NULL)
    return FALSE;
  severed -= (double)step->removed + two->standing.area;
  if (severed < PAIR_LEAST)
    return FALSE;
  feeds += step->n_passes;
  pair.minutes = feeds * (task->pass_minutes + task->shop->rates.move);
  pair.bits = g_memdup2 (cav_prices_get_rail_bits (prices, blank),
                         sizeof (guint64) * (gsize)prices->n_words);
  const guint64 *left = cav_prices_get_rail_bits (prices, two);
  for (int w = 0; w < prices->n_words; w++)
    pair.bits[w] &= ~left[w];
  g_array_append_val (prices->pairs, pair);
  return TRUE;
}

static void
collect_pairs (CavPrices *prices)
{
  int kerfs[CAV_N_SIDES][PAIR_KERFS], n[CAV_N_SIDES];

  for (int side = 0; side < CAV_N_SIDES; side++)
    n[side] = choose_kerfs (prices, (CavSide)side, kerfs[side]);
  for (int flat = CAV_SIDE_BACK; flat <= CAV_SIDE_FACE; flat++)
    for (int edge = CAV_SIDE_INSIDE; edge <= CAV_SIDE_OUTSIDE; edge++)
      for (int i = 0; i < n[flat]; i++)
        for (int j = 0; j < n[edge]; j++)
          if (!try_pair (prices, kerfs[edge][j], kerfs[flat][i]))
            try_pair (prices, kerfs[flat][i], kerfs[edge][j]);
}

/* For each bit the candidates that take it. */
static void
index_takers (CavPrices *prices)
{
  int *fill;

  prices->taker_start = g_new0 (int, prices->n_bits + 2);
  for (int pass = 0; pass < 2; pass++)
    {
      fill = prices->taker_start;
      for (int i = 0; i < prices->n_priced; i++)
        {
          const guint64 *bits = cav_task_candidate (prices->task, i)->bits;

          for (int w = 0; w < prices->n_words; w++)
            for (guint64 rest = bits[w]; rest != 0; rest &= rest - 1)
              {
                int bit = w * 64 + __builtin_ctzll (rest);

                if (pass == 0)
                  fill[bit + 2]++;
                else
                  prices->takers[fill[bit + 1]++] = i;
              }
        }
      if (pass == 0)
        {
          for (int bit = 2; bit < prices->n_bits + 2; bit++)
            fill[bit] += fill[bit - 1];
          prices->takers = g_new (int, MAX (fill[prices->n_bits + 1], 1));
        }
    }
}

CavPrices *
cav_prices_new (CavTask *task, CavRailStore *store)
{
  CavPrices *prices = g_new0 (CavPrices, 1);
  GArray *worth = g_array_new (FALSE, FALSE, sizeof (double));
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (int));
  GArray *xs = g_array_new (FALSE, FALSE, sizeof (gint32));

  prices->task = task;
  prices->store = store;
  prices->pairs = g_array_new (FALSE, FALSE, sizeof (CavPair));
  add_cells (prices, worth, rows, xs, FALSE);
  add_cells (prices, worth, rows, xs, TRUE);
  add_samples (prices, worth, rows, xs);
  prices->n_bits = (int)worth->len;
  prices->n_words = MAX ((prices->n_bits + 63) / 64, 1);
  prices->worth = (double *)g_array_free (worth, FALSE);
  prices->rows = (int *)g_array_free (rows, FALSE);
  prices->xs = (gint32 *)g_array_free (xs, FALSE);
  prices->n_priced = (int)task->candidates->len;
  for (guint i = 0; i < task->candidates->len; i++)
    {
      CavCandidate *c = cav_task_candidate (task, i);

      c->bits = create_sweep_bits (prices, &c->sweep);
    }
  index_takers (prices);
  collect_pairs (prices);
  return prices;
}

void
cav_prices_free (CavPrices *prices)
{
  if (prices == NULL)
    return;
  for (guint i = 0; i < prices->pairs->len; i++)
    g_free (g_array_index (prices->pairs, CavPair, i).bits);
  g_array_unref (prices->pairs);
  g_free (prices->worth);
  g_free (prices->rows);
  g_free (prices->xs);
  g_free (prices->takers);
  g_free (prices->taker_start);
  g_free (prices);
}
