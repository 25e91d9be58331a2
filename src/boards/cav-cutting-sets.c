/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/* More sets than this are not listed. */
#define SETS_LIMIT 20000
#define VISITS_LIMIT 400000

typedef struct
{
  const CavCutProblem *problem;
  gint64 *lengths; /* by way: all its places together */
  gint64 *longest; /* of the ways from this one on */
  gint64 wanted;   /* beyond the open places */
  int *counts;
  int *limits;
  double cost;
  GPtrArray *sets;
  int visits;
  gboolean all;
} Listing;

static void
set_free (gpointer data)
{
  CavCutSet *set = data;

  g_free (set->counts);
  g_free (set);
}

static void
list (Listing *listing, guint way, int n, gint64 length)
{
  const CavCutProblem *problem = listing->problem;

  if (n == 0)
    {
      CavCutSet *set;

      if (length < listing->wanted)
        return;
      set = g_new (CavCutSet, 1);
      set->cost = listing->cost;
      set->counts = g_memdup2 (listing->counts, (problem->ways->len + 1) * sizeof (int));
      g_ptr_array_add (listing->sets, set);
      return;
    }
  if (way == problem->ways->len || length + n * listing->longest[way] < listing->wanted)
    return;
  if (listing->sets->len >= SETS_LIMIT || ++listing->visits > VISITS_LIMIT)
    {
      listing->all = FALSE;
      return;
    }
  const int stock = CUT_WAY (problem, way)->stock;
  const double before = listing->cost;
  const int limit = listing->limits[stock];

  for (int k = 0; k <= MIN (n, limit); k++)
    {
      listing->counts[way] = k;
      listing->limits[stock] = limit - k;
      listing->cost = before + k * CUT_STOCK (problem, stock)->cost;
      list (listing, way + 1, n - k, length + k * listing->lengths[way]);
    }
  listing->counts[way] = 0;
  listing->limits[stock] = limit;
  listing->cost = before;
}

static int
compare_sets (gconstpointer a, gconstpointer b)
{
  const CavCutSet *one = *(CavCutSet *const *)a;
  const CavCutSet *other = *(CavCutSet *const *)b;

  if (one->cost < other->cost || one->cost > other->cost)
    return one->cost < other->cost ? -1 : 1;
  /* Of equal cost the one that keeps boards in the order they were written down. */
  for (guint i = 0;; i++)
    if (one->counts[i] != other->counts[i] || one->counts[i] < 0)
      return other->counts[i] - one->counts[i];
}

GPtrArray *
cav_cut_sets_new (const CavCutProblem *problem, const int *demand, int n, gboolean *out_all)
{
  const guint ways = problem->ways->len;
  g_autofree gint64 *lengths = g_new0 (gint64, ways + 1);
  g_autofree gint64 *longest = g_new0 (gint64, ways + 1);
  g_autofree int *counts = g_new0 (int, ways + 1);
  g_autofree int *limits = g_new0 (int, problem->stocks->len + 1);
  Listing listing = { .problem = problem,
                      .lengths = lengths,
                      .longest = longest,
                      .counts = counts,
                      .limits = limits,
                      .sets = g_ptr_array_new_with_free_func (set_free),
                      .all = TRUE };

  for (guint i = 0; i < problem->items->len; i++)
    listing.wanted += (gint64)demand[i] * CUT_ITEM (problem, i)->length;
  for (guint p = 0; p < problem->places->len; p++)
    listing.wanted -= (gint64)CUT_PLACE (problem, p)->open * CUT_PLACE (problem, p)->length;
  for (guint s = 0; s < problem->stocks->len; s++)
    limits[s] = CUT_STOCK (problem, s)->limit;
  for (guint w = ways; w-- > 0;)
    {
      for (guint p = 0; p < problem->places->len; p++)
        lengths[w] += (gint64)CUT_WAY (problem, w)->gives[p] * CUT_PLACE (problem, p)->length;
      longest[w] = MAX (lengths[w], w + 1 < ways ? longest[w + 1] : 0);
    }
  counts[ways] = -1; /* ends the comparison of two sets */
  list (&listing, 0, n, 0);
  g_ptr_array_sort (listing.sets, compare_sets);
  *out_all = listing.all;
  return listing.sets;
}
