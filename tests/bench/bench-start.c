/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the window takes to its first frame, and what it weighs, beside an empty window of the
 * same toolkit in the same run: bench-start EMPTY [RUNS], where EMPTY is the program bench-empty.
 * Needs a display. The aim is a ratio of at most 1.25 in time and 1.4 in memory. What comes after
 * the first frame (rings, column, the plan) is in the last line: there, everything is done, and
 * nothing has happened for a while. */
#include "app/cav-application.h"
#include "app/cav-window.h"
#include "bench-first-frame.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>

#define RUNS 9

/* In the child */

static void
activate_cb (GtkApplication *application, gpointer user_data)
{
  g_autoptr (CavDocument) document = cav_document_new ();

  bench_show (GTK_WINDOW (cav_window_new (application, document)), user_data != NULL);
}

static int
run_child (const char *which)
{
  gboolean rests = g_str_equal (which, "rest");
  g_autoptr (GtkApplication) application
      = GTK_APPLICATION (cav_application_new (G_APPLICATION_NON_UNIQUE));

  g_signal_connect (application, "startup", G_CALLBACK (cav_application_register_resources), NULL);
  /* Before the class's own, which would open a window of its own. */
  g_signal_connect (application, "activate", G_CALLBACK (activate_cb), rests ? application : NULL);
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

  if (argc > 1 && (g_str_equal (argv[1], "frame") || g_str_equal (argv[1], "rest")))
    return run_child (argv[1]);
  if (argc < 2)
    {
      fprintf (stderr, "usage: bench-start EMPTY [RUNS]\n");
      return 2;
    }
  if (argc > 2)
    runs = CLAMP (atoi (argv[2]), 1, 100);

  /* Of the empty window, then of ours. */
  g_autofree double *times = g_new (double, 2 * runs);
  g_autofree double *works = g_new (double, 2 * runs);
  g_autofree double *sizes = g_new (double, 2 * runs);

  for (int i = 0; i < runs; i++)
    {
      measure (argv[1], "frame", &times[i], &works[i], &sizes[i]);
      measure (argv[0], "frame", &times[runs + i], &works[runs + i], &sizes[runs + i]);
    }
  tell ("to the first frame, ms", times, runs);
  tell ("processor time, ms", works, runs);
  tell ("resident then, MiB", sizes, runs);
  for (int i = 0; i < runs; i++)
    {
      measure (argv[1], "rest", &times[i], &works[i], &sizes[i]);
      measure (argv[0], "rest", &times[runs + i], &works[runs + i], &sizes[runs + i]);
    }
  tell ("resident at rest, MiB", sizes, runs);
  return 0;
}
