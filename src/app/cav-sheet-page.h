/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* One page of a sheet on the screen: white in any light, for it shows what comes out of the
 * printer, and drawn by what draws that. */
#define CAV_TYPE_SHEET_PAGE (cav_sheet_page_get_type ())
G_DECLARE_FINAL_TYPE (CavSheetPage, cav_sheet_page, CAV, SHEET_PAGE, GtkWidget)

/* pages (CavScene, one a page) are kept as long as the widget; index is this one's. */
GtkWidget *cav_sheet_page_new (GPtrArray *pages, guint index);
/* How large it is shown, in pixels of the window for a millimetre of paper. */
void cav_sheet_page_set_scale (CavSheetPage *self, double scale);

G_END_DECLS
