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
 * Boards that are not used lie below the others, and take rails like them.
 *
 * Emits
 *   "wished" (int job, CavBoardPin *pin)        somebody wants that rail there
 *   "freed" (int job, int frame, int rail)      somebody sets it free
 */
#define CAV_TYPE_BOARD_CANVAS (cav_board_canvas_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardCanvas, cav_board_canvas, CAV, BOARD_CANVAS, GtkWidget)

/* (transfer none) (nullable) */
void cav_board_canvas_set_layout (CavBoardCanvas *self, CavBoardLayout *layout);
/* How much wider than its view the drawing is, 1 to 8. */
double cav_board_canvas_get_zoom (CavBoardCanvas *self);
void cav_board_canvas_set_zoom (CavBoardCanvas *self, double zoom);

G_END_DECLS
