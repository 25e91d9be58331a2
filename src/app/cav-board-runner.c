/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-runner.h"

#include <math.h>

#include "app/cav-memory.h"
#include "project/cav-project-boards.h"

/* How often the worker's progress is looked at, ms. */
#define LOOK 100
/* Blanks that differ by less are one, mm. */
#define SAME 1e-9
/* How long a document has to rest before boards that nobody looks at are laid out, ms. */
#define REST 400

/* One layout under way: all that the worker reads is a copy. */
typedef struct
{
  CavLumber *lumber;
  GPtrArray *jobs; /* CavBoardJob */
  CavBlank blank;  /* that the rails are milled from */
  int cancelled;
  int permille; /* of the way, written by the worker */
} Work;

struct _CavBoardRunner
{
  GObject parent_instance;

  /* Owned */
  CavProject *project;
  CavPlanRunner *plans;
  CavBoardLayout *layout; /* nullable */
  CavBlank blank;         /* that it was made for */
  GTask *task;            /* the newest one; its data is Work */

  /* State */
  int watchers;        /* how many look at it */
  gboolean is_dirty;   /* something has changed since the last layout was begun */
  gboolean is_current; /* nothing has changed since the layout was begun */
  guint look;
  guint rest;
  double progress;
};

enum
{
  PROP_PROGRESS = 1,
  N_PROPERTIES,
};

enum
{
  LAID,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (CavBoardRunner, cav_board_runner, G_TYPE_OBJECT)

static void
work_free (gpointer data)
{
  Work *work = data;

  cav_lumber_free (work->lumber);
  g_ptr_array_unref (work->jobs);
  g_free (work);
}

static Work *
work_new (CavProject *project, CavPlanRunner *plans)
{
  const CavPlan *plan = cav_plan_runner_get_state (plans) == CAV_PLAN_STATE_FAILED
                            ? NULL
                            : cav_plan_runner_get_plan (plans);
  Work *work = g_new0 (Work, 1);

  work->lumber = cav_lumber_copy (cav_project_get_lumber (project));
  work->jobs = cav_project_create_board_jobs (project, plan);
  work->blank = plan != NULL ? plan->blank : cav_project_get_blank (project);
  return work;
}

static void
tell_progress (double share, gpointer data)
{
  Work *work = data;

  g_atomic_int_set (&work->permille, (int)(1000.0 * share));
}

static void
unref_layout (gpointer data)
{
  cav_board_layout_unref (data);
}

static void
lay_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Work *work = data;
  const CavLayoutRequest request = { .lumber = work->lumber,
                                     .jobs = work->jobs,
                                     .effort = 1,
                                     .cancelled = &work->cancelled,
                                     .progress = tell_progress,
                                     .progress_data = work };
  GError *error = NULL;
  CavBoardLayout *layout = cav_board_layout_new (&request, &error);

  if (layout != NULL)
    g_task_return_pointer (task, layout, unref_layout);
  else
    g_task_return_error (task, error);
}

static void
set_progress (CavBoardRunner *self, double progress)
{
  if (progress > self->progress || progress < self->progress)
    {
      self->progress = progress;
      g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_PROGRESS]);
    }
}

static gboolean
look_cb (gpointer user_data)
{
  CavBoardRunner *self = user_data;

  if (self->task == NULL)
    {
      self->look = 0;
      return G_SOURCE_REMOVE;
    }
  set_progress (self,
                1e-3 * g_atomic_int_get (&((Work *)g_task_get_task_data (self->task))->permille));
  return G_SOURCE_CONTINUE;
}

static void lay_now (CavBoardRunner *self);

static void
take_layout (CavBoardRunner *self, CavBoardLayout *layout)
{
  g_clear_pointer (&self->layout, cav_board_layout_unref);
  self->layout = layout;
  g_signal_emit (self, signals[LAID], 0);
}

static void
laid_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavBoardRunner *self = CAV_BOARD_RUNNER (source);
  g_autoptr (CavBoardLayout) layout = g_task_propagate_pointer (G_TASK (result), NULL);

  /* One that was given up says nothing. */
  if (G_TASK (result) != self->task)
    return;
  g_clear_object (&self->task);
  if (layout != NULL)
    {
      self->blank = ((Work *)g_task_get_task_data (G_TASK (result)))->blank;
      self->is_current = !self->is_dirty;
      take_layout (self, g_steal_pointer (&layout));
    }
  set_progress (self, 1.0);
  if (self->is_dirty)
    lay_now (self);
  else
    cav_memory_give_back_soon ();
}

static void
give_up (CavBoardRunner *self)
{
  if (self->task != NULL)
    g_atomic_int_set (&((Work *)g_task_get_task_data (self->task))->cancelled, 1);
}

static void
lay_now (CavBoardRunner *self)
{
  self->is_dirty = TRUE;
  /* What is under way is not wanted any more; its end begins the next one. */
  if (self->task != NULL)
    {
      give_up (self);
      return;
    }
  self->is_dirty = FALSE;
  self->task = g_task_new (self, NULL, laid_cb, NULL);
  g_task_set_task_data (self->task, work_new (self->project, self->plans), work_free);
  set_progress (self, 0.0);
  if (self->look == 0)
    self->look = g_timeout_add (LOOK, look_cb, self);
  g_task_run_in_thread (self->task, lay_in_thread);
}

static gboolean
rested_cb (gpointer user_data)
{
  CavBoardRunner *self = user_data;

  self->rest = 0;
  if (cav_project_has_lumber (self->project))
    lay_now (self);
  else if (self->layout != NULL)
    take_layout (self, NULL);
  return G_SOURCE_REMOVE;
}

static void
lay (CavBoardRunner *self)
{
  self->is_dirty = TRUE;
  self->is_current = FALSE;
  g_clear_handle_id (&self->rest, g_source_remove);
  if (self->watchers > 0)
    lay_now (self);
  else
    self->rest = g_timeout_add (REST, rested_cb, self);
}

static void
changed_cb (CavBoardRunner *self, guint parts)
{
  if ((parts
       & (CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_RAILS | CAV_PART_FRAME | CAV_PART_BOARDS))
      != 0)
    lay (self);
}

static void
planned_cb (CavBoardRunner *self)
{
  lay (self);
}

static void
cav_board_runner_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  if (id == PROP_PROGRESS)
    g_value_set_double (value, CAV_BOARD_RUNNER (object)->progress);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_board_runner_dispose (GObject *object)
{
  CavBoardRunner *self = CAV_BOARD_RUNNER (object);

  give_up (self);
  g_clear_handle_id (&self->look, g_source_remove);
  g_clear_handle_id (&self->rest, g_source_remove);
  g_clear_object (&self->plans);
  g_clear_object (&self->project);
  g_clear_pointer (&self->layout, cav_board_layout_unref);
  G_OBJECT_CLASS (cav_board_runner_parent_class)->dispose (object);
}

static void
cav_board_runner_class_init (CavBoardRunnerClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_board_runner_get_property;
  object_class->dispose = cav_board_runner_dispose;
  properties[PROP_PROGRESS] = g_param_spec_double ("progress", NULL, NULL, 0.0, 1.0, 1.0,
                                                   G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  signals[LAID] = g_signal_new ("laid", CAV_TYPE_BOARD_RUNNER, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 0);
}

static void
cav_board_runner_init (CavBoardRunner *self)
{
  self->progress = 1.0;
  self->is_dirty = TRUE;
}

CavBoardRunner *
cav_board_runner_new (CavProject *project, CavPlanRunner *plans)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && CAV_IS_PLAN_RUNNER (plans), NULL);

  CavBoardRunner *self = g_object_new (CAV_TYPE_BOARD_RUNNER, NULL);

  self->project = g_object_ref (project);
  self->plans = g_object_ref (plans);
  g_signal_connect_object (project, "changed", G_CALLBACK (changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (plans, "planned", G_CALLBACK (planned_cb), self, G_CONNECT_SWAPPED);
  return self;
}

void
cav_board_runner_watch (CavBoardRunner *self)
{
  g_return_if_fail (CAV_IS_BOARD_RUNNER (self));

  self->watchers++;
  if (self->is_dirty)
    lay (self);
}

void
cav_board_runner_unwatch (CavBoardRunner *self)
{
  g_return_if_fail (CAV_IS_BOARD_RUNNER (self) && self->watchers > 0);

  self->watchers--;
}

void
cav_board_runner_cancel (CavBoardRunner *self)
{
  g_return_if_fail (CAV_IS_BOARD_RUNNER (self));

  self->is_dirty = FALSE;
  give_up (self);
}

CavBoardLayout *
cav_board_runner_get_layout (CavBoardRunner *self)
{
  g_return_val_if_fail (CAV_IS_BOARD_RUNNER (self), NULL);

  return self->layout;
}

CavBoardLayout *
cav_board_runner_get_layout_for (CavBoardRunner *self, const CavPlan *plan)
{
  CavBlank blank;

  g_return_val_if_fail (CAV_IS_BOARD_RUNNER (self), NULL);

  blank = plan != NULL ? plan->blank : cav_project_get_blank (self->project);
  if (!self->is_current || fabs (blank.width - self->blank.width) > SAME
      || fabs (blank.thickness - self->blank.thickness) > SAME)
    return NULL;
  return self->layout;
}

double
cav_board_runner_get_progress (CavBoardRunner *self)
{
  g_return_val_if_fail (CAV_IS_BOARD_RUNNER (self), 1.0);

  return self->progress;
}
