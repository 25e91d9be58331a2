/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-lumber.h"

static CavLumber *
create_lumber (void)
{
  CavLumber *lumber = cav_lumber_new ();
  const CavBoardPin pin = { .frame = 1, .rail = 2, .from = 30.0 };

  g_ptr_array_add (lumber->boards, cav_board_new ());
  g_ptr_array_add (lumber->stock, cav_board_new ());
  CavBoardJob *job = cav_board_job_new (lumber, "Other", 40.0, 20.0, 38.0);

  g_array_append_val (lumber->pins, pin);
  cav_board_job_set_rectangle (job, 300.0, 400.0);
  g_array_append_val (job->pins, pin);
  g_ptr_array_add (lumber->joined, job);
  return lumber;
}

static void
set_text (char **field, const char *text)
{
  g_free (*field);
  *field = g_strdup (text);
}

#define CHANGE(name, statement)                                                                    \
  static void change_##name (CavLumber *lumber) { statement; }
#define BOARD(boards) ((CavBoard *)g_ptr_array_index (boards, 0))
#define JOB ((CavBoardJob *)g_ptr_array_index (lumber->joined, 0))
#define PIN g_array_index (lumber->pins, CavBoardPin, 0)

CHANGE (board, BOARD (lumber->boards)->length = 3000)
CHANGE (stock, BOARD (lumber->stock)->count = 0)
CHANGE (fewer, g_ptr_array_set_size (lumber->boards, 0))
CHANGE (no_pin, g_array_set_size (lumber->pins, 0))
CHANGE (pin_frame, PIN.frame = 0)
CHANGE (pin_rail, PIN.rail = 0)
CHANGE (pin_board, PIN.board = 1)
CHANGE (pin_copy, PIN.copy = 1)
CHANGE (pin_strip, PIN.strip = 1)
CHANGE (pin_layer, PIN.layer = 1)
CHANGE (pin_from, PIN.from = 0)
CHANGE (frames, lumber->frames = 12)
CHANGE (order, lumber->order = CAV_GRAIN_FREE)
CHANGE (run_start, lumber->run_start = 0)
CHANGE (kerf, lumber->kerf = 2.4)
CHANGE (jointing, lumber->jointing = 0)
CHANGE (strip_extra, lumber->strip_extra = 0)
CHANGE (planing, lumber->planing = 0)
CHANGE (resaw, lumber->resaw = FALSE)
CHANGE (resaw_kerf, lumber->resaw_kerf = 1)
CHANGE (resaw_planing, lumber->resaw_planing = 0)
CHANGE (glue_up, lumber->glue_up = TRUE)
CHANGE (square_first, lumber->square_first = TRUE)
CHANGE (square_extra, lumber->square_extra = 0)
CHANGE (spare, lumber->spare = 500)
CHANGE (test, lumber->test = 0)
CHANGE (shortest, lumber->shortest = 0)
CHANGE (useful, lumber->useful = 0)
CHANGE (no_job, g_ptr_array_set_size (lumber->joined, 0))
CHANGE (job_name, set_text (&JOB->name, "Another"))
CHANGE (job_file, set_text (&JOB->file, "a.cavetto"))
CHANGE (job_wood, set_text (&JOB->wood, "ash-white"))
CHANGE (job_width, JOB->width = 41)
CHANGE (job_thickness, JOB->thickness = 21)
CHANGE (job_face, JOB->face = 39)
CHANGE (job_mitre, JOB->mitre = 30)
CHANGE (job_rails, JOB->n_rails = 3)
CHANGE (job_rail, JOB->long_points[2] = 301)
CHANGE (job_frames, JOB->frames = 2)
CHANGE (job_order, JOB->order = CAV_GRAIN_BOOK)
CHANGE (job_run_start, JOB->run_start = 1)
CHANGE (job_square, JOB->square_first = TRUE)
CHANGE (job_square_extra, JOB->square_extra = 1)
CHANGE (job_spare, JOB->spare = 1)
CHANGE (job_test, JOB->test = 1)
CHANGE (job_pin, g_array_set_size (JOB->pins, 0))

static void
test_equal (void)
{
  void (*const changes[]) (CavLumber *) = { change_board,
                                            change_stock,
                                            change_fewer,
                                            change_no_pin,
                                            change_pin_frame,
                                            change_pin_rail,
                                            change_pin_board,
                                            change_pin_copy,
                                            change_pin_strip,
                                            change_pin_layer,
                                            change_pin_from,
                                            change_frames,
                                            change_order,
                                            change_run_start,
                                            change_kerf,
                                            change_jointing,
                                            change_strip_extra,
                                            change_planing,
                                            change_resaw,
                                            change_resaw_kerf,
                                            change_resaw_planing,
                                            change_glue_up,
                                            change_square_first,
                                            change_square_extra,
                                            change_spare,
                                            change_test,
                                            change_shortest,
                                            change_useful,
                                            change_no_job,
                                            change_job_name,
                                            change_job_file,
                                            change_job_wood,
                                            change_job_width,
                                            change_job_thickness,
                                            change_job_face,
                                            change_job_mitre,
                                            change_job_rails,
                                            change_job_rail,
                                            change_job_frames,
                                            change_job_order,
                                            change_job_run_start,
                                            change_job_square,
                                            change_job_square_extra,
                                            change_job_spare,
                                            change_job_test,
                                            change_job_pin };

  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (CavLumber) lumber = create_lumber ();
      g_autoptr (CavLumber) copy = cav_lumber_copy (lumber);

      g_test_message ("change %u", i);
      g_assert_true (cav_lumber_equal (lumber, copy));
      changes[i](copy);
      g_assert_false (cav_lumber_equal (lumber, copy));
    }
}

static void
test_copy_is_deep (void)
{
  CavLumber *lumber = create_lumber ();
  g_autoptr (CavLumber) copy = cav_lumber_copy (lumber);

  cav_lumber_free (lumber);
  g_assert_cmpuint (copy->boards->len, ==, 1);
  g_assert_cmpfloat (BOARD (copy->boards)->length, >, 0);
  cav_lumber_free (NULL);
}

/* What was decided where it was joined stays; the molding and its rails are those of now. */
static void
test_refresh (void)
{
  g_autoptr (CavLumber) lumber = create_lumber ();
  g_autoptr (CavBoardJob) kept = cav_board_job_copy (JOB);
  g_autoptr (CavBoardJob) newer = cav_board_job_new (lumber, "Newer", 50.0, 30.0, 50.0);

  cav_board_job_set_rectangle (newer, 700.0, 800.0);
  set_text (&newer->wood, "ash-white");
  newer->frames = 7;
  newer->order = CAV_GRAIN_FREE;
  kept->frames = 3;
  set_text (&kept->file, "there.cavetto");
  cav_board_job_refresh (kept, newer);
  g_assert_cmpstr (kept->name, ==, "Newer");
  g_assert_cmpstr (kept->wood, ==, "ash-white");
  g_assert_cmpstr (kept->file, ==, "there.cavetto");
  g_assert_cmpfloat (kept->width, >, 49.0);
  g_assert_cmpfloat (kept->long_points[3], >, 799.0);
  g_assert_cmpint (kept->frames, ==, 3);
  g_assert_cmpint (kept->order, ==, CAV_GRAIN_RUNNING);
  g_assert_cmpuint (kept->pins->len, ==, 1);
}

static void
test_order_words (void)
{
  CavGrainOrder order;

  for (guint i = 0; i < CAV_N_GRAIN_ORDERS; i++)
    {
      g_assert_true (
          cav_grain_order_from_string (cav_grain_order_to_string ((CavGrainOrder)i), &order));
      g_assert_cmpint (order, ==, i);
    }
  g_assert_false (cav_grain_order_from_string ("", &order));
}

/* A blank comes out of the board that one begins with, however thick it is. */
static void
test_create_board (void)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  const double thicknesses[] = { 15.0, 20.0, 24.0, 26.0, 30.5, 45.0 };

  for (guint i = 0; i < G_N_ELEMENTS (thicknesses); i++)
    {
      const CavBlank blank = { .width = 50.0, .thickness = thicknesses[i] };
      g_autoptr (CavBoard) board = cav_lumber_create_board (lumber, &blank);

      g_assert_false (board->planed);
      g_assert_cmpfloat (board->thickness - lumber->planing, >=, blank.thickness);
      g_assert_cmpfloat (board->width, >, blank.width);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/lumber/create-board", test_create_board);
  g_test_add_func ("/boards/lumber/equal", test_equal);
  g_test_add_func ("/boards/lumber/copy-is-deep", test_copy_is_deep);
  g_test_add_func ("/boards/lumber/refresh", test_refresh);
  g_test_add_func ("/boards/lumber/order-words", test_order_words);
  return g_test_run ();
}
