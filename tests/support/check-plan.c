/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-checker.h"

#include <stdio.h>

/* check-plan PLAN.xml...: what the checker finds in plan files. Exit status 1 where a rule is
 * broken, 2 where a file cannot be read. */

static void
print_passes (const CheckPlan *plan, const CheckReport *report)
{
  static const char *const machines[] = { "saw", "cove", "router" };
  static const char *const sides[] = { "back", "face", "inside", "outside" };
  guint number = 0;

  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CheckSetup *setup = g_ptr_array_index (plan->setups, s);

      printf ("  setup %u: %s %s, tilt %.2f, angle %.2f\n", s + 1, machines[setup->machine],
              setup->tool, setup->tilt, setup->angle);
      for (guint p = 0; p < setup->passes->len && number < report->passes->len; p++)
        {
          const CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);
          const CheckPassFigures *figures
              = &g_array_index (report->passes, CheckPassFigures, number++);

          printf ("    %2u  %-7s down, %-7s at the fence, fence %8.3f, height %7.3f: chips %7.2f, "
                  "layer %5.2f, gouge %.4f, severed %7.2f%s%s\n",
                  number, sides[pass->down], sides[pass->against], pass->fence, pass->height,
                  figures->chips, figures->layer, figures->gouge, figures->severed,
                  figures->severs ? ", severs" : "", figures->frees_rail ? ", frees" : "");
        }
    }
}

static void
print_list (const char *title, const GPtrArray *list)
{
  for (guint i = 0; i < list->len; i++)
    {
      const CheckViolation *violation = g_ptr_array_index (list, i);

      printf ("  %s: pass %d, %s: %s\n", title, violation->pass,
              check_rule_to_string (violation->rule), violation->message);
    }
}

static int
check_file (const char *file_name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CheckPlan) plan = check_plan_from_file (file_name, &error);

  if (plan == NULL)
    {
      g_printerr ("%s\n", error->message);
      return 2;
    }
  g_autoptr (CheckReport) report = check_plan_run (plan);

  printf ("%s: %s\n", file_name,
          report->violations->len == 0 ? "keeps every rule" : "BREAKS RULES");
  print_passes (plan, report);
  printf ("  blank %.2f = profile %.2f + chips %.2f + severed %.2f + leftover %.2f (sum %.2f)\n",
          report->blank_area, report->profile_area, report->chips, report->severed,
          report->leftover_area,
          report->profile_area + report->chips + report->severed + report->leftover_area);
  printf ("  leftover thickness %.3f, outline by hand %.2f mm, deepest gouge %.4f\n",
          report->leftover_thickness, report->hand_outline, report->gouge);
  printf ("  minutes %.2f = setups %.2f + passes %.2f + hand %.2f\n", report->minutes,
          report->minutes_setups, report->minutes_passes, report->minutes_hand);
  print_list ("VIOLATION", report->violations);
  print_list ("warning", report->warnings);
  return report->violations->len == 0 ? 0 : 1;
}

int
main (int argc, char **argv)
{
  int worst = 0;

  if (argc < 2)
    {
      g_printerr ("Usage: check-plan PLAN.xml...\n");
      return 2;
    }
  for (int i = 1; i < argc; i++)
    {
      int status = check_file (argv[i]);

      worst = MAX (worst, status);
    }
  return worst;
}
