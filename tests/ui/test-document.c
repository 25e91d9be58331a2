/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document.h"
#include "storage/cav-storage.h"
#include "ui-test.h"

#include <glib/gstdio.h>

typedef struct
{
  char *folder;
  GFile *file;
  CavDocument *document;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  g_autofree char *name = NULL;

  fixture->folder = g_dir_make_tmp ("cavetto-XXXXXX", NULL);
  name = g_build_filename (fixture->folder, "Fern frame.cavetto", NULL);
  fixture->file = g_file_new_for_path (name);
  fixture->document = cav_document_new ();
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  ui_test_finalize (fixture->document);
  g_file_delete (fixture->file, NULL, NULL);
  g_rmdir (fixture->folder);
  g_object_unref (fixture->file);
  g_free (fixture->folder);
}

static void
result_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  *(GAsyncResult **)user_data = g_object_ref (result);
}

static gboolean
save (Fixture *fixture, GError **error)
{
  g_autoptr (GAsyncResult) result = NULL;

  cav_document_save_async (fixture->document, fixture->file, NULL, result_cb, &result);
  g_assert_true (cav_document_is_saving (fixture->document));
  ui_test_wait_for (result != NULL);
  g_assert_false (cav_document_is_saving (fixture->document));
  return cav_document_save_finish (fixture->document, result, error);
}

static gboolean
load (CavDocument *document, GFile *file, GError **error)
{
  g_autoptr (GAsyncResult) result = NULL;

  cav_document_load_async (document, file, NULL, result_cb, &result);
  ui_test_wait_for (result != NULL);
  return cav_document_load_finish (document, result, error);
}

static void
add_cut (CavDocument *document)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE);

  cav_project_add_cut (cav_document_get_project (document), cut);
}

static void
test_fresh (Fixture *fixture, gconstpointer data)
{
  g_autofree char *name = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (cav_document_is_fresh (fixture->document));
  g_assert_false (cav_document_is_unsaved (fixture->document));
  add_cut (fixture->document);
  g_assert_false (cav_document_is_fresh (fixture->document));
  g_assert_true (cav_document_is_unsaved (fixture->document));
  cav_project_undo (cav_document_get_project (fixture->document));
  g_assert_false (cav_document_is_unsaved (fixture->document));
  g_assert_false (cav_document_is_fresh (fixture->document));

  g_assert_true (save (fixture, &error));
  name = cav_document_dup_name (fixture->document);
  g_assert_cmpstr (name, ==, "Fern frame");
}

/* What was saved is what is read, and saving it again gives the same bytes. */
static void
test_round_trip (Fixture *fixture, gconstpointer data)
{
  g_autoptr (CavDocument) again = cav_document_new ();
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) first = NULL;
  g_autoptr (GBytes) second = NULL;

  add_cut (fixture->document);
  g_assert_true (save (fixture, &error));
  g_assert_no_error (error);
  g_assert_false (cav_document_is_unsaved (fixture->document));
  first = cav_storage_project_to_bytes (cav_document_get_project (fixture->document));

  g_assert_true (load (again, fixture->file, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (cav_project_get_cut_count (cav_document_get_project (again)), ==, 1);
  g_assert_true (g_file_equal (cav_document_get_file (again), fixture->file));
  g_assert_false (cav_document_is_unsaved (again));
  second = cav_storage_project_to_bytes (cav_document_get_project (again));
  g_assert_true (g_bytes_equal (first, second));
}

/* What is changed while the file is being written is not taken for saved. */
static void
test_edit_while_saving (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;

  add_cut (fixture->document);
  cav_document_save_async (fixture->document, fixture->file, NULL, result_cb, &result);
  add_cut (fixture->document);
  ui_test_wait_for (result != NULL);
  g_assert_true (cav_document_save_finish (fixture->document, result, &error));
  g_assert_true (cav_document_is_unsaved (fixture->document));
}

static void
test_cannot_write (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GFile) nowhere
      = g_file_resolve_relative_path (fixture->file, "../no/such/folder.cavetto");
  g_autoptr (GFile) kept = fixture->file;
  g_autoptr (GError) error = NULL;

  add_cut (fixture->document);
  fixture->file = nowhere;
  g_assert_false (save (fixture, &error));
  fixture->file = g_steal_pointer (&kept);
  g_assert_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_WRITE);
  g_assert_true (cav_document_is_unsaved (fixture->document));
  g_assert_null (cav_document_get_file (fixture->document));
}

static void
test_cannot_read (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  add_cut (fixture->document);
  g_assert_false (load (fixture->document, fixture->file, &error));
  g_assert_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_READ);
  g_assert_nonnull (strstr (error->message, "Fern frame.cavetto"));
  g_assert_cmpuint (cav_project_get_cut_count (cav_document_get_project (fixture->document)), ==,
                    1);
}

static void
write_by_another (GFile *file)
{
  g_autoptr (GError) error = NULL;

  g_file_replace_contents (file, "changed", 7, NULL, FALSE, G_FILE_CREATE_NONE, NULL, NULL, &error);
  g_assert_no_error (error);
}

static void
test_changed_by_another (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (save (fixture, &error));
  write_by_another (fixture->file);
  ui_test_wait_for (cav_document_get_file_state (fixture->document) == CAV_FILE_CHANGED);
  g_assert_false (save (fixture, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG);
  g_clear_error (&error);

  /* Mine is kept: it is the file's content no more, and may be written. */
  cav_document_keep_mine (fixture->document);
  g_assert_cmpint (cav_document_get_file_state (fixture->document), ==, CAV_FILE_SAME);
  g_assert_true (cav_document_is_unsaved (fixture->document));
  g_assert_true (save (fixture, &error));
  g_assert_no_error (error);
  g_assert_false (cav_document_is_unsaved (fixture->document));
}

static void
test_deleted_by_another (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (save (fixture, &error));
  g_assert_true (g_file_delete (fixture->file, NULL, NULL));
  ui_test_wait_for (cav_document_get_file_state (fixture->document) == CAV_FILE_GONE);
  g_assert_true (cav_document_is_unsaved (fixture->document));
  g_assert_true (save (fixture, &error));
  g_assert_cmpint (cav_document_get_file_state (fixture->document), ==, CAV_FILE_SAME);
  g_assert_false (cav_document_is_unsaved (fixture->document));
}

/* Two windows on one file, each in a program of its own: who saves second is asked first, and
 * loses nothing that the other has written. */
static void
test_two_on_one_file (Fixture *fixture, gconstpointer data)
{
  g_autoptr (CavDocument) second = cav_document_new ();
  g_autoptr (GError) error = NULL;
  g_autofree char *first_content = NULL;
  g_autofree char *content = NULL;

  g_assert_true (save (fixture, &error));
  g_assert_true (load (second, fixture->file, &error));
  add_cut (fixture->document);
  add_cut (second);
  add_cut (second);
  g_assert_true (save (fixture, &error));
  g_assert_true (
      g_file_get_contents (g_file_peek_path (fixture->file), &first_content, NULL, NULL));
  ui_test_wait_for (cav_document_get_file_state (second) == CAV_FILE_CHANGED);
  g_assert_cmpint (cav_document_get_file_state (fixture->document), ==, CAV_FILE_SAME);

  Fixture other = { .document = second, .file = fixture->file };
  g_assert_false (save (&other, &error));
  g_assert_error (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG);
  g_clear_error (&error);
  g_assert_true (g_file_get_contents (g_file_peek_path (fixture->file), &content, NULL, NULL));
  g_assert_cmpstr (content, ==, first_content);

  /* Once it was decided that the second one's is kept, the first one hears of it. */
  cav_document_keep_mine (second);
  g_assert_true (save (&other, &error));
  g_assert_no_error (error);
  ui_test_wait_for (cav_document_get_file_state (fixture->document) == CAV_FILE_CHANGED);
}

/* Our own writing is no news. */
static void
test_saved_by_us (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  gint64 end;

  for (int i = 0; i < 3; i++)
    {
      add_cut (fixture->document);
      g_assert_true (save (fixture, &error));
    }
  end = g_get_monotonic_time () + G_USEC_PER_SEC / 2;
  while (g_get_monotonic_time () < end)
    {
      g_main_context_iteration (NULL, FALSE);
      g_assert_cmpint (cav_document_get_file_state (fixture->document), ==, CAV_FILE_SAME);
      g_usleep (1000);
    }
}

#define ADD(path_, test_)                                                                          \
  g_test_add ("/ui/document/" path_, Fixture, NULL, set_up, test_, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("fresh", test_fresh);
  ADD ("round-trip", test_round_trip);
  ADD ("edit-while-saving", test_edit_while_saving);
  ADD ("cannot-write", test_cannot_write);
  ADD ("cannot-read", test_cannot_read);
  ADD ("changed-by-another", test_changed_by_another);
  ADD ("deleted-by-another", test_deleted_by_another);
  ADD ("two-on-one-file", test_two_on_one_file);
  ADD ("saved-by-us", test_saved_by_us);
  return g_test_run ();
}
