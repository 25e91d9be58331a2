/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board.h"

G_BEGIN_DECLS

/* What is sold as four, five, six or eight quarters of an inch: rough, and as thick as it usually
 * is when both faces have been planed. mm. */
typedef struct
{
  int quarters;
  double rough;
  double surfaced;
} CavQuarter;

guint cav_quarter_get_count (void);
const CavQuarter *cav_quarter_get (guint index);

/* Board feet as boards are sold: inches of thickness times inches of width times feet of length, by
 * 12. The rough thickness counts, of a planed board that from which it was planed, and what is
 * thinner than an inch counts as an inch. One board. */
double cav_board_get_feet (const CavBoard *board);
/* One board as it is measured, m³. */
double cav_board_get_volume (const CavBoard *board);
/* What one board costs; FALSE where nobody said. */
gboolean cav_board_get_cost (const CavBoard *board, double *out_cost);

G_END_DECLS
