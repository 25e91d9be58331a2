/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-retrace.h"

#include "milling/cav-parallel.h"
#include "milling/cav-placement.h"
#include "milling/cav-plan-finish.h"
#include "milling/cav-plan-private.h"
#include "milling/cav-proof.h"
#include "milling/cav-rows.h"

#include <math.h>

#define SETUP_TYPE "(isdda(iidd))"
#define PASS_TYPE "(iidd)"
/* Longer than any plan. */
#define MOST_PASSES 4000
/* No setting lies farther out, mm. */
#define FARTHEST 1000.0
/* Settings may lie so much beyond a machine's limit, for rounding. */
#define ROUNDING 1e-6
/* Least of a tilted blade above the table, mm, and the angles of a crossed one, degrees: as the
 * search has them. */
#define BLADE_END_LEAST 0.2
#define LEAST_ANGLE 8.0
#define MOST_ANGLE 60.0
/* Places of leftover are the same within, mm. */
#define SAME_PLACE 1e-6

/* Writing */

static GVariant *
create_setup (const CavSetup *setup)
{
  GVariantBuilder passes;

  g_variant_builder_init (&passes, G_VARIANT_TYPE ("a" PASS_TYPE));
  for (guint i = 0; i < setup->passes->len; i++)
    {
      const CavPass *pass = g_ptr_array_index (setup->passes, i);

      g_variant_builder_add (&passes, PASS_TYPE, (gint32)pass->down, (gint32)pass->against,
                             pass->fence, pass->height);
    }
  return g_variant_new (SETUP_TYPE, (gint32)setup->machine, setup->tool, setup->tilt, setup->angle,
                        &passes);
}

GVariant *
cav_plan_create_trace (const CavPlan *plan)
{
  GVariantBuilder setups;
  GVariantBuilder reached;

  g_return_val_if_fail (plan != NULL && plan->usable, NULL);

  g_variant_builder_init (&setups, G_VARIANT_TYPE ("a" SETUP_TYPE));
  for (guint i = 0; i < plan->setups->len; i++)
    g_variant_builder_add_value (&setups, create_setup (g_ptr_array_index (plan->setups, i)));
  g_variant_builder_init (&reached, G_VARIANT_TYPE ("a(dd)"));
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);

      if (cav_leftover_place_is_reached (place))
        g_variant_builder_add (&reached, "(dd)", place->place.x, place->place.y);
    }
  return g_variant_ref_sink (g_variant_new (CAV_TRACE_TYPE, plan->carrier_inside,
                                            plan->carrier_outside, &setups, &reached));
}

/* Reading */

/* Upright the blade may stand in the fence by its whole kerf; tilted no part of it may, and some of
 * it has to stand above the table. See cav-candidate.c. */
static gboolean
can_saw (const CavBlade *blade, double tilt, const CavPass *pass)
{
  double turn = tilt * G_PI / 180;
  double end = (pass->height - blade->kerf * fmax (0, -sin (turn))) / cos (turn);

  if (fabs (tilt) > blade->tilt + ROUNDING || pass->height > blade->height * cos (turn) + ROUNDING)
    return FALSE;
  if (fabs (tilt) < ROUNDING)
    return pass->fence >= -blade->kerf - ROUNDING;
  return end >= BLADE_END_LEAST && pass->fence + fmin (end * sin (turn), 0) >= -ROUNDING;
}

static gboolean
can_cove (const CavBlade *blade, double angle, const CavPass *pass)
{
  const CavSweepSetting setting = { .machine = CAV_MACHINE_COVE,
                                    .blade = blade,
                                    .angle = angle,
                                    .fence = pass->fence,
                                    .height = pass->height };

  return angle >= LEAST_ANGLE - ROUNDING && angle <= MOST_ANGLE + ROUNDING
         && pass->height <= blade->height + ROUNDING
         && cav_sweep_get_near_edge (&setting) >= -ROUNDING;
}

/* What machine and tool let be set; the proof itself takes that for granted. */
static gboolean
can_be_set (const CavShop *shop, const CavSetup *setup, const CavPass *pass)
{
  const CavBlade *blade = cav_shop_find_blade (shop, setup->tool);
  const CavCutter *cutter = cav_shop_find_cutter (shop, setup->tool);

  switch (setup->machine)
    {
    case CAV_MACHINE_SAW:
      return blade != NULL && can_saw (blade, setup->tilt, pass);
    case CAV_MACHINE_COVE:
      return blade != NULL && shop->coving && can_cove (blade, setup->angle, pass);
    case CAV_MACHINE_ROUTER:
      return cutter != NULL && pass->height <= cutter->length + ROUNDING;
    }
  return FALSE;
}

/* TRUE where the shop may use the tool at all. */
static gboolean
is_usable (const CavShop *shop, const CavSetup *setup)
{
  CavBlade *blade = cav_shop_find_blade (shop, setup->tool);
  CavCutter *cutter = cav_shop_find_cutter (shop, setup->tool);
  g_autofree char *trouble = NULL;

  if (setup->machine == CAV_MACHINE_ROUTER)
    trouble = cutter != NULL ? cav_shop_explain_cutter (shop, cutter) : g_strdup ("");
  else
    trouble = blade != NULL ? cav_shop_explain_blade (shop, blade) : g_strdup ("");
  return trouble == NULL;
}

static gboolean
read_pass (GVariantIter *passes, CavPass **out_pass)
{
  gint32 down, against;
  double fence, height;

  *out_pass = NULL;
  if (!g_variant_iter_next (passes, PASS_TYPE, &down, &against, &fence, &height))
    return FALSE;
  if (down < 0 || down >= CAV_N_SIDES || against < 0 || against >= CAV_N_SIDES
      || cav_side_is_flat ((CavSide)down) == cav_side_is_flat ((CavSide)against)
      || !(fabs (fence) <= FARTHEST) || !(height > 0 && height <= FARTHEST))
    return TRUE;
  *out_pass = cav_pass_new ();
  (*out_pass)->down = (CavSide)down;
  (*out_pass)->against = (CavSide)against;
  (*out_pass)->fence = fence;
  (*out_pass)->height = height;
  return TRUE;
}

static gboolean
read_passes (CavPlan *plan, CavSetup *setup, GVariantIter *passes)
{
  CavPass *pass;

  while (read_pass (passes, &pass))
    {
      if (pass == NULL || setup->passes->len >= MOST_PASSES)
        return FALSE;
      g_ptr_array_add (setup->passes, pass);
      if (!can_be_set (plan->shop, setup, pass))
        return FALSE;
    }
  return setup->passes->len > 0;
}

static gboolean
read_setups (CavPlan *plan, GVariant *setups)
{
  gsize n = g_variant_n_children (setups);

  if (n > MOST_PASSES)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    {
      gint32 machine;
      const char *tool;
      double tilt, angle;
      g_autoptr (GVariantIter) passes = NULL;
      g_autoptr (GVariant) child = g_variant_get_child_value (setups, i);
      CavSetup *setup;

      g_variant_get (child, "(i&sdda" PASS_TYPE ")", &machine, &tool, &tilt, &angle, &passes);
      if (machine < CAV_MACHINE_SAW || machine > CAV_MACHINE_ROUTER || !(fabs (tilt) <= 90)
          || !(fabs (angle) <= 90))
        return FALSE;
      setup = cav_setup_new ((CavMachine)machine, tool);
      setup->tilt = tilt;
      setup->angle = angle;
      g_ptr_array_add (plan->setups, setup);
      if (!is_usable (plan->shop, setup) || !read_passes (plan, setup, passes))
        return FALSE;
    }
  return TRUE;
}

/* Proving */

typedef struct
{
  CavProof proof;
  GPtrArray *steps; /* CavProofStep, of the passes in their order */
  const char **rules;
} Retrace;

static void
step_free (gpointer data)
{
  cav_proof_step_clear (data);
  g_free (data);
}

static void
judge_job (gpointer data, int job)
{
  Retrace *self = data;

  self->rules[job] = cav_proof_judge_pass (&self->proof, g_ptr_array_index (self->steps, job));
}

/* FALSE where a pass cannot even be cut. */
static gboolean
cut_passes (Retrace *self, const CavPlan *plan)
{
  for (guint i = 0; i < plan->setups->len; i++)
    {
      const CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        {
          CavProofStep *step = g_new0 (CavProofStep, 1);

          g_ptr_array_add (self->steps, step);
          if (!cav_proof_start_pass (&self->proof, setup, g_ptr_array_index (setup->passes, j),
                                     step))
            return FALSE;
          cav_proof_finish_pass (&self->proof, step);
        }
    }
  return TRUE;
}

static gboolean
judge_passes (Retrace *self, CavPlan *plan)
{
  self->rules = g_new0 (const char *, self->steps->len + 1);
  cav_parallel_run ((int)self->steps->len, judge_job, self);
  for (guint i = 0; i < self->steps->len; i++)
    {
      const CavProofStep *step = g_ptr_array_index (self->steps, i);

      if (self->rules[i] != NULL)
        return FALSE;
      plan->gouge = fmax (plan->gouge, step->gouge);
    }
  return TRUE;
}

static gboolean
is_reached (gpointer data, CavPoint place)
{
  GVariant *reached = data;

  for (gsize i = 0; i < g_variant_n_children (reached); i++)
    {
      CavPoint known;

      g_variant_get_child (reached, i, "(dd)", &known.x, &known.y);
      if (cav_point_near (known, place, SAME_PLACE))
        return TRUE;
    }
  return FALSE;
}

static gboolean
prove (CavPlan *plan, GVariant *reached)
{
  g_autoptr (CavRows) rows
      = cav_rows_new_from_region (plan->profile, cav_rows_count_for (plan->blank.thickness));
  Retrace self = { .steps = g_ptr_array_new_with_free_func (step_free) };
  int row;
  gint32 x;
  gboolean proved;

  cav_rows_find_middle (rows, &row, &x);
  cav_proof_init (&self.proof, &plan->blank, plan->profile, plan->shop,
                  cav_rows_get_place (row, x));
  proved = cut_passes (&self, plan) && judge_passes (&self, plan)
           && cav_plan_measure_leftover (plan, self.proof.rail, is_reached, reached);
  cav_proof_clear (&self.proof);
  g_ptr_array_unref (self.steps);
  g_free (self.rules);
  return proved;
}

CavPlan *
cav_planner_retrace (const CavPlanRequest *request, GVariant *trace)
{
  g_autoptr (CavRegion) profile = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GVariant) setups = NULL;
  g_autoptr (GVariant) reached = NULL;
  double inside, outside;

  g_return_val_if_fail (request != NULL && trace != NULL, NULL);

  if (!g_variant_is_of_type (trace, G_VARIANT_TYPE (CAV_TRACE_TYPE))
      || !g_variant_is_normal_form (trace) || !cav_plan_request_check (request, NULL))
    return NULL;
  g_variant_get (trace, "(dd@a" SETUP_TYPE "@a(dd))", &inside, &outside, &setups, &reached);
  if (!(inside >= 0 && outside >= 0
        && inside + outside <= request->shop->limits.carrier + ROUNDING))
    return NULL;
  profile = cav_region_transformed (request->profile, cav_transform_translation (inside, 0));
  plan = cav_plan_begin (request, profile, inside, outside);
  if (!read_setups (plan, setups) || !prove (plan, reached))
    return NULL;
  cav_plan_finish (plan);
  cav_plan_add_findings (plan);
  return g_steal_pointer (&plan);
}

CavPlan *
cav_planner_prefer_known (const CavPlanRequest *request, CavPlan *plan)
{
  g_autoptr (CavPlan) known = NULL;

  g_return_val_if_fail (request != NULL && plan != NULL, plan);

  if (request->known == NULL)
    return plan;
  known = cav_planner_retrace (request, request->known);
  if (known == NULL
      || known->leftover_thickness
             > fmax (request->shop->limits.leftover, plan->leftover_thickness) + ROUNDING
      || (plan->usable && known->minutes >= plan->minutes))
    return plan;
  cav_plan_unref (plan);
  return g_steal_pointer (&known);
}
