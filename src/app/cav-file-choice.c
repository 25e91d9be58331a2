/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-file-choice.h"

#include <adwaita.h>
#include <glib/gi18n.h>

#include "app/cav-settings.h"

typedef struct
{
  const char *name;   /* of the filter */
  const char *ending; /* NULL: whatever the system's loaders read */
  const char *recent; /* setting with the file that was chosen last; NULL: GTK's own memory */
} Kind;

static const Kind KINDS[] = {
  [CAV_FILE_PROJECT] = { N_ ("Cavetto projects"), ".cavetto", NULL },
  [CAV_FILE_SHOP] = { N_ ("Shop files"), ".xml", CAV_SETTING_RECENT_SHOP },
  [CAV_FILE_PLAN] = { N_ ("Plan files"), ".xml", NULL },
  [CAV_FILE_SVG] = { N_ ("SVG pictures"), ".svg", NULL },
  [CAV_FILE_PDF] = { N_ ("PDF documents"), ".pdf", NULL },
  [CAV_FILE_PNG] = { N_ ("PNG pictures"), ".png", NULL },
  [CAV_FILE_PICTURE] = { N_ ("Pictures"), NULL, NULL },
};

typedef struct
{
  CavFileKind kind;
  CavFileChosen chosen;
  gpointer data;
} Choice;

static void
choice_free (gpointer data, GClosure *closure)
{
  g_free (data);
}

GFile *
cav_file_add_ending (GFile *file, CavFileKind kind)
{
  g_autofree char *longer = NULL;

  g_return_val_if_fail (G_IS_FILE (file), NULL);

  g_autofree char *name = g_file_get_basename (file);
  g_autoptr (GFile) folder = g_file_get_parent (file);
  if (folder == NULL || strchr (name, '.') != NULL)
    return g_object_ref (file);
  longer = g_strconcat (name, KINDS[kind].ending, NULL);
  return g_file_get_child (folder, longer);
}

/* The dialog answers nobody once its parent is gone. */
static void
parent_gone_cb (GtkNativeDialog *dialog)
{
  gtk_native_dialog_destroy (dialog);
  g_object_unref (dialog);
}

static void
forget_parent (GtkNativeDialog *dialog)
{
  GtkWindow *parent = gtk_native_dialog_get_transient_for (dialog);

  if (parent != NULL)
    g_signal_handlers_disconnect_by_data (parent, dialog);
}

static void
response_cb (GtkNativeDialog *dialog, int response, gpointer user_data)
{
  const Choice *choice = user_data;
  GtkFileChooser *chooser = GTK_FILE_CHOOSER (dialog);
  g_autoptr (GFile) file = NULL;

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT)
    file = gtk_file_chooser_get_file (chooser);
  if (file != NULL)
    {
      g_autoptr (GFile) named
          = gtk_file_chooser_get_action (chooser) == GTK_FILE_CHOOSER_ACTION_SAVE
                ? cav_file_add_ending (file, choice->kind)
                : g_object_ref (file);

      /* The dialog has asked whether to write over the name as it was typed, not over this one: it
       * comes once more with the whole name, and asks. */
      if (!g_file_equal (named, file) && g_file_query_exists (named, NULL)
          && gtk_file_chooser_set_file (chooser, named, NULL))
        {
          gtk_native_dialog_show (dialog);
          return;
        }
      /* What was chosen may close the parent. */
      forget_parent (dialog);
      choice->chosen (named, choice->data);
    }
  forget_parent (dialog);
  g_object_unref (dialog);
}

static void
add_filters (GtkFileChooser *chooser, CavFileKind kind)
{
  g_autoptr (GtkFileFilter) filter = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, _ (KINDS[kind].name));
  if (KINDS[kind].ending != NULL)
    gtk_file_filter_add_suffix (filter, KINDS[kind].ending + 1);
  else
    gtk_file_filter_add_pixbuf_formats (filter);
  gtk_file_chooser_add_filter (chooser, filter);
  gtk_file_filter_set_name (all, _ ("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

/* Begins where a file of the kind was found last. */
static void
set_folder (GtkFileChooser *chooser, CavFileKind kind)
{
  g_autofree char *uri = NULL;
  g_autoptr (GFile) file = NULL;
  g_autoptr (GFile) folder = NULL;

  if (KINDS[kind].recent == NULL)
    return;
  uri = g_settings_get_string (cav_settings_get (), KINDS[kind].recent);
  if (*uri == '\0')
    return;
  file = g_file_new_for_uri (uri);
  folder = g_file_get_parent (file);
  if (folder != NULL && g_file_query_exists (folder, NULL))
    gtk_file_chooser_set_current_folder (chooser, folder, NULL);
}

static GtkFileChooserNative *
create_dialog (GtkWindow *parent,
               const char *title,
               GtkFileChooserAction action,
               CavFileKind kind,
               CavFileChosen chosen,
               gpointer data)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (title, parent, action, NULL, NULL);
  Choice *choice = g_new0 (Choice, 1);

  choice->kind = kind;
  choice->chosen = chosen;
  choice->data = data;
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  add_filters (GTK_FILE_CHOOSER (dialog), kind);
  set_folder (GTK_FILE_CHOOSER (dialog), kind);
  g_signal_connect_data (dialog, "response", G_CALLBACK (response_cb), choice, choice_free, 0);
  g_signal_connect_object (parent, "destroy", G_CALLBACK (parent_gone_cb), dialog,
                           G_CONNECT_SWAPPED);
  return dialog;
}

void
cav_choose_file_to_open (
    GtkWindow *parent, const char *title, CavFileKind kind, CavFileChosen chosen, gpointer data)
{
  g_return_if_fail (GTK_IS_WINDOW (parent));
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (
      create_dialog (parent, title, GTK_FILE_CHOOSER_ACTION_OPEN, kind, chosen, data)));
}

void
cav_choose_file_to_save (GtkWindow *parent,
                         const char *title,
                         CavFileKind kind,
                         const char *name,
                         CavFileChosen chosen,
                         gpointer data)
{
  GtkFileChooserNative *dialog;
  g_autofree char *file_name = NULL;

  g_return_if_fail (GTK_IS_WINDOW (parent));
  dialog = create_dialog (parent, title, GTK_FILE_CHOOSER_ACTION_SAVE, kind, chosen, data);
  file_name = g_strconcat (name, KINDS[kind].ending, NULL);
  g_strdelimit (file_name, "/", '-');
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), file_name);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
cav_tell_failure (GtkWindow *parent, const char *heading, const char *body)
{
  GtkWidget *dialog = adw_message_dialog_new (parent, heading, body);

  adw_message_dialog_add_response (ADW_MESSAGE_DIALOG (dialog), "close", _ ("Close"));
  adw_message_dialog_set_default_response (ADW_MESSAGE_DIALOG (dialog), "close");
  adw_message_dialog_set_close_response (ADW_MESSAGE_DIALOG (dialog), "close");
  gtk_window_present (GTK_WINDOW (dialog));
}
