/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document.h"
#include "storage/cav-recovery.h"
#include "storage/cav-storage.h"
#include "ui-test.h"

#include <glib/gstdio.h>

static GBytes *
create_bytes (const char *title)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_title (project, title);
  return cav_storage_project_to_bytes (project);
}

static guint
count_files (void)
{
  g_autofree char *folder = g_build_filename (g_get_user_state_dir (), "cavetto", "unsaved", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint count = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    count++;
  return count;
}

/* What a living program keeps is nobody else's; what it drops is gone. */
static void
test_keep_and_drop (void)
{
  g_autoptr (CavRecovery) place = cav_recovery_new (NULL);
  g_autoptr (GBytes) bytes = create_bytes ("Kept");
  g_autoptr (GPtrArray) lost = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *uri = NULL;

  g_assert_cmpuint (count_files (), ==, 0);
  g_assert_true (cav_recovery_keep (place, bytes, "file:///somewhere/mine.cavetto", &error));
  g_assert_true (cav_recovery_keep (place, bytes, "file:///mine.cavetto", &error));
  g_assert_no_error (error);
  uri = cav_recovery_dup_uri (place);
  g_assert_cmpstr (uri, ==, "file:///mine.cavetto");
  lost = cav_recovery_find_lost (NULL);
  g_assert_cmpuint (lost->len, ==, 0);
  cav_recovery_drop (place);
  g_assert_cmpuint (count_files (), ==, 0);

  /* After the end nothing is written any more, by a thread that is late. */
  cav_recovery_end (place);
  g_assert_true (cav_recovery_keep (place, bytes, NULL, &error));
  g_assert_cmpuint (count_files (), ==, 0);
}

/* A place whose holder has gone without a word is found, once. */
static void
test_find_lost (void)
{
  g_autoptr (GBytes) bytes = create_bytes ("Lost");
  g_autoptr (GPtrArray) lost = NULL;
  g_autoptr (GPtrArray) again = NULL;
  g_autoptr (GError) error = NULL;
  CavRecovery *place = cav_recovery_new (NULL);

  g_assert_true (cav_recovery_keep (place, bytes, NULL, &error));
  cav_recovery_unref (place);
  lost = cav_recovery_find_lost (NULL);
  g_assert_cmpuint (lost->len, ==, 1);
  again = cav_recovery_find_lost (NULL);
  g_assert_cmpuint (again->len, ==, 0);
  g_assert_null (cav_recovery_dup_uri (g_ptr_array_index (lost, 0)));
  cav_recovery_end (g_ptr_array_index (lost, 0));
  g_assert_cmpuint (count_files (), ==, 0);
}

/* A document keeps what is not saved, and takes it away when it is undone or closed. */
static void
test_document_keeps (void)
{
  CavDocument *document = cav_document_new ();
  CavProject *project = cav_document_get_project (document);

  cav_project_set_title (project, "Changed");
  ui_test_wait_for (count_files () == 2);
  cav_project_undo (project);
  g_assert_cmpuint (count_files (), ==, 0);
  cav_project_redo (project);
  ui_test_wait_for (count_files () == 2);
  ui_test_finalize (document);
  g_assert_cmpuint (count_files (), ==, 0);
}

static void
test_document_comes_back (void)
{
  g_autoptr (GBytes) bytes = create_bytes ("Before the crash");
  g_autoptr (GPtrArray) lost = NULL;
  g_autoptr (GError) error = NULL;
  CavRecovery *place = cav_recovery_new (NULL);
  CavDocument *document;

  g_assert_true (cav_recovery_keep (place, bytes, NULL, &error));
  cav_recovery_unref (place);
  lost = cav_recovery_find_lost (NULL);
  g_assert_cmpuint (lost->len, ==, 1);
  document = cav_document_new_from_recovery (g_ptr_array_index (lost, 0), &error);
  g_assert_no_error (error);
  g_clear_pointer (&lost, g_ptr_array_unref);
  g_assert_cmpstr (cav_project_get_title (cav_document_get_project (document)), ==,
                   "Before the crash");
  g_assert_true (cav_document_is_unsaved (document));
  g_assert_false (cav_document_is_fresh (document));
  g_assert_cmpuint (count_files (), ==, 2);
  ui_test_finalize (document);
  g_assert_cmpuint (count_files (), ==, 0);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/recovery/keep-and-drop", test_keep_and_drop);
  g_test_add_func ("/ui/recovery/find-lost", test_find_lost);
  g_test_add_func ("/ui/recovery/document-keeps", test_document_keeps);
  g_test_add_func ("/ui/recovery/document-comes-back", test_document_comes_back);
  return g_test_run ();
}
