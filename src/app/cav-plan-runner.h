/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "project/cav-project.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_PLAN_STATE_STALE,   /* the project has changed since; a new plan is being made */
  CAV_PLAN_STATE_CURRENT, /* the plan is that of the project as it stands */
  CAV_PLAN_STATE_FAILED,  /* the project as it stands has no plan; the message says why */
} CavPlanState;

/*
 * Plans the project again whenever it changes, on a worker thread, the newest state always first:
 * quickly while it is being edited, thoroughly once nothing has changed for about a second. Never
 * blocks. Keeps the last plan that came in, which is shown as stale until the next one is there.
 *
 * Emits "planned" when there is another plan than before, and "notify::state".
 */
#define CAV_TYPE_PLAN_RUNNER (cav_plan_runner_get_type ())
G_DECLARE_FINAL_TYPE (CavPlanRunner, cav_plan_runner, CAV, PLAN_RUNNER, GObject)

/* Plans nothing until it is started. */
CavPlanRunner *cav_plan_runner_new (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
/* After the first frame, so that the window is there sooner. */
void cav_plan_runner_start (CavPlanRunner *self);

/* (transfer none) (nullable) The last plan; check the state before showing it as the plan. */
CavPlan *cav_plan_runner_get_plan (CavPlanRunner *self);
CavPlanState cav_plan_runner_get_state (CavPlanRunner *self);
/* Whether the plan is the one that is printed and milled, and not only a quick one. */
gboolean cav_plan_runner_is_thorough (CavPlanRunner *self);
/* (nullable) A sentence while the state is CAV_PLAN_STATE_FAILED. */
const char *cav_plan_runner_get_message (CavPlanRunner *self);

/* The thorough plan of the project as it stands, for paper; at once where it is there already.
 * (transfer full) from finish; error where there is none. */
void cav_plan_runner_get_thorough_async (CavPlanRunner *self,
                                         GCancellable *cancellable,
                                         GAsyncReadyCallback callback,
                                         gpointer user_data);
CavPlan *cav_plan_runner_get_thorough_finish (CavPlanRunner *self,
                                              GAsyncResult *result,
                                              GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
