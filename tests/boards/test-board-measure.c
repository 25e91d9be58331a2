/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-measure.h"

#define INCH 25.4

/* Worked examples as hardwood merchants print them: 1 x 6 x 96 in is 4 board feet, 2 x 6 x 60 in 5,
 * 1 1/2 x 9 x 96 in 9 and 2 x 10 in x 14 ft 23.33; and that 3/4 in counts as 1 in. */
static void
test_board_feet (void)
{
  static const struct
  {
    double thickness, width, length;
    gboolean planed;
    double feet;
  } rows[] = {
    { 1.0, 6.0, 96.0, FALSE, 4.0 },        { 2.0, 6.0, 60.0, FALSE, 5.0 },
    { 1.5, 9.0, 96.0, FALSE, 9.0 },        { 2.0, 10.0, 168.0, FALSE, 70.0 / 3.0 },
    { 0.75, 6.0, 96.0, FALSE, 4.0 },       { 0.75, 6.0, 96.0, TRUE, 4.0 },
    { 13.0 / 16.0, 6.0, 96.0, TRUE, 4.0 }, { 1.0, 6.0, 96.0, TRUE, 5.0 },
    { 1.75, 6.0, 60.0, TRUE, 5.0 },        { 3.0, 6.0, 96.0, TRUE, 12.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavBoard) board = cav_board_new ();

      board->thickness = rows[i].thickness * INCH;
      board->width = rows[i].width * INCH;
      board->length = rows[i].length * INCH;
      board->planed = rows[i].planed;
      g_test_message ("%g x %g x %g in", rows[i].thickness, rows[i].width, rows[i].length);
      g_assert_cmpfloat_with_epsilon (cav_board_get_feet (board), rows[i].feet, 1e-9);
    }
}

/* Two merchants print what is left of rough quarters after surfacing: 4/4 3/4 to 13/16, 5/4 1 to
 * 1 1/16, 6/4 1 1/4 to 1 5/16, 8/4 1 3/4 in. */
static void
test_quarters (void)
{
  static const struct
  {
    int quarters;
    double rough, least, most;
  } rows[] = {
    { 4, 1.0, 0.75, 13.0 / 16.0 },
    { 5, 1.25, 1.0, 17.0 / 16.0 },
    { 6, 1.5, 1.25, 21.0 / 16.0 },
    { 8, 2.0, 1.75, 1.75 },
  };

  g_assert_cmpuint (cav_quarter_get_count (), ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavQuarter *quarter = cav_quarter_get (i);

      g_assert_cmpint (quarter->quarters, ==, rows[i].quarters);
      g_assert_cmpfloat_with_epsilon (quarter->rough / INCH, rows[i].rough, 1e-9);
      g_assert_cmpfloat (quarter->surfaced / INCH, >=, rows[i].least - 1e-9);
      g_assert_cmpfloat (quarter->surfaced / INCH, <=, rows[i].most + 1e-9);
    }
}

static void
test_cost (void)
{
  g_autoptr (CavBoard) board = cav_board_new ();
  static const double COSTS[CAV_N_PRICE_BASES] = {
    [CAV_PRICE_UNKNOWN] = 0.0,     [CAV_PRICE_BOARD] = 10.0,   [CAV_PRICE_BOARD_FOOT] = 40.0,
    [CAV_PRICE_CUBIC_METRE] = 0.0, [CAV_PRICE_METRE] = 24.384,
  };

  board->thickness = INCH;
  board->width = 6.0 * INCH;
  board->length = 96.0 * INCH;
  board->price = 10.0;
  for (int basis = 0; basis < CAV_N_PRICE_BASES; basis++)
    {
      double cost = -1.0;
      double expected = COSTS[basis];

      board->basis = (CavPriceBasis)basis;
      if (basis == CAV_PRICE_CUBIC_METRE)
        expected = 10.0 * 0.0254 * 0.1524 * 2.4384;
      g_assert_true (cav_board_get_cost (board, &cost) == (basis != CAV_PRICE_UNKNOWN));
      g_assert_cmpfloat_with_epsilon (cost, expected, 1e-9);
    }
  g_assert_cmpfloat_with_epsilon (cav_board_get_volume (board), 0.0254 * 0.1524 * 2.4384, 1e-12);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/boards/measure/board-feet", test_board_feet);
  g_test_add_func ("/boards/measure/quarters", test_quarters);
  g_test_add_func ("/boards/measure/cost", test_cost);
  return g_test_run ();
}
