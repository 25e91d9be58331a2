/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include <math.h>
#include <string.h>

/* A shorter rail is hard to hold against table and fence (common practice, no source). */
#define SHORT_RAIL 300.0

struct _CavProject
{
  GObject parent_instance;

  /* Owned */
  char *title;
  char *notes;
  CavShop *shop;
  GPtrArray *cuts; /* CavCut */

  /* Borrowed from the table of woods, which never goes away */
  const CavWood *wood;

  /* State */
  CavBlank blank;
  int rails;
  double length;

  /* Derived, made when asked for */
  CavProfile *profile;
};

G_DEFINE_FINAL_TYPE (CavProject, cav_project, G_TYPE_OBJECT)

enum
{
  CHANGED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
emit_changed (CavProject *self)
{
  g_signal_emit (self, signals[CHANGED], 0);
}

/* After an edit of blank or cuts. */
static void
emit_section_changed (CavProject *self)
{
  g_clear_pointer (&self->profile, cav_profile_free);
  emit_changed (self);
}

static void
cav_project_finalize (GObject *object)
{
  CavProject *self = CAV_PROJECT (object);

  g_free (self->title);
  g_free (self->notes);
  cav_shop_free (self->shop);
  g_ptr_array_unref (self->cuts);
  g_clear_pointer (&self->profile, cav_profile_free);
  G_OBJECT_CLASS (cav_project_parent_class)->finalize (object);
}

static void
cav_project_class_init (CavProjectClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cav_project_finalize;

  signals[CHANGED] = g_signal_new ("changed", CAV_TYPE_PROJECT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cav_project_init (CavProject *self)
{
  self->title = g_strdup ("");
  self->notes = g_strdup ("");
  self->shop = cav_shop_new_default ();
  self->cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  self->blank = (CavBlank){ .width = 50.0, .thickness = 25.0 };
  /* A frame of four rails, enough for one around an A3 sheet. */
  self->rails = 4;
  self->length = 3200.0;
}

CavProject *
cav_project_new (void)
{
  return g_object_new (CAV_TYPE_PROJECT, NULL);
}

static void
set_text (CavProject *self, char **field, const char *text)
{
  if (text == NULL)
    text = "";
  if (strcmp (*field, text) == 0)
    return;
  g_free (*field);
  *field = g_strdup (text);
  emit_changed (self);
}

const char *
cav_project_get_title (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->title;
}

void
cav_project_set_title (CavProject *self, const char *title)
{
  g_return_if_fail (CAV_IS_PROJECT (self));

  set_text (self, &self->title, title);
}

const char *
cav_project_get_notes (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->notes;
}

void
cav_project_set_notes (CavProject *self, const char *notes)
{
  g_return_if_fail (CAV_IS_PROJECT (self));

  set_text (self, &self->notes, notes);
}

CavBlank
cav_project_get_blank (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), (CavBlank){ 0 });

  return self->blank;
}

void
cav_project_set_blank (CavProject *self, CavBlank blank)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (isfinite (blank.width) && isfinite (blank.thickness));

  self->blank = blank;
  emit_section_changed (self);
}

const CavWood *
cav_project_get_wood (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->wood;
}

void
cav_project_set_wood (CavProject *self, const CavWood *wood)
{
  g_return_if_fail (CAV_IS_PROJECT (self));

  if (self->wood == wood)
    return;
  self->wood = wood;
  emit_changed (self);
}

int
cav_project_get_rails (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0);

  return self->rails;
}

double
cav_project_get_length (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0.0);

  return self->length;
}

void
cav_project_set_rails (CavProject *self, int rails, double length)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (rails >= 1);
  g_return_if_fail (isfinite (length) && length > 0.0);

  self->rails = rails;
  self->length = length;
  emit_changed (self);
}

const CavShop *
cav_project_get_shop (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->shop;
}

void
cav_project_set_shop (CavProject *self, const CavShop *shop)
{
  CavShop *copy;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (shop != NULL);

  /* Copied before the old one goes: shop may be part of it. */
  copy = cav_shop_copy (shop);
  cav_shop_free (self->shop);
  self->shop = copy;
  emit_changed (self);
}

guint
cav_project_get_cut_count (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0);

  return self->cuts->len;
}

const CavCut *
cav_project_get_cut (CavProject *self, guint index)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);
  g_return_val_if_fail (index < self->cuts->len, NULL);

  return g_ptr_array_index (self->cuts, index);
}

void
cav_project_add_cut (CavProject *self, const CavCut *cut)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (cut != NULL);

  g_ptr_array_add (self->cuts, cav_cut_copy (cut));
  emit_section_changed (self);
}

void
cav_project_set_cut (CavProject *self, guint index, const CavCut *cut)
{
  CavCut *copy;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (index < self->cuts->len);
  g_return_if_fail (cut != NULL);

  if (cav_cut_equal (g_ptr_array_index (self->cuts, index), cut))
    return;
  copy = cav_cut_copy (cut);
  cav_cut_free (g_ptr_array_index (self->cuts, index));
  g_ptr_array_index (self->cuts, index) = copy;
  emit_section_changed (self);
}

void
cav_project_remove_cut (CavProject *self, guint index)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (index < self->cuts->len);

  g_ptr_array_remove_index (self->cuts, index);
  emit_section_changed (self);
}

const CavProfile *
cav_project_get_profile (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  if (self->profile == NULL)
    self->profile = cav_profile_new (&self->blank, self->cuts);
  return self->profile;
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

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  profile = cav_project_get_profile (self);
  if (!cav_profile_is_sound (profile))
    {
      g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT,
                           explain_unsound (profile));
      return NULL;
    }
  request = (CavPlanRequest){
    .blank = self->blank,
    .profile = profile->region,
    .shop = self->shop,
    .rails = self->rails,
    .length = self->length,
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
  double rail = self->length / self->rails;

  if (rail < SHORT_RAIL)
    g_ptr_array_add (
        findings, cav_finding_new (CAV_FINDING_CAUTION, "rails-short",
                                   "The rails are %.0f mm long on average, shorter than %.0f mm: "
                                   "mill them as longer pieces and cut them to length after.",
                                   rail, SHORT_RAIL));
  if (self->shop->blades->len + self->shop->cutters->len == 0)
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
