/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* A window that tells on its standard output how much memory its program has, KiB, and ends it.
 * In a header, for the empty window shares no library with ours. */

/* A window is at rest when its program has worked so little in so long. */
#define BENCH_STEP_MS 2500
#define BENCH_QUIET_MS 50

static inline long
bench_get_resident_kib (void)
{
  g_autofree char *text = NULL;
  const char *at;

  if (!g_file_get_contents ("/proc/self/smaps_rollup", &text, NULL, NULL))
    return 0;
  at = strstr (text, "Rss:");
  return at != NULL ? strtol (at + 4, NULL, 10) : 0;
}

static inline void
bench_tell (void)
{
  printf ("%ld\n", bench_get_resident_kib ());
  fflush (stdout);
  _exit (0);
}

/* What all threads have worked. */
static inline double
bench_get_work_ms (void)
{
  return (double)clock () * 1000.0 / CLOCKS_PER_SEC;
}

static inline gboolean
bench_look_cb (gpointer user_data)
{
  double *before = user_data;
  double now = bench_get_work_ms ();

  if (now - *before < BENCH_QUIET_MS)
    bench_tell ();
  *before = now;
  return G_SOURCE_CONTINUE;
}

static inline void
bench_painted_cb (GdkFrameClock *clock, gpointer user_data)
{
  static gboolean is_waiting;
  static double before;

  if (!GPOINTER_TO_INT (user_data))
    bench_tell ();
  if (!is_waiting)
    {
      before = bench_get_work_ms ();
      g_timeout_add (BENCH_STEP_MS, bench_look_cb, &before);
    }
  is_waiting = TRUE;
}

/* Tells at the first frame, or when the window rests. */
static inline void
bench_show (GtkWindow *window, gboolean at_rest)
{
  gtk_widget_realize (GTK_WIDGET (window));
  g_signal_connect (gtk_widget_get_frame_clock (GTK_WIDGET (window)), "after-paint",
                    G_CALLBACK (bench_painted_cb), GINT_TO_POINTER (at_rest));
  gtk_window_present (window);
}
