/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-reserve.h"

/* One rectangular frame of 400 x 300 from one board; (transfer full) what is scarce. */
static GArray *
list (double length, double width, double thickness, CavBoardLayout **out_layout)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (GPtrArray) jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  CavBoard *board = cav_board_new ();
  CavBoardJob *job;

  lumber->test = 0.0;
  lumber->order = CAV_GRAIN_RUNNING;
  board->length = length;
  board->width = width;
  board->thickness = thickness;
  g_ptr_array_add (lumber->boards, board);
  job = cav_board_job_new (lumber, "Frame", 50.0, 24.0, 50.0);
  cav_board_job_set_rectangle (job, 400.0, 300.0);
  g_ptr_array_add (jobs, job);
  *out_layout = cav_board_layout_new (
      &(CavLayoutRequest){ .lumber = lumber, .jobs = jobs, .effort = 1 }, NULL);
  g_assert_cmpuint ((*out_layout)->missing->len, ==, 0);
  return cav_board_layout_list_reserves (*out_layout, lumber);
}

/* 27 mm less 3 to plane are just the 24 of the blank. */
static void
test_thickness (void)
{
  g_autoptr (CavBoardLayout) layout = NULL;
  g_autoptr (GArray) reserves = list (2400, 150, 27, &layout);
  const CavReserve *reserve = &g_array_index (reserves, CavReserve, 0);

  g_assert_cmpuint (reserves->len, ==, 1);
  g_assert_cmpint (reserve->kind, ==, CAV_RESERVE_THICKNESS);
  g_assert_cmpfloat_with_epsilon (reserve->has, 24, 1e-9);
  g_assert_cmpfloat_with_epsilon (reserve->needs, 24, 1e-9);
  g_assert_cmpfloat_with_epsilon (reserve->spare, 0, 1e-9);
}

/* 3 mm to joint and a strip of 51 out of 56; four rails and their kerfs between trimmed ends. */
static void
test_width_and_length (void)
{
  g_autoptr (CavBoardLayout) layout = NULL;
  g_autoptr (GArray) reserves = list (1400 + 3 * 3.2 * G_SQRT2 + 50 + 4, 56, 32, &layout);

  g_assert_cmpuint (reserves->len, ==, 2);
  g_assert_cmpint (g_array_index (reserves, CavReserve, 0).kind, ==, CAV_RESERVE_WIDTH);
  g_assert_cmpfloat_with_epsilon (g_array_index (reserves, CavReserve, 0).spare, 2, 1e-9);
  g_assert_cmpint (g_array_index (reserves, CavReserve, 1).kind, ==, CAV_RESERVE_LENGTH);
  g_assert_cmpfloat (g_array_index (reserves, CavReserve, 1).spare, <, 10);
}

static void
test_enough (void)
{
  g_autoptr (CavBoardLayout) layout = NULL;
  g_autoptr (GArray) reserves = list (2400, 150, 32, &layout);

  g_assert_cmpuint (reserves->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/reserve/thickness", test_thickness);
  g_test_add_func ("/boards/reserve/width-and-length", test_width_and_length);
  g_test_add_func ("/boards/reserve/enough", test_enough);
  return g_test_run ();
}
