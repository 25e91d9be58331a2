/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The sheets of a document as they will leave the printer: what to print on the left, its pages on
 * the right. What is chosen is kept for the next time. */
#define CAV_TYPE_SHEETS_WINDOW (cav_sheets_window_get_type ())
G_DECLARE_FINAL_TYPE (CavSheetsWindow, cav_sheets_window, CAV, SHEETS_WINDOW, AdwWindow)

CavSheetsWindow *cav_sheets_window_new (CavDocument *document,
                                        GtkWindow *parent) G_GNUC_WARN_UNUSED_RESULT;
/* Shows the one of the document, made where there is none yet. */
void cav_sheets_window_show (CavDocument *document, GtkWindow *parent);

/* (transfer none) CavScene, one a page: what is shown, printed and saved. Empty until it is there.
 */
GPtrArray *cav_sheets_window_get_pages (CavSheetsWindow *self);
/* The page that is seen, from 0. */
guint cav_sheets_window_get_page (CavSheetsWindow *self);

G_END_DECLS
