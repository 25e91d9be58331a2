/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

CavCutProblem *
cav_cut_problem_new (void)
{
  CavCutProblem *problem = g_new0 (CavCutProblem, 1);

  problem->items = g_array_new (FALSE, FALSE, sizeof (CavCutItem));
  problem->places = g_array_new (FALSE, FALSE, sizeof (CavCutPlace));
  problem->stocks = g_array_new (FALSE, FALSE, sizeof (CavCutStock));
  problem->ways = g_array_new (FALSE, FALSE, sizeof (CavCutWay));
  return problem;
}

void
cav_cut_problem_free (CavCutProblem *problem)
{
  if (problem == NULL)
    return;
  for (guint i = 0; i < problem->ways->len; i++)
    g_free (CUT_WAY (problem, i)->gives);
  g_array_unref (problem->items);
  g_array_unref (problem->places);
  g_array_unref (problem->stocks);
  g_array_unref (problem->ways);
  g_free (problem);
}

int
cav_cut_problem_add_item (CavCutProblem *problem, CavCutItem item)
{
  g_return_val_if_fail (item.length > 0, -1);
  g_return_val_if_fail (item.count >= 0, -1);

  g_array_append_val (problem->items, item);
  return (int)problem->items->len - 1;
}

int
cav_cut_problem_add_place (CavCutProblem *problem, CavCutPlace place)
{
  g_return_val_if_fail (place.length > 0, -1);
  g_return_val_if_fail (problem->ways->len == 0, -1);

  g_array_append_val (problem->places, place);
  return (int)problem->places->len - 1;
}

int
cav_cut_problem_add_stock (CavCutProblem *problem, CavCutStock stock)
{
  g_return_val_if_fail (stock.limit >= 0, -1);

  g_array_append_val (problem->stocks, stock);
  return (int)problem->stocks->len - 1;
}

int *
cav_cut_problem_add_way (CavCutProblem *problem, int stock)
{
  g_return_val_if_fail (stock >= 0 && stock < (int)problem->stocks->len, NULL);

  const CavCutWay way = { stock, g_new0 (int, problem->places->len + 1) };

  g_array_append_val (problem->ways, way);
  return way.gives;
}
