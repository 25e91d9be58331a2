/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-plan-job.h"

#include <gio/gio.h>

#include "milling/cav-retrace.h"
#include "storage/cav-kept-plan.h"

struct _CavPlanJob
{
  /* The snapshot, read by the worker alone */
  CavPlanRequest request;
  CavRegion *profile;
  CavShop *shop;
  GVariant *known; /* nullable */
  int cancelled;

  /* Of the thread that started it */
  CavPlanJobDone done; /* NULL: abandoned */
  gpointer user_data;
  gint64 started;
};

static void
job_free (gpointer data)
{
  CavPlanJob *self = data;

  cav_region_unref (self->profile);
  cav_shop_free (self->shop);
  g_clear_pointer (&self->known, g_variant_unref);
  g_free (self);
}

static void
unref_plan (gpointer data)
{
  cav_plan_unref (data);
}

static void
plan_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  CavPlanJob *self = data;
  GError *error = NULL;
  CavPlan *plan = cav_kept_plan_make (&self->request, NULL, &error);

  if (plan != NULL)
    g_task_return_pointer (task, plan, unref_plan);
  else
    g_task_return_error (task, error);
}

static void
planned_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GTask *task = G_TASK (result);
  CavPlanJob *self = g_task_get_task_data (task);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = g_task_propagate_pointer (task, &error);

  if (self->done != NULL)
    self->done (self, g_steal_pointer (&plan), error, self->user_data);
}

CavPlanJob *
cav_plan_job_start (CavProject *project,
                    CavEffort effort,
                    const CavPlan *known,
                    CavPlanJobDone done,
                    gpointer user_data,
                    GError **error)
{
  g_autoptr (GTask) task = NULL;
  CavPlanRequest request;
  CavPlanJob *self;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (done != NULL, NULL);

  if (!cav_project_get_plan_request (project, effort, &request, error))
    return NULL;
  self = g_new0 (CavPlanJob, 1);
  self->profile = cav_region_ref ((CavRegion *)request.profile);
  self->shop = cav_shop_copy (request.shop);
  self->done = done;
  self->user_data = user_data;
  self->started = g_get_monotonic_time ();
  self->request = request;
  self->request.profile = self->profile;
  self->request.shop = self->shop;
  if (known != NULL && known->usable)
    self->request.known = self->known = cav_plan_create_trace (known);
  self->request.cancelled = &self->cancelled;
  task = g_task_new (NULL, NULL, planned_cb, NULL);
  g_task_set_task_data (task, self, job_free);
  g_task_run_in_thread (task, plan_in_thread);
  return self;
}

CavEffort
cav_plan_job_get_effort (const CavPlanJob *self)
{
  return self->request.effort;
}

gint64
cav_plan_job_get_age (const CavPlanJob *self)
{
  return g_get_monotonic_time () - self->started;
}

void
cav_plan_job_cancel (CavPlanJob *self)
{
  g_atomic_int_set (&self->cancelled, 1);
}

void
cav_plan_job_abandon (CavPlanJob *self)
{
  self->done = NULL;
  cav_plan_job_cancel (self);
}
