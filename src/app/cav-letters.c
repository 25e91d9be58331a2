/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-letters.h"

/* GTK's own unit, and the resolution at which letters have their usual size. */
#define USUAL (96.0 * 1024.0)

double
cav_letters_get_size (GtkWidget *widget)
{
  int resolution = 0;

  g_return_val_if_fail (GTK_IS_WIDGET (widget), 1.0);

  g_object_get (gtk_widget_get_settings (widget), "gtk-xft-dpi", &resolution, NULL);
  return resolution > 0 ? CLAMP (resolution / USUAL, 1.0, 3.0) : 1.0;
}

void
cav_letters_watch (GCallback callback, GtkWidget *widget)
{
  g_return_if_fail (callback != NULL);
  g_return_if_fail (GTK_IS_WIDGET (widget));

  g_signal_connect_object (gtk_widget_get_settings (widget), "notify::gtk-xft-dpi", callback,
                           widget, G_CONNECT_SWAPPED);
}

static void
widen (GtkWidget *widget)
{
  int usual = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (widget), "cav-usual-width"));

  gtk_widget_set_size_request (widget, (int)(usual * cav_letters_get_size (widget)), -1);
}

void
cav_letters_set_width (GtkWidget *widget, int usual)
{
  g_return_if_fail (GTK_IS_WIDGET (widget));

  g_object_set_data (G_OBJECT (widget), "cav-usual-width", GINT_TO_POINTER (usual));
  cav_letters_watch (G_CALLBACK (widen), widget);
  widen (widget);
}
