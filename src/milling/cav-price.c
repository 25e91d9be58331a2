/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-price-private.h"

#include "milling/cav-arc.h"
#include "milling/cav-parallel.h"
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
/* Bits of candidates are made in so many shares side by side. */
#define N_SHARES 8

/* Bits while they are collected are what each is worth, minutes. */
static void
add_bits (GArray *worth, int n, double minutes)
{
  guint first = worth->len;

  g_array_set_size (worth, first + (guint)n);
  for (guint i = first; i < worth->len; i++)
    g_array_index (worth, double, i) = minutes;
}

/* Fills the last word up with bits that stand for nothing. */
static void
end_kind (GArray *worth)
{
  add_bits (worth, (int)(-worth->len % 64), 0);
}

static void
cell_row_clear (gpointer data)
{
  CavCellRow *cells = data;

  g_free (cells->before);
}

/* Where cells stand along every row. */
static void
set_grid (CavPrices *prices, double size)
{
  g_free (prices->grid);
  prices->n_grid = (int)ceil (prices->task->blank.width / size - 0.5);
  prices->grid = g_new (gint32, MAX (prices->n_grid, 1));
  prices->cell_size = size;
  prices->columns_micron = 1 / (size * CAV_MICRONS);
  for (int i = 0; i < prices->n_grid; i++)
    prices->grid[i] = (gint32)lround ((i + 0.5) * size * CAV_MICRONS);
}

/* First column of cells at or right of x. */
static int
find_column (const CavPrices *prices, gint32 x)
{
  int i = CLAMP ((int)(x * prices->columns_micron + 0.5), 0, prices->n_grid);

  /* Rounding puts it off by one at most, and rarely. */
  while (i > 0 && prices->grid[i - 1] >= x)
    i--;
  while (i < prices->n_grid && prices->grid[i] < x)
    i++;
  return i;
}

/* Marks the columns that lie in a row. */
static void
mark_columns (const CavPrices *prices, const CavRows *rows, int row, int mark, guint8 *marks)
{
  for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
    {
      int from = find_column (prices, rows->spans[i].a);
      int to = find_column (prices, rows->spans[i].b);

      memset (&marks[from], mark, (gsize)MAX (to - from, 0));
    }
}

/* Fills cells_from for the rows of cells from an index on. */
static void
index_cells (CavPrices *prices, gboolean beyond, guint from)
{
  int n_rows = prices->task->n_rows;

  prices->cells_from[beyond] = g_new (gint16, n_rows + 1);
  for (int row = 0; row <= n_rows; row++)
    {
      while (from < prices->cell_rows->len
             && g_array_index (prices->cell_rows, CavCellRow, from).row < row)
        from++;
      prices->cells_from[beyond][row] = (gint16)from;
    }
}

static void
add_cells (CavPrices *prices, GArray *worth, gboolean beyond)
{
  enum
  {
    NEAR,
    BEYOND,
    WOOD
  };
  const CavTask *task = prices->task;
  double waste = task->blank.width * task->blank.thickness - cav_rows_get_area (task->profile_rows);
  double size = sqrt (fmax (waste, 1) / (task->thorough ? N_CELLS : N_CELLS_QUICK)), minutes;
  guint first_row = prices->cell_rows->len;
  g_autofree guint8 *marks = NULL;

  size = fmax (size, CAV_ROW_HEIGHT);
  minutes
      = task->shop->rates.hand_volume * task->metres * size * size * (beyond ? BEYOND_FACTOR : 1);
  prices->kind_worth[beyond] = minutes;
  set_grid (prices, size);
  marks = g_new (guint8, MAX (prices->n_grid, 1));
  for (double y = size / 2; y < task->blank.thickness; y += size)
    {
      CavCellRow cells
          = { (int)(y / CAV_ROW_HEIGHT), (int)worth->len, 0, g_new (gint16, prices->n_grid + 1) };
      int n = 0;

      memset (marks, NEAR, (gsize)prices->n_grid);
      mark_columns (prices, task->beyond_rows, cells.row, BEYOND, marks);
      mark_columns (prices, task->profile_rows, cells.row, WOOD, marks);
      for (int i = 0; i < prices->n_grid; i++)
        {
          cells.before[i] = (gint16)n;
          n += marks[i] == (beyond ? BEYOND : NEAR);
        }
      cells.n = n;
      cells.before[prices->n_grid] = (gint16)n;
      add_bits (worth, n, minutes);
      if (n > 0)
        g_array_append_val (prices->cell_rows, cells);
      else
        cell_row_clear (&cells);
    }
  index_cells (prices, beyond, first_row);
  end_kind (worth);
}

static int
compare_samples (const void *a, const void *b)
{
  const CavSampleBit *p = a, *q = b;

  return p->row != q->row ? (p->row > q->row) - (p->row < q->row)
                          : (p->bit > q->bit) - (p->bit < q->bit);
}

/* Bits in the order of the outline; listed by row, so that a tool is only asked for those that it
 * can reach. */
static void
add_samples (CavPrices *prices, GArray *worth)
{
  const CavTask *task = prices->task;
  double sum = 0;

  prices->samples = g_array_new (FALSE, FALSE, sizeof (CavSampleBit));
  for (guint i = SAMPLES_PER_BIT / 2; i < task->samples->len; i += SAMPLES_PER_BIT)
    {
      const CavOutlineSample *s = &g_array_index (task->samples, CavOutlineSample, i);
      double x = s->point.x + 0.3 * s->normal.x, y = s->point.y + 0.3 * s->normal.y, minutes;
      CavSampleBit sample
          = { (int)floor (y / CAV_ROW_HEIGHT), (gint32)lround (x * CAV_MICRONS), (int)worth->len };

      if (sample.row < 0 || sample.row >= task->n_rows || x < 0 || x > task->blank.width
          || cav_rows_contains (task->profile_rows, sample.row, sample.x))
        continue;
      minutes = task->shop->rates.hand_surface * task->metres * s->length * SAMPLES_PER_BIT;
      add_bits (worth, 1, minutes);
      g_array_append_val (prices->samples, sample);
      sum += minutes;
    }
  g_array_sort (prices->samples, compare_samples);
  prices->kind_worth[2] = prices->samples->len > 0 ? sum / prices->samples->len : 0;
  end_kind (worth);
}

static void
add_arcs (CavPrices *prices, GArray *worth)
{
  prices->kind_worth[3] = cav_arc_get_price (prices->task);
  add_bits (worth, (int)prices->task->arcs->len, prices->kind_worth[3]);
  end_kind (worth);
}

/* At least one bit. */
static void
set_bits (guint64 *bits, guint from, guint to)
{
  guint word = from / 64, last = (to - 1) / 64;
  guint64 head = ~G_GUINT64_CONSTANT (0) << (from % 64);
  guint64 tail = ~G_GUINT64_CONSTANT (0) >> (63 - (to - 1) % 64);

  if (word == last)
    {
      bits[word] |= head & tail;
      return;
    }
  bits[word] |= head;
  while (++word < last)
    bits[word] = ~G_GUINT64_CONSTANT (0);
  bits[last] |= tail;
}

/* The columns that a span covers; those of the rows of one tool are often the same. */
typedef struct
{
  CavSpan span;
  int from;
  int to;
} Columns;

static void
set_cells (
    const CavPrices *prices, const CavCellRow *cells, CavSpan span, Columns *known, guint64 *bits)
{
  int from, to;

  if (span.b <= span.a)
    return;
  if (span.a != known->span.a || span.b != known->span.b)
    *known = (Columns){ span, find_column (prices, span.a), find_column (prices, span.b) };
  from = cells->first + cells->before[known->from];
  to = cells->first + cells->before[known->to];
  if (to > from)
    set_bits (bits, (guint)from, (guint)to);
}

static inline void
set_bit (guint64 *bits, int bit)
{
  bits[bit / 64] |= G_GUINT64_CONSTANT (1) << (bit % 64);
}

static void
set_arc (const CavPrices *prices, guint arc, guint64 *bits)
{
  set_bit (bits, prices->first_arc + (int)arc);
}

/* First of the samples, by row, that lies in a row or above it. */
static guint
find_sample (const CavPrices *prices, int row)
{
  guint low = 0, high = prices->samples->len;

  while (low < high)
    {
      guint middle = (low + high) / 2;

      if (g_array_index (prices->samples, CavSampleBit, middle).row >= row)
        high = middle;
      else
        low = middle + 1;
    }
  return low;
}

static void
set_sweep_bits (const CavPrices *prices, const CavCandidate *c, guint64 *bits)
{
  const CavTask *task = prices->task;
  const CavSweepRows *sweep = &c->sweep;
  Columns known = { { 0, 0 }, 0, 0 };

  for (int kind = 0; kind < 2; kind++)
    for (int i = prices->cells_from[kind][sweep->r0]; i < prices->cells_from[kind][sweep->r1]; i++)
      {
        const CavCellRow *cells = &g_array_index (prices->cell_rows, CavCellRow, i);

        for (int layer = 0; layer < sweep->n_layers; layer++)
          set_cells (prices, cells, cav_sweep_rows_get (sweep, cells->row)[layer], &known, bits);
      }
  for (guint i = find_sample (prices, sweep->r0), end = find_sample (prices, sweep->r1); i < end;
       i++)
    {
      const CavSampleBit *sample = &g_array_index (prices->samples, CavSampleBit, i);

      if (cav_sweep_rows_contain (sweep, sample->row, sample->x))
        set_bit (bits, sample->bit);
    }
  if (cav_task_config (task, c->config)->machine == CAV_MACHINE_ROUTER)
    for (guint i = 0; i < task->arcs->len; i++)
      if (cav_arc_is_made_by (&g_array_index (task->arcs, CavOutlineArc, i), sweep))
        set_arc (prices, i, bits);
}

/* Of the arcs that were left before, those that still are. */
static void
keep_rail_arcs (const CavPrices *prices, CavRail *rail)
{
  for (guint i = 0; i < prices->task->arcs->len; i++)
    {
      const CavOutlineArc *arc = &g_array_index (prices->task->arcs, CavOutlineArc, i);
      guint bit = (guint)prices->first_arc + i;
      guint64 *word = &rail->bits[bit / 64], mask = G_GUINT64_CONSTANT (1) << (bit % 64);

      if ((*word & mask) != 0 && !(arc->mated && cav_arc_is_left (arc, &rail->bands)))
        *word &= ~mask;
    }
  rail->has_arc_bits = TRUE;
}

const guint64 *
cav_prices_get_rail_bits (CavPrices *prices, const CavRail *rail)
{
  CavRail *self = (CavRail *)rail;

  if (self->bits != NULL && self->has_arc_bits)
    return self->bits;
  if (self->bits == NULL)
    {
      Columns known = { { 0, 0 }, 0, 0 };
      int band = 0;

      self->bits = g_new0 (guint64, MAX (prices->n_words, 1));
      for (guint i = 0; i < prices->cell_rows->len; i++)
        {
          const CavCellRow *cells = &g_array_index (prices->cell_rows, CavCellRow, i);

          band = cav_bands_find (&rail->bands, cells->row, band);
          for (int k = rail->bands.first[band]; k < rail->bands.first[band + 1]; k++)
            set_cells (prices, cells, rail->bands.spans[k], &known, self->bits);
        }
      for (guint i = 0; i < prices->samples->len; i++)
        {
          const CavSampleBit *sample = &g_array_index (prices->samples, CavSampleBit, i);

          if (cav_bands_contain (&rail->bands, sample->row, sample->x, &band))
            set_bit (self->bits, sample->bit);
        }
      for (guint i = 0; i < prices->task->arcs->len; i++)
        set_arc (prices, i, self->bits);
    }
  keep_rail_arcs (prices, self);
  return self->bits;
}

CAV_COUNTING double
cav_prices_get_arc_worth (const CavPrices *prices,
                          const guint64 *a,
                          const CavBitExtent *extent,
                          const guint64 *b)
{
  int count = 0;

  for (int w = extent->from[3]; w < extent->to[3]; w++)
    count += __builtin_popcountll (a[w] & b[w]);
  return count * prices->kind_worth[3];
}

CAV_COUNTING double
cav_prices_get_worth (const CavPrices *prices,
                      const guint64 *a,
                      const CavBitExtent *extent,
                      const guint64 *b)
{
  double worth = 0;

  for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
    {
      int count = 0;

      for (int w = extent->from[kind]; w < extent->to[kind]; w++)
        count += __builtin_popcountll (a[w] & b[w]);
      worth += count * prices->kind_worth[kind];
    }
  return worth;
}

void
cav_prices_measure_extent (const CavPrices *prices, const guint64 *bits, CavBitExtent *out_extent)
{
  for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
    {
      int from = prices->kinds[kind], to = prices->kinds[kind + 1];

      while (from < to && bits[from] == 0)
        from++;
      while (to > from && bits[to - 1] == 0)
        to--;
      out_extent->from[kind] = (gint16)from;
      out_extent->to[kind] = (gint16)to;
    }
}

void
cav_prices_index_takers (CavPrices *prices)
{
  int *fill;

  if (prices->takers != NULL)
    return;
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

/* Bits of every so many-th candidate. */
static void
create_bits_job (gpointer data, int job)
{
  const CavPrices *prices = data;

  for (guint i = (guint)job; i < prices->task->candidates->len; i += N_SHARES)
    {
      CavCandidate *c = cav_task_candidate (prices->task, i);

      c->bits = &prices->sweep_bits[i * (guint)prices->n_words];
      set_sweep_bits (prices, c, c->bits);
      cav_prices_measure_extent (prices, c->bits, &c->extent);
    }
}

/* Marks the arcs that some placement makes: only those are worth more than their hand work. */
static void
mate_arcs (CavPrices *prices)
{
  CavTask *task = prices->task;

  for (guint i = 0; i < task->arcs->len; i++)
    {
      CavOutlineArc *arc = &g_array_index (task->arcs, CavOutlineArc, i);
      guint bit = (guint)prices->first_arc + i;

      for (guint j = 0; j < task->candidates->len && !arc->mated; j++)
        arc->mated = cav_task_candidate (task, j)->bits[bit / 64] >> (bit % 64) & 1;
    }
}

/* TRUE where one placement takes all that another of its configuration and side takes, in no more
 * feeds and from the same fences. Of two that take the same the one with more wood goes on. */
static gboolean
dominates (const CavPrices *prices,
           const CavCandidate *one,
           const CavCandidate *other,
           gboolean comes_first)
{
  const CavTask *task = prices->task;
  double bite = cav_task_tool (task, cav_task_config (task, one->config)->tool)->bite;
  guint64 more = 0;

  /* Bits are coarse: what takes all of another's is hardly smaller. */
  if (one->area < 0.9 * other->area || (other->fences & ~one->fences) != 0
      || ceil (one->area / bite) > ceil (other->area / bite))
    return FALSE;
  for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
    {
      for (int w = other->extent.from[kind]; w < other->extent.to[kind]; w++)
        if ((other->bits[w] & ~one->bits[w]) != 0)
          return FALSE;
      for (int w = one->extent.from[kind]; w < one->extent.to[kind]; w++)
        more |= one->bits[w] & ~other->bits[w];
    }
  return more != 0 || one->area > other->area || (one->area >= other->area && comes_first);
}

/* A quick search does not look at dominated placements. */
static void
mark_dominated (CavPrices *prices)
{
  const CavTask *task = prices->task;
  guint n = task->candidates->len, n_groups = task->configs->len * CAV_N_SIDES;
  g_autofree int *last = g_new (int, MAX (n_groups, 1)); /* of each configuration and side */
  g_autofree int *before = g_new (int, MAX (n, 1));      /* the one before in the same group */

  for (guint group = 0; group < n_groups; group++)
    last[group] = -1;
  for (guint i = 0; i < n; i++)
    {
      const CavCandidate *c = cav_task_candidate (task, i);
      int *group = &last[c->config * CAV_N_SIDES + (int)c->down];

      before[i] = *group;
      *group = (int)i;
    }
  for (guint i = 0; i < n; i++)
    {
      CavCandidate *c = cav_task_candidate (task, i);

      for (int j = last[c->config * CAV_N_SIDES + (int)c->down]; j >= 0 && !c->is_dominated;
           j = before[j])
        c->is_dominated
            = j != (int)i && dominates (prices, cav_task_candidate (task, j), c, j < (int)i);
    }
}

CavPrices *
cav_prices_new (CavTask *task, CavRailStore *store)
{
  CavPrices *prices = g_new0 (CavPrices, 1);
  GArray *worth = g_array_new (FALSE, FALSE, sizeof (double));

  prices->task = task;
  prices->store = store;
  prices->pairs = g_array_new (FALSE, FALSE, sizeof (CavPair));
  prices->cell_rows = g_array_new (FALSE, FALSE, sizeof (CavCellRow));
  g_array_set_clear_func (prices->cell_rows, cell_row_clear);
  add_cells (prices, worth, FALSE);
  prices->kinds[1] = (int)worth->len / 64;
  add_cells (prices, worth, TRUE);
  prices->kinds[2] = (int)worth->len / 64;
  add_samples (prices, worth);
  prices->kinds[3] = (int)worth->len / 64;
  prices->first_arc = (int)worth->len;
  add_arcs (prices, worth);
  prices->n_bits = (int)worth->len;
  prices->n_words = prices->n_bits / 64;
  prices->kinds[4] = prices->n_words;
  for (int kind = 0; kind < CAV_BIT_KINDS; kind++)
    {
      prices->all.from[kind] = (gint16)prices->kinds[kind];
      prices->all.to[kind] = (gint16)prices->kinds[kind + 1];
    }
  cav_rail_store_set_bits (store, prices->n_words);
  prices->worth = (double *)(void *)g_array_free (worth, FALSE);
  prices->n_priced = (int)task->candidates->len;
  prices->sweep_bits = g_new0 (guint64, MAX (prices->n_priced * prices->n_words, 1));
  cav_parallel_run (N_SHARES, create_bits_job, prices);
  mate_arcs (prices);
  if (!task->thorough)
    mark_dominated (prices);
  cav_prices_collect_pairs (prices);
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
  g_array_unref (prices->cell_rows);
  g_free (prices->cells_from[0]);
  g_free (prices->cells_from[1]);
  g_array_unref (prices->samples);
  g_free (prices->sweep_bits);
  g_free (prices->grid);
  g_free (prices->worth);
  g_free (prices->takers);
  g_free (prices->taker_start);
  g_free (prices);
}
