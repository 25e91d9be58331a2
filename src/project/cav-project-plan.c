/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

/* A shorter rail is hard to hold against table and fence (common practice, no source). */
#define SHORT_RAIL 300.0

/* The sentence of the first finding that makes the profile unsound. */
static const char *
explain_unsound (const CavProfile *profile)
{
  for (guint i = 0; i < profile->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (profile->findings, i);

      if (finding->severity == CAV_FINDING_WRONG)
        return finding->message;
    }
  return "The profile cannot be milled as it is drawn; look at its cuts.";
}

CavPlan *
cav_project_plan (CavProject *self, CavEffort effort, GError **error)
{
  const CavProfile *profile;
  CavPlanRequest request;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  profile = cav_project_get_profile (self);
  if (!cav_profile_is_sound (profile))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT,
                           explain_unsound (profile));
      return NULL;
    }
  request = (CavPlanRequest){
    .blank = cav_project_get_blank (self),
    .profile = profile->region,
    .shop = cav_project_get_shop (self),
    .rails = cav_project_get_rails (self),
    .length = cav_project_get_length (self),
    .effort = effort,
  };
  return cav_planner_plan (&request, error);
}

/* Findings */

static void
add_copies (GPtrArray *findings, const GPtrArray *from)
{
  for (guint i = 0; i < from->len; i++)
    g_ptr_array_add (findings, cav_finding_copy (g_ptr_array_index (from, i)));
}

static void
add_own_findings (CavProject *self, GPtrArray *findings)
{
  const CavShop *shop = cav_project_get_shop (self);
  double rail = cav_project_get_length (self) / cav_project_get_rails (self);

  if (rail < SHORT_RAIL)
    g_ptr_array_add (
        findings, cav_finding_new (CAV_FINDING_CAUTION, "rails-short",
                                   "The rails are %.0f mm long on average, shorter than %.0f mm: "
                                   "mill them as longer pieces and cut them to length after.",
                                   rail, SHORT_RAIL));
  if (shop->blades->len + shop->cutters->len == 0)
    g_ptr_array_add (findings,
                     cav_finding_new (CAV_FINDING_WRONG, "shop-empty",
                                      "The shop has no tools: add a blade or a cutter to it."));
}

static int
compare_severity (gconstpointer a, gconstpointer b)
{
  const CavFinding *const *one = a;
  const CavFinding *const *other = b;

  return (int)(*other)->severity - (int)(*one)->severity;
}

GPtrArray *
cav_project_create_findings (CavProject *self, const CavPlan *plan)
{
  GPtrArray *findings;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  findings = cav_finding_list_new ();
  add_copies (findings, cav_project_get_profile (self)->findings);
  add_own_findings (self, findings);
  if (plan != NULL)
    add_copies (findings, plan->findings);
  /* Stable: within a severity what was found first stays first. */
  g_ptr_array_sort (findings, compare_severity);
  return findings;
}
