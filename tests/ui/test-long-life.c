/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A working day in the window: sittings in which a project is opened, its numbers are changed, its
 * pages looked at, all is undone and redone, and the window closed again. What a sitting took has
 * to be given back: windows and documents, threads, open files, memory. CAV_SITTINGS sets how many;
 * eight hours at a sitting of three minutes are 160.
 */
#include <malloc.h>
#include <stdlib.h>
#include <string.h>

#include "app/cav-frame-page.h"
#include "app/cav-window.h"
#include "ui-test.h"

#define USUAL_SITTINGS 3
#define EDITS 16
/* The first sittings fill caches: fonts, icons, style, the pool of threads. */
#define WARM_UP 1
/* What a sitting may add to memory, kB: a tenth of one picture of the preview. Found: 45
 * to 75, most of it the allocator's own lists of free pieces; a trace of every allocation gives 8.
 */
#define GROWTH 150
/* The pool gives threads back late, and takes at most as many as it has before. */
#define SPARE_THREADS 3
#define SPARE_FILES 2

typedef struct
{
  long used;     /* kB that are allocated and not given back */
  long resident; /* kB, with what the allocator keeps in reserve: for information */
  long threads;
  guint files;
  guint windows;
} Level;

static long
read_status (const char *name)
{
  g_autofree char *text = NULL;
  const char *line;

  g_assert_true (g_file_get_contents ("/proc/self/status", &text, NULL, NULL));
  line = strstr (text, name);
  g_assert_nonnull (line);
  return strtol (line + strlen (name), NULL, 10);
}

static guint
count_files (void)
{
  g_autoptr (GDir) dir = g_dir_open ("/proc/self/fd", 0, NULL);
  guint count = 0;

  while (g_dir_read_name (dir) != NULL)
    count++;
  return count;
}

static Level
measure (void)
{
  struct mallinfo2 heap = mallinfo2 ();

  return (Level){ .used = (long)((heap.uordblks + heap.hblkhd) / 1024),
                  .resident = read_status ("VmRSS:"),
                  .threads = read_status ("Threads:"),
                  .files = count_files (),
                  .windows = g_list_model_get_n_items (gtk_window_get_toplevels ()) };
}

static void
let_pass (guint ms)
{
  gint64 end = g_get_monotonic_time () + (gint64)ms * 1000;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (500);
}

/* Blank and picture get other sizes in turn, and somebody looks at another page. */
static void
edit (GtkWidget *window, CavProject *project, int i)
{
  static const char *const pages[] = { "molding", "frame", "lumber" };
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (CavFrameSettings) settings
      = cav_frame_settings_copy (cav_project_get_frame_settings (project));

  if (i % 2 == 0)
    {
      blank.width += i % 4 == 0 ? 1.0 : -1.0;
      cav_project_set_blank (project, blank);
    }
  else
    {
      settings->picture_width += i % 4 == 1 ? 7.0 : -7.0;
      settings->light_angle += 10.0;
      cav_project_set_frame_settings (project, settings);
    }
  if (i % 4 == 0)
    gtk_widget_activate_action (window, "win.show-page", "s", pages[i / 4 % 3]);
  let_pass (20);
}

static void
sit (const char *example)
{
  CavDocument *document = ui_test_open_example (example);
  CavProject *project = cav_document_get_project (document);
  CavPlanRunner *runner = cav_document_get_runner (document);
  CavWindow *window = cav_window_new (ui_test_get_application (), document);
  gpointer watched_document = document;
  gpointer watched_window = window;

  g_object_add_weak_pointer (G_OBJECT (document), &watched_document);
  g_object_add_weak_pointer (G_OBJECT (window), &watched_window);
  gtk_window_set_default_size (GTK_WINDOW (window), 1000, 700);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  for (int i = 0; i < EDITS; i++)
    edit (GTK_WIDGET (window), project, i);
  while (cav_project_undo (project))
    continue;
  while (cav_project_redo (project))
    continue;
  ui_test_wait_for (cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_STALE);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (document);
  ui_test_settle ();
  /* Workers that were under way hold what they work on until they have seen that nobody waits. */
  ui_test_wait_for (watched_document == NULL && watched_window == NULL);
}

static void
test_sittings (void)
{
  static const char *const examples[]
      = { "plain-steps.cavetto", "cove-and-bead.cavetto", "wide-scoop.cavetto" };
  const char *given = g_getenv ("CAV_SITTINGS");
  int n_sittings = given != NULL ? atoi (given) : USUAL_SITTINGS;
  Level before = { 0 };
  Level after = { 0 };

  g_assert_cmpint (n_sittings, >, 0);
  for (int i = -WARM_UP * (int)G_N_ELEMENTS (examples); i < n_sittings; i++)
    {
      if (i == 0)
        before = measure ();
      sit (examples[(i + WARM_UP * (int)G_N_ELEMENTS (examples)) % (int)G_N_ELEMENTS (examples)]);
      after = measure ();
      g_test_message ("sitting %d: %ld kB used, %ld kB resident, %ld threads, %u files, %u windows",
                      i, after.used, after.resident, after.threads, after.files, after.windows);
    }
  /* A worker that nobody waits for any more takes a while to see it and to end. */
  ui_test_wait_for (measure ().threads <= before.threads + SPARE_THREADS);
  after = measure ();
  g_assert_cmpuint (after.windows, ==, 0);
  g_assert_cmpint (after.threads, <=, before.threads + SPARE_THREADS);
  g_assert_cmpuint (after.files, <=, before.files + SPARE_FILES);
  g_assert_cmpint (after.used, <=, before.used + GROWTH * MAX (n_sittings, 8));
}

int
main (int argc, char **argv)
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/long-life/sittings", test_sittings);
  return g_test_run ();
}
