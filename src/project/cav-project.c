/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include "project/cav-project-private.h"

/* A step that has begun and not ended. */
typedef struct
{
  GRefString *name;
  CavContent *before;
} OpenStep;

G_DEFINE_FINAL_TYPE (CavProject, cav_project, G_TYPE_OBJECT)

enum
{
  CHANGED,
  HISTORY,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* Takes a name that may be NULL. TRUE where it is another one. */
static gboolean
take_name (GRefString **field, const char *name)
{
  if (g_strcmp0 (*field, name) == 0)
    return FALSE;
  g_clear_pointer (field, g_ref_string_release);
  if (name != NULL)
    *field = g_ref_string_new (name);
  return TRUE;
}

/* Tells of the history where something about it is new. */
static void
tell_history (CavProject *self)
{
  gboolean modified = cav_project_is_modified (self);
  gboolean news = modified != self->told_modified;

  self->told_modified = modified;
  news |= take_name (&self->told_undo, cav_history_get_undo_name (self->history));
  news |= take_name (&self->told_redo, cav_history_get_redo_name (self->history));
  if (news)
    g_signal_emit (self, signals[HISTORY], 0);
}

/* Makes content what the document says now, and tells of it. (transfer full) content. */
static void
take_content (CavProject *self, CavContent *content)
{
  guint parts = cav_content_compare (self->content, content);

  cav_content_unref (self->content);
  self->content = content;
  if (parts & (CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_FRAME))
    g_clear_pointer (&self->frame, cav_frame_free);
  if (parts & CAV_PART_SECTION)
    g_clear_pointer (&self->profile, cav_profile_free);
  if (parts != 0)
    g_signal_emit (self, signals[CHANGED], 0, parts);
}

void
cav_project_commit (CavProject *self, CavContent *next, const char *name)
{
  g_object_ref (self);
  if (cav_content_compare (self->content, next) == 0)
    cav_content_unref (next);
  else
    {
      if (self->open->len == 0)
        cav_history_push (self->history, name, self->content);
      take_content (self, next);
      tell_history (self);
    }
  g_object_unref (self);
}

static void
clear_open_cb (gpointer data)
{
  OpenStep *step = data;

  g_ref_string_release (step->name);
  cav_content_unref (step->before);
}

static void
cav_project_finalize (GObject *object)
{
  CavProject *self = CAV_PROJECT (object);

  cav_content_unref (self->content);
  cav_content_unref (self->saved);
  cav_history_free (self->history);
  g_array_unref (self->open);
  cav_project_clear_rest (self);
  g_clear_pointer (&self->frame, cav_frame_free);
  g_clear_pointer (&self->profile, cav_profile_free);
  g_clear_pointer (&self->told_undo, g_ref_string_release);
  g_clear_pointer (&self->told_redo, g_ref_string_release);
  G_OBJECT_CLASS (cav_project_parent_class)->finalize (object);
}

static void
cav_project_class_init (CavProjectClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cav_project_finalize;

  signals[CHANGED] = g_signal_new ("changed", CAV_TYPE_PROJECT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
  signals[HISTORY] = g_signal_new ("history", CAV_TYPE_PROJECT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cav_project_init (CavProject *self)
{
  self->content = cav_content_new ();
  self->saved = cav_content_ref (self->content);
  self->history = cav_history_new ();
  self->open = g_array_new (FALSE, FALSE, sizeof (OpenStep));
  g_array_set_clear_func (self->open, clear_open_cb);
}

CavProject *
cav_project_new (void)
{
  return g_object_new (CAV_TYPE_PROJECT, NULL);
}

/* (transfer full) takes content. */
static void
set_initial (CavProject *self, CavContent *content)
{
  cav_content_unref (self->saved);
  self->saved = cav_content_ref (content);
  take_content (self, content);
}

CavProject *
cav_project_copy_snapshot (CavProject *self)
{
  CavProject *copy;

  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  copy = cav_project_new ();
  set_initial (copy, cav_content_ref (self->content));
  return copy;
}

void
cav_project_load (CavProject *self, CavProject *other)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (CAV_IS_PROJECT (other));

  g_object_ref (self);
  g_array_set_size (self->open, 0);
  cav_history_clear (self->history);
  set_initial (self, cav_content_ref (other->content));
  tell_history (self);
  g_object_unref (self);
}

void
cav_project_replace (CavProject *self, CavProject *other, const char *name)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (CAV_IS_PROJECT (other));
  g_return_if_fail (name != NULL);

  cav_project_commit (self, cav_content_ref (other->content), name);
}

/* Steps */

void
cav_project_begin (CavProject *self, const char *name)
{
  OpenStep step;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (name != NULL);

  step = (OpenStep){ g_ref_string_new (name), cav_content_ref (self->content) };
  g_array_append_val (self->open, step);
}

void
cav_project_end (CavProject *self)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (self->open->len > 0);

  g_object_ref (self);
  if (self->open->len == 1)
    {
      const OpenStep *step = &g_array_index (self->open, OpenStep, 0);

      if (cav_content_compare (step->before, self->content) != 0)
        cav_history_push (self->history, step->name, step->before);
    }
  g_array_set_size (self->open, self->open->len - 1);
  tell_history (self);
  g_object_unref (self);
}

void
cav_project_abandon (CavProject *self)
{
  CavContent *before;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (self->open->len > 0);

  g_object_ref (self);
  before = cav_content_ref (g_array_index (self->open, OpenStep, self->open->len - 1).before);
  g_array_set_size (self->open, self->open->len - 1);
  take_content (self, before);
  tell_history (self);
  g_object_unref (self);
}

gboolean
cav_project_is_in_step (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  return self->open->len > 0;
}

static gboolean
go (CavProject *self, CavContent *(*step) (CavHistory *, const CavContent *))
{
  CavContent *content = self->open->len == 0 ? step (self->history, self->content) : NULL;

  if (content == NULL)
    return FALSE;
  g_object_ref (self);
  take_content (self, content);
  tell_history (self);
  g_object_unref (self);
  return TRUE;
}

gboolean
cav_project_undo (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  return go (self, cav_history_undo);
}

gboolean
cav_project_redo (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  return go (self, cav_history_redo);
}

const char *
cav_project_get_undo_name (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return cav_history_get_undo_name (self->history);
}

const char *
cav_project_get_redo_name (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return cav_history_get_redo_name (self->history);
}

gboolean
cav_project_is_modified (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), FALSE);

  return cav_content_compare (self->saved, self->content) != 0;
}

void
cav_project_mark_saved (CavProject *self)
{
  g_return_if_fail (CAV_IS_PROJECT (self));

  cav_project_mark_saved_as (self, self);
}

void
cav_project_mark_saved_as (CavProject *self, CavProject *saved)
{
  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (CAV_IS_PROJECT (saved));

  cav_content_unref (self->saved);
  self->saved = cav_content_ref (saved->content);
  tell_history (self);
}
