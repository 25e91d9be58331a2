/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "storage-test.h"

/*
 * Files in tests/data/bad that must be refused, each beside a .errors file with the message that
 * says so. What a file claims to be stands at the beginning of its name. CAV_TEST_GENERATE=1
 * writes the messages anew; look at the difference before it is committed.
 */

static GError *
load (const char *file, const char *name)
{
  GError *error = NULL;
  double width, height;
  g_autofree char *text = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (file, &text, &length, &error));
  g_autoptr (GBytes) bytes = g_bytes_new (text, length);
  if (g_str_has_prefix (name, "outline-"))
    {
      g_autoptr (CavPath) path
          = cav_storage_outline_from_bytes (bytes, name, &width, &height, &error);
      g_assert_null (path);
    }
  else if (g_str_has_prefix (name, "shop-"))
    {
      g_autoptr (CavShop) shop = cav_storage_shop_from_bytes (bytes, name, &error);
      g_assert_null (shop);
    }
  else
    {
      g_autoptr (CavProject) project = cav_storage_project_from_bytes (bytes, name, &error);
      g_assert_null (project);
    }
  return error;
}

static void
test_file (gconstpointer data)
{
  const char *file = data;
  g_autofree char *name = g_path_get_basename (file);
  g_autofree char *golden = g_strconcat (file, ".errors", NULL);
  g_autofree char *expected = NULL;
  g_autoptr (GError) error = load (file, name);
  g_autoptr (GError) cause = NULL;

  g_assert_nonnull (error);
  g_assert_true (error->domain == CAV_STORAGE_ERROR);
  g_autofree char *message = g_strconcat (error->message, "\n", NULL);
  if (g_getenv ("CAV_TEST_GENERATE") != NULL)
    g_assert_true (g_file_set_contents (golden, message, -1, &cause));
  g_assert_true (g_file_get_contents (golden, &expected, NULL, &cause));
  g_assert_cmpstr (message, ==, expected);

  /* One line: file, line, what is wrong; then what to do. */
  g_autofree char *place = g_strconcat (name, ":", NULL);
  g_assert_true (g_str_has_prefix (error->message, place));
  g_assert_true (g_ascii_isdigit (error->message[strlen (place)]));
  g_assert_cmpint (strlen (error->message), <, 250);
  g_assert_true (strpbrk (error->message, ";:") != NULL);
}

static int
compare_cb (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

int
main (int argc, char *argv[])
{
  g_autofree char *folder = g_build_filename (CAV_TEST_DATA, "bad", NULL);
  g_autoptr (GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  storage_test_init (&argc, &argv);
  GDir *dir = g_dir_open (folder, 0, NULL);
  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml") || g_str_has_suffix (name, ".svg"))
      g_ptr_array_add (files, g_build_filename (folder, name, NULL));
  g_dir_close (dir);
  g_assert_cmpuint (files->len, >=, 30);
  g_ptr_array_sort (files, compare_cb);
  for (guint i = 0; i < files->len; i++)
    {
      g_autofree char *base = g_path_get_basename (g_ptr_array_index (files, i));
      g_autofree char *path = g_strconcat ("/storage/bad/", base, NULL);
      g_test_add_data_func (path, g_ptr_array_index (files, i), test_file);
    }
  return g_test_run ();
}
