/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application-private.h"

#include "app/cav-file-choice.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"

#include <glib/gi18n.h>

static void
find_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  g_task_return_pointer (task, cav_recovery_find_lost (NULL), (GDestroyNotify)g_ptr_array_unref);
}

/* "“Fern frame”", or what stands for a project that was never saved. */
static char *
describe (CavRecovery *place)
{
  g_autofree char *uri = cav_recovery_dup_uri (place);
  g_autoptr (GFile) file = uri != NULL ? g_file_new_for_uri (uri) : NULL;
  g_autofree char *base = file != NULL ? g_file_get_basename (file) : NULL;
  g_autofree char *name = base != NULL ? g_filename_display_name (base) : NULL;

  return name != NULL ? g_strdup_printf ("“%s”", name) : g_strdup (_ ("a project in no file yet"));
}

static void
open_places (CavApplication *self, GPtrArray *places)
{
  for (guint i = 0; i < places->len; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (CavDocument) document
          = cav_document_new_from_recovery (g_ptr_array_index (places, i), &error);

      if (document != NULL)
        gtk_window_present (GTK_WINDOW (cav_window_new (GTK_APPLICATION (self), document)));
      else
        cav_tell_failure (gtk_application_get_active_window (GTK_APPLICATION (self)),
                          _ ("Unsaved work could not be read"), error->message);
    }
}

/* The fresh window that the program began with has had its day. */
static void
close_fresh (GtkWindow *window, GPtrArray *places)
{
  if (places->len == 0)
    return;
  if (CAV_IS_START_WINDOW (window)
      || (CAV_IS_WINDOW (window)
          && cav_document_is_fresh (cav_window_get_document (CAV_WINDOW (window)))))
    gtk_window_close (window);
}

/* "later" leaves them: their locks go with the array, and the next start finds them again. */
static void
response_cb (AdwMessageDialog *dialog, const char *response, gpointer user_data)
{
  GPtrArray *places = user_data;
  GtkWindow *parent = gtk_window_get_transient_for (GTK_WINDOW (dialog));
  CavApplication *self = CAV_APPLICATION (gtk_window_get_application (parent));

  if (g_str_equal (response, "open"))
    {
      open_places (self, places);
      /* The dialog outlives its parent by a little, and GTK would still look at it. */
      gtk_window_set_transient_for (GTK_WINDOW (dialog), NULL);
      close_fresh (parent, places);
    }
  else if (g_str_equal (response, "discard"))
    for (guint i = 0; i < places->len; i++)
      cav_recovery_end (g_ptr_array_index (places, i));
}

static void
free_places (gpointer data, GClosure *closure)
{
  g_ptr_array_unref (data);
}

static void
offer (GtkWindow *parent, GPtrArray *places)
{
  g_autoptr (GString) body = g_string_new (NULL);
  GtkWidget *dialog;

  for (guint i = 0; i < places->len; i++)
    {
      g_autofree char *name = describe (g_ptr_array_index (places, i));

      g_string_append_printf (body, "%s%s", i > 0 ? ", " : "", name);
    }
  g_string_prepend (body,
                    _ ("Cavetto did not end as it should. What had not been saved was kept: "));
  g_string_append_c (body, '.');
  dialog = adw_message_dialog_new (parent, _ ("Open unsaved work?"), body->str);
  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "later", _ ("Later"), "discard",
                                    _ ("Discard"), "open", _ ("Open"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "discard",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "open",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "open");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "later");
  g_signal_connect_data (dialog, "response", G_CALLBACK (response_cb), g_ptr_array_ref (places),
                         free_places, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
found_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavApplication *self = CAV_APPLICATION (source);
  g_autoptr (GPtrArray) places = g_task_propagate_pointer (G_TASK (result), NULL);
  GtkWindow *parent = gtk_application_get_active_window (GTK_APPLICATION (self));

  if (places != NULL && places->len > 0 && parent != NULL)
    offer (parent, places);
}

void
cav_application_look_for_lost_work (CavApplication *self)
{
  g_autoptr (GTask) task = g_task_new (self, NULL, found_cb, NULL);

  g_task_run_in_thread (task, find_in_thread);
}
