/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-edit.h"
#include "storage/cav-clipboard.h"

/* Cuts go to the clipboard as text, so that they can be taken to another window, and pasted into a
 * letter or a file. */

void
cav_canvas_copy (CavSectionCanvas *self)
{
  g_autoptr (GPtrArray) cuts = cav_cut_edit_copy_chosen (self->document);
  g_autofree char *text = NULL;

  if (cuts->len == 0)
    return;
  text = cav_clipboard_cuts_to_text (cuts);
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (self)), text);
}

static void
paste_text (CavSectionCanvas *self, const char *text)
{
  CavProject *project = cav_canvas_get_project (self);
  g_autoptr (GPtrArray) cuts = cav_clipboard_cuts_from_text (text, NULL);
  g_autoptr (GArray) indices = g_array_new (FALSE, FALSE, sizeof (guint));
  guint first = cav_project_get_cut_count (project);

  if (cuts == NULL)
    {
      cav_canvas_set_figure (self, TRUE, g_strdup (_ ("There are no cuts on the clipboard.")));
      return;
    }
  cav_project_begin (project, C_ ("step", "paste"));
  cav_project_add_cuts (project, cuts);
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
