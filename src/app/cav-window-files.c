/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application.h"
#include "app/cav-file-choice.h"
#include "app/cav-starter.h"
#include "app/cav-window-private.h"

#include <glib/gi18n.h>

/* As many files as a menu shows. */
#define RECENT_MAX 10

/* Opening */

static void
open_file (CavWindow *self, GFile *file)
{
  GtkApplication *application = gtk_window_get_application (GTK_WINDOW (self));

  cav_application_open_file (CAV_APPLICATION (application), file, GTK_WINDOW (self));
}

static void
chosen_to_open_cb (GFile *file, gpointer user_data)
{
  open_file (CAV_WINDOW (user_data), file);
}

void
cav_window_ask_to_open (CavWindow *self)
{
  cav_choose_file_to_open (GTK_WINDOW (self), _ ("Open a project"), CAV_FILE_PROJECT,
                           chosen_to_open_cb, self);
}

void
cav_window_open_uri (CavWindow *self, const char *uri)
{
  g_autoptr (GFile) file = g_file_new_for_uri (uri);

  open_file (self, file);
}

static void
loaded_again_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (CavWindow) self = user_data;
  g_autoptr (GError) error = NULL;

  if (!cav_document_load_finish (CAV_DOCUMENT (source), result, &error))
    cav_tell_failure (GTK_WINDOW (self), _ ("The file could not be read"), error->message);
}

void
cav_window_load_again (CavWindow *self)
{
  GFile *file = cav_document_get_file (self->document);

  if (file != NULL)
    cav_document_load_async (self->document, file, NULL, loaded_again_cb, g_object_ref (self));
}

/* Saving */

static void
overwrite_response_cb (AdwMessageDialog *dialog, const char *response, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);

  if (g_str_equal (response, "overwrite"))
    {
      cav_document_keep_mine (self->document);
      cav_window_save (self);
    }
  else if (g_str_equal (response, "save-as"))
    cav_window_ask_where_to_save (self);
}

static void
ask_to_overwrite (CavWindow *self)
{
  GtkWidget *dialog = adw_message_dialog_new (
      GTK_WINDOW (self), _ ("Overwrite the changes of another program?"),
      _ ("The file has been changed since it was opened here. Saving would replace what was "
         "written into it."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("Cancel"), "save-as",
                                    _ ("Save as…"), "overwrite", _ ("Overwrite"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "overwrite",
                                              ADW_RESPONSE_DESTRUCTIVE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (overwrite_response_cb), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

static void
saved_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (CavWindow) self = user_data;
  g_autoptr (GError) error = NULL;
  GFile *file = cav_document_get_file (CAV_DOCUMENT (source));

  if (cav_document_save_finish (CAV_DOCUMENT (source), result, &error))
    cav_application_remember_file (file);
  else if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_WRONG_ETAG))
    ask_to_overwrite (self);
  else
    cav_tell_failure (GTK_WINDOW (self), _ ("The project could not be saved"), error->message);
}

static void
save_to (CavWindow *self, GFile *file)
{
  cav_document_save_async (self->document, file, NULL, saved_cb, g_object_ref (self));
}

/* Nobody has given the project a title: it has none, that of the molding it began with, or that of
 * its file. */
static gboolean
has_title_of_no_one (CavDocument *document)
{
  const char *title = cav_project_get_title (cav_document_get_project (document));
  g_autofree char *name = cav_document_dup_name (document);

  return *title == '\0' || cav_starter_is_name (title)
         || (cav_document_get_file (document) != NULL && g_str_equal (title, name));
}

void
cav_window_save_as (CavWindow *self, GFile *file)
{
  g_autofree char *name = NULL;

  g_return_if_fail (CAV_IS_WINDOW (self));
  g_return_if_fail (G_IS_FILE (file));

  /* Sheets are headed by the title: whoever names the file has named what lies in the shop, too. */
  if (has_title_of_no_one (self->document))
    {
      name = cav_document_dup_name_of_file (file);
      cav_project_set_title (cav_document_get_project (self->document), name);
    }
  save_to (self, file);
}

static void
chosen_to_save_cb (GFile *file, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);

  self->close_when_saved = self->close_when_chosen;
  self->close_when_chosen = FALSE;
  cav_window_save_as (self, file);
}

void
cav_window_save (CavWindow *self)
{
  GFile *file = cav_document_get_file (self->document);

  if (file == NULL)
    cav_window_ask_where_to_save (self);
  else if (!cav_document_is_saving (self->document))
    save_to (self, file);
}

void
cav_window_ask_where_to_save (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);

  self->close_when_chosen = FALSE;
  cav_choose_file_to_save (GTK_WINDOW (self), _ ("Save the project"), CAV_FILE_PROJECT, name,
                           chosen_to_save_cb, self);
}

/* Closing */

static void
closing_response_cb (AdwMessageDialog *dialog, const char *response, gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);

  if (g_str_equal (response, "save"))
    {
      self->close_when_saved = cav_document_get_file (self->document) != NULL;
      cav_window_save (self);
      self->close_when_chosen = !self->close_when_saved;
    }
  else if (g_str_equal (response, "discard"))
    {
      self->close_for_good = TRUE;
      gtk_window_close (GTK_WINDOW (self));
    }
}

void
cav_window_ask_before_closing (CavWindow *self)
{
  g_autofree char *name = cav_document_dup_name (self->document);
  g_autofree char *heading = g_strdup_printf (_ ("Save “%s” before closing?"), name);
  GtkWidget *dialog
      = adw_message_dialog_new (GTK_WINDOW (self), heading,
                                _ ("What you changed since it was saved last is lost otherwise."));

  adw_message_dialog_add_responses (ADW_MESSAGE_DIALOG (dialog), "cancel", _ ("Cancel"), "discard",
                                    _ ("Discard"), "save", _ ("Save"), NULL);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "discard",
                                              ADW_RESPONSE_DESTRUCTIVE);
  adw_message_dialog_set_response_appearance (ADW_MESSAGE_DIALOG (dialog), "save",
                                              ADW_RESPONSE_SUGGESTED);
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "save");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "cancel");
  g_signal_connect_object (dialog, "response", G_CALLBACK (closing_response_cb), self, 0);
  gtk_window_present (GTK_WINDOW (dialog));
}

/* Files of late */

static gboolean
is_project (GtkRecentInfo *info)
{
  return g_strcmp0 (gtk_recent_info_get_mime_type (info), CAV_PROJECT_MIME_TYPE) == 0;
}

static int
compare_visits (gconstpointer a, gconstpointer b)
{
  return -g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *)a),
                               gtk_recent_info_get_modified ((GtkRecentInfo *)b));
}

void
cav_window_update_recent (CavWindow *self)
{
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  guint count = 0;

  items = g_list_sort (items, compare_visits);
  g_menu_remove_all (self->recent_section);
  for (GList *link = items; link != NULL && count < RECENT_MAX; link = link->next)
    {
      GtkRecentInfo *info = link->data;
      g_autoptr (GMenuItem) item = NULL;

      if (!is_project (info) || !gtk_recent_info_exists (info))
        continue;
      item = g_menu_item_new (gtk_recent_info_get_display_name (info), NULL);
      g_menu_item_set_action_and_target (item, "win.open-recent", "s",
                                         gtk_recent_info_get_uri (info));
      g_menu_append_item (self->recent_section, item);
      count++;
    }
  if (count == 0)
    g_menu_append (self->recent_section, _ ("None yet"), "win.no-such-action");
  g_list_free_full (items, (GDestroyNotify)gtk_recent_info_unref);
}
