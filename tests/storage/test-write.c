/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <glib/gstdio.h>

#include "storage-test.h"

typedef struct
{
  char *folder;
  char *file;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->folder = storage_test_make_folder ();
  fixture->file = g_build_filename (fixture->folder, "out.xml", NULL);
}

/* Takes the folder away, which fails where anything is left behind but what the test knows. */
static void
tear_down (Fixture *fixture, gconstpointer data)
{
  storage_test_remove_folder (fixture->folder);
  g_free (fixture->folder);
  g_free (fixture->file);
}

static void
write_good (const char *file, const char *text)
{
  GError *error = NULL;

  g_assert_true (cav_storage_write (file, text, strlen (text), &error));
  g_assert_no_error (error);
}

static void
write_bad (const char *file, const char *part)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (cav_storage_write (file, "new", 3, &error));
  storage_test_assert_error (error, CAV_STORAGE_ERROR_WRITE, part);
}

static void
assert_content (const char *file, const char *text)
{
  GError *error = NULL;
  g_autofree char *content = NULL;

  g_assert_true (g_file_get_contents (file, &content, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (content, ==, text);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static guint
get_mode (const char *file)
{
  struct stat status;

  g_assert_cmpint (stat (file, &status), ==, 0);
  return status.st_mode & 07777;
}

static void
test_new_file (Fixture *fixture, gconstpointer data)
{
  mode_t mask = umask (027);

  write_good (fixture->file, "text");
  umask (mask);
  assert_content (fixture->file, "text");
  g_assert_cmpuint (get_mode (fixture->file), ==, 0640);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

static void
test_empty_file (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;

  g_assert_true (cav_storage_write (fixture->file, NULL, 0, &error));
  assert_content (fixture->file, "");
}

static void
test_replaces (Fixture *fixture, gconstpointer data)
{
  g_autofree char *long_text = g_strnfill (300000, 'x');

  write_good (fixture->file, long_text);
  g_assert_cmpint (chmod (fixture->file, 0604), ==, 0);
  write_good (fixture->file, "short");
  assert_content (fixture->file, "short");
  g_assert_cmpuint (get_mode (fixture->file), ==, 0604);
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

/* Whoever still has the old file open sees all of it: it was replaced, not written over. */
static void
test_old_file_stays_whole (Fixture *fixture, gconstpointer data)
{
  char buffer[10] = "";

  write_good (fixture->file, "old");
  int fd = open (fixture->file, O_RDONLY);
  g_assert_cmpint (fd, >=, 0);
  write_good (fixture->file, "newer");
  g_assert_cmpint (read (fd, buffer, sizeof buffer - 1), ==, 3);
  g_assert_cmpstr (buffer, ==, "old");
  close (fd);
}

static void
test_links (Fixture *fixture, gconstpointer data)
{
  g_autofree char *link = g_build_filename (fixture->folder, "link", NULL);
  g_autofree char *chain = g_build_filename (fixture->folder, "chain", NULL);
  g_autofree char *circle = g_build_filename (fixture->folder, "circle", NULL);

  g_assert_cmpint (symlink ("out.xml", link), ==, 0);
  g_assert_cmpint (symlink (link, chain), ==, 0);
  g_assert_cmpint (symlink ("circle", circle), ==, 0);

  write_good (chain, "through a link to nothing");
  assert_content (fixture->file, "through a link to nothing");
  write_good (link, "again");
  assert_content (fixture->file, "again");
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (chain, G_FILE_TEST_IS_SYMLINK));
  g_assert_false (g_file_test (fixture->file, G_FILE_TEST_IS_SYMLINK));
  write_bad (circle, "circle: cannot be written");
}

static void
test_bare_name (Fixture *fixture, gconstpointer data)
{
  g_autofree char *here = g_get_current_dir ();

  g_assert_cmpint (g_chdir (fixture->folder), ==, 0);
  write_good ("bare", "text");
  write_good ("./bare", "text again");
  g_assert_cmpint (g_chdir (here), ==, 0);
  g_autofree char *file = g_build_filename (fixture->folder, "bare", NULL);
  assert_content (file, "text again");
}

static void
test_wrong_places (Fixture *fixture, gconstpointer data)
{
  g_autofree char *missing = g_build_filename (fixture->folder, "no", "out.xml", NULL);
  g_autofree char *below = g_build_filename (fixture->file, "out.xml", NULL);
  g_autofree char *slash = g_strconcat (fixture->file, "/", NULL);
  g_autofree char *stem = g_strnfill (300, 'n');
  g_autofree char *lengthy = g_build_filename (fixture->folder, stem, NULL);

  write_good (fixture->file, "old");
  write_bad (missing, "no/out.xml: cannot be written (No such file or directory); make the folder");
  write_bad (below, "(Not a directory); a part of the name is a file");
  write_bad (slash, "(Is a directory); this is a folder; name a file in it");
  write_bad (fixture->folder, "(Is a directory); this is a folder; name a file in it");
  write_bad (lengthy, "choose a shorter name");
  write_bad ("", "cannot be written");
  write_bad ("/proc/cavetto-test", "/proc/cavetto-test: cannot be written");
  write_bad ("/dev/fd/987", "/dev/fd/987: cannot be written");
  assert_content (fixture->file, "old");
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

/* What is under /sys belongs to the system even where we are root. */
static void
test_read_only (Fixture *fixture, gconstpointer data)
{
  if (geteuid () != 0)
    {
      write_good (fixture->file, "old");
      g_assert_cmpint (chmod (fixture->file, 0444), ==, 0);
      write_bad (fixture->file, "(Permission denied); choose a file and folder that you may write");
      assert_content (fixture->file, "old");
    }
  write_bad ("/sys/cavetto-test", "/sys/cavetto-test: cannot be written");
}

static void
test_full_disk (Fixture *fixture, gconstpointer data)
{
  g_autofree char *link = g_build_filename (fixture->folder, "link", NULL);

  write_bad ("/dev/full", "/dev/full: cannot be written (No space left on device); make room");
  g_assert_cmpint (symlink ("/dev/full", link), ==, 0);
  write_bad (link, "link: cannot be written (No space left on device); make room");
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

/* A disk that fills up in the middle: no file may grow beyond 4096 bytes while it is written. */
static void
test_half_written (Fixture *fixture, gconstpointer data)
{
  struct rlimit old_limit, limit;
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_strnfill (100000, 'x');

  write_good (fixture->file, "old");
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &old_limit), ==, 0);
  limit = old_limit;
  limit.rlim_cur = 4096;
  void (*old_handler) (int) = signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &limit), ==, 0);
  gboolean good = cav_storage_write (fixture->file, text, strlen (text), &error);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &old_limit), ==, 0);
  signal (SIGXFSZ, old_handler);

  g_assert_false (good);
  storage_test_assert_error (error, CAV_STORAGE_ERROR_WRITE, "(File too large); make room");
  assert_content (fixture->file, "old");
  g_assert_cmpuint (count_files (fixture->folder), ==, 1);
}

static void
test_device (Fixture *fixture, gconstpointer data)
{
  struct stat status;

  write_good ("/dev/null", "gone");
  g_assert_cmpint (stat ("/dev/null", &status), ==, 0);
  g_assert_true (S_ISCHR (status.st_mode));
}

/* Runs a function with standard output on fd. */
static gboolean
write_with_output (int fd, const char *name, const char *text, GError **error)
{
  fflush (stdout);
  int saved = dup (STDOUT_FILENO);
  g_assert_cmpint (saved, >=, 0);
  g_assert_cmpint (dup2 (fd, STDOUT_FILENO), >=, 0);
  gboolean good = cav_storage_write (name, text, strlen (text), error);
  g_assert_cmpint (dup2 (saved, STDOUT_FILENO), >=, 0);
  close (saved);
  return good;
}

/* Both names, to a file that the shell would append to. */
static void
test_standard_output (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;

  g_assert_true (g_file_set_contents (fixture->file, "before ", -1, &error));
  int fd = open (fixture->file, O_WRONLY | O_APPEND);
  g_assert_cmpint (fd, >=, 0);
  g_assert_true (write_with_output (fd, "-", "first ", &error));
  g_assert_true (write_with_output (fd, "/dev/stdout", "second", &error));
  close (fd);
  assert_content (fixture->file, "before first second");
}

static void
test_full_output (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) dash = NULL, device = NULL;
  int fd = open ("/dev/full", O_WRONLY);

  g_assert_cmpint (fd, >=, 0);
  g_assert_false (write_with_output (fd, "-", "text", &dash));
  storage_test_assert_error (dash, CAV_STORAGE_ERROR_WRITE,
                             "standard output: cannot be written (No space left on device)");
  g_assert_false (write_with_output (fd, "/dev/stdout", "text", &device));
  storage_test_assert_error (device, CAV_STORAGE_ERROR_WRITE, "/dev/stdout: cannot be written");
  close (fd);
}

/* Project and shop by their own functions, to a file and back. */
static void
test_save_and_load (Fixture *fixture, gconstpointer data)
{
  GError *error = NULL;
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  g_autofree char *shop_file = g_build_filename (fixture->folder, "shop.xml", NULL);

  cav_project_set_title (project, "Ferns");
  g_assert_true (cav_storage_save_project (project, fixture->file, &error));
  g_autoptr (CavProject) project_again = cav_storage_load_project (fixture->file, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (cav_project_get_title (project_again), ==, "Ferns");

  g_assert_true (cav_storage_save_shop (shop, shop_file, &error));
  g_autoptr (CavShop) shop_again = cav_storage_load_shop (shop_file, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (shop_again->cutters->len, ==, shop->cutters->len);
}

/* What could not be read back is not written over what can. */
static void
test_too_large (Fixture *fixture, gconstpointer data)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_project_new ();
  g_autofree char *notes = g_strnfill (CAV_STORAGE_MAX_BYTES, 'x');

  write_good (fixture->file, "old");
  cav_project_set_notes (project, notes);
  g_assert_false (cav_storage_save_project (project, fixture->file, &error));
  storage_test_assert_error (error, CAV_STORAGE_ERROR_TOO_LARGE, "out.xml: not written");
  assert_content (fixture->file, "old");
}

static void
assert_not_read (const char *file, CavStorageError code, const char *part)
{
  double width, height;
  g_autoptr (GError) project = NULL, shop = NULL, outline = NULL;

  g_assert_null (cav_storage_load_project (file, &project));
  storage_test_assert_error (project, code, part);
  g_assert_null (cav_storage_load_shop (file, &shop));
  storage_test_assert_error (shop, code, part);
  g_assert_null (cav_storage_load_outline (file, &width, &height, &outline));
  storage_test_assert_error (outline, code, part);
}

static void
test_not_read (Fixture *fixture, gconstpointer data)
{
  assert_not_read (fixture->file, CAV_STORAGE_ERROR_READ,
                   "out.xml: cannot be read (No such file or directory); check the name");
  assert_not_read (fixture->folder, CAV_STORAGE_ERROR_READ,
                   "cannot be read (Is a directory); name a file in it");
  assert_not_read ("/proc/self/mem", CAV_STORAGE_ERROR_READ, "check who may read it");
  assert_not_read ("/dev/null", CAV_STORAGE_ERROR_NOT_XML, "/dev/null:1: not readable as XML (the");
  assert_not_read ("/dev/zero", CAV_STORAGE_ERROR_TOO_LARGE, "/dev/zero: larger than 10 MB");
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
#define ADD(name, func) g_test_add ("/storage/write/" name, Fixture, NULL, set_up, func, tear_down)
  ADD ("new-file", test_new_file);
  ADD ("empty-file", test_empty_file);
  ADD ("replaces", test_replaces);
  ADD ("old-file-stays-whole", test_old_file_stays_whole);
  ADD ("links", test_links);
  ADD ("bare-name", test_bare_name);
  ADD ("wrong-places", test_wrong_places);
  ADD ("read-only", test_read_only);
  ADD ("full-disk", test_full_disk);
  ADD ("half-written", test_half_written);
  ADD ("device", test_device);
  ADD ("standard-output", test_standard_output);
  ADD ("full-output", test_full_output);
  ADD ("save-and-load", test_save_and_load);
  ADD ("too-large", test_too_large);
  ADD ("not-read", test_not_read);
#undef ADD
  return g_test_run ();
}
