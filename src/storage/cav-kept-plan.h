/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-planner.h"

G_BEGIN_DECLS

/*
 * Thorough plans take seconds to search and a moment to prove. What a search has found is kept in
 * the user's cache, under a name made of all that the plan depends on, to the last bit, and of the
 * program itself; so window, sheets and command line have one plan, and search once for it. What is
 * kept is where passes stand and no more: it is proved anew each time it is used, and what cannot
 * be proved or read is searched again. Losing the folder loses time and nothing else.
 */

/* (transfer full) The folder of this user, below what XDG calls the cache. */
char *cav_kept_plan_dup_folder (void) G_GNUC_WARN_UNUSED_RESULT;

/* (nullable) folder: that of the user. NULL where nothing usable is kept for that request. */
CavPlan *cav_kept_plan_recall (const CavPlanRequest *request,
                               const char *folder) G_GNUC_WARN_UNUSED_RESULT;
/* Keeps a usable plan, and clears away those that were not asked for for longest where they are
 * many. A folder that cannot be written to is no error: then nothing is kept. */
void cav_kept_plan_keep (const CavPlanRequest *request, const CavPlan *plan, const char *folder);
/* (transfer full) A thorough plan that is recalled, or else searched and kept; any other is just
 * planned. May be called from any thread. */
CavPlan *cav_kept_plan_make (const CavPlanRequest *request,
                             const char *folder,
                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
