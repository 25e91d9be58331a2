/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-write-file.h"

#include "app/cav-file-choice.h"
#include "storage/cav-storage.h"

#include <glib/gi18n.h>

typedef struct
{
  GFile *file;
  GBytes *bytes;
  CavFileWritten written;
} Writing;

static void
writing_free (gpointer data)
{
  Writing *writing = data;

  g_object_unref (writing->file);
  g_bytes_unref (writing->bytes);
  g_free (writing);
}

static void
write_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Writing *writing = data;
  gsize length;
  const void *bytes = g_bytes_get_data (writing->bytes, &length);
  const char *path = g_file_peek_path (writing->file);
  GError *error = NULL;
  gboolean done;

  if (path != NULL)
    done = cav_storage_write (path, bytes, length, &error);
  else
    done = g_file_replace_contents (writing->file, bytes, length, NULL, FALSE, G_FILE_CREATE_NONE,
                                    NULL, cancellable, &error);
  if (done)
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

char *
cav_written_words_new (GFile *file)
{
  g_autofree char *base = g_file_get_basename (file);
  g_autofree char *name = g_filename_display_name (base);
  g_autoptr (GFile) parent = g_file_get_parent (file);
  g_autofree char *folder_base = parent != NULL ? g_file_get_basename (parent) : NULL;
  g_autofree char *folder = folder_base != NULL ? g_filename_display_name (folder_base) : NULL;

  if (folder == NULL)
    return g_strdup_printf (_ ("“%s” is written"), name);
  /* Translators: a file and its folder. */
  return g_strdup_printf (_ ("“%s” is written to the folder “%s”"), name, folder);
}

static void
written_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  GtkWindow *parent = GTK_WINDOW (source);
  const Writing *writing = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;

  if (g_task_propagate_boolean (G_TASK (result), &error))
    {
      g_autofree char *text = cav_written_words_new (writing->file);

      writing->written (parent, text);
    }
  else
    cav_tell_failure (parent, _ ("The file could not be written"), error->message);
}

void
cav_write_file (
    GtkWindow *parent, GFile *file, GBytes *bytes, const GError *error, CavFileWritten written)
{
  g_autoptr (GTask) task = NULL;
  Writing *writing;

  g_return_if_fail (GTK_IS_WINDOW (parent) && G_IS_FILE (file));

  if (bytes == NULL)
    {
      cav_tell_failure (parent, _ ("The sheet could not be drawn"),
                        error != NULL ? error->message : "");
      return;
    }
  writing = g_new0 (Writing, 1);
  writing->file = g_object_ref (file);
  writing->bytes = bytes;
  writing->written = written;
  task = g_task_new (parent, NULL, written_cb, NULL);
  g_task_set_task_data (task, writing, writing_free);
  g_task_run_in_thread (task, write_in_thread);
}
