/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "project/cav-project-private.h"

/* A shorter rail is hard to hold against table and fence (common practice, no source). */
#define SHORT_RAIL 300.0

void
cav_project_clear_rest (CavProject *self)
{
  g_clear_pointer (&self->rest, cav_profile_rest_free);
  g_clear_pointer (&self->rest_indices, g_array_unref);
  g_clear_pointer (&self->rest_cuts, g_ptr_array_unref);
  g_clear_pointer (&self->last_cuts, g_ptr_array_unref);
}

/* (transfer full) (nullable) The indices of the cuts in which two lists differ; NULL where they
 * differ in none, or in length. Cuts that were not edited are the same pieces of memory. */
static GArray *
find_changes (const GPtrArray *a, const GPtrArray *b)
{
  g_autoptr (GArray) changes = g_array_new (FALSE, FALSE, sizeof (guint));

  if (a == NULL || a->len != b->len)
    return NULL;
  for (guint i = 0; i < a->len; i++)
    if (g_ptr_array_index (a, i) != g_ptr_array_index (b, i))
      g_array_append_val (changes, i);
  return changes->len > 0 ? g_steal_pointer (&changes) : NULL;
}

static gboolean
same_indices (const GArray *a, const GArray *b)
{
  return a != NULL && b != NULL && a->len == b->len
         && memcmp (a->data, b->data, a->len * sizeof (guint)) == 0;
}

static gboolean
same_blank (const CavBlank *a, const CavBlank *b)
{
  return memcmp (a, b, sizeof *a) == 0;
}

/* The rest of the cuts is worked out anew where others are dragged now. */
static gboolean
prepare_rest (CavProject *self)
{
  const CavContent *content = self->content;
  g_autoptr (GArray) changes = NULL;

  if (!same_blank (&self->rest_blank, &content->blank))
    return FALSE;
  changes = find_changes (self->rest_cuts, content->cuts);
  if (self->rest != NULL && same_indices (changes, self->rest_indices))
    return TRUE;
  g_clear_pointer (&changes, g_array_unref);
  changes = find_changes (self->last_cuts, content->cuts);
  if (changes == NULL)
    return FALSE;
  g_clear_pointer (&self->rest, cav_profile_rest_free);
  g_clear_pointer (&self->rest_indices, g_array_unref);
  g_clear_pointer (&self->rest_cuts, g_ptr_array_unref);
  self->rest = cav_profile_rest_new (&content->blank, content->cuts,
                                     (const guint *)(gpointer)changes->data, changes->len);
  self->rest_indices = g_steal_pointer (&changes);
  self->rest_cuts = g_ptr_array_ref (self->last_cuts);
  return self->rest != NULL;
}

/* In the middle of a step a few cuts move and the others stay, mostly. What is worked out quickly
 * then is worked out once more when the step has ended, so that a document has one profile however
 * it came about. */
const CavProfile *
cav_project_get_profile (CavProject *self)
{
  const CavContent *content;
  gboolean quick;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  content = self->content;
  quick = self->open->len > 0;
  if (self->profile != NULL && self->is_quick && !quick)
    {
      g_clear_pointer (&self->frame, cav_frame_free);
      g_clear_pointer (&self->profile, cav_profile_free);
      cav_project_clear_rest (self);
    }
  if (self->profile != NULL)
    return self->profile;

  self->is_quick = quick && prepare_rest (self);
  if (self->is_quick)
    self->profile = cav_profile_rest_complete (self->rest, content->cuts);
  else
    {
      /* Another blank or other cuts: the rest would be the rest of something else. */
      cav_project_clear_rest (self);
      self->profile = cav_profile_new (&content->blank, content->cuts);
    }
  g_ptr_array_ref (content->cuts);
  g_clear_pointer (&self->last_cuts, g_ptr_array_unref);
  self->last_cuts = content->cuts;
  self->rest_blank = content->blank;
  return self->profile;
}

const CavFrame *
cav_project_get_frame (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  const CavProfile *profile = cav_project_get_profile (self);
  if (self->frame == NULL)
    self->frame = cav_frame_new (self->content->frame->value, profile, self->content->wood);
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
  return _ ("The profile cannot be milled as it is drawn; look at its cuts.");
}

gboolean
cav_project_get_plan_request (CavProject *self,
                              CavEffort effort,
                              CavPlanRequest *out_request,
                              GError **error)
{
  const CavProfile *profile;

  g_return_val_if_fail (CAV_IS_PROJECT (self) && out_request != NULL, FALSE);

  profile = cav_project_get_profile (self);
  if (!cav_profile_is_sound (profile))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT,
                           explain_unsound (profile));
      return FALSE;
    }
  *out_request = (CavPlanRequest){
    .blank = cav_project_get_blank (self),
    .profile = profile->region,
    .shop = cav_project_get_shop (self),
    .effort = effort,
  };
  cav_project_get_milled_rails (self, &out_request->rails, &out_request->length);
  return TRUE;
}

CavPlan *
cav_project_plan (CavProject *self, CavEffort effort, GError **error)
{
  CavPlanRequest request;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  if (!cav_project_get_plan_request (self, effort, &request, error))
    return NULL;
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
        findings,
        cav_finding_new (CAV_FINDING_CAUTION, "rails-short",
                         _ ("The rails are %.0f mm long on average, shorter than %.0f mm: "
                            "mill them as longer pieces and cut them to length after."),
                         rail, SHORT_RAIL));
  if (shop->blades->len + shop->cutters->len == 0)
    g_ptr_array_add (findings,
                     cav_finding_new (CAV_FINDING_WRONG, "shop-empty",
                                      _ ("The shop has no tools: add a blade or a cutter to it.")));
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
