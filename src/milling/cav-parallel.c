/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-parallel.h"

/* More helpers than this are not worth their start for jobs of a millisecond. */
#define MOST_HELPERS 3

typedef struct
{
  CavJobFunc func;
  gpointer data;
  int n;
  int next; /* atomic */
} Jobs;

static gpointer
do_jobs (gpointer data)
{
  Jobs *jobs = data;
  int job;

  while ((job = g_atomic_int_add (&jobs->next, 1)) < jobs->n)
    jobs->func (jobs->data, job);
  return NULL;
}

void
cav_parallel_run (int n, CavJobFunc func, gpointer data)
{
  Jobs jobs = { func, data, n, 0 };
  GThread *helpers[MOST_HELPERS];
  int n_helpers = MIN (MIN (n, (int)g_get_num_processors ()) - 1, MOST_HELPERS);

  for (int i = 0; i < n_helpers; i++)
    helpers[i] = g_thread_new ("planner", do_jobs, &jobs);
  do_jobs (&jobs);
  for (int i = 0; i < n_helpers; i++)
    g_thread_join (helpers[i]);
}
