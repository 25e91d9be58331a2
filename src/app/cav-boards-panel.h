/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document-panel.h"

G_BEGIN_DECLS

/* The list of a document's boards at hand or, with "stock", of those that can be bought. Every
 * change is a step of the history. Properties "document" and "stock". */
#define CAV_TYPE_BOARDS_PANEL (cav_boards_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardsPanel, cav_boards_panel, CAV, BOARDS_PANEL, CavDocumentPanel)

/* Another board like the last one. */
void cav_boards_panel_add (CavBoardsPanel *self);
/* Opens a row and gives it the focus; where there is none, the button that adds one. */
void cav_boards_panel_show_row (CavBoardsPanel *self, int row);

G_END_DECLS
