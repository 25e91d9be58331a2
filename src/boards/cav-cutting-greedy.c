/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/* Longest in sum first, cheaper first among equals. */
static int
compare_offers (gconstpointer a, gconstpointer b)
{
  const CavCutOffer *one = a;
  const CavCutOffer *other = b;

  if (one->length > other->length || one->length < other->length)
    return one->length > other->length ? -1 : 1;
  if (one->cost < other->cost || one->cost > other->cost)
    return one->cost < other->cost ? -1 : 1;
  return one->way - other->way;
}

GArray *
cav_cut_list_offers (const CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  GArray *offers = g_array_new (FALSE, FALSE, sizeof (CavCutOffer));

  for (guint w = 0; w < problem->ways->len; w++)
    {
      const CavCutWay *way = CUT_WAY (problem, w);
      const CavCutOffer offer
          = { (int)w, cav_cut_worth_get_way (g_ptr_array_index (search->worths, 0), problem, way),
              CUT_STOCK (problem, way->stock)->cost };

      g_array_append_val (offers, offer);
    }
  g_array_sort (offers, compare_offers);
  return offers;
}

/* Most length for the money first. */
static int
compare_bargains (gconstpointer a, gconstpointer b)
{
  const CavCutOffer *one = a;
  const CavCutOffer *other = b;
  const double here = one->cost * other->length;
  const double there = other->cost * one->length;

  if (here > there || here < there)
    return here < there ? -1 : 1;
  return one->way - other->way;
}

static int
count_pieces (const CavCutProblem *problem, const int *demand)
{
  int pieces = 0;

  for (guint i = 0; i < problem->items->len; i++)
    pieces += demand[i];
  return pieces;
}

/* Fills open places, then the largest boards one by one; a board that takes nothing is left. What
 * finds no place stays in demand. */
static void
open_greedily (CavCutSearch *search, int *demand, double power, GArray *boards, GPtrArray *fills)
{
  const CavCutProblem *problem = search->problem;
  g_autoptr (GArray) offers = cav_cut_list_offers (search);
  g_autofree int *limits = g_new (int, problem->stocks->len + 1);
  g_autofree int *room = g_new0 (int, problem->places->len + 1);

  if (search->options->cost_first)
    g_array_sort (offers, compare_bargains);
  for (guint s = 0; s < problem->stocks->len; s++)
    limits[s] = CUT_STOCK (problem, s)->limit;
  for (guint p = 0; p < problem->places->len; p++)
    room[p] = CUT_PLACE (problem, p)->open;
  cav_cut_pack_some (problem, room, demand, power, fills);
  for (guint k = 0; k < offers->len && count_pieces (problem, demand) > 0; k++)
    {
      const CavCutOffer *offer = &g_array_index (offers, CavCutOffer, k);
      const CavCutWay *way = CUT_WAY (problem, offer->way);

      while (limits[way->stock] > 0)
        {
          const int before = count_pieces (problem, demand);
          const guint first = fills->len;

          if (before == 0 || !cav_cut_budget_spend (&search->budget, 1))
            break;
          memcpy (room, way->gives, problem->places->len * sizeof *room);
          cav_cut_pack_some (problem, room, demand, power, fills);
          if (count_pieces (problem, demand) == before)
            {
              g_ptr_array_set_size (fills, (int)first);
              break;
            }
          g_array_append_val (boards, offer->way);
          limits[way->stock]--;
        }
    }
}

void
cav_cut_begin_greedily (CavCutSearch *search)
{
  static const double POWERS[] = { 1.02, 1.0, 1.2 };
  const CavCutProblem *problem = search->problem;
  const guint n = problem->items->len;
  g_autofree int *least = NULL;
  gint64 least_length = G_MAXINT64;

  for (guint k = 0; k < G_N_ELEMENTS (POWERS); k++)
    {
      g_autofree int *demand = g_memdup2 (search->demand, (n + 1) * sizeof *demand);
      g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (int));
      g_autoptr (GPtrArray) fills = cav_cut_fills_new ();
      gint64 length = 0;

      open_greedily (search, demand, POWERS[k], boards, fills);
      for (guint i = 0; i < n; i++)
        length += (gint64)demand[i] * CUT_ITEM (problem, i)->length;
      if (length == 0 ? least_length > 0 || cav_cut_is_better (search, boards)
                      : length < least_length)
        {
          least_length = length;
          g_free (least);
          least = g_steal_pointer (&demand);
          cav_cut_keep (search, boards, fills, TRUE);
        }
    }
  for (guint i = 0; i < n && least_length > 0; i++)
    search->left[i] = least[i];
  search->found = least_length == 0;
}
