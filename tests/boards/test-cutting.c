/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting.h"

#include <math.h>
#include <string.h>

#define ITEM(problem, i) (&g_array_index ((problem)->items, CavCutItem, i))
#define PLACE(problem, i) (&g_array_index ((problem)->places, CavCutPlace, i))
#define STOCK(problem, i) (&g_array_index ((problem)->stocks, CavCutStock, i))
#define WAY(problem, i) (&g_array_index ((problem)->ways, CavCutWay, i))

static const CavCutOptions USUAL = { .effort = 1 };

/* Boards that each give one place. */
static void
add_boards (CavCutProblem *problem, int length, int limit, double cost)
{
  const int place = cav_cut_problem_add_place (problem, (CavCutPlace){ .length = length });
  const int stock = cav_cut_problem_add_stock (problem, (CavCutStock){ limit, cost });

  cav_cut_problem_add_way (problem, stock)[place] = 1;
}

/* Everything that a solution promises, counted by hand. */
static void
check_solution (const CavCutProblem *problem, const CavCutSolution *solution)
{
  const guint n_places = problem->places->len;
  g_autofree int *left = g_new0 (int, problem->items->len + 1);
  g_autofree int *used = g_new0 (int, (solution->boards->len + 1) * (n_places + 1));
  g_autofree int *opened = g_new0 (int, problem->stocks->len + 1);
  double cost = 0.0;

  for (guint i = 0; i < problem->items->len; i++)
    left[i] = ITEM (problem, i)->count - solution->missing[i];
  for (guint b = 0; b < solution->boards->len; b++)
    {
      const int stock = WAY (problem, g_array_index (solution->boards, int, b))->stock;

      g_assert_cmpint (++opened[stock], <=, STOCK (problem, stock)->limit);
      cost += STOCK (problem, stock)->cost;
    }
  for (guint f = 0; f < solution->fills->len; f++)
    {
      const CavCutFill *fill = g_ptr_array_index (solution->fills, f);
      const CavCutPlace *place = PLACE (problem, fill->place);
      int rest = place->length;

      g_assert_cmpint (fill->board, >=, -1);
      g_assert_cmpint (fill->board, <, (int)solution->boards->len);
      used[(fill->board + 1) * (int)n_places + fill->place]++;
      for (guint k = 0; k < fill->items->len; k++)
        {
          const int index = g_array_index (fill->items, int, k);
          const CavCutItem *item = ITEM (problem, index);

          left[index]--;
          rest -= item->length;
          g_assert_cmpint (item->family, ==, place->family);
          g_assert_true (!item->wide || place->wide);
        }
      g_assert_cmpint (rest, >=, 0);
    }
  for (guint p = 0; p < n_places; p++)
    {
      g_assert_cmpint (used[p], <=, PLACE (problem, p)->open);
      for (guint b = 0; b < solution->boards->len; b++)
        g_assert_cmpint (used[(b + 1) * n_places + p], <=,
                         WAY (problem, g_array_index (solution->boards, int, b))->gives[p]);
    }
  for (guint i = 0; i < problem->items->len; i++)
    g_assert_cmpint (left[i], ==, 0);
  g_assert_cmpfloat_with_epsilon (cost, solution->cost, 1e-6);
}

static void
test_exact_thirds (void)
{
  /* Pieces that fill lengths of 1000 to the last, three by three, and in no other way: each holds
   * one long, one middling and one short piece whose ends tell them apart. */
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;

  for (int i = 0; i < 12; i++)
    {
      cav_cut_problem_add_item (problem, (CavCutItem){ .length = 400 + 7 * i, .count = 1 });
      cav_cut_problem_add_item (problem, (CavCutItem){ .length = 330 + i, .count = 1 });
      cav_cut_problem_add_item (problem, (CavCutItem){ .length = 270 - 8 * i, .count = 1 });
    }
  add_boards (problem, 1000, 40, 1.0);
  solution = cav_cut_solve (problem, &USUAL);
  check_solution (problem, solution);
  g_assert_cmpint (solution->n_missing, ==, 0);
  g_assert_cmpuint (solution->boards->len, ==, 12);
  g_assert_true (solution->boards_proved);
}

static void
test_cheaper_boards (void)
{
  /* One board of either length would do; the shorter is cheaper. */
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;
  int place[2];

  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 500, .count = 2 });
  for (int k = 0; k < 2; k++)
    place[k] = cav_cut_problem_add_place (problem, (CavCutPlace){ .length = k == 0 ? 3000 : 1000 });
  for (int k = 0; k < 2; k++)
    {
      const int stock
          = cav_cut_problem_add_stock (problem, (CavCutStock){ 5, k == 0 ? 30.0 : 12.0 });

      cav_cut_problem_add_way (problem, stock)[place[k]] = 1;
    }
  solution = cav_cut_solve (problem, &USUAL);
  check_solution (problem, solution);
  g_assert_cmpuint (solution->boards->len, ==, 1);
  g_assert_cmpfloat (solution->cost, <, 12.5);
  g_assert_true (solution->cost_proved);
}

static void
test_long_rest (void)
{
  /* 600 and 300 leave 100 and 400 when apart on two places, but 100 and 700 when together. */
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;
  const int shorter = cav_cut_problem_add_place (problem, (CavCutPlace){ .length = 700 });
  const int longer = cav_cut_problem_add_place (problem, (CavCutPlace){ .length = 1000 });
  int *gives;
  int longest = 0;

  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 600, .count = 1 });
  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 300, .count = 1 });
  gives = cav_cut_problem_add_way (problem,
                                   cav_cut_problem_add_stock (problem, (CavCutStock){ 1, 1.0 }));
  gives[shorter] = 1;
  gives[longer] = 1;
  solution = cav_cut_solve (problem, &USUAL);
  check_solution (problem, solution);
  for (guint f = 0; f < solution->fills->len; f++)
    {
      const CavCutFill *fill = g_ptr_array_index (solution->fills, f);
      int rest = PLACE (problem, fill->place)->length;

      for (guint k = 0; k < fill->items->len; k++)
        rest -= ITEM (problem, g_array_index (fill->items, int, k))->length;
      longest = MAX (longest, rest);
    }
  g_assert_cmpint (longest, ==, 700);
  g_assert_true (solution->rest_proved);
}

static void
test_too_little (void)
{
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;

  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 600, .count = 3 });
  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 1200, .count = 1 });
  add_boards (problem, 1000, 2, 1.0);
  solution = cav_cut_solve (problem, &USUAL);
  check_solution (problem, solution);
  g_assert_cmpint (solution->missing[0], ==, 1);
  g_assert_cmpint (solution->missing[1], ==, 1);
  g_assert_cmpint (solution->n_missing, ==, 2);
  g_assert_true (solution->missing_proved);
}

static void
test_nothing (void)
{
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) none = cav_cut_solve (problem, &USUAL);
  g_autoptr (CavCutSolution) no_boards = NULL;

  g_assert_cmpuint (none->boards->len, ==, 0);
  g_assert_cmpint (none->n_missing, ==, 0);
  cav_cut_problem_add_item (problem, (CavCutItem){ .length = 1, .count = 1 });
  no_boards = cav_cut_solve (problem, &USUAL);
  g_assert_cmpint (no_boards->n_missing, ==, 1);
  g_assert_true (no_boards->missing_proved);
}

static void
test_cancelled (void)
{
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;
  const int stop = 1;
  const CavCutOptions options = { .effort = 1, .cancelled = &stop };

  for (int i = 0; i < 30; i++)
    cav_cut_problem_add_item (problem, (CavCutItem){ .length = 301 + 13 * i, .count = 3 });
  add_boards (problem, 2000, 100, 1.0);
  solution = cav_cut_solve (problem, &options);
  check_solution (problem, solution);
  g_assert_true (solution->cancelled);
}

static void
count_report (double share, gpointer data)
{
  double *last = data;

  g_assert_cmpfloat (share, >=, *last);
  g_assert_cmpfloat (share, <=, 1.0);
  *last = share;
}

static void
test_progress (void)
{
  g_autoptr (CavCutProblem) problem = cav_cut_problem_new ();
  g_autoptr (CavCutSolution) solution = NULL;
  double last = 0.0;
  const CavCutOptions options = { .effort = 1, .progress = count_report, .progress_data = &last };

  for (int i = 0; i < 9; i++)
    cav_cut_problem_add_item (problem, (CavCutItem){ .length = 300 + 40 * i, .count = 2 });
  add_boards (problem, 1000, 100, 1.0);
  solution = cav_cut_solve (problem, &options);
  g_assert_cmpfloat (last, >=, 1.0);
}

/* Exhaustive search, as simple as can be: piece after piece into every place that takes it. */
typedef struct
{
  const CavCutProblem *problem;
  int pieces[16];
  int n_pieces;
  int rest[32];
  int place[32];
  int n_bins;
} Simple;

static gboolean
place_pieces (Simple *simple, int piece)
{
  if (piece == simple->n_pieces)
    return TRUE;
  for (int b = 0; b < simple->n_bins; b++)
    {
      const CavCutItem *item = ITEM (simple->problem, simple->pieces[piece]);
      const CavCutPlace *place = PLACE (simple->problem, simple->place[b]);

      if (item->family != place->family || (item->wide && !place->wide)
          || item->length > simple->rest[b])
        continue;
      simple->rest[b] -= item->length;
      if (place_pieces (simple, piece + 1))
        return TRUE;
      simple->rest[b] += item->length;
    }
  return FALSE;
}

static gboolean
fits (const CavCutProblem *problem, const int *counts)
{
  Simple simple = { .problem = problem };

  for (guint i = 0; i < problem->items->len; i++)
    for (int k = 0; k < ITEM (problem, i)->count; k++)
      simple.pieces[simple.n_pieces++] = (int)i;
  for (guint p = 0; p < problem->places->len; p++)
    {
      int bins = PLACE (problem, p)->open;

      for (guint w = 0; w < problem->ways->len; w++)
        bins += counts[w] * WAY (problem, w)->gives[p];
      for (int k = 0; k < bins; k++)
        {
          simple.rest[simple.n_bins] = PLACE (problem, p)->length;
          simple.place[simple.n_bins++] = (int)p;
        }
    }
  return place_pieces (&simple, 0);
}

/* Tries every number of every way. */
static void
enumerate (const CavCutProblem *problem, int *counts, guint way, int *out_boards, double *out_cost)
{
  if (way < problem->ways->len)
    {
      for (counts[way] = 0; counts[way] <= 2; counts[way]++)
        enumerate (problem, counts, way + 1, out_boards, out_cost);
      counts[way] = 0;
      return;
    }
  int boards = 0;
  double cost = 0.0;
  int used[8] = { 0 };

  for (guint w = 0; w < problem->ways->len; w++)
    {
      const int stock = WAY (problem, w)->stock;

      used[stock] += counts[w];
      if (used[stock] > STOCK (problem, stock)->limit)
        return;
      boards += counts[w];
      cost += counts[w] * STOCK (problem, stock)->cost;
    }
  if ((boards < *out_boards || (boards == *out_boards && cost < *out_cost - 1e-6))
      && fits (problem, counts))
    {
      *out_boards = boards;
      *out_cost = cost;
    }
}

/* Two families, wide items, several ways to saw a board, open places: all that boards ask for. */
static CavCutProblem *
create_random (void)
{
  CavCutProblem *problem = cav_cut_problem_new ();
  const int families = g_test_rand_int_range (1, 3);
  const int items = g_test_rand_int_range (1, 6);
  const int places = g_test_rand_int_range (1, 4);
  const int stocks = g_test_rand_int_range (1, 4);
  int pieces = 0;

  for (int i = 0; i < items && pieces < 10; i++)
    {
      const int count = g_test_rand_int_range (1, 4);

      cav_cut_problem_add_item (problem,
                                (CavCutItem){ .length = g_test_rand_int_range (20, 70),
                                              .count = MIN (count, 10 - pieces),
                                              .family = g_test_rand_int_range (0, families),
                                              .wide = g_test_rand_int_range (0, 4) == 0 });
      pieces += MIN (count, 10 - pieces);
    }
  for (int p = 0; p < places; p++)
    cav_cut_problem_add_place (problem,
                               (CavCutPlace){ .length = g_test_rand_int_range (60, 130),
                                              .family = g_test_rand_int_range (0, families),
                                              .wide = g_test_rand_int_range (0, 2) == 0,
                                              .open = g_test_rand_int_range (0, 6) == 0 });
  for (int s = 0; s < stocks; s++)
    {
      cav_cut_problem_add_stock (
          problem, (CavCutStock){ g_test_rand_int_range (1, 3), g_test_rand_int_range (1, 5) });
      for (int w = 0; w < g_test_rand_int_range (1, 3); w++)
        {
          int *gives = cav_cut_problem_add_way (problem, s);

          for (int p = 0; p < places; p++)
            gives[p] = g_test_rand_int_range (0, 3);
        }
    }
  return problem;
}

static void
test_random (void)
{
  int solved = 0;
  int proved = 0;

  for (int round = 0; round < 400; round++)
    {
      g_autoptr (CavCutProblem) problem = create_random ();
      g_autoptr (CavCutSolution) solution = cav_cut_solve (problem, &USUAL);
      int counts[16] = { 0 };
      int boards = G_MAXINT;
      double cost = G_MAXDOUBLE;

      check_solution (problem, solution);
      enumerate (problem, counts, 0, &boards, &cost);
      if (boards == G_MAXINT)
        {
          g_assert_cmpint (solution->n_missing, >, 0);
          continue;
        }
      solved++;
      g_assert_cmpint (solution->n_missing, ==, 0);
      g_assert_cmpint (solution->boards->len, ==, boards);
      g_assert_cmpfloat_with_epsilon (solution->cost, cost, 1e-6);
      g_assert_cmpint (solution->least_boards, <=, boards);
      g_assert_cmpfloat (solution->least_cost, <=, cost + 1e-6);
      proved += solution->boards_proved && solution->cost_proved;
    }
  g_assert_cmpint (solved, >, 100);
  g_assert_cmpint (proved, ==, solved);
}

/* A quick answer is a layout all the same, only perhaps not the best. */
static void
test_quick (void)
{
  const CavCutOptions quick = { .effort = 0 };

  for (int round = 0; round < 50; round++)
    {
      g_autoptr (CavCutProblem) problem = create_random ();
      g_autoptr (CavCutSolution) solution = cav_cut_solve (problem, &quick);

      check_solution (problem, solution);
      g_assert_false (solution->rest_proved);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/cutting/exact-thirds", test_exact_thirds);
  g_test_add_func ("/boards/cutting/cheaper-boards", test_cheaper_boards);
  g_test_add_func ("/boards/cutting/long-rest", test_long_rest);
  g_test_add_func ("/boards/cutting/too-little", test_too_little);
  g_test_add_func ("/boards/cutting/nothing", test_nothing);
  g_test_add_func ("/boards/cutting/cancelled", test_cancelled);
  g_test_add_func ("/boards/cutting/progress", test_progress);
  g_test_add_func ("/boards/cutting/random", test_random);
  g_test_add_func ("/boards/cutting/quick", test_quick);
  return g_test_run ();
}
