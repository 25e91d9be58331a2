/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-parallel.h"

/* More helpers than this are not worth their start for jobs of a millisecond. */
#define MOST_HELPERS 3

/* Helpers may come when all is done, and the caller gone: the last one clears away. */
typedef struct
{
  CavJobFunc func;
  gpointer data; /* the caller's, who waits for every job that was begun */
  int n;
  int next;  /* atomic */
  int users; /* atomic */
  GMutex mutex;
  GCond done;
  int n_done; /* under the mutex */
} Jobs;

static void
jobs_unref (Jobs *jobs)
{
  if (!g_atomic_int_dec_and_test (&jobs->users))
    return;
  g_mutex_clear (&jobs->mutex);
  g_cond_clear (&jobs->done);
  g_free (jobs);
}

static void
do_jobs (Jobs *jobs)
{
  int job, n_done = 0;

  while ((job = g_atomic_int_add (&jobs->next, 1)) < jobs->n)
    {
      jobs->func (jobs->data, job);
      n_done++;
    }
  if (n_done == 0)
    return;
  g_mutex_lock (&jobs->mutex);
  jobs->n_done += n_done;
  if (jobs->n_done == jobs->n)
    g_cond_signal (&jobs->done);
  g_mutex_unlock (&jobs->mutex);
}

static void
help_cb (gpointer data, gpointer user_data)
{
  Jobs *jobs = data;

  do_jobs (jobs);
  jobs_unref (jobs);
}

/* Helpers that wait for work are at it sooner than those that are started for it. */
static GThreadPool *
get_helpers (void)
{
  static gsize helpers;

  if (g_once_init_enter (&helpers))
    g_once_init_leave (&helpers,
                       (gsize)g_thread_pool_new (help_cb, NULL, MOST_HELPERS, FALSE, NULL));
  return (GThreadPool *)helpers;
}

/* Asking for the number of processors opens files. */
static int
get_most_helpers (void)
{
  static gsize processors;

  if (g_once_init_enter (&processors))
    g_once_init_leave (&processors, g_get_num_processors ());
  return MIN ((int)processors - 1, MOST_HELPERS);
}

void
cav_parallel_run (int n, CavJobFunc func, gpointer data)
{
  int n_helpers = CLAMP (n - 1, 0, get_most_helpers ());
  Jobs *jobs = g_new0 (Jobs, 1);

  *jobs = (Jobs){ .func = func, .data = data, .n = n, .users = 1 + n_helpers };
  g_mutex_init (&jobs->mutex);
  g_cond_init (&jobs->done);
  for (int i = 0; i < n_helpers; i++)
    g_thread_pool_push (get_helpers (), jobs, NULL);
  do_jobs (jobs);
  g_mutex_lock (&jobs->mutex);
  while (jobs->n_done < n)
    g_cond_wait (&jobs->done, &jobs->mutex);
  g_mutex_unlock (&jobs->mutex);
  jobs_unref (jobs);
}
