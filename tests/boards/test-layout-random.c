/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-bench.h"

#include <math.h>

/* Boards without anything across, one strip width, rails in no order or in runs: so simple that all
 * can be tried. */
typedef struct
{
  double rest[64];
  int n_bins;
  double items[16];
  int n_items;
} Simple;

static gboolean
place_all (Simple *simple, int item)
{
  if (item == simple->n_items)
    return TRUE;
  for (int b = 0; b < simple->n_bins; b++)
    if (simple->rest[b] >= simple->items[item] - 1e-6)
      {
        simple->rest[b] -= simple->items[item];
        if (place_all (simple, item + 1))
          return TRUE;
        simple->rest[b] += simple->items[item];
      }
  return FALSE;
}

static gboolean
fits_on (const Bench *bench, guint set)
{
  const CavLumber *lumber = bench->lumber;
  const CavBoardJob *job = g_ptr_array_index (bench->jobs, 0);
  const double kerf = lumber->kerf * sqrt (2.0);
  Simple simple = { .n_bins = 0 };

  for (guint b = 0; b < lumber->boards->len; b++)
    {
      const CavBoard *board = g_ptr_array_index (lumber->boards, b);
      const int strips = (int)floor ((board->width - lumber->jointing + lumber->kerf + 1e-6)
                                     / (job->width + lumber->strip_extra + lumber->kerf));
      const CavBoardSpan *span = &g_array_index (board->spans, CavBoardSpan, 0);

      for (int s = 0; (set & (1u << b)) != 0 && s < strips; s++)
        {
          const double parts[2] = { board->spans->len > 0 ? span->from : board->length,
                                    board->spans->len > 0 ? board->length - span->to : 0.0 };

          for (int k = 0; k < 2; k++)
            if (parts[k] >= lumber->shortest)
              simple.rest[simple.n_bins++] = parts[k] + kerf;
        }
    }
  for (int f = 0; f < job->frames; f++)
    {
      double run = 0.0;

      for (int r = 0; r < job->n_rails; r++)
        {
          if (job->order == CAV_GRAIN_FREE)
            simple.items[simple.n_items++] = job->long_points[r] + kerf;
          run += job->long_points[r] + kerf;
        }
      if (job->order == CAV_GRAIN_RUNNING)
        simple.items[simple.n_items++] = run;
    }
  return place_all (&simple, 0);
}

static void
test_random (void)
{
  int fitting = 0;

  for (int round = 0; round < 150; round++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      const int boards = g_test_rand_int_range (1, 7);
      guint best = 99;
      double best_cost = 0.0;
      CavBoardJob *job;

      bench.lumber->resaw = FALSE;
      for (int b = 0; b < boards; b++)
        {
          CavBoard *board = add_board (&bench, g_test_rand_int_range (700, 2200),
                                       g_test_rand_int_range (45, 140), 27.0, 1);

          board->basis = CAV_PRICE_BOARD;
          board->price = g_test_rand_int_range (5, 30);
          if (g_test_rand_int_range (0, 2) == 0)
            {
              const double from = g_test_rand_int_range (0, 600);

              cav_board_add_span (board, (CavBoardSpan){ .from = from, .to = from + 60 });
            }
        }
      bench.lumber->order = g_test_rand_int_range (0, 2) ? CAV_GRAIN_FREE : CAV_GRAIN_RUNNING;
      job = add_job (&bench, 100.0, 100.0);
      job->frames = g_test_rand_int_range (1, 3);
      job->n_rails = g_test_rand_int_range (3, 6);
      for (int r = 0; r < job->n_rails; r++)
        job->long_points[r] = g_test_rand_int_range (150, 600);
      layout = lay (&bench);
      for (guint set = 0; set < (1u << boards); set++)
        {
          guint n = 0;
          double cost = 0.0;

          for (int b = 0; b < boards; b++)
            if (set & (1u << b))
              {
                n++;
                cost += ((CavBoard *)g_ptr_array_index (bench.lumber->boards, b))->price;
              }
          if ((n < best || (n == best && cost < best_cost)) && fits_on (&bench, set))
            {
              best = n;
              best_cost = cost;
            }
        }
      if (best == 99)
        {
          g_assert_cmpuint (layout->missing->len, >, 0);
          continue;
        }
      fitting++;
      g_assert_cmpuint (layout->missing->len, ==, 0);
      g_assert_cmpuint (layout->boards->len, ==, best);
      g_assert_cmpfloat_with_epsilon (layout->totals.cost, best_cost, 1e-6);
      g_assert_true (layout->boards_proved);
    }
  g_assert_cmpint (fitting, >, 40);
}

/* Everything at once, looked at by the checker alone. */
static void
test_random_everything (void)
{
  for (int round = 0; round < 120; round++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      CavLumber *lumber = bench.lumber;
      const int jobs = g_test_rand_int_range (1, 4);

      lumber->glue_up = g_test_rand_int_range (0, 2);
      lumber->square_first = g_test_rand_int_range (0, 2);
      lumber->test = g_test_rand_int_range (0, 2) * 280.0;
      lumber->spare = g_test_rand_int_range (0, 2) * 410.0;
      for (int b = 0; b < g_test_rand_int_range (1, 8); b++)
        {
          CavBoard *board = add_board (
              &bench, g_test_rand_int_range (500, 3500), g_test_rand_int_range (30, 260),
              g_test_rand_int_range (12, 80), g_test_rand_int_range (1, 4));

          board->end_trim = g_test_rand_int_range (0, 3) * 20.0;
          board->planed = g_test_rand_int_range (0, 2);
          for (int k = g_test_rand_int_range (0, 4); k > 0; k--)
            {
              const double from = g_test_rand_int_range (0, 3000);
              const double low = g_test_rand_int_range (0, 200);

              cav_board_add_span (board,
                                  (CavBoardSpan){ .clear = g_test_rand_int_range (0, 6) == 0,
                                                  .from = from,
                                                  .to = from + g_test_rand_int_range (5, 900),
                                                  .low = low,
                                                  .high = low + g_test_rand_int_range (5, 90) });
            }
        }
      for (int j = 0; j < jobs; j++)
        {
          CavBoardJob *job = add_job (&bench, g_test_rand_int_range (100, 800),
                                      g_test_rand_int_range (100, 800));

          job->order = (CavGrainOrder)g_test_rand_int_range (0, CAV_N_GRAIN_ORDERS);
          job->frames = g_test_rand_int_range (1, 4);
          job->width = job->face = g_test_rand_int_range (15, 60);
          job->thickness = g_test_rand_int_range (12, 30);
          for (int k = 0; k < g_test_rand_int_range (0, 3); k++)
            {
              const CavBoardPin pin = { .frame = g_test_rand_int_range (0, 4),
                                        .rail = g_test_rand_int_range (0, 4),
                                        .board = g_test_rand_int_range (0, 4),
                                        .copy = g_test_rand_int_range (0, 3),
                                        .strip = g_test_rand_int_range (0, 4),
                                        .layer = g_test_rand_int_range (0, 2),
                                        .from = g_test_rand_int_range (0, 1500) };

              g_array_append_val (job->pins, pin);
            }
        }
      layout = lay (&bench);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout-random/random", test_random);
  g_test_add_func ("/boards/layout-random/random-everything", test_random_everything);
  return g_test_run ();
}
