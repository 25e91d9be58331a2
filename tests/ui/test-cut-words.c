/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The eye of the pictures for words that are cut off: it sees them, and nothing else. */
#include "ui-test.h"

#define WORDS "A sentence that wants some room"

static guint
count_cut (GtkWidget *label, int width, int height)
{
  GtkWidget *place = gtk_fixed_new ();
  GtkWindow *window;
  g_autoptr (GPtrArray) cut = NULL;

  gtk_widget_set_size_request (label, width, height);
  gtk_fixed_put (GTK_FIXED (place), label, 0, 0);
  window = ui_test_show (place, 600, 200);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  cut = ui_test_find_cut_words (GTK_WIDGET (window));
  if (cut->len > 0)
    g_assert_cmpstr (g_ptr_array_index (cut, 0), ==, WORDS);
  gtk_window_destroy (window);
  ui_test_settle ();
  return cut->len;
}

static GtkWidget *
create_label (PangoEllipsizeMode mode, gboolean wrap)
{
  return g_object_new (GTK_TYPE_LABEL, "label", WORDS, "ellipsize", mode, "wrap", wrap,
                       "width-chars", 5, "max-width-chars", 5, NULL);
}

static void
test_cut (void)
{
  g_assert_cmpuint (count_cut (create_label (PANGO_ELLIPSIZE_END, FALSE), 60, 20), ==, 1);
}

static void
test_whole (void)
{
  g_assert_cmpuint (count_cut (create_label (PANGO_ELLIPSIZE_END, FALSE), 500, 20), ==, 0);
  g_assert_cmpuint (count_cut (create_label (PANGO_ELLIPSIZE_NONE, TRUE), 100, 20), ==, 0);
}

static void
test_names (void)
{
  g_assert_cmpuint (count_cut (create_label (PANGO_ELLIPSIZE_MIDDLE, FALSE), 60, 20), ==, 0);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/cut-words/are-seen", test_cut);
  g_test_add_func ("/ui/cut-words/whole-ones-pass", test_whole);
  g_test_add_func ("/ui/cut-words/names-may-be-of-any-length", test_names);
  return g_test_run ();
}
