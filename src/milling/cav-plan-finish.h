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
/* (transfer full) What the rail after the last pass has beyond the profile, without the crumbs
 * between the chords of a cutter's curve and those of the profile's where the two are one. NULL
 * where it cannot be worked out. */
CavRegion *cav_plan_create_leftover (const CavPlan *plan,
                                     const CavRegion *rail) G_GNUC_WARN_UNUSED_RESULT;
/* After the last pass is proved, with the leftover set (nullable: there is none): cautions of all
 * passes, what is left, minutes. reached: nullable, see cav_leftover_measure(). */
void cav_plan_finish (CavPlan *plan, CavReachedFunc reached, gpointer data);
void cav_plan_add_findings (CavPlan *plan);

G_END_DECLS
