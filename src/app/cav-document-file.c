/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document-private.h"

#include <glib/gi18n.h>

#include "storage/cav-storage.h"

/* Reading */

typedef struct
{
  GFile *file;
  char *stamp; /* as it was before it was read */
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_object_unref (reading->file);
  g_free (reading->stamp);
  g_free (reading);
}

static void
read_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Reading *reading = data;
  g_autofree char *name = g_file_get_parse_name (reading->file);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) project = NULL;

  reading->stamp = cav_file_stamp (reading->file);
  /* The storage room reads a local file itself: it looks at the size before it reads. */
  if (g_file_peek_path (reading->file) != NULL)
    project = cav_storage_load_project (g_file_peek_path (reading->file), &error);
  else
    {
      g_autoptr (GBytes) bytes = g_file_load_bytes (reading->file, cancellable, NULL, &error);

      if (bytes != NULL)
        project = cav_storage_project_from_bytes (bytes, name, &error);
    }
  if (project != NULL)
    g_task_return_pointer (task, g_steal_pointer (&project), g_object_unref);
  else
    g_task_return_error (task, g_steal_pointer (&error));
}

void
cav_document_load_async (CavDocument *self,
                         GFile *file,
                         GCancellable *cancellable,
                         GAsyncReadyCallback callback,
                         gpointer user_data)
{
  g_autoptr (GTask) task = NULL;
  Reading *reading;

  g_return_if_fail (CAV_IS_DOCUMENT (self));
  g_return_if_fail (G_IS_FILE (file));
  reading = g_new0 (Reading, 1);
  reading->file = g_object_ref (file);
  task = g_task_new (self, cancellable, callback, user_data);
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

gboolean
cav_document_load_finish (CavDocument *self, GAsyncResult *result, GError **error)
{
  g_autoptr (CavProject) project = NULL;
  const Reading *reading;

  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);
  project = g_task_propagate_pointer (G_TASK (result), error);
  if (project == NULL)
    return FALSE;
  reading = g_task_get_task_data (G_TASK (result));
  cav_selection_clear_cuts (self->selection);
  cav_selection_set_pass (self->selection, CAV_NO_PASS);
  cav_project_load (self->project, project);
  cav_document_settle (self, reading->file, reading->stamp);
  return TRUE;
}

/* Writing */

typedef struct
{
  CavProject *snapshot;
  GFile *file;
  char *expected; /* nullable, stamp that the file must have */
  char *stamp;    /* after it was written */
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_object_unref (writing->snapshot);
  g_object_unref (writing->file);
  g_free (writing->expected);
  g_free (writing->stamp);
  g_free (writing);
}

static gboolean
check_expected (const Writing *writing, GError **error)
{
  g_autofree char *found = NULL;

  if (writing->expected == NULL)
    return TRUE;
  found = cav_file_stamp (writing->file);
  if (found == NULL || g_strcmp0 (found, writing->expected) == 0)
    return TRUE;
  g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG, _ ("changed by another program"));
  return FALSE;
}

static gboolean
write_bytes (GFile *file, GBytes *bytes, GCancellable *cancellable, GError **error)
{
  gsize length;
  const void *data = g_bytes_get_data (bytes, &length);

  if (g_file_peek_path (file) != NULL)
    return cav_storage_write (g_file_peek_path (file), data, length, error);
  return g_file_replace_contents (file, data, length, NULL, FALSE, G_FILE_CREATE_NONE, NULL,
                                  cancellable, error);
}

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Writing *writing = data;
  g_autoptr (GBytes) bytes = NULL;
  g_autoptr (GError) error = NULL;

  if (check_expected (writing, &error))
    {
      bytes = cav_storage_project_to_bytes (writing->snapshot);
      if (write_bytes (writing->file, bytes, cancellable, &error))
        {
          writing->stamp = cav_file_stamp (writing->file);
          g_task_return_boolean (task, TRUE);
          return;
        }
    }
  g_task_return_error (task, g_steal_pointer (&error));
}

/* Before whoever waits hears of it, so that the document is as it should be by then; also where
 * nobody fetches the result. */
static void
written_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavDocument *self = CAV_DOCUMENT (source);
  g_autoptr (GTask) outer = user_data;
  const Writing *writing = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  self->saving--;
  if (g_task_propagate_boolean (G_TASK (result), &error))
    {
      cav_project_mark_saved_as (self->project, writing->snapshot);
      cav_document_settle (self, writing->file, writing->stamp);
    }
  cav_file_watch_resume (self->watch);
  cav_document_tell_status (self);
  if (error != NULL)
    g_task_return_error (outer, g_steal_pointer (&error));
  else
    g_task_return_boolean (outer, TRUE);
}

void
cav_document_save_async (CavDocument *self,
                         GFile *file,
                         GCancellable *cancellable,
                         GAsyncReadyCallback callback,
                         gpointer user_data)
{
  g_autoptr (GTask) task = NULL;
  GTask *outer;
  Writing *writing;

  g_return_if_fail (CAV_IS_DOCUMENT (self));
  g_return_if_fail (G_IS_FILE (file));
  writing = g_new0 (Writing, 1);
  writing->snapshot = cav_project_copy_snapshot (self->project);
  writing->file = g_object_ref (file);
  if (self->file != NULL && g_file_equal (file, self->file))
    writing->expected = g_strdup (cav_file_watch_get_stamp (self->watch));
  cav_file_watch_pause (self->watch);
  self->saving++;
  outer = g_task_new (self, cancellable, callback, user_data);
  task = g_task_new (self, cancellable, written_cb, outer);
  g_task_set_task_data (task, writing, writing_free);
  g_task_run_in_thread (task, write_in_thread);
  cav_document_tell_status (self);
}

gboolean
cav_document_save_finish (CavDocument *self, GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (g_task_is_valid (result, self), FALSE);
  return g_task_propagate_boolean (G_TASK (result), error);
}
