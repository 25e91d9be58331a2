/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window.h"
#include "ui-test.h"

/* A closed window leaves nothing behind: neither itself nor its document. */
static void
test_is_freed (void)
{
  CavDocument *document = cav_document_new ();
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  g_assert_true (cav_window_get_document (window) == document);

  g_object_ref (window);
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
  g_assert_finalize_object (window);
  g_assert_finalize_object (document);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/window/is-freed", test_is_freed);
  return g_test_run ();
}
