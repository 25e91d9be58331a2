/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document-private.h"

#include "storage/cav-storage.h"

/* Unsaved work is kept at most so long after it was done, ms. */
#define KEEP_DELAY 3000

typedef struct
{
  CavProject *snapshot;
  CavRecovery *recovery;
  char *uri; /* nullable */
} Keeping;

static void
keeping_free (gpointer data)
{
  Keeping *keeping = data;

  g_object_unref (keeping->snapshot);
  cav_recovery_unref (keeping->recovery);
  g_free (keeping->uri);
  g_free (keeping);
}

static void
keep_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Keeping *keeping = data;
  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (keeping->snapshot);
  GError *error = NULL;

  if (cav_recovery_keep (keeping->recovery, bytes, keeping->uri, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

/* A full disk is no reason to disturb: the work is still on the screen. It is written down once. */
static void
kept_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  static gboolean told;
  g_autoptr (GError) error = NULL;

  if (!g_task_propagate_boolean (G_TASK (result), &error) && !told)
    {
      told = TRUE;
      g_info ("%s", error->message);
    }
}

static gboolean
keep_cb (gpointer user_data)
{
  CavDocument *self = user_data;
  g_autoptr (GTask) task = NULL;
  Keeping *keeping;

  self->keep_source = 0;
  if (!cav_document_is_unsaved (self))
    return G_SOURCE_REMOVE;
  keeping = g_new0 (Keeping, 1);
  keeping->snapshot = cav_project_copy_snapshot (self->project);
  keeping->recovery = cav_recovery_ref (self->recovery);
  keeping->uri = self->file != NULL ? g_file_get_uri (self->file) : NULL;
  /* Without the document as its source: a task that is under way would keep it alive. */
  task = g_task_new (NULL, NULL, kept_cb, NULL);
  g_task_set_task_data (task, keeping, keeping_free);
  g_task_run_in_thread (task, keep_in_thread);
  return G_SOURCE_REMOVE;
}

void
cav_document_update_keeping (CavDocument *self)
{
  if (self->recovery == NULL)
    return;
  if (cav_document_is_unsaved (self))
    {
      if (self->keep_source == 0)
        self->keep_source = g_timeout_add (KEEP_DELAY, keep_cb, self);
      return;
    }
  g_clear_handle_id (&self->keep_source, g_source_remove);
  cav_recovery_drop (self->recovery);
}

void
cav_document_end_keeping (CavDocument *self)
{
  g_clear_handle_id (&self->keep_source, g_source_remove);
  if (self->recovery != NULL)
    cav_recovery_end (self->recovery);
  g_clear_pointer (&self->recovery, cav_recovery_unref);
}

CavDocument *
cav_document_new_from_recovery (CavRecovery *recovery, GError **error)
{
  g_autoptr (CavProject) project = NULL;
  g_autofree char *uri = NULL;
  g_autoptr (GFile) file = NULL;
  CavDocument *self;

  g_return_val_if_fail (recovery != NULL, NULL);
  project = cav_storage_load_project (cav_recovery_get_path (recovery), error);
  if (project == NULL)
    return NULL;
  uri = cav_recovery_dup_uri (recovery);
  file = uri != NULL ? g_file_new_for_uri (uri) : NULL;
  self = cav_document_new_for_project (project, file);
  cav_recovery_unref (self->recovery);
  self->recovery = cav_recovery_ref (recovery);
  cav_document_mark_unsaved (self);
  return self;
}
