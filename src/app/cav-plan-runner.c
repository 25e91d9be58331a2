/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-plan-runner.h"

#include "app/cav-memory.h"
#include "app/cav-plan-job.h"

#include <math.h>

/* A project that nothing has touched for so long is planned thoroughly, ms. */
#define IDLE_DELAY 1000
/* A quick plan that takes longer than this is given up for a newer one, microseconds; a faster one
 * is let finish, or a steady drag would never see a plan. */
#define PATIENCE (400 * G_TIME_SPAN_MILLISECOND)
/* Rails together whose lengths differ by less are the same to a plan, mm. */
#define SAME_LENGTH 0.5

struct _CavPlanRunner
{
  GObject parent_instance;

  /* Owned */
  CavProject *project;
  CavPlan *plan;   /* nullable */
  char *message;   /* nullable */
  GList *waiting;  /* GTask, for a thorough plan of the project as it stands */
  CavPlanJob *job; /* nullable, running */

  /* State */
  CavPlanState state;
  int rails;     /* that the last job was started for, */
  double length; /* and their length together */
  gboolean started;
  gboolean thorough; /* the plan is */
  gboolean again;    /* the project has changed since the job was started */
  gboolean fits;     /* the plan is one of the section as it stands, for whatever tools and rails */
  guint idle_source;
};

G_DEFINE_FINAL_TYPE (CavPlanRunner, cav_plan_runner, G_TYPE_OBJECT)

enum
{
  PROP_STATE = 1,
  N_PROPERTIES,
};

enum
{
  PLANNED,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

static void start_job (CavPlanRunner *self, CavEffort effort);

static void
set_state (CavPlanRunner *self, CavPlanState state, const char *message)
{
  gboolean same = state == self->state && g_strcmp0 (message, self->message) == 0;

  if (same)
    return;
  self->state = state;
  g_free (self->message);
  self->message = g_strdup (message);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_STATE]);
}

/* (transfer full) plan, or NULL and error: ends all that wait for it. */
static void
answer_waiting (CavPlanRunner *self, CavPlan *plan, const GError *error)
{
  g_autolist (GTask) waiting = g_steal_pointer (&self->waiting);

  for (GList *link = waiting; link != NULL; link = link->next)
    {
      if (plan != NULL)
        g_task_return_pointer (link->data, cav_plan_ref (plan), (GDestroyNotify)cav_plan_unref);
      else
        g_task_return_error (link->data, g_error_copy (error));
    }
}

static void
fail (CavPlanRunner *self, const GError *error)
{
  set_state (self, CAV_PLAN_STATE_FAILED, error->message);
  answer_waiting (self, NULL, error);
}

static gboolean
idle_cb (gpointer user_data)
{
  CavPlanRunner *self = user_data;

  self->idle_source = 0;
  if (self->job == NULL && !self->thorough && self->state == CAV_PLAN_STATE_CURRENT)
    start_job (self, CAV_EFFORT_THOROUGH);
  return G_SOURCE_REMOVE;
}

/* Counts the second from now. */
static void
wait_for_idle (CavPlanRunner *self)
{
  g_clear_handle_id (&self->idle_source, g_source_remove);
  self->idle_source = g_timeout_add (IDLE_DELAY, idle_cb, self);
}

/* What came in is the plan; it is current unless the project has moved on. */
static void
take_plan (CavPlanRunner *self, CavPlan *plan, gboolean thorough)
{
  g_clear_pointer (&self->plan, cav_plan_unref);
  self->plan = plan;
  self->thorough = thorough;
  if (!self->again)
    {
      self->fits = TRUE;
      set_state (self, CAV_PLAN_STATE_CURRENT, NULL);
    }
  g_signal_emit (self, signals[PLANNED], 0);
}

static void
start_next (CavPlanRunner *self)
{
  if (self->again)
    start_job (self, self->waiting != NULL ? CAV_EFFORT_THOROUGH : CAV_EFFORT_QUICK);
  else if (self->waiting != NULL && self->state == CAV_PLAN_STATE_CURRENT && !self->thorough)
    start_job (self, CAV_EFFORT_THOROUGH);
}

static void
job_done_cb (CavPlanJob *job, CavPlan *plan, const GError *error, gpointer user_data)
{
  g_autoptr (CavPlanRunner) self = g_object_ref (user_data);
  gboolean thorough = cav_plan_job_get_effort (job) == CAV_EFFORT_THOROUGH;
  gboolean cancelled = g_error_matches (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_CANCELLED);

  self->job = NULL;
  if (plan != NULL)
    take_plan (self, plan, thorough);
  else if (!cancelled && !self->again)
    fail (self, error);
  if (plan != NULL && thorough && !self->again)
    answer_waiting (self, plan, NULL);
  if (self->job == NULL)
    start_next (self);
  if (self->job == NULL)
    cav_memory_give_back_soon ();
}

static void
start_job (CavPlanRunner *self, CavEffort effort)
{
  g_autoptr (GError) error = NULL;

  self->again = FALSE;
  cav_project_get_milled_rails (self->project, &self->rails, &self->length);
  self->job = cav_plan_job_start (self->project, effort, self->fits ? self->plan : NULL,
                                  job_done_cb, self, &error);
  if (self->job == NULL)
    fail (self, error);
}

static void
request (CavPlanRunner *self)
{
  set_state (self, CAV_PLAN_STATE_STALE, NULL);
  wait_for_idle (self);
  if (self->job == NULL)
    {
      start_job (self, CAV_EFFORT_QUICK);
      return;
    }
  self->again = TRUE;
  if (cav_plan_job_get_effort (self->job) == CAV_EFFORT_THOROUGH
      || cav_plan_job_get_age (self->job) > PATIENCE)
    cav_plan_job_cancel (self->job);
}

/* The frame, or the number of equal frames, asks for other rails than those that are planned. */
static gboolean
takes_other_rails (CavPlanRunner *self)
{
  double length;
  int rails;

  cav_project_get_milled_rails (self->project, &rails, &length);
  return rails != self->rails || fabs (length - self->length) > SAME_LENGTH;
}

static void
project_changed_cb (CavPlanRunner *self, guint parts)
{
  if (!self->started)
    return;
  if ((parts & CAV_PART_SECTION) != 0)
    self->fits = FALSE;
  if ((parts & (CAV_PART_SECTION | CAV_PART_RAILS | CAV_PART_SHOP)) != 0
      || ((parts & (CAV_PART_FRAME | CAV_PART_BOARDS)) != 0 && takes_other_rails (self)))
    request (self);
}

static void
cav_plan_runner_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavPlanRunner *self = CAV_PLAN_RUNNER (object);

  if (id == PROP_STATE)
    g_value_set_int (value, (int)self->state);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_plan_runner_dispose (GObject *object)
{
  CavPlanRunner *self = CAV_PLAN_RUNNER (object);

  g_clear_handle_id (&self->idle_source, g_source_remove);
  g_clear_pointer (&self->job, cav_plan_job_abandon);
  g_clear_object (&self->project);
  G_OBJECT_CLASS (cav_plan_runner_parent_class)->dispose (object);
}

static void
cav_plan_runner_finalize (GObject *object)
{
  CavPlanRunner *self = CAV_PLAN_RUNNER (object);

  g_clear_pointer (&self->plan, cav_plan_unref);
  g_free (self->message);
  G_OBJECT_CLASS (cav_plan_runner_parent_class)->finalize (object);
}

static void
cav_plan_runner_class_init (CavPlanRunnerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_plan_runner_get_property;
  object_class->dispose = cav_plan_runner_dispose;
  object_class->finalize = cav_plan_runner_finalize;

  properties[PROP_STATE]
      = g_param_spec_int ("state", NULL, NULL, CAV_PLAN_STATE_STALE, CAV_PLAN_STATE_FAILED,
                          CAV_PLAN_STATE_STALE, G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  signals[PLANNED] = g_signal_new ("planned", CAV_TYPE_PLAN_RUNNER, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
cav_plan_runner_init (CavPlanRunner *self)
{
}

CavPlanRunner *
cav_plan_runner_new (CavProject *project)
{
  CavPlanRunner *self;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  self = g_object_new (CAV_TYPE_PLAN_RUNNER, NULL);
  self->project = g_object_ref (project);
  g_signal_connect_object (project, "changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  return self;
}

void
cav_plan_runner_start (CavPlanRunner *self)
{
  g_return_if_fail (CAV_IS_PLAN_RUNNER (self));
  if (self->started)
    return;
  self->started = TRUE;
  request (self);
}

CavPlan *
cav_plan_runner_get_plan (CavPlanRunner *self)
{
  g_return_val_if_fail (CAV_IS_PLAN_RUNNER (self), NULL);
  return self->plan;
}

CavPlanState
cav_plan_runner_get_state (CavPlanRunner *self)
{
  g_return_val_if_fail (CAV_IS_PLAN_RUNNER (self), CAV_PLAN_STATE_STALE);
  return self->state;
}

gboolean
cav_plan_runner_is_thorough (CavPlanRunner *self)
{
  g_return_val_if_fail (CAV_IS_PLAN_RUNNER (self), FALSE);
  return self->thorough;
}

const char *
cav_plan_runner_get_message (CavPlanRunner *self)
{
  g_return_val_if_fail (CAV_IS_PLAN_RUNNER (self), NULL);
  return self->message;
}

void
cav_plan_runner_get_thorough_async (CavPlanRunner *self,
                                    GCancellable *cancellable,
                                    GAsyncReadyCallback callback,
                                    gpointer user_data)
{
  g_autoptr (GTask) task = NULL;

  g_return_if_fail (CAV_IS_PLAN_RUNNER (self));
  task = g_task_new (self, cancellable, callback, user_data);
  if (self->state == CAV_PLAN_STATE_CURRENT && self->thorough)
    {
      g_task_return_pointer (task, cav_plan_ref (self->plan), (GDestroyNotify)cav_plan_unref);
      return;
    }
  self->waiting = g_list_append (self->waiting, g_steal_pointer (&task));
  self->started = TRUE;
  if (self->job == NULL)
    start_job (self, CAV_EFFORT_THOROUGH);
}

CavPlan *
cav_plan_runner_get_thorough_finish (CavPlanRunner *self, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}
