/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "app/cav-own-shop.h"

G_DEFINE_FINAL_TYPE (CavDocument, cav_document, G_TYPE_OBJECT)

enum
{
  STATUS,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

static void
project_changed_cb (CavDocument *self, guint parts)
{
  if ((parts & CAV_PART_SECTION) != 0)
    cav_selection_limit_cuts (self->selection, cav_project_get_cut_count (self->project));
  if ((parts & CAV_PART_TEXTS) != 0)
    cav_document_tell_status (self);
  else
    cav_document_update_keeping (self);
}

/* A pass that the new plan no longer has. */
static void
planned_cb (CavDocument *self)
{
  const CavPlan *plan = cav_plan_runner_get_plan (self->runner);
  int count = (int)cav_plan_get_pass_count (plan);

  if (cav_selection_get_pass (self->selection) >= count)
    cav_selection_set_pass (self->selection, count > 0 ? count - 1 : CAV_NO_PASS);
}

static void
cav_document_dispose (GObject *object)
{
  CavDocument *self = CAV_DOCUMENT (object);

  cav_document_end_keeping (self);
  g_clear_object (&self->watch);
  g_clear_object (&self->board_runner);
  g_clear_object (&self->runner);
  g_clear_object (&self->selection);
  g_clear_object (&self->project);
  g_clear_object (&self->file);
  G_OBJECT_CLASS (cav_document_parent_class)->dispose (object);
}

static void
cav_document_class_init (CavDocumentClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cav_document_dispose;
  signals[STATUS] = g_signal_new ("status", CAV_TYPE_DOCUMENT, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
}

static void
cav_document_init (CavDocument *self)
{
  self->selection = cav_selection_new ();
  self->watch = cav_file_watch_new ();
  self->recovery = cav_recovery_new (NULL);
  g_signal_connect_object (self->watch, "notify::state", G_CALLBACK (cav_document_tell_status),
                           self, G_CONNECT_SWAPPED);
}

CavDocument *
cav_document_new (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavProject) planned = NULL;
  g_autoptr (CavShop) shop = NULL;

  if (!cav_own_shop_exists ())
    return cav_document_new_for_project (project, NULL);
  /* A shop file that cannot be read is told where the shop is edited; until then there is the one
   * to begin with. The project has not been changed by it, so it is loaded and not set. */
  shop = cav_own_shop_load (NULL);
  planned = cav_project_new ();
  if (shop != NULL)
    cav_project_set_shop (planned, shop);
  cav_project_load (project, planned);
  return cav_document_new_for_project (project, NULL);
}

CavDocument *
cav_document_new_for_project (CavProject *project, GFile *file)
{
  CavDocument *self;

  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (file == NULL || G_IS_FILE (file), NULL);

  self = g_object_new (CAV_TYPE_DOCUMENT, NULL);
  self->project = g_object_ref (project);
  /* Before the runner and any widget hear of a change, so that no selected cut is one that is
   * gone. */
  g_signal_connect_object (project, "changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (project, "history", G_CALLBACK (cav_document_tell_status), self,
                           G_CONNECT_SWAPPED);
  self->runner = cav_plan_runner_new (project);
  g_signal_connect_object (self->runner, "planned", G_CALLBACK (planned_cb), self,
                           G_CONNECT_SWAPPED);
  self->board_runner = cav_board_runner_new (project, self->runner);
  g_set_object (&self->file, file);
  cav_file_watch_set_file (self->watch, file, NULL);
  return self;
}

CavProject *
cav_document_get_project (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->project;
}

CavSelection *
cav_document_get_selection (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->selection;
}

CavPlanRunner *
cav_document_get_runner (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->runner;
}

CavBoardRunner *
cav_document_get_board_runner (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->board_runner;
}

GFile *
cav_document_get_file (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  return self->file;
}

char *
cav_document_dup_name_of_file (GFile *file)
{
  g_return_val_if_fail (G_IS_FILE (file), NULL);

  g_autofree char *base = g_file_get_basename (file);
  g_autofree char *name = g_filename_display_name (base);
  char *dot = strrchr (name, '.');

  if (dot != NULL && dot != name)
    *dot = '\0';
  return g_steal_pointer (&name);
}

char *
cav_document_dup_name (CavDocument *self)
{
  const char *title;

  g_return_val_if_fail (CAV_IS_DOCUMENT (self), NULL);
  if (self->file != NULL)
    return cav_document_dup_name_of_file (self->file);
  title = cav_project_get_title (self->project);
  return g_strdup (title != NULL && title[0] != '\0' ? title : _ ("New molding"));
}

gboolean
cav_document_is_unsaved (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), FALSE);
  return self->unsaved || cav_project_is_modified (self->project)
         || cav_file_watch_get_state (self->watch) == CAV_FILE_GONE;
}

gboolean
cav_document_is_fresh (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), FALSE);
  return self->file == NULL && !cav_document_is_unsaved (self)
         && cav_project_get_undo_name (self->project) == NULL
         && cav_project_get_redo_name (self->project) == NULL;
}

gboolean
cav_document_is_saving (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), FALSE);
  return self->saving > 0;
}

CavFileState
cav_document_get_file_state (CavDocument *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT (self), CAV_FILE_SAME);
  return cav_file_watch_get_state (self->watch);
}

void
cav_document_keep_mine (CavDocument *self)
{
  g_return_if_fail (CAV_IS_DOCUMENT (self));
  self->unsaved = TRUE;
  cav_file_watch_accept (self->watch);
  cav_document_tell_status (self);
}

void
cav_document_mark_unsaved (CavDocument *self)
{
  g_return_if_fail (CAV_IS_DOCUMENT (self));
  self->unsaved = TRUE;
  cav_document_tell_status (self);
}

void
cav_document_settle (CavDocument *self, GFile *file, const char *stamp)
{
  g_set_object (&self->file, file);
  cav_file_watch_set_file (self->watch, file, stamp);
  self->unsaved = FALSE;
  cav_document_tell_status (self);
}

void
cav_document_tell_status (CavDocument *self)
{
  cav_document_update_keeping (self);
  g_signal_emit (self, signals[STATUS], 0);
}
