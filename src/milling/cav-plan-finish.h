/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-leftover.h"
#include "milling/cav-plan-private.h"
#include "milling/cav-planner.h"

G_BEGIN_DECLS

/* Beginning and end of every plan, however its passes were found. */

/* INPUT where the request makes no sense. */
gboolean cav_plan_request_check (const CavPlanRequest *request, GError **error);
/* A plan without passes for the request's blank, wider by carriers; profile in the coordinates of
 * that blank. */
CavPlan *cav_plan_begin (const CavPlanRequest *request,
                         CavRegion *profile,
                         double inside,
                         double outside) G_GNUC_WARN_UNUSED_RESULT;
/* Sets what the rail after the last pass has beyond the profile, without the crumbs between the
 * chords of a cutter's curve and those of the profile's where the two are one, and measures it.
 * reached: nullable, see cav_leftover_measure(). FALSE where it cannot be worked out. */
gboolean cav_plan_measure_leftover (CavPlan *plan,
                                    const CavRegion *rail,
                                    CavReachedFunc reached,
                                    gpointer data);
/* After the last pass is proved and what is left is measured: cautions of all passes, minutes. */
void cav_plan_finish (CavPlan *plan);
void cav_plan_add_findings (CavPlan *plan);

G_END_DECLS
