/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-plan-finish.h"

#include "geometry/cav-tolerance.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A shorter rail is hard to hold against table and fence (common practice, no source), mm. */
#define SHORT_RAIL 300

gboolean
cav_plan_request_check (const CavPlanRequest *request, GError **error)
{
  const CavBlank *blank = &request->blank;
  const char *wrong = NULL;

  if (!(blank->width >= CAV_BLANK_MIN && blank->thickness >= CAV_BLANK_MIN
        && blank->width <= CAV_BLANK_MAX && blank->thickness <= CAV_BLANK_MAX))
    wrong = _ ("the blank's width and thickness must lie between 1 and 500 mm");
  else if (request->rails < 1 || request->rails > 10000)
    wrong = _ ("the number of rails must lie between 1 and 10000");
  else if (!(request->length > 0 && request->length <= 1e7))
    wrong = _ ("the rails' total length must be above 0 and at most 10,000 metres");
  else if (cav_region_is_empty (request->profile))
    wrong = _ ("the profile is empty: cuts take the whole blank away");
  else if (cav_region_get_piece_count (request->profile) != 1)
    wrong = _ ("the profile is in pieces: make the cuts smaller until it holds together");
  else
    {
      CavBox box = cav_region_get_bounds (request->profile);

      if (box.x0 < -1e-6 || box.y0 < -1e-6 || box.x1 > blank->width + 1e-6
          || box.y1 > blank->thickness + 1e-6)
        wrong = _ ("the profile stands out of the blank: make the blank larger");
    }
  if (wrong != NULL)
    g_set_error_literal (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT, wrong);
  return wrong == NULL;
}

gboolean
cav_plan_measure_leftover (CavPlan *plan,
                           const CavRegion *rail,
                           CavReachedFunc reached,
                           gpointer data)
{
  g_autoptr (CavRegion) all = cav_region_difference (rail, plan->profile, NULL);

  if (all == NULL)
    return FALSE;
  plan->leftover = cav_region_dup_thick (all, 2 * CAV_TOLERANCE_CHORD);
  cav_leftover_measure (plan, reached, data);
  return TRUE;
}

CavPlan *
cav_plan_begin (const CavPlanRequest *request, CavRegion *profile, double inside, double outside)
{
  CavPlan *plan = cav_plan_new ();

  plan->blank = request->blank;
  plan->blank.width += inside + outside;
  plan->carrier_inside = inside;
  plan->carrier_outside = outside;
  plan->profile = cav_region_ref (profile);
  plan->shop = cav_shop_copy (request->shop);
  plan->rails = request->rails;
  plan->length = request->length;
  return plan;
}

/* Minutes of the setups, turns and moves, by the table of the model. */
static void
count_minutes (CavPlan *plan)
{
  const CavRates *rates = &plan->shop->rates;
  double metres = plan->length / 1000;
  const char *blade = NULL, *cutter = NULL;

  plan->minutes_setups = plan->minutes_passes = 0;
  for (guint i = 0; i < plan->setups->len; i++)
    {
      CavSetup *setup = g_ptr_array_index (plan->setups, i);
      double feed = rates->metre * metres + rates->rail * plan->rails;

      if (setup->machine == CAV_MACHINE_ROUTER)
        {
          setup->tool_stays = g_strcmp0 (cutter, setup->tool) == 0;
          setup->minutes = setup->tool_stays ? rates->router_return : rates->router_setup;
          cutter = setup->tool;
        }
      else
        {
          setup->tool_stays = g_strcmp0 (blade, setup->tool) == 0;
          setup->minutes = setup->machine == CAV_MACHINE_COVE ? rates->cove_setup
                           : fabs (setup->tilt) > 1e-9        ? rates->tilt_setup
                                                              : rates->saw_setup;
          if (setup->machine == CAV_MACHINE_COVE)
            {
              setup->minutes += rates->scrape_metre * metres;
              feed = rates->cove_metre * metres + rates->rail * plan->rails;
            }
          if (blade != NULL && !setup->tool_stays)
            setup->minutes += rates->blade_change;
          blade = setup->tool;
        }
      plan->minutes_setups += setup->minutes;
      plan->minutes_passes += setup->passes->len * feed;
      for (guint j = 1; j < setup->passes->len; j++)
        {
          const CavPass *before = g_ptr_array_index (setup->passes, j - 1);
          const CavPass *pass = g_ptr_array_index (setup->passes, j);

          if (before->down != pass->down || before->against != pass->against)
            plan->minutes_setups += rates->turn;
          if (fabs (before->fence - pass->fence) > 1e-6
              || fabs (before->height - pass->height) > 1e-6)
            plan->minutes_setups += rates->move;
        }
    }
  plan->minutes = plan->minutes_setups + plan->minutes_passes + plan->minutes_hand;
}

static void
add_rail_cautions (CavPlan *plan)
{
  if (plan->length / plan->rails >= SHORT_RAIL)
    return;
  for (guint i = 0; i < plan->setups->len; i++)
    {
      CavSetup *setup = g_ptr_array_index (plan->setups, i);

      for (guint j = 0; j < setup->passes->len; j++)
        ((CavPass *)g_ptr_array_index (setup->passes, j))->cautions |= CAV_CAUTION_SHORT_RAIL;
    }
}

void
cav_plan_finish (CavPlan *plan)
{
  add_rail_cautions (plan);
  if (plan->leftover == NULL)
    plan->leftover = cav_region_new_empty ();
  count_minutes (plan);
  plan->usable = TRUE;
}

void
cav_plan_add_findings (CavPlan *plan)
{
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);
      CavFinding *finding = cav_finding_new (CAV_FINDING_CAUTION, "leftover", "%s", place->advice);

      /* Places are in the prepared blank; findings speak of the blank as drawn. */
      cav_finding_set_place (finding,
                             CAV_POINT (place->place.x - plan->carrier_inside, place->place.y));
      g_ptr_array_add (plan->findings, finding);
    }
  if (plan->shop->blades->len == 0 && plan->shop->cutters->len == 0)
    g_ptr_array_add (plan->findings,
                     cav_finding_new (CAV_FINDING_WRONG, "no-tools",
                                      _ ("The shop has no tools, so nothing can be milled: add a "
                                         "blade or a cutter.")));
}
