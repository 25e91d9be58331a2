/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

G_BEGIN_DECLS

/* What to begin with: a molding for one's own picture, an empty blank, a project that is there, an
 * example. Closes once something has been chosen. */
#define CAV_TYPE_START_WINDOW (cav_start_window_get_type ())
G_DECLARE_FINAL_TYPE (CavStartWindow, cav_start_window, CAV, START_WINDOW, AdwWindow)

GtkWindow *cav_start_window_new (GtkApplication *application) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
