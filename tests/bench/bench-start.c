/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the window takes to its first frame, and what it weighs, beside an empty window of the
 * same toolkit in the same run: bench-start [RUNS]. Needs a display. The aim is a ratio of at most
 * 1.25 in time and 1.4 in memory. The empty window is an application with a name and a header bar,
 * as any other is: with a name GTK reads the icon theme once more. What comes after the first frame
 * (rings, column, menus, the plan) is in the last line, which has no aim. */
#include "app/cav-application.h"
#include "app/cav-window.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#define RUNS 9
/* After the first frame, until all that follows it has been done; planning included. */
#define REST_MS 2500

/* In the child: tells its size at the first frame, or when it rests, and ends. */

static gboolean waits_for_rest;

static long
get_resident_kib (void)
{
  g_autofree char *text = NULL;
  const char *at;

  if (!g_file_get_contents ("/proc/self/smaps_rollup", &text, NULL, NULL))
    return 0;
  at = strstr (text, "Rss:");
  return at != NULL ? strtol (at + 4, NULL, 10) : 0;
}

static void
tell_size_cb (gpointer user_data)
{
  printf ("%ld\n", get_resident_kib ());
  fflush (stdout);
  _exit (0);
}

static void
painted_cb (GdkFrameClock *clock, gpointer user_data)
{
  static gboolean is_waiting;

  if (!waits_for_rest)
    tell_size_cb (NULL);
  if (!is_waiting)
    g_timeout_add_once (REST_MS, tell_size_cb, NULL);
  is_waiting = TRUE;
}

static void
show (GtkWindow *window)
{
  gtk_widget_realize (GTK_WIDGET (window));
  g_signal_connect (gtk_widget_get_frame_clock (GTK_WIDGET (window)), "after-paint",
                    G_CALLBACK (painted_cb), NULL);
  gtk_window_present (window);
}

static void
activate_empty_cb (GtkApplication *application, gpointer user_data)
{
  GtkWidget *window = adw_application_window_new (application);

  gtk_window_set_default_size (GTK_WINDOW (window), 1200, 800);
  adw_application_window_set_content (ADW_APPLICATION_WINDOW (window), adw_header_bar_new ());
  show (GTK_WINDOW (window));
}

static void
activate_ours_cb (GtkApplication *application, gpointer user_data)
{
  g_autoptr (CavDocument) document = cav_document_new ();

  show (GTK_WINDOW (cav_window_new (application, document)));
}

static int
run_child (const char *which)
{
  g_autoptr (GtkApplication) application = NULL;

  waits_for_rest = g_str_has_suffix (which, "-rest");
  if (g_str_has_prefix (which, "empty"))
    {
      application
          = GTK_APPLICATION (adw_application_new ("org.cavetto.Empty", G_APPLICATION_NON_UNIQUE));
      g_signal_connect (application, "activate", G_CALLBACK (activate_empty_cb), NULL);
    }
  else
    {
      application = GTK_APPLICATION (cav_application_new (G_APPLICATION_NON_UNIQUE));
      g_signal_connect (application, "startup", G_CALLBACK (cav_application_register_resources),
                        NULL);
      /* Before the class's own, which would open a window of its own. */
      g_signal_connect (application, "activate", G_CALLBACK (activate_ours_cb), NULL);
    }
  return g_application_run (G_APPLICATION (application), 0, NULL);
}

/* In the parent */

static int
compare_doubles (const void *a, const void *b)
{
  double first = *(const double *)a;
  double second = *(const double *)b;

  return first < second ? -1 : first > second;
}

/* What all children so far have worked, ms. */
static double
get_work (void)
{
  struct rusage usage;

  getrusage (RUSAGE_CHILDREN, &usage);
  return (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1000.0
         + (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1000.0;
}

static void
measure (const char *self, const char *which, double *out_ms, double *out_work, double *out_mib)
{
  const char *argv[] = { self, which, NULL };
  g_autofree char *output = NULL;
  g_autoptr (GError) error = NULL;
  double work = get_work ();
  gint64 before = g_get_monotonic_time ();

  if (!g_spawn_sync (NULL, (char **)argv, NULL, G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, &output,
                     NULL, NULL, &error))
    g_error ("%s", error->message);
  *out_ms = (double)(g_get_monotonic_time () - before) / 1000.0;
  *out_work = get_work () - work;
  *out_mib = (double)strtol (output, NULL, 10) / 1024.0;
}

static void
tell (const char *what, double *values, int runs)
{
  qsort (values, (gsize)runs, sizeof *values, compare_doubles);
  qsort (values + runs, (gsize)runs, sizeof *values, compare_doubles);
  printf ("%-24s empty %7.1f, ours %7.1f, ratio %.2f (median of %d); least %7.1f, %7.1f\n", what,
          values[runs / 2], values[runs + runs / 2], values[runs + runs / 2] / values[runs / 2],
          runs, values[0], values[runs]);
}

int
main (int argc, char *argv[])
{
  int runs = RUNS;

  if (argc > 1 && (g_str_has_prefix (argv[1], "empty") || g_str_has_prefix (argv[1], "ours")))
    return run_child (argv[1]);
  if (argc > 1)
    runs = CLAMP (atoi (argv[1]), 1, 100);

  /* Of the empty window, then of ours. */
  g_autofree double *times = g_new (double, 2 * runs);
  g_autofree double *works = g_new (double, 2 * runs);
  g_autofree double *sizes = g_new (double, 2 * runs);

  for (int i = 0; i < runs; i++)
    {
      measure (argv[0], "empty", &times[i], &works[i], &sizes[i]);
      measure (argv[0], "ours", &times[runs + i], &works[runs + i], &sizes[runs + i]);
    }
  tell ("to the first frame, ms", times, runs);
  tell ("processor time, ms", works, runs);
  tell ("resident then, MiB", sizes, runs);
  for (int i = 0; i < runs; i++)
    {
      measure (argv[0], "empty-rest", &times[i], &works[i], &sizes[i]);
      measure (argv[0], "ours-rest", &times[runs + i], &works[runs + i], &sizes[runs + i]);
    }
  tell ("resident at rest, MiB", sizes, runs);
  return 0;
}
