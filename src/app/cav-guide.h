/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The user guide: pages of HTML made from docs/guide, which the desktop's web browser shows. */

/* (transfer full) (nullable) The guide's first page: of the program where it was built, or where it
 * was installed. NULL where there is none. */
char *cav_guide_find (void) G_GNUC_WARN_UNUSED_RESULT;

/* Opens the guide. Says in a dialog over the window what is wrong where it is missing or nothing can
 * show it. (nullable) near. */
void cav_guide_open (GtkWindow *near);

G_END_DECLS
