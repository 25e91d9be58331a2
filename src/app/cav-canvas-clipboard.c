/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <string.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-edit.h"
#include "storage/cav-storage.h"

/*
 * Cuts go to the clipboard as the text of a project that holds nothing else, so that they can be
 * taken to another window, and pasted into a letter or a file.
 */

void
cav_canvas_copy (CavSectionCanvas *self)
{
  g_autoptr (GPtrArray) cuts = cav_cut_edit_copy_chosen (self->document);
  g_autoptr (CavProject) project = NULL;
  g_autoptr (GBytes) bytes = NULL;
  g_autofree char *text = NULL;
  gsize length;
  const char *data;

  if (cuts->len == 0)
    return;
  project = cav_project_new ();
  cav_project_set_blank (project, self->drawn_blank);
  cav_project_replace_cuts (project, cuts);
  bytes = cav_storage_project_to_bytes (project);
  data = g_bytes_get_data (bytes, &length);
  text = g_strndup (data, length);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

static void
paste_text (CavSectionCanvas *self, const char *text)
{
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GError) error = NULL;
  g_autoptr (CavProject) pasted
      = cav_storage_project_from_bytes (bytes, _ ("the clipboard"), &error);
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint));
  guint first = cav_project_get_cut_count (project);

  if (pasted == NULL || cav_project_get_cut_count (pasted) == 0)
    {
      cav_canvas_set_figure (self, TRUE, g_strdup (_ ("There are no cuts on the clipboard.")));
      return;
    }
  cav_project_begin (project, "paste");
  cav_project_add_cuts (project, cav_project_get_cuts (pasted));
  cav_project_end (project);
  for (guint i = first; i < cav_project_get_cut_count (project); i++)
    g_array_append_val (indices, i);
  cav_selection_set_cuts (cav_canvas_get_selection (self), (const guint *)(gpointer)indices->data,
                          indices->len);
}

static void
text_read_cb (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr (CavSectionCanvas) self = data;
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (source), result, NULL);

  /* The window may have been closed while another program thought about it. */
  if (self->document != NULL && cav_canvas_is_drawable (self))
    paste_text (self, text != NULL ? text : "");
}

void
cav_canvas_paste (CavSectionCanvas *self)
{
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, text_read_cb,
                                 g_object_ref (self));
}
