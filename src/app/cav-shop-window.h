/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/*
 * The shop that a document is planned for: its tools, machines, limits and rates; and the ways
 * between it, the user's own shop and shop files. Every edit is a step of the document, which plans
 * again at once; the line at the bottom says what the plan comes to.
 */
#define CAV_TYPE_SHOP_WINDOW (cav_shop_window_get_type ())
G_DECLARE_FINAL_TYPE (CavShopWindow, cav_shop_window, CAV, SHOP_WINDOW, AdwWindow)

/* parent is nullable. */
CavShopWindow *cav_shop_window_new (CavDocument *document,
                                    GtkWindow *parent) G_GNUC_WARN_UNUSED_RESULT;

/* Brings the window for that document to the front; there is one at most. */
void cav_shop_window_show (CavDocument *document, GtkWindow *parent);

/* What the file choosers lead to. FALSE with a sentence in the window where it did not work. */
gboolean cav_shop_window_import (CavShopWindow *self, GFile *file);
gboolean cav_shop_window_export (CavShopWindow *self, GFile *file);
/* (nullable) The sentence that is shown. */
const char *cav_shop_window_get_message (CavShopWindow *self);

G_END_DECLS
