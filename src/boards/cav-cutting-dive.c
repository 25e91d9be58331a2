/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <math.h>
#include <string.h>

/* What is open, what is wanted, what may still be opened. */
typedef struct
{
  const CavCutProblem *problem;
  CavCutMaster *master;
  int *demand;
  int *open;      /* by place */
  int *limits;    /* by stock */
  GArray **owner; /* by place: boards whose places are open, -1 for those that were there */
  GArray *boards;
  GPtrArray *fills;
} Dive;

static void
dive_init (Dive *dive, const CavCutProblem *problem, CavCutMaster *master)
{
  dive->problem = problem;
  dive->master = master;
  dive->demand = g_new (int, problem->items->len + 1);
  dive->open = g_new (int, problem->places->len + 1);
  dive->limits = g_new (int, problem->stocks->len + 1);
  dive->owner = g_new (GArray *, problem->places->len + 1);
  for (guint i = 0; i < problem->items->len; i++)
    dive->demand[i] = CUT_ITEM (problem, i)->count;
  for (guint i = 0; i < problem->stocks->len; i++)
    dive->limits[i] = CUT_STOCK (problem, i)->limit;
  for (guint i = 0; i < problem->places->len; i++)
    {
      const int there = -1;

      dive->open[i] = CUT_PLACE (problem, i)->open;
      dive->owner[i] = g_array_new (FALSE, FALSE, sizeof (int));
      for (int k = 0; k < dive->open[i]; k++)
        g_array_append_val (dive->owner[i], there);
    }
}

static void
dive_clear (Dive *dive)
{
  for (guint i = 0; i < dive->problem->places->len; i++)
    g_array_unref (dive->owner[i]);
  g_free (dive->owner);
  g_free (dive->limits);
  g_free (dive->open);
  g_free (dive->demand);
}

/* Opens the board that the relaxation has most of among those that give such a place. */
static gboolean
open_board (Dive *dive, int place)
{
  const CavCutProblem *problem = dive->problem;
  double most = -1.0;
  int best = -1;
  int board;

  for (guint w = 0; w < problem->ways->len; w++)
    {
      const CavCutWay *way = CUT_WAY (problem, w);
      const double share = cav_cut_master_get_way (dive->master, w);

      if (way->gives[place] > 0 && dive->limits[way->stock] > 0 && share > most + CAV_CUT_NEARLY)
        {
          most = share;
          best = (int)w;
        }
    }
  if (best < 0)
    return FALSE;
  board = (int)dive->boards->len;
  g_array_append_val (dive->boards, best);
  dive->limits[CUT_WAY (problem, best)->stock]--;
  for (guint p = 0; p < problem->places->len; p++)
    for (int k = 0; k < CUT_WAY (problem, best)->gives[p]; k++)
      {
        dive->open[p]++;
        g_array_append_val (dive->owner[p], board);
      }
  return TRUE;
}

/* A column may hold more of an item than is left; the room that this leaves is filled up. */
static void
fill_up (Dive *dive, CavCutFill *fill)
{
  const CavCutProblem *problem = dive->problem;
  const CavCutPlace *place = CUT_PLACE (problem, fill->place);
  int rest = place->length - cav_cut_fill_get_length (problem, fill);

  for (;;)
    {
      int best = -1;

      for (guint i = 0; i < problem->items->len; i++)
        if (dive->demand[i] > 0 && CUT_ITEM (problem, i)->length <= rest
            && cav_cut_suits (CUT_ITEM (problem, i), place)
            && (best < 0 || CUT_ITEM (problem, i)->length > CUT_ITEM (problem, best)->length))
          best = (int)i;
      if (best < 0)
        return;
      g_array_append_val (fill->items, best);
      dive->demand[best]--;
      rest -= CUT_ITEM (problem, best)->length;
    }
}

/* One place filled as the column says; FALSE where there is no such place any more. */
static gboolean
use_column (Dive *dive, int place, const int *take)
{
  CavCutFill *fill;
  gboolean clipped = FALSE;

  if (dive->open[place] == 0 && !open_board (dive, place))
    return FALSE;
  dive->open[place]--;
  fill = cav_cut_fill_new (place, g_array_index (dive->owner[place], int, 0));
  g_array_remove_index (dive->owner[place], 0);
  for (guint i = 0; i < dive->problem->items->len; i++)
    {
      const int item = (int)i;
      const int pieces = MIN (take[i], dive->demand[i]);

      clipped = clipped || pieces < take[i];
      for (int k = 0; k < pieces; k++)
        g_array_append_val (fill->items, item);
      dive->demand[i] -= pieces;
    }
  if (clipped)
    fill_up (dive, fill);
  g_ptr_array_add (dive->fills, fill);
  return TRUE;
}

static int
count_wanted (const Dive *dive, const int *take)
{
  int wanted = 0;

  for (guint i = 0; i < dive->problem->items->len; i++)
    wanted += MIN (take[i], dive->demand[i]);
  return wanted;
}

/* Whole parts first; where there are none, the column that is nearest to one. Variants differ in
 * how much a column may be short of a whole one. */
static gboolean
round_columns (Dive *dive, int variant)
{
  const double enough = 1.0 - 0.1 * (variant % 4);
  const guint n = cav_cut_master_get_n_columns (dive->master);
  gboolean used = FALSE;
  double most = CAV_CUT_NEARLY;
  const int *best_take = NULL;
  int best_place = 0;

  for (guint c = 0; c < n; c++)
    {
      int place;
      const int *take;
      const double amount = cav_cut_master_get_column (dive->master, c, &place, &take);
      const int whole = (int)floor (amount + 1.0 - enough + CAV_CUT_NEARLY);

      for (int k = 0; k < whole && count_wanted (dive, take) > 0; k++)
        used = use_column (dive, place, take) || used;
      if (amount > most + (variant > 3 ? 0.02 * (variant - 3) : 0.0))
        {
          most = amount;
          best_take = take;
          best_place = place;
        }
    }
  if (used)
    return TRUE;
  return best_take != NULL && use_column (dive, best_place, best_take);
}

static gboolean
is_done (const Dive *dive)
{
  for (guint i = 0; i < dive->problem->items->len; i++)
    if (dive->demand[i] > 0)
      return FALSE;
  return TRUE;
}

/* As soon as what is open takes the rest, that is it. */
static gboolean
finish (Dive *dive, CavCutBudget *budget)
{
  g_autoptr (GPtrArray) fills = cav_cut_fills_new ();

  if (!cav_cut_pack_quickly (dive->problem, dive->open, dive->demand, 1, budget, fills))
    return FALSE;
  for (guint i = 0; i < fills->len; i++)
    {
      CavCutFill *fill = g_ptr_array_index (fills, i);

      fill->board = g_array_index (dive->owner[fill->place], int, 0);
      g_array_remove_index (dive->owner[fill->place], 0);
    }
  g_ptr_array_extend_and_steal (dive->fills, g_steal_pointer (&fills));
  return TRUE;
}

gboolean
cav_cut_dive (const CavCutProblem *problem,
              CavCutMaster *master,
              double price,
              int variant,
              CavCutBudget *budget,
              GArray *boards,
              GPtrArray *fills)
{
  Dive dive;
  gboolean done = FALSE;

  dive_init (&dive, problem, master);
  dive.boards = boards;
  dive.fills = fills;
  while (!done && !is_done (&dive))
    {
      double bound;
      double missing;

      if (!cav_cut_budget_spend (budget, 100))
        break;
      cav_cut_master_solve (master, dive.demand, dive.open, dive.limits, price, budget, &bound,
                            &missing);
      if (missing > CAV_CUT_NEARLY || !round_columns (&dive, variant))
        break;
      done = finish (&dive, budget);
    }
  done = done || is_done (&dive);
  dive_clear (&dive);
  return done;
}
