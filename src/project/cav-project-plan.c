/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include "project/cav-project-private.h"

/* A shorter rail is hard to hold against table and fence (common practice, no source). */
#define SHORT_RAIL 300.0

const CavProfile *
cav_project_get_profile (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  if (self->profile == NULL)
    self->profile = cav_profile_new (&self->content->blank, self->content->cuts);
  return self->profile;
}

const CavFrame *
cav_project_get_frame (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  if (self->frame == NULL)
    self->frame = cav_frame_new (self->content->frame->value, cav_project_get_profile (self),
                                 self->content->wood);
  return self->frame;
}

void
cav_project_get_milled_rails (CavProject *self, int *out_rails, double *out_length)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (out_rails != NULL && out_length != NULL);

  *out_rails = self->content->rails;
  *out_length = self->content->length;
  if (!self->content->has_frame || !cav_project_get_frame (self)->possible)
    return;
  const CavLumber *lumber = self->content->lumber->value;
  *out_rails = self->frame->settings.sides * lumber->frames;
  *out_length = self->frame->rails.molding * lumber->frames;
}

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
  int rails;
  double length;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  profile = cav_project_get_profile (self);
  if (!cav_profile_is_sound (profile))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT,
                           explain_unsound (profile));
      return NULL;
    }
  cav_project_get_milled_rails (self, &rails, &length);
  request = (CavPlanRequest){
    .blank = cav_project_get_blank (self),
    .profile = profile->region,
    .shop = cav_project_get_shop (self),
    .rails = rails,
    .length = length,
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
  int rails;
  double length, rail;

  cav_project_get_milled_rails (self, &rails, &length);
  rail = length / rails;

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
  if (cav_project_has_frame (self))
    add_copies (findings, cav_project_get_frame (self)->findings);
  if (plan != NULL)
    add_copies (findings, plan->findings);
  /* Stable: within a severity what was found first stays first. */
  g_ptr_array_sort (findings, compare_severity);
  return findings;
}
