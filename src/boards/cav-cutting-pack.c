/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <math.h>
#include <string.h>

/* How many passes of value correction are made before the complete search and after it. */
#define TRIES_BEFORE 6
#define TRIES_AFTER 60
/* What filling one place counts for beside a step of the complete search. */
#define FILL_STEPS 40
/* Power of an item's length that is its value at first; a little above 1, so that long items, which
 * are hard to place, come first. Tried out on the open data that bench-boards reads. */
#define FIRST_POWER 1.02
/* Steps for filling one place. */
#define FILL_LIMIT 20000

CavCutFill *
cav_cut_fill_new (int place, int board)
{
  CavCutFill *fill = g_new0 (CavCutFill, 1);

  fill->place = place;
  fill->board = board;
  fill->items = g_array_new (FALSE, FALSE, sizeof (int));
  return fill;
}

void
cav_cut_fill_free (CavCutFill *fill)
{
  if (fill == NULL)
    return;
  g_array_unref (fill->items);
  g_free (fill);
}

GPtrArray *
cav_cut_fills_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_fill_free);
}

int
cav_cut_fill_get_length (const CavCutProblem *problem, const CavCutFill *fill)
{
  int length = 0;

  for (guint i = 0; i < fill->items->len; i++)
    length += CUT_ITEM (problem, g_array_index (fill->items, int, i))->length;
  return length;
}

gboolean
cav_cut_budget_spend (CavCutBudget *budget, gint64 steps)
{
  budget->steps -= steps;
  return budget->steps > 0
         && (budget->cancelled == NULL || g_atomic_int_get (budget->cancelled) == 0);
}

/* The places to fill, one entry each, narrow ones before wide ones so that what can lie anywhere
 * leaves the wide ones to those that need them. */
typedef struct
{
  int place;
  int left;
} Bin;

static GArray *
list_bins (const CavCutProblem *problem, const int *room)
{
  GArray *bins = g_array_new (FALSE, FALSE, sizeof (Bin));

  for (guint i = 0; i < problem->places->len; i++)
    for (int k = 0; k < room[i]; k++)
      {
        const Bin bin = { (int)i, CUT_PLACE (problem, i)->length };

        g_array_append_val (bins, bin);
      }
  return bins;
}

static int
compare_bins (gconstpointer a, gconstpointer b, gpointer data)
{
  const CavCutProblem *problem = data;
  const CavCutPlace *one = CUT_PLACE (problem, ((const Bin *)a)->place);
  const CavCutPlace *other = CUT_PLACE (problem, ((const Bin *)b)->place);

  if (!one->wide != !other->wide)
    return one->wide ? 1 : -1;
  if (one->length != other->length)
    return one->length < other->length ? -1 : 1;
  return ((const Bin *)a)->place - ((const Bin *)b)->place;
}

static int
compare_items (gconstpointer a, gconstpointer b, gpointer data)
{
  const CavCutProblem *problem = data;
  const CavCutItem *one = CUT_ITEM (problem, *(const int *)a);
  const CavCutItem *other = CUT_ITEM (problem, *(const int *)b);

  if (!one->wide != !other->wide)
    return one->wide ? -1 : 1;
  if (one->length != other->length)
    return one->length > other->length ? -1 : 1;
  return *(const int *)a - *(const int *)b;
}

/* Longest item first, each to the place that it leaves the least of. */
static gboolean
pack_best_fit (const CavCutProblem *problem, const int *room, const int *demand, GPtrArray *fills)
{
  const guint n = problem->items->len;
  g_autoptr (GArray) bins = list_bins (problem, room);
  g_autoptr (GPtrArray) made = cav_cut_fills_new ();
  g_autofree int *order = g_new (int, n);

  for (guint i = 0; i < n; i++)
    order[i] = (int)i;
  g_qsort_with_data (order, (int)n, sizeof *order, compare_items, (gpointer)problem);
  g_array_sort_with_data (bins, compare_bins, (gpointer)problem);
  for (guint b = 0; b < bins->len; b++)
    g_ptr_array_add (made, cav_cut_fill_new (g_array_index (bins, Bin, b).place, -1));
  for (guint i = 0; i < n; i++)
    {
      const CavCutItem *item = CUT_ITEM (problem, order[i]);

      for (int k = 0; k < demand[order[i]]; k++)
        {
          int best = -1;

          for (guint b = 0; b < bins->len; b++)
            {
              const Bin *bin = &g_array_index (bins, Bin, b);

              if (bin->left >= item->length && cav_cut_suits (item, CUT_PLACE (problem, bin->place))
                  && (best < 0 || bin->left < g_array_index (bins, Bin, best).left))
                best = (int)b;
            }
          if (best < 0)
            return FALSE;
          g_array_index (bins, Bin, best).left -= item->length;
          g_array_append_val (((CavCutFill *)g_ptr_array_index (made, best))->items, order[i]);
        }
    }
  if (fills != NULL)
    g_ptr_array_extend_and_steal (fills, g_steal_pointer (&made));
  return TRUE;
}

/* What a pass of filling works with. */
typedef struct
{
  const CavCutProblem *problem;
  int *demand;    /* left */
  double *values; /* of the items, wanted or not */
  int *lengths;   /* of those that suit the present place */
  double *worth;
  int *counts;
  int *take;
  int *who;
} Filling;

static void
filling_init (Filling *filling, const CavCutProblem *problem, int *demand, double *values)
{
  const guint n = problem->items->len;

  filling->problem = problem;
  filling->demand = demand;
  filling->values = values;
  filling->lengths = g_new (int, 4 * n + 1);
  filling->counts = filling->lengths + n;
  filling->take = filling->lengths + 2 * n;
  filling->who = filling->lengths + 3 * n;
  filling->worth = g_new (double, n + 1);
}

static void
filling_clear (Filling *filling)
{
  g_free (filling->lengths);
  g_free (filling->worth);
}

/* The most valuable fill of one place; returns the length that it takes. */
static int
fill_place (Filling *filling, int place_index, GArray *out_items)
{
  const CavCutProblem *problem = filling->problem;
  const CavCutPlace *place = CUT_PLACE (problem, place_index);
  guint n = 0;
  int taken = 0;
  double value;

  for (guint i = 0; i < problem->items->len; i++)
    {
      const CavCutItem *item = CUT_ITEM (problem, i);

      if (filling->demand[i] <= 0 || item->length > place->length || !cav_cut_suits (item, place))
        continue;
      filling->lengths[n] = item->length;
      filling->counts[n] = filling->demand[i];
      filling->worth[n] = filling->values[i];
      filling->who[n++] = (int)i;
    }
  cav_cut_knapsack (place->length, n, filling->lengths, filling->worth, filling->counts, FILL_LIMIT,
                    filling->take, &value);
  for (guint i = 0; i < n; i++)
    {
      filling->demand[filling->who[i]] -= filling->take[i];
      taken += filling->take[i] * filling->lengths[i];
      for (int k = 0; k < filling->take[i]; k++)
        g_array_append_val (out_items, filling->who[i]);
    }
  return taken;
}

static gboolean
is_placed (const CavCutProblem *problem, const int *demand)
{
  for (guint i = 0; i < problem->items->len; i++)
    if (demand[i] > 0)
      return FALSE;
  return TRUE;
}

/* An item that was left or that lay beside waste is worth more the next time: the value moves
 * toward what a length that lost nothing would have been worth (sequential value correction). */
static void
correct_values (Filling *filling, const CavCutFill *fill, int taken, double power, double inertia)
{
  const CavCutPlace *place = CUT_PLACE (filling->problem, fill->place);
  const double loss = (double)place->length / MAX (taken, 1);

  for (guint i = 0; i < fill->items->len; i++)
    {
      const int item = g_array_index (fill->items, int, i);
      const double target = pow (CUT_ITEM (filling->problem, item)->length, power) * loss;
      const double weight
          = inertia * (CUT_ITEM (filling->problem, item)->count + filling->demand[item]);

      filling->values[item] = (weight * filling->values[item] + target) / (weight + 1.0);
    }
}

static gboolean
pack_by_values (const CavCutProblem *problem,
                const int *room,
                const int *demand,
                double *values,
                int try,
                CavCutBudget *budget,
                GPtrArray *fills)
{
  const guint n = problem->items->len;
  /* Numbers that wander and repeat from run to run. */
  const double power = 1.0 + 0.012 * ((try * 7) % 11);
  const double inertia = 0.5 + 0.15 * ((try * 5) % 7);
  g_autofree int *left = g_memdup2 (demand, n * sizeof *demand);
  g_autoptr (GArray) bins = list_bins (problem, room);
  g_autoptr (GPtrArray) made = cav_cut_fills_new ();
  Filling filling;
  gboolean placed;

  g_array_sort_with_data (bins, compare_bins, (gpointer)problem);
  filling_init (&filling, problem, left, values);
  for (guint b = 0; b < bins->len && cav_cut_budget_spend (budget, FILL_STEPS); b++)
    {
      /* Every other pass begins with the long places. */
      const guint at = try % 2 == 0 ? b : bins->len - 1 - b;
      CavCutFill *fill = cav_cut_fill_new (g_array_index (bins, Bin, at).place, -1);
      const int taken = fill_place (&filling, fill->place, fill->items);

      if (taken > 0)
        correct_values (&filling, fill, taken, power, inertia);
      g_ptr_array_add (made, fill);
    }
  placed = is_placed (problem, left);
  /* What was left over is what was worth too little. */
  for (guint i = 0; i < n; i++)
    if (left[i] > 0)
      values[i] *= 1.1;
  filling_clear (&filling);
  if (placed && fills != NULL)
    g_ptr_array_extend_and_steal (fills, g_steal_pointer (&made));
  return placed;
}

/* (transfer full) What items are worth to begin with: by length, long ones more than in proportion
 * where power is above 1; of equals one that needs a wide place first, by a hair. */
static double *
create_values (const CavCutProblem *problem, double power)
{
  double *values = g_new (double, problem->items->len + 1);

  for (guint i = 0; i < problem->items->len; i++)
    values[i]
        = pow (CUT_ITEM (problem, i)->length, power) * (CUT_ITEM (problem, i)->wide ? 1.001 : 1.0);
  return values;
}

void
cav_cut_pack_some (
    const CavCutProblem *problem, const int *room, int *demand, double power, GPtrArray *fills)
{
  g_autofree double *values = create_values (problem, power);
  g_autoptr (GArray) bins = list_bins (problem, room);
  Filling filling;

  g_array_sort_with_data (bins, compare_bins, (gpointer)problem);
  filling_init (&filling, problem, demand, values);
  for (guint b = 0; b < bins->len; b++)
    {
      CavCutFill *fill = cav_cut_fill_new (g_array_index (bins, Bin, b).place, -1);

      fill_place (&filling, fill->place, fill->items);
      g_ptr_array_add (fills, fill);
    }
  filling_clear (&filling);
}

gboolean
cav_cut_pack_quickly (const CavCutProblem *problem,
                      const int *room,
                      const int *demand,
                      int tries,
                      CavCutBudget *budget,
                      GPtrArray *fills)
{
  g_autofree double *values = create_values (problem, FIRST_POWER);

  if (pack_best_fit (problem, room, demand, fills))
    return TRUE;
  for (int try = 0; try < tries && cav_cut_budget_spend (budget, 1); try++)
    if (pack_by_values (problem, room, demand, values, try, budget, fills))
      return TRUE;
  return FALSE;
}

/* What cannot be is seen without searching: too little length in a family, or in its wide places.
 */
static gboolean
is_hopeless (const CavCutProblem *problem, const int *room, const int *demand)
{
  for (guint k = 0; k < 2 * problem->places->len + 2 * problem->items->len; k++)
    {
      const guint half = k / 2;
      const gboolean wide = k % 2 == 1;
      const int family = half < problem->places->len
                             ? CUT_PLACE (problem, half)->family
                             : CUT_ITEM (problem, half - problem->places->len)->family;
      gint64 length = 0;

      for (guint i = 0; i < problem->places->len; i++)
        if (CUT_PLACE (problem, i)->family == family && (!wide || CUT_PLACE (problem, i)->wide))
          length += (gint64)room[i] * CUT_PLACE (problem, i)->length;
      for (guint i = 0; i < problem->items->len; i++)
        if (CUT_ITEM (problem, i)->family == family && (!wide || CUT_ITEM (problem, i)->wide))
          length -= (gint64)demand[i] * CUT_ITEM (problem, i)->length;
      if (length < 0)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_family (GArray *families, int family)
{
  for (guint i = 0; i < families->len; i++)
    if (g_array_index (families, int, i) == family)
      return TRUE;
  g_array_append_val (families, family);
  return FALSE;
}

/* Families do not share places, so each is searched alone. */
static CavCutAnswer
pack_families (const CavCutProblem *problem,
               const int *room,
               const int *demand,
               CavCutBudget *budget,
               GPtrArray *fills)
{
  g_autoptr (GArray) families = g_array_new (FALSE, FALSE, sizeof (int));
  CavCutAnswer answer = CAV_CUT_YES;

  for (guint i = 0; i < problem->items->len; i++)
    {
      const int family = CUT_ITEM (problem, i)->family;
      CavCutAnswer one;

      if (has_family (families, family))
        continue;
      one = cav_cut_pack_exactly (problem, family, room, demand, budget, fills);
      if (one == CAV_CUT_NO)
        return CAV_CUT_NO;
      if (one == CAV_CUT_UNKNOWN)
        answer = CAV_CUT_UNKNOWN;
    }
  return answer;
}

CavCutAnswer
cav_cut_pack (const CavCutProblem *problem,
              const int *room,
              const int *demand,
              int effort,
              CavCutBudget *budget,
              GPtrArray *fills)
{
  g_autoptr (GPtrArray) made = cav_cut_fills_new ();
  CavCutAnswer answer;

  if (is_hopeless (problem, room, demand))
    return CAV_CUT_NO;
  if (cav_cut_pack_quickly (problem, room, demand, effort > 0 ? TRIES_BEFORE : 1, budget, fills))
    return CAV_CUT_YES;
  if (effort == 0)
    return CAV_CUT_UNKNOWN;
  answer = pack_families (problem, room, demand, budget, made);
  if (answer == CAV_CUT_YES && fills != NULL)
    g_ptr_array_extend_and_steal (fills, g_steal_pointer (&made));
  if (answer == CAV_CUT_UNKNOWN
      && cav_cut_pack_quickly (problem, room, demand, TRIES_AFTER * effort, budget, fills))
    return CAV_CUT_YES;
  return answer;
}
