/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/* One planning on a worker thread, from a snapshot of the project that nobody changes. */
typedef struct _CavPlanJob CavPlanJob;

/* (transfer full) plan, or NULL and error; on the thread that started the job. A job that was
 * cancelled ends with CAV_MILLING_ERROR_CANCELLED, or with its plan where it was nearly done. */
typedef void (*CavPlanJobDone) (CavPlanJob *job,
                                CavPlan *plan,
                                const GError *error,
                                gpointer user_data);

/* (nullable) NULL and error where the section is not sound: there is nothing to plan. done is
 * called once, never from here, unless the job is abandoned first. known (nullable): a plan of the
 * same section for other tools or rails; where it still holds, the new one takes no more minutes.
 */
CavPlanJob *cav_plan_job_start (CavProject *project,
                                CavEffort effort,
                                const CavPlan *known,
                                CavPlanJobDone done,
                                gpointer user_data,
                                GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavEffort cav_plan_job_get_effort (const CavPlanJob *self);
/* Since it was started, microseconds. */
gint64 cav_plan_job_get_age (const CavPlanJob *self);
/* Asks the planner to give up. */
void cav_plan_job_cancel (CavPlanJob *self);
/* Cancels it, and done is not called any more. The pointer is not to be used after. */
void cav_plan_job_abandon (CavPlanJob *self);

G_END_DECLS
