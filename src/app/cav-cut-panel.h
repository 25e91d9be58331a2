/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The rows of the chosen cuts: of one its place, form and numbers; of several the numbers that all
 * of them have, and what can be done to them together. Property "document". */
#define CAV_TYPE_CUT_PANEL (cav_cut_panel_get_type ())
G_DECLARE_FINAL_TYPE (CavCutPanel, cav_cut_panel, CAV, CUT_PANEL, GtkWidget)

/* The row of a number, NULL where there is none now. (transfer none) */
GtkWidget *cav_cut_panel_get_number_row (CavCutPanel *self, CavCutNumber number);

G_END_DECLS
