/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* One document, with a page for each side of the work. */
#define CAV_TYPE_WINDOW (cav_window_get_type ())
G_DECLARE_FINAL_TYPE (CavWindow, cav_window, CAV, WINDOW, AdwApplicationWindow)

CavWindow *cav_window_new (GtkApplication *application, CavDocument *document);

/* (transfer none) */
CavDocument *cav_window_get_document (CavWindow *self);
/* Says something in passing, at the lower edge. */
void cav_window_say (CavWindow *self, const char *text);

/* Saves what the window shows there from now on. A project that nobody has given a title takes the
 * name of its file for one. */
void cav_window_save_as (CavWindow *self, GFile *file);

G_END_DECLS
