/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* Pages under each other, to be scrolled through. Emits "turned" when another page may be seen. */
#define CAV_TYPE_SHEET_DESK (cav_sheet_desk_get_type ())
G_DECLARE_FINAL_TYPE (CavSheetDesk, cav_sheet_desk, CAV, SHEET_DESK, GtkWidget)

/* pages (CavScene, one a page) are kept until there are others. */
void cav_sheet_desk_set_pages (CavSheetDesk *self, GPtrArray *pages);
/* The page that is seen, from 0. */
guint cav_sheet_desk_get_page (CavSheetDesk *self);
/* Scrolls to a page, or to the last one. */
void cav_sheet_desk_show_page (CavSheetDesk *self, guint page);
/* Shows pages so many times as large; 0: as wide as the desk, at first. */
void cav_sheet_desk_zoom (CavSheetDesk *self, double factor);

G_END_DECLS
