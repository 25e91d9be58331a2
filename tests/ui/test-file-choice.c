/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-choice.h"

#include "ui-test.h"

/* (transfer none) (nullable) The dialog that is there, seen or not. */
static GtkWidget *
find_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();
  GtkWidget *found = NULL;

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (GTK_IS_FILE_CHOOSER_DIALOG (window))
        found = window;
    }
  return found;
}

static gboolean
is_open (void)
{
  GtkWidget *dialog = find_dialog ();

  return dialog != NULL && gtk_widget_get_mapped (dialog);
}

static void
count_cb (GFile *file, gpointer user_data)
{
  int *n_chosen = user_data;

  (*n_chosen)++;
}

static void
ask (GtkWindow *parent, int *n_chosen)
{
  cav_choose_file_to_save (parent, "Save", CAV_FILE_PROJECT, "frame", count_cb, n_chosen);
  ui_test_wait_for (is_open ());
}

/* Nobody is told, and the dialog is gone, not only out of sight. */
static void
test_parent_closes (void)
{
  GtkWindow *parent = ui_test_show (gtk_label_new ("parent"), 400, 300);
  int n_chosen = 0;

  ask (parent, &n_chosen);
  gtk_window_destroy (parent);
  ui_test_wait_for (find_dialog () == NULL);
  g_assert_cmpint (n_chosen, ==, 0);
}

static void
test_cancelled (void)
{
  GtkWindow *parent = ui_test_show (gtk_label_new ("parent"), 400, 300);
  int n_chosen = 0;

  ask (parent, &n_chosen);
  gtk_dialog_response (GTK_DIALOG (find_dialog ()), GTK_RESPONSE_CANCEL);
  ui_test_wait_for (find_dialog () == NULL);
  g_assert_cmpint (n_chosen, ==, 0);
  gtk_window_destroy (parent);
  ui_test_settle ();
}

static void
test_ending (void)
{
  const struct
  {
    const char *typed, *written;
  } rows[] = { { "/pictures/frame", "/pictures/frame.cavetto" },
               { "/pictures/frame.cavetto", "/pictures/frame.cavetto" },
               { "/pictures/frame.2", "/pictures/frame.2" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GFile) typed = g_file_new_for_path (rows[i].typed);
      g_autoptr (GFile) written = cav_file_add_ending (typed, CAV_FILE_PROJECT);

      g_assert_cmpstr (g_file_peek_path (written), ==, rows[i].written);
    }
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/file-choice/ending", test_ending);
  g_test_add_func ("/ui/file-choice/cancelled", test_cancelled);
  g_test_add_func ("/ui/file-choice/parent-closes", test_parent_closes);
  return g_test_run ();
}
