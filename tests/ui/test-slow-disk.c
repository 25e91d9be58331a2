/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window.h"
#include "storage/cav-storage.h"
#include "ui-test.h"

#include <unistd.h>

#include <glib/gstdio.h>

/*
 * A disk, or a place in a network, that takes its time: the linker puts a slow fsync in place of
 * the system's (--wrap). The window goes on meanwhile, nothing that is drawn meanwhile counts as
 * saved, and a window that is closed waits until all is written.
 */

#define SLOW (400 * 1000) /* microseconds */
#define TICK 10           /* ms */

static gint is_slow; /* atomic */
static gint n_slow;  /* atomic, calls that were held up */

int __real_fsync (int fd);
int __wrap_fsync (int fd);

int
__wrap_fsync (int fd)
{
  if (g_atomic_int_get (&is_slow))
    {
      g_atomic_int_inc (&n_slow);
      g_usleep (SLOW);
    }
  return __real_fsync (fd);
}

typedef struct
{
  char *folder;
  char *file_name;
  GFile *file;
  CavDocument *document;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = g_dir_make_tmp ("cavetto-XXXXXX", NULL);
  fixture->file_name = g_build_filename (fixture->folder, "Fern frame.cavetto", NULL);
  fixture->file = g_file_new_for_path (fixture->file_name);
  fixture->document = cav_document_new ();
  g_atomic_int_set (&n_slow, 0);
  g_atomic_int_set (&is_slow, TRUE);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_atomic_int_set (&is_slow, FALSE);
  ui_test_finalize (fixture->document);
  g_unlink (fixture->file_name);
  g_rmdir (fixture->folder);
  g_object_unref (fixture->file);
  g_free (fixture->file_name);
  g_free (fixture->folder);
}

static void
add_cut (CavDocument *document)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE);

  cav_project_add_cut (cav_document_get_project (document), cut);
}

static guint
count_saved_cuts (Fixture *fixture)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (fixture->file_name, &error);

  g_assert_no_error (error);
  return cav_project_get_cut_count (project);
}

static void
result_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  *(GAsyncResult **)user_data = g_object_ref (result);
}

static gboolean
tick_cb (gpointer user_data)
{
  (*(guint *)user_data)++;
  return G_SOURCE_CONTINUE;
}

/* The main loop runs on while the disk works: it ticks, and takes an edit. */
static void
test_window_goes_on (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  guint ticks = 0, source;

  add_cut (fixture->document);
  cav_document_save_async (fixture->document, fixture->file, NULL, result_cb, &result);
  source = g_timeout_add (TICK, tick_cb, &ticks);
  ui_test_wait_for (ticks >= 3);
  g_assert_null (result);
  g_assert_true (cav_document_is_saving (fixture->document));
  add_cut (fixture->document);
  ui_test_wait_for (result != NULL);
  g_source_remove (source);

  g_assert_true (cav_document_save_finish (fixture->document, result, &error));
  g_assert_no_error (error);
  g_assert_cmpint (g_atomic_int_get (&n_slow), >, 0);
  g_assert_cmpuint (count_saved_cuts (fixture), ==, 1);
  g_assert_true (cav_document_is_unsaved (fixture->document));
}

static void
test_close_waits (Fixture *fixture, gconstpointer data)
{
  CavWindow *window = cav_window_new (ui_test_get_application (), fixture->document);

  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *)&window);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  add_cut (fixture->document);
  cav_document_save_async (fixture->document, fixture->file, NULL, NULL, NULL);
  gtk_window_close (GTK_WINDOW (window));
  g_assert_nonnull (window);
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (window)));
  g_assert_true (cav_document_is_saving (fixture->document));
  ui_test_wait_for (window == NULL);
  g_assert_cmpuint (count_saved_cuts (fixture), ==, 1);
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add ("/ui/slow-disk/window-goes-on", Fixture, NULL, set_up, test_window_goes_on,
              tear_down);
  g_test_add ("/ui/slow-disk/close-waits", Fixture, NULL, set_up, test_close_waits, tear_down);
  return g_test_run ();
}
