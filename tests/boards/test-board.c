/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board.h"

#include <math.h>
#include <string.h>

static CavBoard *
create_board (void)
{
  CavBoard *board = cav_board_new ();

  cav_board_add_span (board, (CavBoardSpan){ .from = 100, .to = 140, .low = 20, .high = 60 });
  cav_board_add_span (board, (CavBoardSpan){ .clear = TRUE, .from = 0, .to = 2000 });
  return board;
}

static void
set_name (CavBoard *board)
{
  g_free (board->name);
  board->name = g_strdup ("B");
}

static void
set_wood (CavBoard *board)
{
  g_free (board->wood);
  board->wood = g_strdup ("ash-white");
}

#define CHANGE(name, statement)                                                                    \
  static void change_##name (CavBoard *board) { statement; }
#define SPAN(index) g_array_index (board->spans, CavBoardSpan, index)

CHANGE (count, board->count = 2)
CHANGE (length, board->length = nextafter (board->length, 0))
CHANGE (width, board->width += 1)
CHANGE (thickness, board->thickness += 1)
CHANGE (planed, board->planed = TRUE)
CHANGE (price, board->price = 9)
CHANGE (basis, board->basis = CAV_PRICE_METRE)
CHANGE (end_trim, board->end_trim = 0)
CHANGE (spans, g_array_set_size (board->spans, 1))
CHANGE (span_clear, SPAN (1).clear = FALSE)
CHANGE (span_from, SPAN (0).from = 101)
CHANGE (span_to, SPAN (0).to = 141)
CHANGE (span_low, SPAN (0).low = 21)
CHANGE (span_high, SPAN (0).high = 61)

static void
test_equal (void)
{
  void (*const changes[]) (CavBoard *)
      = { set_name,         set_wood,         change_count,    change_length,
          change_width,     change_thickness, change_planed,   change_price,
          change_basis,     change_end_trim,  change_spans,    change_span_clear,
          change_span_from, change_span_to,   change_span_low, change_span_high };

  for (guint i = 0; i < G_N_ELEMENTS (changes); i++)
    {
      g_autoptr (CavBoard) board = create_board ();
      g_autoptr (CavBoard) copy = cav_board_copy (board);

      g_test_message ("change %u", i);
      g_assert_true (cav_board_equal (board, copy));
      changes[i](copy);
      g_assert_false (cav_board_equal (board, copy));
    }
}

static void
test_copy_is_deep (void)
{
  CavBoard *board = create_board ();
  g_autoptr (CavBoard) copy = cav_board_copy (board);

  cav_board_free (board);
  g_assert_cmpstr (copy->name, ==, "");
  g_assert_cmpuint (copy->spans->len, ==, 2);
  cav_board_free (NULL);
}

static void
test_basis_words (void)
{
  CavPriceBasis basis;

  for (guint i = 0; i < CAV_N_PRICE_BASES; i++)
    {
      g_assert_true (
          cav_price_basis_from_string (cav_price_basis_to_string ((CavPriceBasis)i), &basis));
      g_assert_cmpint (basis, ==, i);
    }
  g_assert_false (cav_price_basis_from_string ("pound", &basis));
}

static void
test_sound (void)
{
  g_autoptr (CavBoard) board = create_board ();

  g_assert_null (cav_board_explain (board));
}

CHANGE (no_length, board->length = 0)
CHANGE (negative_width, board->width = -150)
CHANGE (nan_thickness, board->thickness = NAN)
CHANGE (endless_length, board->length = INFINITY)
CHANGE (giant_length, board->length = 30000)
CHANGE (negative_count, board->count = -1)
CHANGE (many, board->count = 1000000)
CHANGE (negative_trim, board->end_trim = -1)
CHANGE (span_backward, SPAN (0).to = 90)
CHANGE (span_upside_down, SPAN (0).high = 10)
CHANGE (span_nan, SPAN (1).to = NAN)
CHANGE (negative_price, board->basis = CAV_PRICE_BOARD; board->price = -3)

static void
test_explain (void)
{
  static const struct
  {
    void (*change) (CavBoard *);
    const char *says;
  } rows[] = {
    { change_no_length, "between 1 and 20000 mm" },
    { change_negative_width, "between 1 and 20000 mm" },
    { change_nan_thickness, "between 1 and 20000 mm" },
    { change_endless_length, "between 1 and 20000 mm" },
    { change_giant_length, "between 1 and 20000 mm" },
    { change_negative_count, "number of boards" },
    { change_many, "number of boards" },
    { change_negative_trim, "trim" },
    { change_span_backward, "before it begins" },
    { change_span_upside_down, "upper edge" },
    { change_span_nan, "clear stretch" },
    { change_negative_price, "below nought" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavBoard) board = create_board ();
      g_autofree char *reason = NULL;

      rows[i].change (board);
      reason = cav_board_explain (board);
      g_test_message ("%s", rows[i].says);
      g_assert_nonnull (reason);
      g_assert_nonnull (strstr (reason, rows[i].says));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/board/equal", test_equal);
  g_test_add_func ("/boards/board/copy-is-deep", test_copy_is_deep);
  g_test_add_func ("/boards/board/basis-words", test_basis_words);
  g_test_add_func ("/boards/board/sound", test_sound);
  g_test_add_func ("/boards/board/explain", test_explain);
  return g_test_run ();
}
