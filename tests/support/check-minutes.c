/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "plan-checker.h"

#include <math.h>

/* The model's table of costs, read from top to bottom. */

static gboolean
is_same (double a, double b)
{
  return fabs (a - b) < 1e-6;
}

static double
count_moves (const CheckRates *rates, const CheckSetup *setup)
{
  double minutes = 0;

  for (guint p = 1; p < setup->passes->len; p++)
    {
      const CheckPass *before = &g_array_index (setup->passes, CheckPass, p - 1);
      const CheckPass *pass = &g_array_index (setup->passes, CheckPass, p);

      if (pass->down != before->down || pass->against != before->against)
        minutes += rates->turn;
      if (!is_same (pass->fence, before->fence) || !is_same (pass->height, before->height))
        minutes += rates->move;
    }
  return minutes;
}

void
check_minutes (const CheckPlan *plan, CheckReport *report)
{
  const CheckRates *rates = &plan->rates;
  double metres = plan->length / 1000.0;
  const char *blade = NULL;  /* in the saw */
  const char *cutter = NULL; /* in the router */

  report->minutes_setups = 0;
  report->minutes_passes = 0;
  for (guint s = 0; s < plan->setups->len; s++)
    {
      const CheckSetup *setup = g_ptr_array_index (plan->setups, s);
      gboolean coves = setup->machine == CHECK_MACHINE_COVE;
      double feed = (coves ? rates->cove_metre : rates->metre) * metres;

      if (setup->machine == CHECK_MACHINE_ROUTER)
        {
          report->minutes_setups
              += g_strcmp0 (cutter, setup->tool) == 0 ? rates->router_return : rates->router_setup;
          cutter = setup->tool;
        }
      else
        {
          if (coves)
            report->minutes_setups += rates->cove_setup + rates->scrape_metre * metres;
          else
            report->minutes_setups
                += is_same (setup->tilt, 0) ? rates->saw_setup : rates->tilt_setup;
          if (blade != NULL && g_strcmp0 (blade, setup->tool) != 0)
            report->minutes_setups += rates->blade_change;
          blade = setup->tool;
        }
      report->minutes_setups += count_moves (rates, setup);
      report->minutes_passes += setup->passes->len * (feed + rates->rail * plan->rails);
    }
  report->minutes_hand = rates->hand_volume * report->leftover_area * metres
                         + rates->hand_surface * report->hand_outline * metres;
  report->minutes = report->minutes_setups + report->minutes_passes + report->minutes_hand;
}
