/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-bench.h"
#include "layout-checker.h"

#include <math.h>
#include <string.h>

/* A run costs its long points and a mitre's kerf between them, and nothing at its ends: with 3.2 mm
 * at 45 degrees 4.525 mm, three times. */
static void
test_run_length (void)
{
  for (int less = 0; less < 2; less++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      const double run = 2.0 * (300.0 + 400.0) + 3.0 * 3.2 * sqrt (2.0);

      add_board (&bench, run - 0.1 * less, 50.0, 27.0, 1);
      add_job (&bench, 300.0, 400.0);
      layout = lay (&bench);
      g_assert_cmpuint (layout->missing->len, ==, less == 0 ? 0 : 4);
      if (less == 1)
        continue;
      assert_finding (layout, "lumber-corner", "lower left");
      g_assert_cmpint (layout->totals.rails, ==, 4);
      g_assert_true (layout->boards_proved);
    }
}

static void
test_orders (void)
{
  static const struct
  {
    CavGrainOrder order;
    double thickness;
    int rails;
  } rows[] = {
    { CAV_GRAIN_FREE, 27.0, 4 },    { CAV_GRAIN_RUNNING, 27.0, 4 }, { CAV_GRAIN_PAIRS, 27.0, 4 },
    { CAV_GRAIN_BOOK, 52.0, 4 },    { CAV_GRAIN_BOOK, 52.0, 6 },    { CAV_GRAIN_BOOK, 52.0, 5 },
    { CAV_GRAIN_RUNNING, 27.0, 3 }, { CAV_GRAIN_PAIRS, 27.0, 3 },   { CAV_GRAIN_PAIRS, 52.0, 8 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      CavBoardJob *job;

      g_test_message ("order %d, %d rails", rows[i].order, rows[i].rails);
      bench.lumber->order = rows[i].order;
      bench.lumber->frames = 3;
      bench.lumber->test = 250.0;
      bench.lumber->spare = 333.0;
      add_board (&bench, 2900.0, 140.0, rows[i].thickness, 9);
      job = add_job (&bench, 320.0, 410.0);
      if (rows[i].rails != 4)
        {
          job->n_rails = rows[i].rails;
          job->mitre = 180.0 / rows[i].rails;
          for (int r = 0; r < job->n_rails; r++)
            job->long_points[r] = 250.0;
          job->run_start = 1;
        }
      layout = lay (&bench);
      g_assert_cmpuint (layout->missing->len, ==, 0);
      g_assert_cmpint (layout->totals.rails, ==, 3 * rows[i].rails);
      g_assert_true ((find_finding (layout, "lumber-odd-rails") != NULL)
                     == (rows[i].rails % 2 == 1 && rows[i].order != CAV_GRAIN_RUNNING));
    }
}

/* Short rails that are cut square first share a stick, and a lonely one gets more wood. */
static void
test_short_rails (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoardJob *job;

  add_board (&bench, 2400.0, 50.0, 27.0, 2);
  bench.lumber->order = CAV_GRAIN_FREE;
  bench.lumber->square_first = TRUE;
  job = add_job (&bench, 120.0, 120.0);
  job->n_rails = 3;
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 0);
  assert_finding (layout, "lumber-short-rails", "120 mm");
}

static void
test_two_jobs (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoardJob *narrow;

  add_board (&bench, 2400.0, 120.0, 27.0, 4);
  add_job (&bench, 500.0, 400.0)->frames = 2;
  narrow = add_job (&bench, 300.0, 200.0);
  narrow->width = 22.0;
  narrow->face = 22.0;
  narrow->frames = 3;
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 0);
  g_assert_cmpint (layout->totals.rails, ==, 20);
}

static void
test_woods (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *board;
  CavBoardJob *job;

  board = add_board (&bench, 2400.0, 120.0, 27.0, 4);
  g_free (board->wood);
  board->wood = g_strdup ("cherry-black");
  job = add_job (&bench, 500.0, 400.0);
  g_free (job->wood);
  job->wood = g_strdup ("ash-white");
  layout = lay (&bench);
  assert_finding (layout, "lumber-board-unfit", "another wood");
  assert_finding (layout, "lumber-wood", "Ash, white");
  g_assert_cmpuint (layout->missing->len, ==, 4);
}

static void
test_prices (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *dear = add_board (&bench, 2400.0, 120.0, 27.0, 1);
  CavBoard *cheap = add_board (&bench, 2500.0, 120.0, 27.0, 1);

  dear->basis = CAV_PRICE_BOARD;
  dear->price = 40.0;
  cheap->basis = CAV_PRICE_METRE;
  cheap->price = 10.0;
  add_job (&bench, 500.0, 400.0);
  layout = lay (&bench);
  g_assert_cmpfloat_with_epsilon (layout->totals.cost, 25.0, 1e-9);
  g_assert_true (layout->cost_proved);
  g_assert_null (find_finding (layout, "lumber-price"));
  cheap->basis = CAV_PRICE_UNKNOWN;
  cav_board_layout_unref (layout);
  layout = lay (&bench);
  assert_finding (layout, "lumber-price", "without a price: 1");
}

/* Ten thousand rows, each a little different, and ten thousand boards that are alike. */
static void
test_many_boards (void)
{
  for (int alike = 0; alike < 2; alike++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;

      for (int i = 0; i < 10000; i++)
        add_board (&bench, 900.0 + (alike ? 0.0 : 0.1 * i), 60.0, 27.0, 1);
      bench.lumber->order = CAV_GRAIN_FREE;
      bench.lumber->frames = 6;
      add_job (&bench, 500.0, 420.0);
      layout = lay (&bench);
      g_assert_cmpuint (layout->missing->len, ==, 0);
      g_assert_cmpint (layout->least_boards, <=, (int)layout->boards->len);
    }
}

static void
test_no_job (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  add_board (&bench, 2000.0, 100.0, 27.0, 1);
  layout = lay (&bench);
  g_assert_cmpuint (layout->boards->len, ==, 0);
  g_assert_cmpuint (layout->findings->len, ==, 0);
}

static void
test_cancelled (void)
{
  g_auto (Bench) bench = bench_new ();
  const int stop = 1;
  const CavLayoutRequest request
      = { .lumber = bench.lumber, .jobs = bench.jobs, .effort = 1, .cancelled = &stop };
  g_autoptr (GError) error = NULL;

  add_board (&bench, 2000.0, 100.0, 27.0, 50);
  add_job (&bench, 500.0, 420.0)->frames = 12;
  g_assert_null (cav_board_layout_new (&request, &error));
  g_assert_error (error, CAV_BOARDS_ERROR, CAV_BOARDS_ERROR_CANCELLED);
}

static void
note_progress (double share, gpointer data)
{
  g_array_append_val (data, share);
}

/* Onwards only, also while advice is looked for, and never to the end before the end. */
static void
test_progress (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (GArray) shares = g_array_new (FALSE, FALSE, sizeof (double));
  const CavLayoutRequest request = { .lumber = bench.lumber,
                                     .jobs = bench.jobs,
                                     .effort = 1,
                                     .progress = note_progress,
                                     .progress_data = shares };
  g_autoptr (CavBoardLayout) layout = NULL;

  add_board (&bench, 2000.0, 100.0, 27.0, 4);
  g_ptr_array_add (bench.lumber->stock, cav_board_new ());
  bench.lumber->test = 280.0;
  add_job (&bench, 500.0, 420.0)->frames = 12;
  layout = cav_board_layout_new (&request, NULL);
  g_assert_cmpuint (layout->missing->len, >, 1);
  g_assert_cmpuint (shares->len, >, 6);
  for (guint i = 0; i < shares->len; i++)
    {
      g_assert_cmpfloat (g_array_index (shares, double, i), >=,
                         i > 0 ? g_array_index (shares, double, i - 1) : 0.0);
      g_assert_cmpfloat (g_array_index (shares, double, i), <, 1.0);
    }
  g_assert_cmpfloat (g_array_index (shares, double, shares->len - 1), >, 0.8);
}

static void
test_names (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  static const char *const NAMES[] = { "Board 1", "Board 1, no. 2", "B", "B, no. 2" };
  CavBoard *board;

  add_board (&bench, 1000.0, 50.0, 27.0, 2);
  board = add_board (&bench, 1000.1, 50.0, 27.0, 2);
  g_free (board->name);
  board->name = g_strdup ("B");
  bench.lumber->order = CAV_GRAIN_FREE;
  add_job (&bench, 900.0, 900.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->boards->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *name = cav_laid_board_dup_name (g_ptr_array_index (layout->boards, i));

      g_assert_true (g_strv_contains (
          (const char *const[]){ NAMES[0], NAMES[1], NAMES[2], NAMES[3], NULL }, name));
    }
}

/* A checker that finds nothing is worth nothing: it must see planted faults. */
static void
test_checker (void)
{
  for (int fault = 0; fault < 10; fault++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      g_autofree char *wrong = NULL;
      CavBoard *board = add_board (&bench, 2400.0, 120.0, 27.0, 2);
      CavLaidBoard *laid;
      CavLaidStrip *strip;
      CavLane *lane;
      CavPlacedPiece *piece;

      cav_board_add_span (board, (CavBoardSpan){ .from = 2200, .to = 2300 });
      add_job (&bench, 400.0, 500.0);
      layout = lay (&bench);
      laid = g_ptr_array_index (layout->boards, 0);
      strip = g_ptr_array_index (laid->strips, 0);
      lane = g_ptr_array_index (strip->lanes, 0);
      if (lane->pieces->len == 0)
        {
          strip = g_ptr_array_index (laid->strips, 1);
          lane = g_ptr_array_index (strip->lanes, 0);
        }
      piece = &g_array_index (lane->pieces, CavPlacedPiece, 0);
      switch (fault)
        {
        case 0:
          piece->from += 3.0;
          break;
        case 1:
          piece->from -= 3.0;
          break;
        case 2:
          piece->length -= 1.0;
          break;
        case 3:
          piece->frame = 1;
          break;
        case 4:
          g_array_remove_index (lane->pieces, 0);
          break;
        case 5:
          strip->sawn.width -= 2.0;
          break;
        case 6:
          g_array_index (lane->pieces, CavPlacedPiece, 3).from = 2100.0;
          break;
        case 7:
          piece->rail = 0;
          break;
        case 8:
          layout->totals.cost += 1.0;
          break;
        default:
          strip->sawn.low += 100.0;
          break;
        }
      wrong = check_layout (bench.lumber, bench.jobs, layout);
      g_test_message ("fault %d: %s", fault, wrong);
      g_assert_nonnull (wrong);
    }
}

/* Boards that are not needed are shown as they could be ripped, in the order of the list. */
static void
test_idle (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  const CavLaidBoard *board;

  add_board (&bench, 2400.0, 120.0, 27.0, 2);
  add_board (&bench, 2000.0, 100.0, 27.0, 1);
  add_board (&bench, 2000.0, 20.0, 27.0, 1);
  add_board (&bench, 900.0, 100.0, 27.0, 50);
  add_job (&bench, 500.0, 400.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->boards->len, ==, 1);
  /* One of the others is too narrow, and nobody looks at fifty. */
  g_assert_cmpuint (layout->idle->len, ==, 20);
  g_assert_cmpuint (cav_board_layout_get_board_count (layout), ==, 21);
  for (guint i = 1; i < 21; i++)
    {
      board = cav_board_layout_get_board (layout, i);
      g_assert_cmpint (board->row, !=, 2);
      g_assert_cmpuint (board->strips->len, >, 0);
      if (i > 1)
        g_assert_cmpint (cav_board_layout_get_board (layout, i - 1)->row, <=, board->row);
    }
}

/* What the rest of a strip is good for, by the lengths that are wanted. */
static void
test_offcuts (void)
{
  static const struct
  {
    double length;
    CavOffcutUse use;
  } rows[]
      = { { 200.0, CAV_OFFCUT_SCRAP }, { 300.0, CAV_OFFCUT_TRIAL }, { 399.0, CAV_OFFCUT_TRIAL },
          { 400.0, CAV_OFFCUT_RAIL },  { 499.0, CAV_OFFCUT_RAIL },  { 500.0, CAV_OFFCUT_ANY } };
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  const CavLaidStrip *strip;

  add_board (&bench, 2400.0, 120.0, 27.0, 1);
  add_job (&bench, 500.0, 400.0);
  layout = lay (&bench);
  strip = g_ptr_array_index (cav_board_layout_get_board (layout, 0)->strips, 0);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavStretch offcut = { 100.0, 100.0 + rows[i].length };

      g_assert_cmpint (cav_board_layout_judge_offcut (layout, strip, &offcut), ==, rows[i].use);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout/run-length", test_run_length);
  g_test_add_func ("/boards/layout/orders", test_orders);
  g_test_add_func ("/boards/layout/short-rails", test_short_rails);
  g_test_add_func ("/boards/layout/two-jobs", test_two_jobs);
  g_test_add_func ("/boards/layout/woods", test_woods);
  g_test_add_func ("/boards/layout/prices", test_prices);
  g_test_add_func ("/boards/layout/many-boards", test_many_boards);
  g_test_add_func ("/boards/layout/no-job", test_no_job);
  g_test_add_func ("/boards/layout/cancelled", test_cancelled);
  g_test_add_func ("/boards/layout/progress", test_progress);
  g_test_add_func ("/boards/layout/names", test_names);
  g_test_add_func ("/boards/layout/checker", test_checker);
  g_test_add_func ("/boards/layout/idle", test_idle);
  g_test_add_func ("/boards/layout/offcuts", test_offcuts);
  return g_test_run ();
}
