/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* How many times as large as usual the desktop wants letters, 1 to 3: for what is drawn and not
 * written by GTK itself. */
double cav_letters_get_size (GtkWidget *widget);
/* Calls back with widget, as long as it lives, when that changes. */
void cav_letters_watch (GCallback callback, GtkWidget *widget);
/* At the least so many pixels wide, and more where letters are larger. */
void cav_letters_set_width (GtkWidget *widget, int usual);

G_END_DECLS
