/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-lumber.h"

static CavLumber *
create_lumber (void)
{
  CavLumber *lumber = cav_lumber_new ();
  const CavBoardPin pin = { .frame = 1, .rail = 2, .from = 30.0 };

  g_ptr_array_add (lumber->boards, cav_board_new ());
  g_ptr_array_add (lumber->stock, cav_board_new ());
  g_array_append_val (lumber->pins, pin);
  return lumber;
}

#define CHANGE(name, statement)                                                                    \
  static void change_##name (CavLumber *lumber) { statement; }
#define BOARD(boards) ((CavBoard *)g_ptr_array_index (boards, 0))
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

static void
test_equal (void)
{
  void (*const changes[]) (CavLumber *)
      = { change_board,         change_stock,     change_fewer,        change_no_pin,
          change_pin_frame,     change_pin_rail,  change_pin_board,    change_pin_copy,
          change_pin_strip,     change_pin_layer, change_pin_from,     change_frames,
          change_order,         change_run_start, change_kerf,         change_jointing,
          change_strip_extra,   change_planing,   change_resaw,        change_resaw_kerf,
          change_resaw_planing, change_glue_up,   change_square_first, change_square_extra,
          change_spare,         change_test,      change_shortest,     change_useful };

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

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/lumber/equal", test_equal);
  g_test_add_func ("/boards/lumber/copy-is-deep", test_copy_is_deep);
  g_test_add_func ("/boards/lumber/order-words", test_order_words);
  return g_test_run ();
}
