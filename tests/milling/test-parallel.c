/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-parallel.h"

#define MOST_JOBS 500

typedef struct
{
  int counts[MOST_JOBS];
  int sum; /* atomic */
} Tally;

static void
count_job (gpointer data, int job)
{
  Tally *tally = data;

  tally->counts[job]++;
  g_atomic_int_add (&tally->sum, job);
}

/* Every job is done, and once. */
static void
test_all_once (void)
{
  const int sizes[] = { 0, 1, 2, 3, 8, MOST_JOBS };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      g_autofree Tally *tally = g_new0 (Tally, 1);

      cav_parallel_run (sizes[i], count_job, tally);
      for (int job = 0; job < MOST_JOBS; job++)
        g_assert_cmpint (tally->counts[job], ==, job < sizes[i] ? 1 : 0);
      g_assert_cmpint (g_atomic_int_get (&tally->sum), ==, sizes[i] * (sizes[i] - 1) / 2);
    }
}

static void
nest_job (gpointer data, int job)
{
  cav_parallel_run (4, count_job, (Tally *)data + job);
}

/* A job may have jobs of its own. */
static void
test_nested (void)
{
  g_autofree Tally *tallies = g_new0 (Tally, 6);

  cav_parallel_run (6, nest_job, tallies);
  for (int i = 0; i < 6; i++)
    g_assert_cmpint (tallies[i].sum, ==, 0 + 1 + 2 + 3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/parallel/all-once", test_all_once);
  g_test_add_func ("/milling/parallel/nested", test_nested);
  return g_test_run ();
}
