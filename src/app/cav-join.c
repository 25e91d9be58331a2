/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-join.h"

#include <glib/gi18n.h>

#include "project/cav-project-boards.h"
#include "storage/cav-storage.h"

typedef struct
{
  GFile *file;
  char *kept; /* name of it in the project that it joins */
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_object_unref (reading->file);
  g_free (reading->kept);
  g_free (reading);
}

static void
job_free (gpointer job)
{
  cav_board_job_free (job);
}

/* (nullable) Without a plan the blank is as it is drawn. */
static CavPlan *
plan (CavProject *project)
{
  const CavShop *shop = cav_project_get_shop (project);
  g_autoptr (CavPlan) made = NULL;

  if (shop->blades->len + shop->cutters->len == 0)
    return NULL;
  made = cav_project_plan (project, CAV_EFFORT_QUICK, NULL);
  return made != NULL && made->usable ? g_steal_pointer (&made) : NULL;
}

static CavBoardJob *
read_job (const Reading *reading, GError **error)
{
  g_autofree char *path = g_file_get_path (reading->file);
  g_autofree char *base = g_file_get_basename (reading->file);
  g_autoptr (CavProject) project = NULL;
  g_autoptr (CavPlan) made = NULL;
  g_autoptr (CavBoardJob) job = NULL;
  g_autofree char *reason = NULL;

  if (path == NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED,
                   _ ("“%s” is not on this computer: copy it here first."), base);
      return NULL;
    }
  project = cav_storage_load_project (path, error);
  if (project == NULL)
    return NULL;
  made = plan (project);
  job = cav_project_create_board_job (project, made);
  reason = cav_board_job_explain (job);
  if (reason != NULL)
    {
      g_set_error (error, G_IO_ERROR, G_IO_ERROR_INVALID_DATA, "%s: %s", base, reason);
      return NULL;
    }
  if (job->name[0] == '\0')
    {
      g_free (job->name);
      job->name = g_strdup (base);
    }
  g_free (job->file);
  job->file = g_strdup (reading->kept);
  g_array_set_size (job->pins, 0);
  return g_steal_pointer (&job);
}

static void
read_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  CavBoardJob *job = read_job (data, &error);

  if (job != NULL)
    g_task_return_pointer (task, job, job_free);
  else
    g_task_return_error (task, error);
}

/* Beside the project it is named by itself, so that both can move together. */
static char *
dup_kept_name (GFile *file, GFile *own)
{
  g_autoptr (GFile) folder = own != NULL ? g_file_get_parent (own) : NULL;
  char *kept = folder != NULL ? g_file_get_relative_path (folder, file) : NULL;

  return kept != NULL ? kept : g_file_get_path (file);
}

void
cav_join_read_async (GFile *file,
                     GFile *own,
                     GCancellable *cancellable,
                     GAsyncReadyCallback callback,
                     gpointer user_data)
{
  g_return_if_fail (G_IS_FILE (file));

  g_autoptr (GTask) task = g_task_new (NULL, cancellable, callback, user_data);
  Reading *reading = g_new0 (Reading, 1);

  reading->file = g_object_ref (file);
  reading->kept = dup_kept_name (file, own);
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

CavBoardJob *
cav_join_read_finish (GAsyncResult *result, GError **error)
{
  g_return_val_if_fail (G_IS_TASK (result), NULL);

  return g_task_propagate_pointer (G_TASK (result), error);
}

GFile *
cav_join_get_file (const CavBoardJob *job, GFile *own)
{
  g_return_val_if_fail (job != NULL, NULL);

  g_autoptr (GFile) folder = own != NULL ? g_file_get_parent (own) : NULL;

  return folder != NULL ? g_file_resolve_relative_path (folder, job->file)
                        : g_file_new_for_path (job->file);
}
