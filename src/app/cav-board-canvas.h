/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "boards/cav-board-layout.h"

G_BEGIN_DECLS

/*
 * The boards with the rails on them. A rail, with the run or pair that it belongs to, is dragged to
 * another place; or chosen with the arrow keys and moved with Alt and the arrow keys (Shift: by
 * single millimetres), set free with Delete.
 *
 * Emits
 *   "wished" (CavBoardPin *pin)      somebody wants that rail there
 *   "freed" (int frame, int rail)    somebody sets it free
 */
#define CAV_TYPE_BOARD_CANVAS (cav_board_canvas_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardCanvas, cav_board_canvas, CAV, BOARD_CANVAS, GtkWidget)

/* (transfer none) (nullable) */
void cav_board_canvas_set_layout (CavBoardCanvas *self, CavBoardLayout *layout);

G_END_DECLS
