/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-checker.h"

#include <math.h>
#include <string.h>

/* A pile and what is wanted from it. */
typedef struct
{
  CavLumber *lumber;
  GPtrArray *jobs;
} Bench;

static Bench
bench_new (void)
{
  Bench bench = { cav_lumber_new (), NULL };

  bench.jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  bench.lumber->test = 0.0;
  return bench;
}

static void
bench_clear (Bench *bench)
{
  cav_lumber_free (bench->lumber);
  g_ptr_array_unref (bench->jobs);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Bench, bench_clear)

static CavBoard *
add_board (Bench *bench, double length, double width, double thickness, int number)
{
  CavBoard *board = cav_board_new ();

  board->length = length;
  board->width = width;
  board->thickness = thickness;
  board->count = number;
  board->end_trim = 0.0;
  g_ptr_array_add (bench->lumber->boards, board);
  return board;
}

/* A rectangular frame from blanks of 40 x 20 mm. */
static CavBoardJob *
add_job (Bench *bench, double width, double height)
{
  CavBoardJob *job = cav_board_job_new (bench->lumber, "Frame", 40.0, 20.0, 40.0);

  cav_board_job_set_rectangle (job, width, height);
  g_ptr_array_add (bench->jobs, job);
  return job;
}

static CavBoardLayout *
lay (const Bench *bench)
{
  const CavLayoutRequest request = { .lumber = bench->lumber, .jobs = bench->jobs, .effort = 1 };
  g_autoptr (GError) error = NULL;
  CavBoardLayout *layout = cav_board_layout_new (&request, &error);
  g_autofree char *wrong = NULL;

  g_assert_no_error (error);
  wrong = check_layout (bench->lumber, bench->jobs, layout);
  g_assert_cmpstr (wrong, ==, NULL);
  return layout;
}

static const CavFinding *
find_finding (const CavBoardLayout *layout, const char *code)
{
  for (guint i = 0; i < layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (layout->findings, i);

      if (strcmp (finding->code, code) == 0)
        return finding;
    }
  return NULL;
}

/* The words that a finding has for people; "" where there is no such finding. */
static const char *
get_message (const CavBoardLayout *layout, const char *code)
{
  const CavFinding *finding = find_finding (layout, code);

  return finding != NULL ? finding->message : "";
}

#define assert_finding(layout, code, words)                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    g_test_message ("%s", get_message (layout, code));                                             \
    g_assert_nonnull (find_finding (layout, code));                                                \
    g_assert_nonnull (strstr (get_message (layout, code), words));                                 \
  }                                                                                                \
  G_STMT_END

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

/* Three strips of 41 mm and two kerfs of 3.2 behind 3 mm of jointing take 132.4 mm. */
static void
test_strips (void)
{
  static const struct
  {
    double width;
    guint strips;
  } rows[] = { { 132.4, 3 }, { 132.3, 2 }, { 44.0, 1 }, { 43.9, 0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;

      add_board (&bench, 2400.0, rows[i].width, 27.0, 1);
      add_job (&bench, 300.0, 400.0);
      layout = lay (&bench);
      if (rows[i].strips == 0)
        assert_finding (layout, "lumber-board-unfit", "too narrow");
      else
        g_assert_cmpuint (((CavLaidBoard *)g_ptr_array_index (layout->boards, 0))->strips->len, ==,
                          rows[i].strips);
    }
}

/* Layers: 20 mm each, a kerf of 3.2 and 1 mm off either sawn face between them; 3 mm off for
 * planing the rough board. */
static void
test_layers (void)
{
  static const struct
  {
    const char *desc;
    double thickness;
    gboolean planed, resaw, glue;
    int layers, plies;
  } rows[] = {
    { "just thick enough", 23.0, FALSE, TRUE, FALSE, 1, 1 },
    { "a little too thin", 22.9, FALSE, TRUE, FALSE, 0, 0 },
    { "planed already", 20.0, TRUE, TRUE, FALSE, 1, 1 },
    { "two layers", 48.2, FALSE, TRUE, FALSE, 2, 1 },
    { "not quite two", 48.1, FALSE, TRUE, FALSE, 1, 1 },
    { "three layers", 70.4, TRUE, TRUE, FALSE, 3, 1 },
    { "not to be resawn", 70.4, TRUE, FALSE, FALSE, 1, 1 },
    { "glued up from two", 13.0, FALSE, TRUE, TRUE, 1, 2 },
    { "glued up from three", 10.0, FALSE, TRUE, TRUE, 1, 3 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;
      CavBoard *board = add_board (&bench, 2400.0, 160.0, rows[i].thickness, 1);
      const CavLaidStrip *strip;

      g_test_message ("%s", rows[i].desc);
      board->planed = rows[i].planed;
      bench.lumber->resaw = rows[i].resaw;
      bench.lumber->glue_up = rows[i].glue;
      add_job (&bench, 300.0, 400.0);
      layout = lay (&bench);
      if (rows[i].plies == 0)
        {
          assert_finding (layout, "lumber-board-unfit", "too thin");
          continue;
        }
      g_assert_cmpuint (layout->boards->len, ==, 1);
      strip
          = g_ptr_array_index (((CavLaidBoard *)g_ptr_array_index (layout->boards, 0))->strips, 0);
      g_assert_cmpint (strip->sawn.layers, ==, rows[i].layers);
      g_assert_cmpint (strip->sawn.plies, ==, rows[i].plies);
      g_assert_true ((find_finding (layout, "lumber-resaw") != NULL) == (rows[i].layers > 1));
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
test_defects (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *board = add_board (&bench, 2000.0, 140.0, 27.0, 3);

  cav_board_add_span (board, (CavBoardSpan){ .from = 900, .to = 960, .low = 50, .high = 70 });
  cav_board_add_span (board, (CavBoardSpan){ .from = 0, .to = 80 });
  cav_board_add_span (board, (CavBoardSpan){ .from = 1500, .to = 1510, .low = 0, .high = 10 });
  bench.lumber->order = CAV_GRAIN_FREE;
  bench.lumber->frames = 4;
  add_job (&bench, 500.0, 400.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 0);
}

static void
test_clear_only (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *board = add_board (&bench, 2000.0, 140.0, 27.0, 3);

  cav_board_add_span (
      board, (CavBoardSpan){ .clear = TRUE, .from = 500, .to = 1100, .low = 0, .high = 95 });
  cav_board_add_span (board, (CavBoardSpan){ .clear = TRUE, .from = 1000, .to = 1600 });
  bench.lumber->order = CAV_GRAIN_FREE;
  add_job (&bench, 500.0, 400.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 0);
}

/* Above the knot there is room for two strips that lying at the lower edge would lose. */
static void
test_around_a_knot (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoard *board = add_board (&bench, 1500.0, 140.0, 27.0, 1);

  cav_board_add_span (board, (CavBoardSpan){ .from = 700, .to = 750, .low = 10, .high = 30 });
  cav_board_add_span (board, (CavBoardSpan){ .from = 800, .to = 850, .low = 35, .high = 45 });
  bench.lumber->frames = 2;
  add_job (&bench, 400.0, 300.0);
  layout = lay (&bench);
  g_assert_cmpuint (layout->missing->len, ==, 0);
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
  g_assert_cmpuint (layout->missing->len, ==, 4);
}

static void
test_pins (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  CavBoardPin pin = { .frame = 1, .rail = 0, .board = 0, .copy = 2, .strip = 1, .from = 731.0 };
  CavBoardPin found;
  gboolean bought = TRUE;
  CavBoardJob *job;

  add_board (&bench, 2400.0, 120.0, 27.0, 3);
  bench.lumber->order = CAV_GRAIN_FREE;
  job = add_job (&bench, 500.0, 400.0);
  job->frames = 2;
  g_array_append_val (job->pins, pin);
  pin.frame = 0;
  pin.from = 100.0; /* so near that only a kerf is left between them */
  pin.from = 731.0 - 500.0 - 3.2 * sqrt (2.0);
  g_array_append_val (job->pins, pin);
  layout = lay (&bench);
  g_assert_null (find_finding (layout, "lumber-pin"));
  g_assert_true (cav_board_layout_find (layout, 0, 1, 0, &found, &bought));
  g_assert_false (bought);
  g_assert_cmpint (found.copy, ==, 2);
  g_assert_cmpint (found.strip, ==, 1);
  g_assert_cmpfloat_with_epsilon (found.from, 731.0, 1e-9);
  g_assert_false (cav_board_layout_find (layout, 0, 7, 0, &found, &bought));
}

static void
test_pins_that_cannot_be (void)
{
  static const CavBoardPin pins[] = {
    { .frame = 0, .rail = 0, .board = 0, .copy = 0, .strip = 0, .from = 2000.0 },
    { .frame = 0, .rail = 0, .board = 5, .copy = 0, .strip = 0, .from = 10.0 },
    { .frame = 0, .rail = 0, .board = 0, .copy = 0, .strip = 9, .from = 10.0 },
    { .frame = 0, .rail = 0, .board = 0, .copy = 0, .strip = 0, .from = -50.0 },
    { .frame = 0, .rail = 0, .board = 0, .copy = 0, .strip = 0, .layer = 1, .from = 0.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pins); i++)
    {
      g_auto (Bench) bench = bench_new ();
      g_autoptr (CavBoardLayout) layout = NULL;

      add_board (&bench, 2400.0, 120.0, 27.0, 3);
      g_array_append_val (add_job (&bench, 500.0, 400.0)->pins, pins[i]);
      layout = lay (&bench);
      assert_finding (layout, "lumber-pin", "top rail of frame 1");
      g_assert_cmpuint (layout->missing->len, ==, 0);
    }
}

/* A pin of a frame that is not made any more, or of a rail whose run another pin holds, is no
 * trouble. */
static void
test_pins_without_meaning (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  const CavBoardPin first = { .frame = 0, .rail = 3, .strip = 1, .from = 100.0 };
  const CavBoardPin same_run = { .frame = 0, .rail = 0, .strip = 1, .from = 504.525 };
  const CavBoardPin gone = { .frame = 6, .rail = 0, .strip = 1, .from = 100.0 };
  CavBoardJob *job;

  add_board (&bench, 2400.0, 120.0, 27.0, 3);
  job = add_job (&bench, 500.0, 400.0);
  g_array_append_val (job->pins, first);
  g_array_append_val (job->pins, same_run);
  g_array_append_val (job->pins, gone);
  layout = lay (&bench);
  g_assert_null (find_finding (layout, "lumber-pin"));
}

/* Pairs and books take a pin on either of their lanes. */
static void
test_pinned_lanes (void)
{
  for (int order = CAV_GRAIN_PAIRS; order <= CAV_GRAIN_BOOK; order++)
    for (int lane = 0; lane < 2; lane++)
      for (int rail = 0; rail < 4; rail++)
        {
          g_auto (Bench) bench = bench_new ();
          g_autoptr (CavBoardLayout) layout = NULL;
          const gboolean book = order == CAV_GRAIN_BOOK;
          const CavBoardPin pin = { .rail = rail,
                                    .strip = order == CAV_GRAIN_PAIRS ? lane : 0,
                                    .layer = book ? lane : 0,
                                    .from = order == CAV_GRAIN_RUNNING ? 1300.0 : 800.0 };

          add_board (&bench, 3000.0, 120.0, book ? 52.0 : 27.0, 2);
          bench.lumber->order = (CavGrainOrder)order;
          g_array_append_val (add_job (&bench, 400.0, 400.0)->pins, pin);
          layout = lay (&bench);
          g_assert_null (find_finding (layout, "lumber-pin"));
          g_assert_cmpuint (layout->missing->len, ==, 0);
        }
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
    { "no boards", 0, 0, 0, 400, 0, "lumber-no-boards", "no boards yet" },
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
      const CavLayoutRequest request = { .lumber = bench.lumber, .jobs = bench.jobs, .effort = 1 };

      g_test_message ("%s", rows[i].desc);
      if (rows[i].boards > 0)
        add_board (&bench, rows[i].length, rows[i].width, rows[i].thickness, rows[i].boards);
      add_job (&bench, 400.0, rows[i].rail);
      layout = cav_board_layout_new (&request, NULL);
      assert_finding (layout, rows[i].code, rows[i].says);
      g_assert_true (cav_finding_list_has_wrong (layout->findings));
    }
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
test_many_bad_rows (void)
{
  g_auto (Bench) bench = bench_new ();
  g_autoptr (CavBoardLayout) layout = NULL;
  const CavLayoutRequest request = { .lumber = bench.lumber, .jobs = bench.jobs, .effort = 1 };

  for (int i = 0; i < 40; i++)
    add_board (&bench, 2000.0, 20.0, 27.0, 1);
  add_job (&bench, 500.0, 420.0);
  layout = cav_board_layout_new (&request, NULL);
  assert_finding (layout, "lumber-boards-unfit", "35 more");
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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout/checker", test_checker);
  g_test_add_func ("/boards/layout/run-length", test_run_length);
  g_test_add_func ("/boards/layout/strips", test_strips);
  g_test_add_func ("/boards/layout/layers", test_layers);
  g_test_add_func ("/boards/layout/orders", test_orders);
  g_test_add_func ("/boards/layout/short-rails", test_short_rails);
  g_test_add_func ("/boards/layout/defects", test_defects);
  g_test_add_func ("/boards/layout/clear-only", test_clear_only);
  g_test_add_func ("/boards/layout/around-a-knot", test_around_a_knot);
  g_test_add_func ("/boards/layout/two-jobs", test_two_jobs);
  g_test_add_func ("/boards/layout/woods", test_woods);
  g_test_add_func ("/boards/layout/pins", test_pins);
  g_test_add_func ("/boards/layout/pins-that-cannot-be", test_pins_that_cannot_be);
  g_test_add_func ("/boards/layout/pins-without-meaning", test_pins_without_meaning);
  g_test_add_func ("/boards/layout/pinned-lanes", test_pinned_lanes);
  g_test_add_func ("/boards/layout/prices", test_prices);
  g_test_add_func ("/boards/layout/advice", test_advice);
  g_test_add_func ("/boards/layout/narrower", test_narrower);
  g_test_add_func ("/boards/layout/bad-input", test_bad_input);
  g_test_add_func ("/boards/layout/all-defects", test_all_defects);
  g_test_add_func ("/boards/layout/trim-takes-all", test_trim_takes_all);
  g_test_add_func ("/boards/layout/many-boards", test_many_boards);
  g_test_add_func ("/boards/layout/many-bad-rows", test_many_bad_rows);
  g_test_add_func ("/boards/layout/no-job", test_no_job);
  g_test_add_func ("/boards/layout/cancelled", test_cancelled);
  g_test_add_func ("/boards/layout/names", test_names);
  g_test_add_func ("/boards/layout/random", test_random);
  g_test_add_func ("/boards/layout/random-everything", test_random_everything);
  return g_test_run ();
}
