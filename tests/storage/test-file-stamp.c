/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-file-stamp.h"

#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "storage-test.h"

static void
write_file (const char *file, const char *text)
{
  g_assert_true (cav_storage_write (file, text, strlen (text), NULL));
}

/* Writes into the file that is there, and sets its time back to what it was. */
static void
write_in_place (const char *file, const char *text, gboolean keep_time)
{
  struct stat before;
  int fd = open (file, O_WRONLY | O_TRUNC);

  g_assert_cmpint (fd, >=, 0);
  g_assert_cmpint (fstat (fd, &before), ==, 0);
  g_assert_cmpint (write (fd, text, strlen (text)), ==, (gssize)strlen (text));
  const struct timespec times[] = { before.st_atim, before.st_mtim };
  if (keep_time)
    g_assert_cmpint (futimens (fd, times), ==, 0);
  close (fd);
}

static void
test_stamp (void)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "a.cavetto", NULL);
  g_autofree char *link = g_build_filename (folder, "link.cavetto", NULL);
  CavFileStamp none = cav_file_stamp_take (file);
  CavFileStamp stamp;

  g_assert_false (none.exists);
  g_assert_cmpint (cav_file_stamp_compare (&none, file), ==, CAV_FILE_SAME);
  write_file (file, "one");
  g_assert_cmpint (cav_file_stamp_compare (&none, file), ==, CAV_FILE_CHANGED);
  stamp = cav_file_stamp_take (file);
  g_assert_true (stamp.exists);
  g_assert_cmpint (stamp.size, ==, 3);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_SAME);

  /* Replaced by another file with the same content and as large. */
  write_file (file, "one");
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_CHANGED);
  stamp = cav_file_stamp_take (file);
  /* Longer, in place, at the same time of day. */
  write_in_place (file, "longer", TRUE);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_CHANGED);
  stamp = cav_file_stamp_take (file);
  /* As long, in place, a moment later. */
  g_usleep (20000);
  write_in_place (file, "rewrit", FALSE);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_CHANGED);

  /* A link shows the file that it leads to. */
  g_assert_cmpint (symlink ("a.cavetto", link), ==, 0);
  stamp = cav_file_stamp_take (link);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_SAME);
  g_assert_cmpint (g_remove (file), ==, 0);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, file), ==, CAV_FILE_GONE);
  g_assert_cmpint (cav_file_stamp_compare (&stamp, link), ==, CAV_FILE_GONE);
  storage_test_remove_folder (folder);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/file-stamp/stamp", test_stamp);
  return g_test_run ();
}
