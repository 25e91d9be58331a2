/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

/* Steps for one place; where they are not enough the place counts as filled to the end. */
#define STEPS_LIMIT 4000

CavCutWorth *
cav_cut_worth_new (const CavCutProblem *problem)
{
  CavCutWorth *worth = g_new (CavCutWorth, 1);

  worth->items = g_new0 (double, problem->items->len + 1);
  worth->places = g_new0 (double, problem->places->len + 1);
  return worth;
}

void
cav_cut_worth_free (CavCutWorth *worth)
{
  if (worth == NULL)
    return;
  g_free (worth->items);
  g_free (worth->places);
  g_free (worth);
}

CavCutWorth *
cav_cut_worth_new_by_length (const CavCutProblem *problem, const int *demand)
{
  CavCutWorth *worth = cav_cut_worth_new (problem);
  const guint n_items = problem->items->len;
  g_autofree int *lengths = g_new (int, 3 * n_items + 1);
  int *counts = lengths + n_items;
  int *take = lengths + 2 * n_items;
  g_autofree double *values = g_new (double, n_items + 1);

  for (guint i = 0; i < n_items; i++)
    worth->items[i] = CUT_ITEM (problem, i)->length;
  for (guint p = 0; p < problem->places->len; p++)
    {
      const CavCutPlace *place = CUT_PLACE (problem, p);
      guint n = 0;

      for (guint i = 0; i < n_items; i++)
        {
          const CavCutItem *item = CUT_ITEM (problem, i);

          if (demand[i] <= 0 || item->length > place->length || !cav_cut_suits (item, place))
            continue;
          lengths[n] = item->length;
          counts[n] = demand[i];
          values[n++] = item->length;
        }
      if (!cav_cut_knapsack (place->length, n, lengths, values, counts, STEPS_LIMIT, take,
                             &worth->places[p]))
        worth->places[p] = place->length;
    }
  return worth;
}

double
cav_cut_worth_get_wanted (const CavCutWorth *worth, const CavCutProblem *problem, const int *demand)
{
  double wanted = 0.0;

  for (guint i = 0; i < problem->items->len; i++)
    wanted += demand[i] * worth->items[i];
  for (guint p = 0; p < problem->places->len; p++)
    wanted -= CUT_PLACE (problem, p)->open * worth->places[p];
  return wanted;
}

double
cav_cut_worth_get_way (const CavCutWorth *worth, const CavCutProblem *problem, const CavCutWay *way)
{
  double sum = 0.0;

  for (guint p = 0; p < problem->places->len; p++)
    sum += way->gives[p] * worth->places[p];
  return sum;
}
