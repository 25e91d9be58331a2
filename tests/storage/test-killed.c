/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-recovery.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include "storage-test.h"

/*
 * kill -9 in the middle of writing: a program writes one document after the other, each larger than
 * the one before, tells of every one that is safe, and is killed at some moment. What is found
 * after is a whole document, and no older than what was said to be safe.
 */

/* How many programs are killed in each test; the first argument, if there is one. */
static int n_kills = 100;
#define LATEST_KILL 12000 /* microseconds after the first document was safe */

typedef struct
{
  const char *folder;
  char *file;            /* that is saved to */
  CavRecovery *recovery; /* that is kept in; the writing program's own */
} Place;

/* One way to write. */
typedef gboolean (*WriteFunc) (Place *place, CavProject *project);

static gboolean
save (Place *place, CavProject *project)
{
  return cav_storage_save_project (project, place->file, NULL);
}

static gboolean
keep (Place *place, CavProject *project)
{
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);

  if (place->recovery == NULL)
    place->recovery = cav_recovery_new (place->folder);
  return cav_recovery_keep (place->recovery, bytes, "file:///home/a/fern.cavetto", NULL);
}

static gboolean
save_and_keep (Place *place, CavProject *project)
{
  return keep (place, project) && save (place, project);
}

static void
work_until_killed (Place *place, WriteFunc write_one, int out)
{
  g_autoptr (CavProject) project = cav_project_new ();

  for (guint32 i = 1;; i++)
    {
      g_autofree char *title = g_strdup_printf ("moment %u", i);
      g_autoptr (CavCut) cut = cav_cut_new ((CavCutKind)(i % CAV_CUT_DRAWN));

      cav_project_set_title (project, title);
      cav_project_add_cut (project, cut);
      if (!write_one (place, project) || write (out, &i, sizeof i) != sizeof i)
        break;
    }
  _exit (1);
}

/* The last moment that was told to be safe. */
static guint32
read_last (int in, guint32 last)
{
  guint32 next;

  while (read (in, &next, sizeof next) == sizeof next)
    last = next;
  return last;
}

/* Lets a program work and kills it. Returns what was safe by then. */
static guint32
kill_writer (Place *place, WriteFunc write_one)
{
  int ends[2], status;
  guint32 first, last;

  g_assert_cmpint (pipe (ends), ==, 0);
  pid_t child = fork ();
  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    {
      close (ends[0]);
      work_until_killed (place, write_one, ends[1]);
    }
  close (ends[1]);
  g_assert_cmpint (read (ends[0], &first, sizeof first), ==, sizeof first);
  if (write_one != save)
    {
      /* As long as it lives, what it keeps is nobody else's. */
      g_autoptr (GPtrArray) lost = cav_recovery_find_lost (place->folder);

      g_assert_cmpuint (lost->len, ==, 0);
    }
  g_usleep ((gulong)g_test_rand_int_range (0, LATEST_KILL));
  g_assert_cmpint (kill (child, SIGKILL), ==, 0);
  g_assert_cmpint (waitpid (child, &status, 0), ==, child);
  g_assert_true (WIFSIGNALED (status) && WTERMSIG (status) == SIGKILL);
  last = read_last (ends[0], first);
  close (ends[0]);
  return last;
}

/* A whole document of the last moment that was safe, or of the one that was being written. */
static void
assert_whole (const char *file, guint32 safe)
{
  guint32 found;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = cav_storage_load_project (file, &error);

  g_assert_no_error (error);
  g_assert_cmpint (sscanf (cav_project_get_title (project), "moment %u", &found), ==, 1);
  g_assert_cmpuint (found, >=, safe);
  g_assert_cmpuint (found, <=, safe + 1);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, found);
}

static void
assert_recovered (const char *folder, guint32 safe)
{
  g_autoptr (GPtrArray) lost = cav_recovery_find_lost (folder);

  g_assert_cmpuint (lost->len, ==, 1);
  CavRecovery *place = g_ptr_array_index (lost, 0);
  g_autofree char *uri = cav_recovery_dup_uri (place);

  assert_whole (cav_recovery_get_path (place), safe);
  g_assert_cmpstr (uri, ==, "file:///home/a/fern.cavetto");
  cav_recovery_end (place);
}

static void
run (WriteFunc write_one)
{
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *home = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (home, "Fern.cavetto", NULL);
  Place place = { folder, file, NULL };

  for (int i = 0; i < n_kills; i++)
    {
      guint32 safe = kill_writer (&place, write_one);

      if (write_one != keep)
        assert_whole (file, safe);
      if (write_one != save)
        assert_recovered (folder, safe);
    }
  storage_test_remove_folder (folder);
  storage_test_remove_folder (home);
}

static void
test_saving (void)
{
  run (save);
}

static void
test_keeping (void)
{
  run (keep);
}

static void
test_both (void)
{
  run (save_and_keep);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  if (argc > 1)
    n_kills = atoi (argv[1]);
  g_test_add_func ("/storage/killed/saving", test_saving);
  g_test_add_func ("/storage/killed/keeping", test_keeping);
  g_test_add_func ("/storage/killed/both", test_both);
  return g_test_run ();
}
