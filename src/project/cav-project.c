/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include "project/cav-history-private.h"

#include <math.h>
#include <string.h>

struct _CavProject
{
  GObject parent_instance;

  /* Owned */
  CavContent *content; /* now */
  CavContent *saved;   /* what the file holds */
  CavHistory *history;
  GArray *open; /* OpenStep, the outermost first */

  /* Derived, made when asked for */
  CavProfile *profile;

  /* What was told by "history" last */
  GRefString *told_undo; /* nullable */
  GRefString *told_redo; /* nullable */
  gboolean told_modified;
};

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
  if (parts & CAV_PART_SECTION)
    g_clear_pointer (&self->profile, cav_profile_free);
  if (parts != 0)
    g_signal_emit (self, signals[CHANGED], 0, parts);
}

/* The one door of all edits: what is next comes after what is now, as a step of its own unless one
 * is open. (transfer full) next. */
static void
commit (CavProject *self, CavContent *next, const char *name)
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

  commit (self, cav_content_ref (other->content), name);
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

/* Parts */

const char *
cav_project_get_title (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->title;
}

void
cav_project_set_title (CavProject *self, const char *title)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  cav_content_take_text (&next->title, title != NULL ? title : "");
  commit (self, next, "edit title");
}

const char *
cav_project_get_notes (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->notes;
}

void
cav_project_set_notes (CavProject *self, const char *notes)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  cav_content_take_text (&next->notes, notes != NULL ? notes : "");
  commit (self, next, "edit notes");
}

CavBlank
cav_project_get_blank (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), (CavBlank){ 0 });

  return self->content->blank;
}

void
cav_project_set_blank (CavProject *self, CavBlank blank)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (isfinite (blank.width) && isfinite (blank.thickness));

  next = cav_content_copy (self->content);
  next->blank = blank;
  commit (self, next, "resize blank");
}

const CavWood *
cav_project_get_wood (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->wood;
}

void
cav_project_set_wood (CavProject *self, const CavWood *wood)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));

  next = cav_content_copy (self->content);
  next->wood = wood;
  commit (self, next, "choose wood");
}

int
cav_project_get_rails (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0);

  return self->content->rails;
}

double
cav_project_get_length (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0.0);

  return self->content->length;
}

void
cav_project_set_rails (CavProject *self, int rails, double length)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (rails >= 1);
  g_return_if_fail (isfinite (length) && length > 0.0);

  next = cav_content_copy (self->content);
  next->rails = rails;
  next->length = length;
  commit (self, next, "set rails");
}

const CavShop *
cav_project_get_shop (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return *self->content->shop;
}

void
cav_project_set_shop (CavProject *self, const CavShop *shop)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (shop != NULL);

  next = cav_content_copy (self->content);
  cav_content_take_shop (next, shop);
  commit (self, next, "change shop");
}

/* Cuts */

guint
cav_project_get_cut_count (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), 0);

  return self->content->cuts->len;
}

const CavCut *
cav_project_get_cut (CavProject *self, guint index)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);
  g_return_val_if_fail (index < self->content->cuts->len, NULL);

  return g_ptr_array_index (self->content->cuts, index);
}

const GPtrArray *
cav_project_get_cuts (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  return self->content->cuts;
}

/* "move" and the like, with what the cut is: "add cove". Several are "cuts". */
static void
commit_cuts (CavProject *self, CavContent *next, const char *verb, guint n, const CavCut *first)
{
  g_autofree char *name = g_strdup_printf (
      "%s %s", verb, n == 1 ? cav_cut_kind_get_info (first->kind)->name : "cuts");

  commit (self, next, name);
}

void
cav_project_add_cut (CavProject *self, const CavCut *cut)
{
  g_return_if_fail (CAV_IS_PROJECT (self));

  cav_project_insert_cut (self, self->content->cuts->len, cut);
}

void
cav_project_insert_cut (CavProject *self, guint index, const CavCut *cut)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (index <= self->content->cuts->len);
  g_return_if_fail (cut != NULL);

  next = cav_content_copy (self->content);
  cav_content_splice (next, index, 0, &cut, 1);
  commit_cuts (self, next, "add", 1, cut);
}

void
cav_project_set_cut (CavProject *self, guint index, const CavCut *cut)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (index < self->content->cuts->len);
  g_return_if_fail (cut != NULL);

  if (cav_cut_equal (g_ptr_array_index (self->content->cuts, index), cut))
    return;
  next = cav_content_copy (self->content);
  cav_content_splice (next, index, 1, &cut, 1);
  commit_cuts (self, next, "edit", 1, cut);
}

void
cav_project_remove_cut (CavProject *self, guint index)
{
  cav_project_remove_cuts (self, &index, 1);
}

void
cav_project_add_cuts (CavProject *self, const GPtrArray *cuts)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (cuts != NULL);

  if (cuts->len == 0)
    return;
  next = cav_content_copy (self->content);
  cav_content_splice (next, next->cuts->len, 0, (const CavCut *const *)cuts->pdata, cuts->len);
  commit_cuts (self, next, "add", cuts->len, g_ptr_array_index (cuts, 0));
}

void
cav_project_set_cuts (CavProject *self, const guint *indices, const GPtrArray *cuts)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (cuts != NULL);
  g_return_if_fail (indices != NULL || cuts->len == 0);
  for (guint i = 0; i < cuts->len; i++)
    g_return_if_fail (indices[i] < self->content->cuts->len);

  if (cuts->len == 0)
    return;
  next = cav_content_copy (self->content);
  cav_content_set_cuts (next, indices, (const CavCut *const *)cuts->pdata, cuts->len);
  commit_cuts (self, next, "edit", cuts->len, g_ptr_array_index (cuts, 0));
}

void
cav_project_remove_cuts (CavProject *self, const guint *indices, guint n_indices)
{
  CavContent *next;
  const CavCut *first;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (indices != NULL || n_indices == 0);
  for (guint i = 0; i < n_indices; i++)
    g_return_if_fail (indices[i] < self->content->cuts->len);

  if (n_indices == 0)
    return;
  first = g_ptr_array_index (self->content->cuts, indices[0]);
  next = cav_content_copy (self->content);
  cav_content_remove_cuts (next, indices, n_indices);
  commit_cuts (self, next, "remove", self->content->cuts->len - next->cuts->len, first);
}

void
cav_project_replace_cuts (CavProject *self, const GPtrArray *cuts)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (cuts != NULL);

  next = cav_content_copy (self->content);
  cav_content_splice (next, 0, next->cuts->len, (const CavCut *const *)cuts->pdata, cuts->len);
  commit (self, next, "replace cuts");
}

const CavProfile *
cav_project_get_profile (CavProject *self)
{
  g_return_val_if_fail (CAV_IS_PROJECT (self), NULL);

  if (self->profile == NULL)
    self->profile = cav_profile_new (&self->content->blank, self->content->cuts);
  return self->profile;
}
