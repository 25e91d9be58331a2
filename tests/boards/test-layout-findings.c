/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-bench.h"

#include <math.h>
#include <string.h>

/* What is missing, what to buy, what would fit. */
static void
test_advice (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *stock;

  add_board (&bench, 1000.0, 100.0, 27.0, 1);
  for (int i = 0; i < 3; i++)
    {
      stock = cav_board_new ();
      stock->count = 0;
      stock->length = 1800.0 + 600.0 * i;
      stock->width = 60.0;
      stock->basis = CAV_PRICE_BOARD;
      stock->price = i == 0 ? 5.0 : 20.0 - i;
      g_ptr_array_add (bench.lumber->stock, stock);
    }
  add_job (&bench, 500.0, 420.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 4);
  assert_finding (layout, "lumber-missing", "4 rails, 1.84 m");
  assert_finding (layout, "lumber-too-short", "1854 mm");
  /* A run takes 1854 mm and the stock loses 25 mm at either end: 2400 for 19 or 3000 for 18. */
  assert_finding (layout, "lumber-buy", "1 × 3000 × 60 × 27 mm for 18.00");
  g_assert_cmpuint (layout->purchases->len, ==, 1);
  assert_finding (layout, "lumber-order", "side by side");
  g_assert_cmpint (layout->easier, ==, CAV_GRAIN_PAIRS);
  /* No width lets a run lie on a board that is too short. */
  g_assert_cmpfloat (layout->narrower, <=, 0.0);
}

/* One strip takes the run or the piece for trials, and nobody makes trials for no rails. */
static void
test_trial_gives_way (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  add_board (&bench, 2000.0, 46.0, 27.0, 1);
  bench.lumber->test = 300.0;
  add_job (&bench, 500.0, 420.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 1);
  g_assert_cmpint (g_array_index (layout->missing, CavPlacedPiece, 0).kind, ==, CAV_PIECE_TEST);
  g_assert_cmpint (layout->totals.rails, ==, 4);
  g_assert_nonnull (find_finding (layout, "lumber-missing"));
}

/* Of two moldings the first one's strip is too wide for the board and the other's blank too thick:
 * what is said of the board is true of one and the same blank. */
static void
test_unfit_for_both (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoardJob *thick;

  add_board (&bench, 2000.0, 35.0, 27.0, 1);
  add_job (&bench, 500.0, 420.0);
  thick = cav_board_job_new (bench.lumber, "thick", 20.0, 60.0, 20.0);
  cav_board_job_set_rectangle (thick, 500.0, 420.0);
  g_ptr_array_add (bench.jobs, thick);
  layout = lay (&bench);
  assert_finding (layout, "lumber-board-unfit", "too narrow for one strip of 41 mm");
}

static void
test_narrower (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  /* Two strips of 31.9 + 1 mm and a kerf fit behind the joint: 72 = 3 + 2 x 32.9 + 3.2. */
  add_board (&bench, 2000.0, 72.0, 27.0, 1);
  bench.lumber->frames = 2;
  add_job (&bench, 400.0, 500.0);
  layout = lay (&bench);
  g_assert_cmpfloat_with_epsilon (layout->narrower, 31.9, 1e-9);
  assert_finding (layout, "lumber-narrower", "31.9 mm");
  g_assert_false (layout->has_easier);
  g_assert_null (find_finding (layout, "lumber-buy"));
}

static void
test_bad_input (void)
{
  static const struct
  {
    const char *desc;
    double length, width, thickness, rail;
    int boards;
    const char *code;
    const char *says;
  } rows[] = {
    { "board shorter than a rail", 350, 100, 27, 400, 1, "lumber-too-short", "350 mm" },
    { "no length", 0, 100, 27, 400, 1, "lumber-board", "between 1 and" },
    { "negative width", 2000, -100, 27, 400, 1, "lumber-board", "between 1 and" },
    { "no thickness", 2000, 100, 0, 400, 1, "lumber-board", "between 1 and" },
    { "not a number", NAN, 100, 27, 400, 1, "lumber-board", "between 1 and" },
    { "no rail", 2000, 100, 27, 0, 1, "lumber-job", "no length" },
    { "negative rail", 2000, 100, 27, -3, 1, "lumber-job", "no length" },
    { "endless rail", 2000, 100, 27, INFINITY, 1, "lumber-job", "no length" },
    { "too many boards", 2000, 100, 27, 400, 1000000, "lumber-board", "number of boards" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;

      g_test_message ("%s", rows[i].desc);
      if (rows[i].boards > 0)
        add_board (&bench, rows[i].length, rows[i].width, rows[i].thickness, rows[i].boards);
      add_job (&bench, 400.0, rows[i].rail);
      layout = lay (&bench);
      assert_finding (layout, rows[i].code, rows[i].says);
      g_assert_true (cav_finding_list_has_wrong (layout->findings));
    }
}

/* A list that nobody has begun is no mistake: one line says what it is for. */
static void
test_no_boards (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  add_job (&bench, 400.0, 400.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 4);
  assert_finding (layout, "lumber-no-boards", "4 rails, 1.6");
  g_assert_null (find_finding (layout, "lumber-missing"));
  g_assert_false (cav_finding_list_has_wrong (layout->findings));
  g_assert_cmpuint (layout->findings->len, ==, 1);
}

static void
test_all_defects (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *board = add_board (&bench, 2000.0, 100.0, 27.0, 1);

  cav_board_add_span (board, (CavBoardSpan){ .from = 0, .to = 2000 });
  add_job (&bench, 400.0, 400.0);
  layout = lay (&bench);
  assert_finding (layout, "lumber-board-unfit", "no clear stretch");
  g_assert_true (layout->missing_proved);
}

static void
test_trim_takes_all (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  add_board (&bench, 2000.0, 100.0, 27.0, 1)->end_trim = 1000.0;
  add_job (&bench, 400.0, 400.0);
  layout = lay (&bench);
  assert_finding (layout, "lumber-board-unfit", "no clear stretch");
}

static void
test_many_bad_rows (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  for (int i = 0; i < 40; i++)
    add_board (&bench, 2000.0, 20.0, 27.0, 1);
  add_job (&bench, 500.0, 420.0);
  layout = lay (&bench);
  assert_finding (layout, "lumber-boards-unfit", "35 more");
}

/* A finding knows the row of boards, or the job, that it speaks of. */
static void
test_items (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;

  add_board (&bench, 2400.0, 120.0, 27.0, 1)->basis = CAV_PRICE_BOARD;
  add_board (&bench, 2000.0, 20.0, 27.0, 1);
  add_board (&bench, 2600.0, 120.0, 27.0, 1);
  add_board (&bench, 0.0, 120.0, 27.0, 1);
  bench.lumber->frames = 3;
  add_job (&bench, 500.0, 420.0);
  add_job (&bench, 500.0, 0.0);
  layout = lay (&bench);
  g_assert_cmpint (find_finding (layout, "lumber-board-unfit")->item, ==, 1);
  g_assert_cmpint (find_finding (layout, "lumber-board")->item, ==, 3);
  g_assert_cmpint (find_finding (layout, "lumber-job")->item, ==, 1);
  g_assert_cmpint (find_finding (layout, "lumber-price")->item, ==, 2);
  g_assert_cmpint (find_finding (layout, "lumber-corner")->item, ==, 0);
  assert_finding (layout, "lumber-corner", "Frame: The grain runs on");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout-findings/advice", test_advice);
  g_test_add_func ("/boards/layout-findings/trial-gives-way", test_trial_gives_way);
  g_test_add_func ("/boards/layout-findings/unfit-for-both", test_unfit_for_both);
  g_test_add_func ("/boards/layout-findings/narrower", test_narrower);
  g_test_add_func ("/boards/layout-findings/bad-input", test_bad_input);
  g_test_add_func ("/boards/layout-findings/all-defects", test_all_defects);
  g_test_add_func ("/boards/layout-findings/trim-takes-all", test_trim_takes_all);
  g_test_add_func ("/boards/layout-findings/many-bad-rows", test_many_bad_rows);
  g_test_add_func ("/boards/layout-findings/items", test_items);
  g_test_add_func ("/boards/layout-findings/no-boards", test_no_boards);
  return g_test_run ();
}
