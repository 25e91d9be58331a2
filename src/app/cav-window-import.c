/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-choice.h"
#include "app/cav-window-private.h"

#include "project/cav-import.h"
#include "storage/cav-storage.h"

#include <glib/gi18n.h>

/* What was read from a picture. */
typedef struct
{
  GFile *file;
  gboolean whole;
  CavPath *outline;
  CavBlank picture;
} Reading;

static void
reading_free (gpointer data)
{
  Reading *reading = data;

  g_object_unref (reading->file);
  g_clear_pointer (&reading->outline, cav_path_free);
  g_free (reading);
}

static void
read_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Reading *reading = data;
  g_autofree char *name = g_file_get_parse_name (reading->file);
  const char *path = g_file_peek_path (reading->file);
  GError *error = NULL;

  if (path != NULL)
    reading->outline = cav_storage_load_outline (path, &reading->picture.width,
                                                 &reading->picture.thickness, &error);
  else
    {
      g_autoptr (GBytes) bytes = g_file_load_bytes (reading->file, cancellable, NULL, &error);

      if (bytes != NULL)
        reading->outline = cav_storage_outline_from_bytes (bytes, name, &reading->picture.width,
                                                           &reading->picture.thickness, &error);
    }
  if (reading->outline != NULL)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static gboolean
add_drawn_cut (CavProject *project, const Reading *reading, GError **error)
{
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (CavCut) cut
      = cav_import_create_drawn (reading->outline, &reading->picture, &blank, error);

  if (cut == NULL)
    return FALSE;
  cav_project_begin (project, C_ ("step", "import outline"));
  cav_project_add_cut (project, cut);
  cav_project_end (project);
  return TRUE;
}

static void
read_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (source);
  const Reading *reading = g_task_get_task_data (G_TASK (result));
  CavProject *project = cav_document_get_project (self->document);
  g_autoptr (GError) error = NULL;
  gboolean done = g_task_propagate_boolean (G_TASK (result), &error);

  if (done)
    done = reading->whole ? cav_import_outline (project, reading->outline, &reading->picture,
                                                &reading->picture, &error)
                          : add_drawn_cut (project, reading, &error);
  if (!done)
    cav_tell_failure (GTK_WINDOW (self), _ ("The outline could not be imported"), error->message);
  else if (!reading->whole)
    cav_selection_choose_cut (cav_document_get_selection (self->document),
                              cav_project_get_cut_count (project) - 1);
}

static void
read_outline (CavWindow *self, GFile *file, gboolean whole)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, read_cb, NULL);
  Reading *reading = g_new0 (Reading, 1);

  reading->file = g_object_ref (file);
  reading->whole = whole;
  g_task_set_task_data (task, reading, reading_free);
  g_task_run_in_thread (task, read_in_thread);
}

static void
cut_chosen_cb (GFile *file, gpointer user_data)
{
  read_outline (CAV_WINDOW (user_data), file, FALSE);
}

static void
whole_chosen_cb (GFile *file, gpointer user_data)
{
  read_outline (CAV_WINDOW (user_data), file, TRUE);
}

void
cav_window_import_outline (CavWindow *self, gboolean whole)
{
  cav_choose_file_to_open (GTK_WINDOW (self),
                           whole ? _ ("Import an outline as the whole molding")
                                 : _ ("Import an outline as a cut"),
                           CAV_FILE_SVG, whole ? whole_chosen_cb : cut_chosen_cb, self);
}
