/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-report.h"

#include <math.h>

#define MINUTES_SLACK 0.3

static void
violation_free (gpointer data)
{
  CheckViolation *violation = data;

  g_free (violation->message);
  g_free (violation);
}

CheckReport *
check_report_new (void)
{
  CheckReport *report = g_new0 (CheckReport, 1);

  report->violations = g_ptr_array_new_with_free_func (violation_free);
  report->warnings = g_ptr_array_new_with_free_func (violation_free);
  report->passes = g_array_new (FALSE, FALSE, sizeof (CheckPassFigures));
  return report;
}

void
check_report_free (CheckReport *report)
{
  if (report == NULL)
    return;
  g_ptr_array_unref (report->violations);
  g_ptr_array_unref (report->warnings);
  g_array_unref (report->passes);
  g_free (report);
}

static void G_GNUC_PRINTF (4, 0)
    add_to_list (GPtrArray *list, CheckRule rule, int pass, const char *format, va_list arguments)
{
  CheckViolation *violation = g_new0 (CheckViolation, 1);

  violation->rule = rule;
  violation->pass = pass;
  violation->message = g_strdup_vprintf (format, arguments);
  g_ptr_array_add (list, violation);
}

void
check_report_add (CheckReport *report, CheckRule rule, int pass, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  add_to_list (report->violations, rule, pass, format, arguments);
  va_end (arguments);
}

void
check_report_warn (CheckReport *report, CheckRule rule, int pass, const char *format, ...)
{
  va_list arguments;

  va_start (arguments, format);
  add_to_list (report->warnings, rule, pass, format, arguments);
  va_end (arguments);
}

const char *
check_rule_to_string (CheckRule rule)
{
  static const char *const names[]
      = { "plan", "setting", "gouge", "table", "fence",     "severed", "feed",
          "bite", "speed",   "pilot", "chips", "left over", "minutes", "web" };

  G_STATIC_ASSERT (G_N_ELEMENTS (names) == CHECK_N_RULES);
  return names[rule];
}

gboolean
check_report_breaks (const CheckReport *report, CheckRule rule, int pass)
{
  for (guint i = 0; i < report->violations->len; i++)
    {
      const CheckViolation *violation = g_ptr_array_index (report->violations, i);

      if (violation->rule == rule && (pass == 0 || violation->pass == pass))
        return TRUE;
    }
  return FALSE;
}

char *
check_report_to_string (const CheckReport *report)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < report->violations->len; i++)
    {
      const CheckViolation *violation = g_ptr_array_index (report->violations, i);

      g_string_append_printf (text, "pass %d, %s: %s\n", violation->pass,
                              check_rule_to_string (violation->rule), violation->message);
    }
  return g_string_free (text, FALSE);
}

static gboolean
is_setup_readable (const CheckPlan *plan, CheckReport *report, guint index)
{
  const CheckSetup *setup = g_ptr_array_index (plan->setups, index);
  const CheckTool *tool = check_plan_find_tool (plan, setup->tool);
  gboolean readable = TRUE;

  if (tool == NULL || tool->is_cutter != (setup->machine == CHECK_MACHINE_ROUTER))
    {
      check_report_add (report, CHECK_RULE_PLAN, 0, "setup %u has no tool “%s” for its machine",
                        index + 1, setup->tool);
      return FALSE;
    }
  if (setup->passes->len == 0)
    check_report_warn (report, CHECK_RULE_PLAN, 0, "setup %u has no pass", index + 1);
  if (fabs (setup->tilt) >= 89.0)
    readable = FALSE;
  for (guint p = 0; p < setup->passes->len; p++)
    {
      const CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);
      /* Back and face are the first two sides, so neighbours differ in this half. */
      gboolean neighbours = (pass->down / 2) != (pass->against / 2);

      if (!neighbours || !isfinite (pass->fence) || !isfinite (pass->height))
        {
          check_report_add (report, CHECK_RULE_PLAN, 0,
                            "pass %u of setup %u: sides that are no neighbours, or no figures",
                            p + 1, index + 1);
          readable = FALSE;
        }
    }
  return readable;
}

/* The profile stands in the blank, and each ring has corners. */
static gboolean
is_profile_readable (const CheckPlan *plan, CheckReport *report)
{
  if (plan->profile->len == 0)
    {
      check_report_add (report, CHECK_RULE_PLAN, 0, "there is no profile");
      return FALSE;
    }
  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          CheckPoint point = g_array_index (ring, CheckPoint, i);

          if (point.x < -0.01 || point.x > plan->width + 0.01 || point.y < -0.01
              || point.y > plan->thickness + 0.01)
            {
              check_report_add (report, CHECK_RULE_PLAN, 0,
                                "the profile leaves the blank at (%.3f, %.3f)", point.x, point.y);
              return FALSE;
            }
        }
    }
  return TRUE;
}

gboolean
check_plan_is_readable (const CheckPlan *plan, CheckReport *report)
{
  gboolean readable = TRUE;

  if (!(plan->width > 1) || !(plan->thickness > 1) || plan->width > 2000 || plan->thickness > 2000)
    {
      check_report_add (report, CHECK_RULE_PLAN, 0, "a blank of %g x %g", plan->width,
                        plan->thickness);
      readable = FALSE;
    }
  if (plan->rails < 1 || !(plan->length > 0) || !(plan->step > 0))
    {
      check_report_add (report, CHECK_RULE_PLAN, 0, "%d rails of %g mm in all, step %g",
                        plan->rails, plan->length, plan->step);
      readable = FALSE;
    }
  readable = readable && is_profile_readable (plan, report);
  for (guint s = 0; s < plan->setups->len; s++)
    readable = is_setup_readable (plan, report, s) && readable;
  return readable;
}

/* Strips of leftover of just 0.3 mm may count as hand work or not. */
static void
check_hand (
    const CheckPlan *plan, CheckReport *report, const char *name, double claimed, double found)
{
  double metre = plan->rates.hand_surface * plan->length / 1000.0;
  double least = found - metre * (report->hand_outline - report->hand_outline_least);
  double most = found + metre * (report->hand_outline_most - report->hand_outline);

  if (claimed < least - MINUTES_SLACK || claimed > most + MINUTES_SLACK)
    check_report_add (report, CHECK_RULE_MINUTES, 0, "%.3f minutes %s, the plan says %.3f", found,
                      name, claimed);
  else if (fabs (claimed - found) > MINUTES_SLACK)
    check_report_warn (report, CHECK_RULE_MINUTES, 0,
                       "%.3f minutes %s, the plan says %.3f: strips of just 0.3 mm are left", found,
                       name, claimed);
}

void
check_claims (const CheckPlan *plan, CheckReport *report)
{
  const double passes = report->minutes_passes;
  const double setups = report->minutes_setups;

  if (fabs (plan->minutes_setups - setups) > MINUTES_SLACK)
    check_report_add (report, CHECK_RULE_MINUTES, 0, "%.3f minutes for setups, the plan says %.3f",
                      setups, plan->minutes_setups);
  if (fabs (plan->minutes_passes - passes) > MINUTES_SLACK)
    check_report_add (report, CHECK_RULE_MINUTES, 0, "%.3f minutes for passes, the plan says %.3f",
                      passes, plan->minutes_passes);
  check_hand (plan, report, "by hand", plan->minutes_hand, report->minutes_hand);
  check_hand (plan, report, "in all", plan->minutes, report->minutes);
}
