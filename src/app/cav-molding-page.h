/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The page on which the molding is drawn: cuts at the left, canvas, side column, passes below.
 * Arranges them, and holds nothing itself. Property "document". */
#define CAV_TYPE_MOLDING_PAGE (cav_molding_page_get_type ())
G_DECLARE_FINAL_TYPE (CavMoldingPage, cav_molding_page, CAV, MOLDING_PAGE, GtkWidget)

/* Runs a command of the section's canvas, as in "canvas.copy", for whoever is outside of it. */
void cav_molding_page_run_in_canvas (CavMoldingPage *self, const char *action);

G_END_DECLS
