/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-measure.h"

#include "geometry/cav-unit.h"

#include <math.h>

#define FOOT (12.0 * CAV_INCH)

/* Surfaced on two sides: 13/16, 1 1/16, 1 5/16 and 1 3/4 in, the figures of the American rules for
 * hardwood (National Hardwood Lumber Association), from memory; two merchants print 3/4 to 13/16,
 * 1 to 1 1/16, 1 1/4 to 1 5/16 and 1 3/4 for the same boards. */
static const CavQuarter QUARTERS[] = {
  { 4, 1.0 * CAV_INCH, 13.0 / 16.0 * CAV_INCH },
  { 5, 1.25 * CAV_INCH, 17.0 / 16.0 * CAV_INCH },
  { 6, 1.5 * CAV_INCH, 21.0 / 16.0 * CAV_INCH },
  { 8, 2.0 * CAV_INCH, 1.75 * CAV_INCH },
};

guint
cav_quarter_get_count (void)
{
  return G_N_ELEMENTS (QUARTERS);
}

const CavQuarter *
cav_quarter_get (guint index)
{
  g_return_val_if_fail (index < G_N_ELEMENTS (QUARTERS), NULL);

  return &QUARTERS[index];
}

/* The thickness that is paid for. */
static double
get_sold_thickness (const CavBoard *board)
{
  /* Half a millimetre: nobody planes to less. */
  const double near = 0.5;

  if (board->planed)
    for (guint i = 0; i < G_N_ELEMENTS (QUARTERS); i++)
      if (board->thickness <= QUARTERS[i].surfaced + near)
        return QUARTERS[i].rough;
  return MAX (board->thickness, CAV_INCH);
}

double
cav_board_get_feet (const CavBoard *board)
{
  g_return_val_if_fail (board != NULL, 0.0);

  return get_sold_thickness (board) / CAV_INCH * board->width / CAV_INCH * board->length / FOOT
         / 12.0;
}

double
cav_board_get_volume (const CavBoard *board)
{
  g_return_val_if_fail (board != NULL, 0.0);

  return CAV_CUBIC_METRES (board->length * board->width * board->thickness);
}

gboolean
cav_board_get_cost (const CavBoard *board, double *out_cost)
{
  g_return_val_if_fail (board != NULL, FALSE);
  g_return_val_if_fail (out_cost != NULL, FALSE);

  *out_cost = 0.0;
  switch (board->basis)
    {
    case CAV_PRICE_UNKNOWN:
      return FALSE;
    case CAV_PRICE_BOARD:
      *out_cost = board->price;
      return TRUE;
    case CAV_PRICE_BOARD_FOOT:
      *out_cost = board->price * cav_board_get_feet (board);
      return TRUE;
    case CAV_PRICE_CUBIC_METRE:
      *out_cost = board->price * cav_board_get_volume (board);
      return TRUE;
    case CAV_PRICE_METRE:
      *out_cost = board->price * board->length / 1000.0;
      return TRUE;
    }
  return FALSE;
}
