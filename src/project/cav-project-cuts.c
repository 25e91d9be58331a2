/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include "project/cav-project-private.h"

#include <glib/gi18n-lib.h>

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

typedef enum
{
  STEP_ADD,
  STEP_EDIT,
  STEP_REMOVE,
} Step;

/* What is done to one cut or to several, as the name of a step: "add cove". (transfer full) */
static char *
dup_step_name (Step step, guint n, const CavCut *first)
{
  const char *kind = cav_cut_kind_get_word (first->kind);

  switch (step)
    {
    case STEP_ADD:
      /* Translators: as in “Undo add cove”; %s is a kind of cut. */
      return n == 1 ? g_strdup_printf (C_ ("step", "add %s"), kind)
                    : g_strdup (C_ ("step", "add cuts"));
    case STEP_EDIT:
      return n == 1 ? g_strdup_printf (C_ ("step", "edit %s"), kind)
                    : g_strdup (C_ ("step", "edit cuts"));
    case STEP_REMOVE:
      return n == 1 ? g_strdup_printf (C_ ("step", "remove %s"), kind)
                    : g_strdup (C_ ("step", "remove cuts"));
    }
  g_return_val_if_reached (NULL);
}

static void
commit_cuts (CavProject *self, CavContent *next, Step step, guint n, const CavCut *first)
{
  g_autofree char *name = dup_step_name (step, n, first);

  cav_project_commit (self, next, name);
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
  commit_cuts (self, next, STEP_ADD, 1, cut);
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
  commit_cuts (self, next, STEP_EDIT, 1, cut);
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
  commit_cuts (self, next, STEP_ADD, cuts->len, g_ptr_array_index (cuts, 0));
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
  commit_cuts (self, next, STEP_EDIT, cuts->len, g_ptr_array_index (cuts, 0));
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
  commit_cuts (self, next, STEP_REMOVE, self->content->cuts->len - next->cuts->len, first);
}

void
cav_project_replace_cuts (CavProject *self, const GPtrArray *cuts)
{
  CavContent *next;

  g_return_if_fail (CAV_IS_PROJECT (self));
  g_return_if_fail (cuts != NULL);

  next = cav_content_copy (self->content);
  cav_content_splice (next, 0, next->cuts->len, (const CavCut *const *)cuts->pdata, cuts->len);
  cav_project_commit (self, next, C_ ("step", "replace cuts"));
}
