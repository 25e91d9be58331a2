/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-planner.h"

G_BEGIN_DECLS

/* A trace is all that a plan can be made from again without searching: carriers, setups, and where
 * each pass stands. It holds no proof: what comes of it is proved anew. */
#define CAV_TRACE_TYPE "(dda(isdda(iidd))a(dd))"

/* (transfer full) Not floating. The plan has to be usable. */
GVariant *cav_plan_create_trace (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

/* The plan that the trace was made of, if it was made for the same request, to the last bit. NULL
 * where the trace is none, names what the shop does not have or cannot do, or breaks a rule of
 * milling: then there is nothing for it but to search. Whatever the trace, a plan that comes back
 * keeps to the rules of milling. */
CavPlan *cav_planner_retrace (const CavPlanRequest *request,
                              GVariant *trace) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) The plan itself, or what comes of the request's known trace where that holds,
 * takes fewer minutes and leaves nothing thicker than the limit, or than the plan does. A search is
 * bounded and may be led astray by one tool more; with the plan of the poorer shop at hand, minutes
 * cannot rise. */
CavPlan *cav_planner_prefer_known (const CavPlanRequest *request,
                                   CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
