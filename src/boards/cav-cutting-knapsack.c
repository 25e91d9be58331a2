/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/* Up to this capacity a table is filled; above it branches are searched. */
#define TABLE_LIMIT 4096
/* Values closer than this are the same. */
#define SAME 1e-9

typedef struct
{
  guint n;
  const int *lengths; /* by rank: densest value first */
  const double *values;
  const int *counts;
  const int *least; /* shortest length from this rank on */
  int *take;
  int *best;
  double best_value;
  int steps;
  int limit;
} Search;

static int
greatest_divisor (int a, int b)
{
  while (b != 0)
    {
      const int rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

/* best[c]: value of the best choice with total length at most c. One item after the other: each
 * number of the present item is tried on top of what the items before it make of the rest. Chosen
 * counts are found again from choice[i * (capacity + 1) + c]. */
static void
fill_table (int capacity,
            guint n,
            const int *lengths,
            const double *values,
            const int *counts,
            int *out_take,
            double *out_value)
{
  const guint cells = (guint)capacity + 1;
  g_autofree double *best = g_new0 (double, cells);
  g_autofree double *before = g_new (double, cells);
  g_autofree guint16 *choice = g_new0 (guint16, n * cells);
  int left = capacity;

  for (guint i = 0; i < n; i++)
    {
      guint16 *row = choice + i * cells;

      memcpy (before, best, cells * sizeof *best);
      if (values[i] <= SAME || counts[i] <= 0)
        continue;
      for (int c = lengths[i]; c <= capacity; c++)
        {
          const int most = MIN (counts[i], c / lengths[i]);

          for (int k = 1; k <= most; k++)
            {
              const double value = before[c - k * lengths[i]] + k * values[i];

              if (value > best[c] + SAME)
                {
                  best[c] = value;
                  row[c] = (guint16)k;
                }
            }
        }
    }
  *out_value = best[capacity];
  for (guint i = n; i-- > 0;)
    {
      out_take[i] = choice[i * cells + (guint)left];
      left -= out_take[i] * lengths[i];
    }
}

static void
keep (Search *search, double value)
{
  if (value <= search->best_value + SAME)
    return;
  search->best_value = value;
  memcpy (search->best, search->take, search->n * sizeof *search->best);
}

/* Depth first, most of the densest item first; what is left is worth no more than if it were filled
 * with the next item cut at will. */
static void
descend (Search *search, guint rank, int left, double value)
{
  while (rank < search->n && left >= search->least[rank] && search->lengths[rank] > left)
    rank++;
  if (rank == search->n || left < search->least[rank] || search->values[rank] <= SAME
      || ++search->steps > search->limit
      || value + left * (search->values[rank] / search->lengths[rank]) <= search->best_value + SAME)
    {
      keep (search, value);
      return;
    }
  for (int k = MIN (search->counts[rank], left / search->lengths[rank]); k >= 0; k--)
    {
      search->take[rank] = k;
      descend (search, rank + 1, left - k * search->lengths[rank],
               value + k * search->values[rank]);
    }
  search->take[rank] = 0;
}

typedef struct
{
  guint item;
  double density;
} Rank;

static int
compare_density (gconstpointer a, gconstpointer b)
{
  const Rank *one = a;
  const Rank *other = b;

  if (one->density > other->density || one->density < other->density)
    return one->density > other->density ? -1 : 1;
  return one->item < other->item ? -1 : 1;
}

static gboolean
search_branches (int capacity,
                 guint n,
                 const int *lengths,
                 const double *values,
                 const int *counts,
                 int limit,
                 int *out_take,
                 double *out_value)
{
  g_autofree Rank *ranks = g_new (Rank, n);
  g_autofree int *sorted = g_new0 (int, 5 * n);
  g_autofree double *worth = g_new (double, n);
  Search search = { .n = n,
                    .lengths = sorted,
                    .values = worth,
                    .counts = sorted + n,
                    .take = sorted + 2 * n,
                    .best = sorted + 3 * n,
                    .least = sorted + 4 * n,
                    .limit = limit };

  for (guint i = 0; i < n; i++)
    ranks[i] = (Rank){ i, values[i] / lengths[i] };
  qsort (ranks, n, sizeof *ranks, compare_density);
  for (guint i = 0; i < n; i++)
    {
      sorted[i] = lengths[ranks[i].item];
      sorted[n + i] = counts[ranks[i].item];
      worth[i] = values[ranks[i].item];
    }
  for (guint i = n; i-- > 0;)
    sorted[4 * n + i] = i + 1 < n ? MIN (sorted[i], sorted[4 * n + i + 1]) : sorted[i];
  descend (&search, 0, capacity, 0.0);
  for (guint i = 0; i < n; i++)
    out_take[ranks[i].item] = search.best[i];
  *out_value = search.best_value;
  return search.steps <= limit;
}

gboolean
cav_cut_knapsack (int capacity,
                  guint n,
                  const int *lengths,
                  const double *values,
                  const int *counts,
                  int limit,
                  int *out_take,
                  double *out_value)
{
  int unit = 0;
  int least = G_MAXINT;

  for (guint i = 0; i < n; i++)
    {
      unit = greatest_divisor (unit, lengths[i]);
      least = MIN (least, lengths[i]);
    }
  if (n == 0 || capacity < least)
    {
      memset (out_take, 0, n * sizeof *out_take);
      *out_value = 0.0;
      return TRUE;
    }
  if (capacity / unit <= TABLE_LIMIT)
    {
      g_autofree int *scaled = g_new (int, n);

      for (guint i = 0; i < n; i++)
        scaled[i] = lengths[i] / unit;
      fill_table (capacity / unit, n, scaled, values, counts, out_take, out_value);
      return TRUE;
    }
  return search_branches (capacity, n, lengths, values, counts, limit, out_take, out_value);
}
