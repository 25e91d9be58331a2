/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "boards/cav-board.h"

G_BEGIN_DECLS

/* Boards of one kind in the list of those at hand, as a row that opens. Emits "edited" when
 * somebody has changed a figure, and "removed". */
#define CAV_TYPE_BOARD_ROW (cav_board_row_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardRow, cav_board_row, CAV, BOARD_ROW, AdwExpanderRow)

CavBoardRow *cav_board_row_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* number: counts rows from 1, for boards without a name. */
void cav_board_row_show (CavBoardRow *self, const CavBoard *board, guint number);
/* Takes what the row says over into board. */
void cav_board_row_apply (CavBoardRow *self, CavBoard *board);

G_END_DECLS
