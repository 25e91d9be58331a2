/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The page on which the molding is drawn: cuts at the left, canvas, side column, passes below.
 * Arranges them, and holds nothing itself. Property "document". */
#define CAV_TYPE_MOLDING_PAGE (cav_molding_page_get_type ())
G_DECLARE_FINAL_TYPE (CavMoldingPage, cav_molding_page, CAV, MOLDING_PAGE, GtkWidget)

G_END_DECLS
