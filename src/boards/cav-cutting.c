/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <math.h>
#include <string.h>

/* Steps for the relaxation and for looking at one set of boards after the other. */
#define RELAX_STEPS 900000
#define SEARCH_STEPS 200000

void
cav_cut_solution_free (CavCutSolution *solution)
{
  if (solution == NULL)
    return;
  g_array_unref (solution->boards);
  g_ptr_array_unref (solution->fills);
  g_free (solution->missing);
  g_free (solution);
}

static CavCutSolution *
solution_new (const CavCutProblem *problem)
{
  CavCutSolution *solution = g_new0 (CavCutSolution, 1);

  solution->boards = g_array_new (FALSE, FALSE, sizeof (int));
  solution->fills = cav_cut_fills_new ();
  solution->missing = g_new0 (int, problem->items->len + 1);
  return solution;
}

double
cav_cut_get_cost (const CavCutProblem *problem, const GArray *boards)
{
  double cost = 0.0;

  for (guint i = 0; i < boards->len; i++)
    cost += CUT_STOCK (problem, CUT_WAY (problem, g_array_index (boards, int, i))->stock)->cost;
  return cost;
}

int *
cav_cut_get_room (const CavCutProblem *problem, const GArray *boards)
{
  int *room = g_new0 (int, problem->places->len + 1);

  for (guint p = 0; p < problem->places->len; p++)
    {
      room[p] = CUT_PLACE (problem, p)->open;
      for (guint i = 0; i < boards->len; i++)
        room[p] += CUT_WAY (problem, g_array_index (boards, int, i))->gives[p];
    }
  return room;
}

/* Says of each fill which of the boards it lies on. */
void
cav_cut_assign (const CavCutProblem *problem, const GArray *boards, GPtrArray *fills)
{
  const guint n = problem->places->len;
  g_autofree int *board = g_new (int, n + 1);
  g_autofree int *left = g_new (int, n + 1);

  for (guint p = 0; p < n; p++)
    {
      board[p] = -1;
      left[p] = CUT_PLACE (problem, p)->open;
    }
  for (guint i = 0; i < fills->len; i++)
    {
      CavCutFill *fill = g_ptr_array_index (fills, i);
      const int p = fill->place;

      while (left[p] == 0 && board[p] + 1 < (int)boards->len)
        left[p] = CUT_WAY (problem, g_array_index (boards, int, ++board[p]))->gives[p];
      left[p]--;
      fill->board = board[p];
    }
}

/* What fits nowhere is set aside at once. */
static void
set_aside (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;

  for (guint i = 0; i < problem->items->len; i++)
    {
      const CavCutItem *item = CUT_ITEM (problem, i);
      gboolean fits = FALSE;

      for (guint p = 0; p < problem->places->len; p++)
        {
          const CavCutPlace *place = CUT_PLACE (problem, p);
          gboolean exists = place->open > 0;

          for (guint w = 0; w < problem->ways->len && !exists; w++)
            exists = CUT_WAY (problem, w)->gives[p] > 0
                     && CUT_STOCK (problem, CUT_WAY (problem, w)->stock)->limit > 0;
          fits = fits || (exists && item->length <= place->length && cav_cut_suits (item, place));
        }
      search->demand[i] = fits ? item->count : 0;
      if (!fits)
        search->solution->missing[i] = item->count;
    }
}

void
cav_cut_keep (CavCutSearch *search, GArray *boards, GPtrArray *fills, gboolean assign)
{
  CavCutSolution *solution = search->solution;

  if (assign)
    cav_cut_assign (search->problem, boards, fills);
  g_array_set_size (solution->boards, 0);
  g_array_append_vals (solution->boards, boards->data, boards->len);
  g_ptr_array_set_size (solution->fills, 0);
  while (fills->len > 0)
    g_ptr_array_add (solution->fills, g_ptr_array_steal_index (fills, 0));
  solution->cost = cav_cut_get_cost (search->problem, boards);
  search->found = TRUE;
}

gboolean
cav_cut_is_better (const CavCutSearch *search, const GArray *boards)
{
  const CavCutSolution *solution = search->solution;

  if (search->found && search->options->cost_first
      && fabs (cav_cut_get_cost (search->problem, boards) - solution->cost) > CAV_CUT_SAME_COST)
    return cav_cut_get_cost (search->problem, boards) < solution->cost;
  if (!search->found || boards->len != solution->boards->len)
    return !search->found || boards->len < solution->boards->len;
  return cav_cut_get_cost (search->problem, boards) < solution->cost - CAV_CUT_SAME_COST;
}

/* The bound by the relaxation, and layouts by rounding it. */
static void
relax (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  CavCutSolution *solution = search->solution;
  g_autoptr (CavCutMaster) master = cav_cut_master_new (problem);
  g_autofree int *open = g_new0 (int, problem->places->len + 1);
  g_autofree int *limits = g_new0 (int, problem->stocks->len + 1);
  CavCutBudget budget = { RELAX_STEPS * search->effort, search->budget.cancelled };
  double bound;
  double missing;

  for (guint p = 0; p < problem->places->len; p++)
    open[p] = CUT_PLACE (problem, p)->open;
  for (guint s = 0; s < problem->stocks->len; s++)
    limits[s] = CUT_STOCK (problem, s)->limit;
  if (cav_cut_master_solve (master, search->demand, open, limits, 0.0, &budget, &bound, &missing))
    {
      search->impossible = missing > CAV_CUT_NEARLY;
      if (!search->impossible)
        {
          solution->least_boards = MAX (solution->least_boards, (int)ceil (bound - CAV_CUT_NEARLY));
          g_ptr_array_add (search->worths, cav_cut_master_create_worth (master));
        }
    }
  for (int variant = 0; variant < search->dives && !search->impossible; variant++)
    {
      g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (int));
      g_autoptr (GPtrArray) fills = cav_cut_fills_new ();

      if (search->found && (int)solution->boards->len <= solution->least_boards
          && !search->options->cost_first && (variant > 0 || search->one_price))
        return;
      if (cav_cut_dive (problem, master, search->price, variant, &budget, boards, fills)
          && cav_cut_is_better (search, boards))
        cav_cut_keep (search, boards, fills, FALSE);
    }
}

/* Nobody needs fewer boards than the ones that can be filled most have length for. */
static void
bound_by_length (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  g_autoptr (GArray) offers = cav_cut_list_offers (search);
  g_autofree int *limits = g_new (int, problem->stocks->len + 1);
  double wanted
      = cav_cut_worth_get_wanted (g_ptr_array_index (search->worths, 0), problem, search->demand);

  for (guint s = 0; s < problem->stocks->len; s++)
    limits[s] = CUT_STOCK (problem, s)->limit;
  for (guint k = 0; k < offers->len && wanted > 0.5; k++)
    {
      const CavCutOffer *offer = &g_array_index (offers, CavCutOffer, k);
      int *limit = &limits[CUT_WAY (problem, offer->way)->stock];
      const int most
          = offer->length >= 1.0 ? (int)MIN (*limit, ceil ((wanted - 0.5) / offer->length)) : 0;

      search->solution->least_boards += most;
      *limit -= most;
      wanted -= most * offer->length;
    }
  if (wanted > 0.5)
    search->impossible = TRUE;
}

static void
fill_set (const CavCutProblem *problem, const CavCutSet *set, GArray *out_boards)
{
  for (guint w = 0; w < problem->ways->len; w++)
    for (int k = 0; k < set->counts[w]; k++)
      {
        const int way = (int)w;

        g_array_append_val (out_boards, way);
      }
}

/* Of many sets none may use up what is there for all. */
static CavCutAnswer
test_set (CavCutSearch *search, const int *room, gboolean only, GPtrArray *fills)
{
  const gint64 share = only ? search->budget.steps : MAX (search->budget.steps / 4, 2000);
  CavCutBudget budget = { MIN (share, search->budget.steps), search->budget.cancelled };
  const gint64 before = budget.steps;
  CavCutAnswer answer;

  if (!cav_cut_budget_spend (&search->budget, 1))
    return CAV_CUT_UNKNOWN;
  answer = cav_cut_pack (search->problem, room, search->demand, search->effort, &budget, fills);
  search->budget.steps -= before - budget.steps;
  return answer;
}

/* All sets of n boards, cheapest first, until one takes everything. TRUE where one did, or where it
 * is worse than what is there. */
static gboolean
search_sets (CavCutSearch *search, int n)
{
  const CavCutProblem *problem = search->problem;
  CavCutSolution *solution = search->solution;
  gboolean all;
  g_autoptr (GPtrArray) sets = cav_cut_sets_new (problem, search->worths, search->demand, n, &all);
  gboolean sure = all;
  double least_unsure = G_MAXDOUBLE;
  int tests = 0;

  for (guint i = 0; i < sets->len; i++)
    {
      const CavCutSet *set = g_ptr_array_index (sets, i);
      g_autoptr (GArray) boards = g_array_new (FALSE, FALSE, sizeof (int));
      g_autoptr (GPtrArray) fills = cav_cut_fills_new ();
      g_autofree int *room = NULL;
      CavCutAnswer answer;

      if (search->found && (int)solution->boards->len == n
          && set->cost >= solution->cost - CAV_CUT_SAME_COST)
        break;
      fill_set (problem, set, boards);
      room = cav_cut_get_room (problem, boards);
      answer = ++tests > search->tests ? CAV_CUT_UNKNOWN
                                       : test_set (search, room, sets->len == 1, fills);
      if (answer == CAV_CUT_YES)
        {
          cav_cut_keep (search, boards, fills, TRUE);
          break;
        }
      if (answer == CAV_CUT_UNKNOWN)
        {
          least_unsure = MIN (least_unsure, set->cost);
          sure = FALSE;
        }
    }
  if (search->found && (int)solution->boards->len == n)
    {
      solution->boards_proved = solution->least_boards == n;
      solution->cost_proved = sure && solution->boards_proved;
      solution->least_cost = all ? MIN (solution->cost, least_unsure) : search->cheapest * n;
      return TRUE;
    }
  /* Nothing of n boards will do. */
  if (sure && solution->least_boards == n)
    solution->least_boards = n + 1;
  return FALSE;
}

static void
report (const CavCutSearch *search, double share)
{
  if (search->options->progress != NULL)
    search->options->progress (share, search->options->progress_data);
}

static int
count_boards (const CavCutProblem *problem)
{
  gint64 n = 0;

  for (guint s = 0; s < problem->stocks->len; s++)
    n += CUT_STOCK (problem, s)->limit;
  return (int)MIN (n, G_MAXINT);
}

/* From the bound up to what was found. */
static void
search_exactly (CavCutSearch *search)
{
  const CavCutSolution *solution = search->solution;
  const int most = search->found ? (int)solution->boards->len : count_boards (search->problem);

  for (int n = solution->least_boards; n <= most; n++)
    {
      report (search,
              0.4 + 0.4 * (n - solution->least_boards) / (most - solution->least_boards + 1));
      if (!cav_cut_budget_spend (&search->budget, 0) || search_sets (search, n))
        return;
    }
}

static void
look_at_prices (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  double most = 0.0;

  search->cheapest = G_MAXDOUBLE;
  for (guint s = 0; s < problem->stocks->len; s++)
    if (CUT_STOCK (problem, s)->limit > 0)
      {
        search->cheapest = MIN (search->cheapest, CUT_STOCK (problem, s)->cost);
        most = MAX (most, CUT_STOCK (problem, s)->cost);
      }
  search->one_price = most - search->cheapest < CAV_CUT_SAME_COST;
  /* So small that all boards together weigh less than one more board. */
  search->price = most > 0.0 ? 0.001 / most : 0.0;
  if (search->options->cost_first)
    search->price = most > 0.0 ? 1000.0 / most : 0.0;
}

static void
finish (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  CavCutSolution *solution = search->solution;

  solution->cancelled
      = search->budget.cancelled != NULL && g_atomic_int_get (search->budget.cancelled) != 0;
  for (guint i = 0; i < problem->items->len; i++)
    {
      if (!search->found)
        solution->missing[i] += search->left[i];
      solution->n_missing += solution->missing[i];
      if (solution->missing[i] > 0 && search->left[i] < solution->missing[i])
        solution->missing_proved = TRUE;
    }
  if (search->found)
    {
      solution->boards_proved
          = solution->boards_proved || solution->least_boards == (int)solution->boards->len;
      if (search->one_price && solution->boards_proved)
        solution->cost_proved = TRUE;
      if (solution->cost_proved)
        solution->least_cost = solution->cost;
      return;
    }
  solution->missing_proved
      = solution->missing_proved || search->impossible
        || (!solution->cancelled && solution->least_boards > count_boards (problem));
}

CavCutSolution *
cav_cut_solve (const CavCutProblem *problem, const CavCutOptions *options)
{
  g_return_val_if_fail (problem != NULL, NULL);
  g_return_val_if_fail (options != NULL, NULL);

  CavCutSolution *solution = solution_new (problem);
  g_autofree int *demand = g_new0 (int, problem->items->len + 1);
  g_autofree int *left = g_new0 (int, problem->items->len + 1);
  CavCutSearch search
      = { .problem = problem,
          .options = options,
          .solution = solution,
          .demand = demand,
          .left = left,
          .budget = { SEARCH_STEPS * (gint64)(options->effort + 1), options->cancelled },
          .effort = options->effort,
          .dives = options->effort > 0 ? 5 * options->effort : 0,
          .tests = 600 * (options->effort + 1) };

  set_aside (&search);
  search.worths = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_worth_free);
  g_ptr_array_add (search.worths, cav_cut_worth_new_by_length (problem, demand));
  look_at_prices (&search);
  report (&search, 0.05);
  cav_cut_begin_greedily (&search);
  bound_by_length (&search);
  report (&search, 0.1);
  if (options->effort > 0 && !search.impossible
      && (!search.found || (int)solution->boards->len > solution->least_boards
          || options->cost_first))
    relax (&search);
  if (options->effort > 0 && !search.impossible && (search.one_price || !options->cost_first))
    search_exactly (&search);
  report (&search, 0.8);
  if (search.found)
    cav_cut_lengthen_rest (&search);
  finish (&search);
  g_ptr_array_unref (search.worths);
  report (&search, 1.0);
  return solution;
}
