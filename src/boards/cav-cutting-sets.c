/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/* More sets than this are not listed. */
#define SETS_LIMIT 20000
#define VISITS_LIMIT 400000

typedef struct
{
  const CavCutProblem *problem;
  guint n_worths;
  double *worths; /* by way, and by measure */
  double *most;   /* the most of the ways from this one on, likewise */
  double *wanted; /* by measure */
  double *sums;   /* by measure: of the boards so far */
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

/* Whether n more boards from way on may be worth enough. */
static gboolean
may_do (const Listing *listing, guint way, int n)
{
  for (guint m = 0; m < listing->n_worths; m++)
    {
      const double most = n > 0 ? n * listing->most[way * listing->n_worths + m] : 0.0;

      if (listing->sums[m] + most
          < listing->wanted[m] - CAV_CUT_NEARLY * (1.0 + listing->wanted[m]))
        return FALSE;
    }
  return TRUE;
}

static void
add (Listing *listing, guint way, int boards)
{
  for (guint m = 0; m < listing->n_worths; m++)
    listing->sums[m] += boards * listing->worths[way * listing->n_worths + m];
}

static void
list (Listing *listing, guint way, int n)
{
  const CavCutProblem *problem = listing->problem;

  if (!may_do (listing, way, n) || (n > 0 && way == problem->ways->len))
    return;
  if (n == 0)
    {
      CavCutSet *set = g_new (CavCutSet, 1);

      set->cost = listing->cost;
      set->counts = g_memdup2 (listing->counts, (problem->ways->len + 1) * sizeof (int));
      g_ptr_array_add (listing->sets, set);
      return;
    }
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
      add (listing, way, k);
      list (listing, way + 1, n - k);
      add (listing, way, -k);
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
cav_cut_sets_new (const CavCutProblem *problem,
                  const GPtrArray *worths,
                  const int *demand,
                  int n,
                  gboolean *out_all)
{
  const guint ways = problem->ways->len;
  const guint n_worths = worths->len;
  g_autofree double *numbers = g_new0 (double, (2 * ways + 3) * n_worths);
  g_autofree int *counts = g_new0 (int, ways + 1);
  g_autofree int *limits = g_new0 (int, problem->stocks->len + 1);
  Listing listing = { .problem = problem,
                      .n_worths = n_worths,
                      .worths = numbers,
                      .most = numbers + ways * n_worths,
                      .wanted = numbers + (2 * ways + 1) * n_worths,
                      .sums = numbers + (2 * ways + 2) * n_worths,
                      .counts = counts,
                      .limits = limits,
                      .sets = g_ptr_array_new_with_free_func (set_free),
                      .all = TRUE };

  for (guint s = 0; s < problem->stocks->len; s++)
    limits[s] = CUT_STOCK (problem, s)->limit;
  for (guint m = 0; m < n_worths; m++)
    {
      const CavCutWorth *worth = g_ptr_array_index (worths, m);

      listing.wanted[m] = cav_cut_worth_get_wanted (worth, problem, demand);
      for (guint w = ways; w-- > 0;)
        {
          const guint at = w * n_worths + m;

          listing.worths[at] = cav_cut_worth_get_way (worth, problem, CUT_WAY (problem, w));
          listing.most[at] = MAX (listing.worths[at], listing.most[at + n_worths]);
        }
    }
  counts[ways] = -1; /* ends the comparison of two sets */
  list (&listing, 0, n);
  g_ptr_array_sort (listing.sets, compare_sets);
  *out_all = listing.all;
  return listing.sets;
}
