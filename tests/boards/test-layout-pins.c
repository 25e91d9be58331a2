/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "layout-bench.h"

#include <math.h>
#include <string.h>

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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/layout-pins/pins", test_pins);
  g_test_add_func ("/boards/layout-pins/pins-that-cannot-be", test_pins_that_cannot_be);
  g_test_add_func ("/boards/layout-pins/pins-without-meaning", test_pins_without_meaning);
  g_test_add_func ("/boards/layout-pins/pinned-lanes", test_pinned_lanes);
  return g_test_run ();
}
