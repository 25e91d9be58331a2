/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the pass sheet and all sheets together take, once the plan is there, by the processor's
 * clock: bench-sheets PROJECT... */
#include <stdio.h>
#include <time.h>

#include "drawing/cav-sheets.h"
#include "storage/cav-storage.h"

#define ROUNDS 9

static double
get_milliseconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &now);
  return (double)now.tv_sec * 1e3 + (double)now.tv_nsec / 1e6;
}

static int
compare_cb (gconstpointer a, gconstpointer b)
{
  double first = *(const double *)a;
  double second = *(const double *)b;

  return (first > second) - (first < second);
}

/* One sheet, or all of them for CAV_N_SHEETS. */
static double
measure (CavProject *project, const CavPlan *plan, int sheet)
{
  const CavSheetOptions options = { .denominator = CAV_SHEET_DENOMINATOR };
  double rounds[ROUNDS];

  for (int i = 0; i < ROUNDS; i++)
    {
      double start = get_milliseconds ();
      g_autoptr (GBytes) pdf
          = sheet < CAV_N_SHEETS
                ? cav_sheet_create_pdf ((CavSheet)sheet, project, plan, &options, NULL)
                : cav_sheets_create_pdf (project, plan, &options, NULL);

      rounds[i] = get_milliseconds () - start;
      if (pdf == NULL)
        return 0;
    }
  qsort (rounds, ROUNDS, sizeof rounds[0], compare_cb);
  return rounds[ROUNDS / 2];
}

int
main (int argc, char **argv)
{
  for (int i = 1; i < argc; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavProject) project = cav_storage_load_project (argv[i], &error);
      g_autoptr (CavPlan) plan
          = project != NULL ? cav_project_plan (project, CAV_EFFORT_QUICK, &error) : NULL;
      g_autofree char *name = g_path_get_basename (argv[i]);

      if (plan == NULL)
        {
          printf ("%s: %s\n", name, error->message);
          return 1;
        }
      printf ("%-24s %2u passes:", name, cav_plan_get_pass_count (plan));
      for (int sheet = 0; sheet < CAV_N_SHEETS; sheet++)
        printf (" %s %.1f,", cav_sheet_get_id ((CavSheet)sheet), measure (project, plan, sheet));
      printf (" all %.1f ms\n", measure (project, plan, CAV_N_SHEETS));
    }
  return 0;
}
