/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The empty window that bench-start compares with: bench-empty frame|rest. It is an application
 * with a name and a header bar, as any other is (with a name GTK reads the icon theme once more),
 * and loads no library but those of the toolkit. */
#include "bench-first-frame.h"

static void
activate_cb (GtkApplication *application, gpointer user_data)
{
  GtkWidget *window = adw_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), adw_header_bar_new ());
  bench_show (GTK_WINDOW (window), user_data != NULL);
}

int
main (int argc, char *argv[])
{
  gboolean rests = argc > 1 && g_str_equal (argv[1], "rest");
  g_autoptr (AdwApplication) application
      = adw_application_new ("org.cavetto.Empty", G_APPLICATION_NON_UNIQUE);

  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), rests ? application : NULL);
  return g_application_run (G_APPLICATION (application), 0, NULL);
}
