/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-plan.h"
#include "milling/cav-plan-private.h"

#include <math.h>

CavPass *
cav_pass_new (void)
{
  return g_new0 (CavPass, 1);
}

static void
pass_free (gpointer data)
{
  CavPass *pass = data;

  g_clear_pointer (&pass->before, cav_region_unref);
  g_clear_pointer (&pass->after, cav_region_unref);
  g_clear_pointer (&pass->swept, cav_region_unref);
  g_free (pass);
}

CavSetup *
cav_setup_new (CavMachine machine, const char *tool)
{
  CavSetup *setup = g_new0 (CavSetup, 1);

  setup->machine = machine;
  setup->tool = g_strdup (tool);
  setup->passes = g_ptr_array_new_with_free_func (pass_free);
  return setup;
}

void
cav_setup_free (CavSetup *setup)
{
  g_free (setup->tool);
  g_ptr_array_unref (setup->passes);
  g_free (setup);
}

static void
place_free (gpointer data)
{
  CavLeftoverPlace *place = data;

  g_free (place->reason);
  g_free (place->advice);
  g_free (place);
}

CavPlan *
cav_plan_new (void)
{
  CavPlan *plan = g_new0 (CavPlan, 1);

  plan->ref_count = 1;
  plan->setups = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_setup_free);
  plan->places = g_ptr_array_new_with_free_func (place_free);
  plan->findings = cav_finding_list_new ();
  return plan;
}

CavPlan *
cav_plan_ref (CavPlan *plan)
{
  g_return_val_if_fail (plan != NULL, NULL);

  g_atomic_int_inc (&plan->ref_count);
  return plan;
}

void
cav_plan_unref (CavPlan *plan)
{
  if (plan == NULL || !g_atomic_int_dec_and_test (&plan->ref_count))
    return;
  g_clear_pointer (&plan->profile, cav_region_unref);
  g_clear_pointer (&plan->leftover, cav_region_unref);
  g_clear_pointer (&plan->shop, cav_shop_free);
  g_ptr_array_unref (plan->setups);
  g_ptr_array_unref (plan->places);
  g_ptr_array_unref (plan->findings);
  g_free (plan);
}

guint
cav_plan_get_pass_count (const CavPlan *plan)
{
  guint count = 0;

  g_return_val_if_fail (plan != NULL, 0);

  for (guint i = 0; i < plan->setups->len; i++)
    count += ((CavSetup *)g_ptr_array_index (plan->setups, i))->passes->len;
  return count;
}

const char *
cav_machine_to_string (CavMachine machine)
{
  static const char *const names[] = { "saw", "cove", "router" };

  return names[machine];
}

/* Greatest radius of the part of the cutter that stands above the table. */
static double
get_radius_above_table (const CavCutter *cutter, double height)
{
  double radius = 0;

  for (guint i = 0; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint point = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      if (point.z <= height)
        radius = MAX (radius, point.r);
    }
  return MAX (radius, cav_cutter_get_radius_at (cutter, MIN (height, cutter->length)));
}

CavMeasure
cav_pass_get_measure (const CavPlan *plan,
                      const CavSetup *setup,
                      const CavPass *pass,
                      double *out_figure)
{
  if (setup->machine == CAV_MACHINE_COVE)
    {
      *out_figure = pass->fence;
      return CAV_MEASURE_FENCE_TO_MIDDLE;
    }
  if (setup->machine == CAV_MACHINE_SAW)
    {
      const CavBlade *blade = cav_shop_find_blade (plan->shop, setup->tool);

      if (pass->fence >= 0 || blade == NULL)
        {
          *out_figure = fmax (pass->fence, 0);
          return CAV_MEASURE_FENCE_TO_TOOTH;
        }
      *out_figure = fmax (blade->kerf + pass->fence, 0);
      return CAV_MEASURE_BLADE_IN_FENCE;
    }

  const CavCutter *cutter = cav_shop_find_cutter (plan->shop, setup->tool);
  double radius = cutter != NULL ? get_radius_above_table (cutter, pass->height) : 0;

  if (pass->fence >= radius)
    {
      *out_figure = pass->fence - radius;
      return CAV_MEASURE_FENCE_TO_CUTTER;
    }
  *out_figure = fmax (pass->fence + radius, 0);
  return CAV_MEASURE_CUTTER_SHOWS;
}
