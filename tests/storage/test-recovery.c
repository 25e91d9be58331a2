/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-recovery.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "storage-test.h"

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

/* (transfer full) The bytes of a project of that title. */
static GBytes *
create_bytes (const char *title)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavCut) cove = cav_cut_new (CAV_CUT_COVE);

  cav_project_set_title (project, title);
  cav_project_add_cut (project, cove);
  return cav_storage_project_to_bytes (project);
}

static void
keep (CavRecovery *place, const char *title, const char *uri)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = create_bytes (title);

  g_assert_true (cav_recovery_keep (place, bytes, uri, &error));
  g_assert_no_error (error);
}

static void
assert_title (CavRecovery *place, const char *title)
{
  GError *error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (cav_recovery_get_path (place), &error);

  g_assert_no_error (error);
  g_assert_cmpstr (cav_project_get_title (project), ==, title);
}

static void
test_folder (void)
{
  g_autofree char *folder = cav_recovery_dup_folder ();
  g_autoptr (CavRecovery) place = cav_recovery_new (NULL);

  g_assert_true (g_str_has_prefix (folder, g_get_user_state_dir ()));
  g_assert_true (g_str_has_suffix (folder, "/cavetto/unsaved"));
  g_assert_true (g_str_has_prefix (cav_recovery_get_path (place), folder));
}

static void
test_keep_drop_end (void)
{
  g_autofree char *parent = storage_test_make_folder ();
  g_autofree char *folder = g_build_filename (parent, "state", "unsaved", NULL);
  g_autofree char *between = g_build_filename (parent, "state", NULL);
  g_autoptr (CavRecovery) place = cav_recovery_new (folder);
  struct stat seen;

  g_assert_cmpuint (count_files (parent), ==, 0);
  keep (place, "Fern", "file:///a/fern.cavetto");
  g_assert_cmpint (stat (folder, &seen), ==, 0);
  g_assert_cmpuint (seen.st_mode & 0777, ==, 0700);
  g_assert_cmpuint (count_files (folder), ==, 2);
  keep (place, "Fern, wider", NULL);
  g_assert_cmpuint (count_files (folder), ==, 2);
  assert_title (place, "Fern, wider");
  g_assert_cmpint (cav_recovery_get_time (place), >, 0);
  cav_recovery_drop (place);
  g_assert_cmpuint (count_files (folder), ==, 0);
  g_assert_cmpint (cav_recovery_get_time (place), ==, 0);
  keep (place, "Fern", NULL);
  g_assert_cmpuint (count_files (folder), ==, 2);
  cav_recovery_end (place);
  /* After the end nothing is written any more, by a thread that is late. */
  keep (place, "Fern", NULL);
  g_assert_cmpuint (count_files (folder), ==, 0);
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_assert_cmpint (g_rmdir (between), ==, 0);
  storage_test_remove_folder (parent);
}

/* While the document is open nobody is offered its file, not even this program. */
static void
test_open_is_not_found (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autoptr (CavRecovery) place = cav_recovery_new (folder);
  g_autoptr (GPtrArray) lost = NULL;

  keep (place, "Fern", "file:///home/a/fern.cavetto");
  lost = cav_recovery_find_lost (folder);
  g_assert_cmpuint (lost->len, ==, 0);
  g_assert_cmpuint (count_files (folder), ==, 2);
  cav_recovery_end (place);
  storage_test_remove_folder (folder);
}

static void
test_left_behind (void)
{
  static const char *const uris[] = { NULL, "file:///home/a/fern.cavetto",
                                      "file:///home/a/--> two -- \xc3\xa4 & <b>%20.cavetto" };
  g_autofree char *folder = storage_test_make_folder ();
  gint64 before = g_get_real_time ();
  g_autoptr (GPtrArray) lost = NULL;
  g_autoptr (GPtrArray) again = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (uris); i++)
    {
      g_autoptr (CavRecovery) place = cav_recovery_new (folder);
      g_autofree char *title = g_strdup_printf ("project %u", i);

      g_usleep (2000);
      keep (place, title, uris[i]);
    }
  lost = cav_recovery_find_lost (folder);
  g_assert_cmpuint (lost->len, ==, G_N_ELEMENTS (uris));
  for (guint i = 0; i < lost->len; i++)
    {
      CavRecovery *place = g_ptr_array_index (lost, i);
      guint number = lost->len - 1 - i;
      g_autofree char *title = g_strdup_printf ("project %u", number);
      g_autofree char *uri = cav_recovery_dup_uri (place);

      assert_title (place, title);
      g_assert_cmpstr (uri, ==, uris[number]);
      g_assert_cmpint (cav_recovery_get_time (place), >=, before);
      g_assert_cmpint (cav_recovery_get_time (place), <=, g_get_real_time ());
    }
  /* Who has found them first has them; nobody else does. */
  again = cav_recovery_find_lost (folder);
  g_assert_cmpuint (again->len, ==, 0);

  /* One goes on being edited and is closed; one is discarded; one is left for later. */
  g_autoptr (CavRecovery) adopted = cav_recovery_ref (g_ptr_array_index (lost, 0));
  cav_recovery_end (g_ptr_array_index (lost, 1));
  g_clear_pointer (&lost, g_ptr_array_unref);
  keep (adopted, "edited", NULL);
  g_assert_cmpuint (count_files (folder), ==, 4);
  cav_recovery_end (adopted);
  g_assert_cmpuint (count_files (folder), ==, 2);
  lost = cav_recovery_find_lost (folder);
  g_assert_cmpuint (lost->len, ==, 1);
  assert_title (g_ptr_array_index (lost, 0), "project 0");
  cav_recovery_end (g_ptr_array_index (lost, 0));
  storage_test_remove_folder (folder);
}

static void
put (const char *folder, const char *name, const char *text)
{
  g_autofree char *file = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
}

/* Foreign and broken files: found, or passed over, and never a crash. */
static void
test_odd_files (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *nowhere = g_build_filename (folder, "nowhere", NULL);
  g_autoptr (GPtrArray) none = cav_recovery_find_lost (nowhere);
  g_autoptr (GPtrArray) lost = NULL;

  g_assert_cmpuint (none->len, ==, 0);
  put (folder, "note.txt", "not ours");
  put (folder, "broken.cavetto", "<?xml version=\"1.0\"?>\n<!-- cavetto-recovery time=x -->\n<cav");
  put (folder, "empty.cavetto", "");
  put (folder, "stale.lock", "");
  lost = cav_recovery_find_lost (folder);
  g_assert_cmpuint (lost->len, ==, 2);
  for (guint i = 0; i < lost->len; i++)
    {
      CavRecovery *place = g_ptr_array_index (lost, i);
      g_autofree char *uri = cav_recovery_dup_uri (place);
      g_autoptr (GError) error = NULL;

      g_assert_null (uri);
      g_assert_cmpint (cav_recovery_get_time (place), >, 0);
      g_assert_null (cav_storage_load_project (cav_recovery_get_path (place), &error));
      storage_test_assert_error (error, CAV_STORAGE_ERROR_NOT_XML, ".cavetto");
      cav_recovery_end (place);
    }
  /* The lock of nobody is gone, the note is still there. */
  g_assert_cmpuint (count_files (folder), ==, 1);
  storage_test_remove_folder (folder);
}

/* What a broken-off write leaves is cleared away once it is surely nobody's. */
static void
test_temporary_files (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *old = g_build_filename (folder, ".cavetto-abcdef", NULL);
  g_autoptr (GPtrArray) lost = NULL;
  const struct timespec times[] = { { .tv_sec = 1000000000 }, { .tv_sec = 1000000000 } };

  put (folder, ".cavetto-abcdef", "half");
  put (folder, ".cavetto-ghijkl", "half");
  g_assert_cmpint (utimensat (AT_FDCWD, old, times, 0), ==, 0);
  lost = cav_recovery_find_lost (folder);
  g_assert_cmpuint (lost->len, ==, 0);
  g_assert_cmpuint (count_files (folder), ==, 1);
  storage_test_remove_folder (folder);
}

static void
test_cannot_write (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "file", NULL);
  g_autofree char *below = g_build_filename (file, "recovery", NULL);
  g_autoptr (CavRecovery) place = cav_recovery_new (below);
  g_autoptr (GBytes) bytes = create_bytes ("Fern");
  g_autoptr (GError) error = NULL;

  put (folder, "file", "");
  g_assert_false (cav_recovery_keep (place, bytes, NULL, &error));
  storage_test_assert_error (error, CAV_STORAGE_ERROR_WRITE, "unsaved work cannot be kept");
  storage_test_remove_folder (folder);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/recovery/folder", test_folder);
  g_test_add_func ("/storage/recovery/keep-drop-end", test_keep_drop_end);
  g_test_add_func ("/storage/recovery/open-is-not-found", test_open_is_not_found);
  g_test_add_func ("/storage/recovery/left-behind", test_left_behind);
  g_test_add_func ("/storage/recovery/odd-files", test_odd_files);
  g_test_add_func ("/storage/recovery/temporary-files", test_temporary_files);
  g_test_add_func ("/storage/recovery/cannot-write", test_cannot_write);
  return g_test_run ();
}
