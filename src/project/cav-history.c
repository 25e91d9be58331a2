/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-history-private.h"

/* A step and the moment on its other side: before it among what can be undone, after it among what
 * can be redone. */
typedef struct
{
  GRefString *name;
  const CavContent *content;
} Step;

struct _CavHistory
{
  GPtrArray *undo; /* Step, the latest last */
  GPtrArray *redo; /* Step, the next last */
};

static Step *
step_new (const char *name, const CavContent *content)
{
  Step *step = g_new (Step, 1);

  step->name = g_ref_string_new_intern (name);
  step->content = cav_content_ref (content);
  return step;
}

static void
step_free_cb (gpointer data)
{
  Step *step = data;

  g_ref_string_release (step->name);
  cav_content_unref (step->content);
  g_free (step);
}

CavHistory *
cav_history_new (void)
{
  CavHistory *history = g_new (CavHistory, 1);

  history->undo = g_ptr_array_new_with_free_func (step_free_cb);
  history->redo = g_ptr_array_new_with_free_func (step_free_cb);
  return history;
}

void
cav_history_free (CavHistory *history)
{
  if (history == NULL)
    return;
  g_ptr_array_unref (history->undo);
  g_ptr_array_unref (history->redo);
  g_free (history);
}

void
cav_history_clear (CavHistory *history)
{
  g_ptr_array_set_size (history->undo, 0);
  g_ptr_array_set_size (history->redo, 0);
}

void
cav_history_push (CavHistory *history, const char *name, const CavContent *before)
{
  g_ptr_array_set_size (history->redo, 0);
  g_ptr_array_add (history->undo, step_new (name, before));
}

static CavContent *
go (GPtrArray *from, GPtrArray *to, const CavContent *now)
{
  if (from->len == 0)
    return NULL;
  Step *step = g_ptr_array_steal_index (from, from->len - 1);
  CavContent *content = (CavContent *)step->content;

  step->content = cav_content_ref (now);
  g_ptr_array_add (to, step);
  return content;
}

CavContent *
cav_history_undo (CavHistory *history, const CavContent *now)
{
  return go (history->undo, history->redo, now);
}

CavContent *
cav_history_redo (CavHistory *history, const CavContent *now)
{
  return go (history->redo, history->undo, now);
}

static const char *
get_last_name (const GPtrArray *steps)
{
  if (steps->len == 0)
    return NULL;
  return ((const Step *)g_ptr_array_index (steps, steps->len - 1))->name;
}

const char *
cav_history_get_undo_name (const CavHistory *history)
{
  return get_last_name (history->undo);
}

const char *
cav_history_get_redo_name (const CavHistory *history)
{
  return get_last_name (history->redo);
}
