/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-bench.h"

#include <string.h>

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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout-boards/strips", test_strips);
  g_test_add_func ("/boards/layout-boards/layers", test_layers);
  g_test_add_func ("/boards/layout-boards/defects", test_defects);
  g_test_add_func ("/boards/layout-boards/clear-only", test_clear_only);
  g_test_add_func ("/boards/layout-boards/around-a-knot", test_around_a_knot);
  return g_test_run ();
}
