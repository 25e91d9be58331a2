/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "boards/cav-board.h"

G_BEGIN_DECLS

/*
 * Boards of one size and look, as a row that folds out; what is in it is made when it does. Emits
 * "edited" when somebody has changed something and "removed" when it is to go.
 */
#define CAV_TYPE_BOARD_ROW (cav_board_row_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardRow, cav_board_row, CAV, BOARD_ROW, AdwExpanderRow)

/* is_stock: a board that can be bought, of which there may be any number. */
CavBoardRow *cav_board_row_new (gboolean is_stock) G_GNUC_WARN_UNUSED_RESULT;
/* number: counts rows from 1, for boards without a name. */
void cav_board_row_show (CavBoardRow *self, const CavBoard *board, guint number);
/* (transfer full) The board as the row has it now. */
CavBoard *cav_board_row_dup_board (CavBoardRow *self) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
