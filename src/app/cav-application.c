/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application-private.h"

#include "app/cav-file-choice.h"
#include "app/cav-memory.h"
#include "app/cav-settings.h"
#include "app/cav-start-window.h"
#include "app/cav-whole-words.h"
#include "app/cav-window.h"

#include <glib/gi18n.h>

/* Made by glib-compile-resources. */
GResource *cav_get_resource (void);

struct _CavApplication
{
  AdwApplication parent_instance;

  /* State */
  gboolean has_shown;
};

G_DEFINE_FINAL_TYPE (CavApplication, cav_application, ADW_TYPE_APPLICATION)

/* Opening */

static GtkWindow *
find_window (CavApplication *self, GFile *file)
{
  for (GList *link = gtk_application_get_windows (GTK_APPLICATION (self)); link != NULL;
       link = link->next)
    {
      GFile *open;

      if (!CAV_IS_WINDOW (link->data))
        continue;
      open = cav_document_get_file (cav_window_get_document (CAV_WINDOW (link->data)));
      if (open != NULL && g_file_equal (open, file))
        return GTK_WINDOW (link->data);
    }
  return NULL;
}

GtkWindow *
cav_application_open_new (CavApplication *self)
{
  g_autoptr (CavDocument) document = cav_document_new ();
  CavWindow *window;

  g_return_val_if_fail (CAV_IS_APPLICATION (self), NULL);
  window = cav_window_new (GTK_APPLICATION (self), document);
  gtk_window_present (GTK_WINDOW (window));
  return GTK_WINDOW (window);
}

void
cav_application_show_start (CavApplication *self)
{
  g_return_if_fail (CAV_IS_APPLICATION (self));
  for (GList *link = gtk_application_get_windows (GTK_APPLICATION (self)); link != NULL;
       link = link->next)
    if (CAV_IS_START_WINDOW (link->data))
      {
        gtk_window_present (link->data);
        return;
      }
  gtk_window_present (cav_start_window_new (GTK_APPLICATION (self)));
}

typedef struct
{
  CavApplication *application; /* owned, held */
  GFile *file;                 /* owned */
  GtkWindow *window;           /* weak, nullable: whose document is loaded */
} Opening;

static void
opening_free (Opening *opening)
{
  g_clear_weak_pointer (&opening->window);
  g_application_release (G_APPLICATION (opening->application));
  g_object_unref (opening->application);
  g_object_unref (opening->file);
  g_free (opening);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Opening, opening_free)

static void
loaded_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  g_autoptr (Opening) opening = user_data;
  CavDocument *document = CAV_DOCUMENT (source);
  GtkApplication *application = GTK_APPLICATION (opening->application);
  g_autoptr (GError) error = NULL;

  if (cav_document_load_finish (document, result, &error))
    {
      if (opening->window == NULL)
        g_set_weak_pointer (&opening->window, GTK_WINDOW (cav_window_new (application, document)));
      gtk_window_present (opening->window);
      cav_application_remember_file (opening->file);
      return;
    }
  if (opening->window == NULL)
    g_set_weak_pointer (&opening->window, gtk_application_get_active_window (application));
  if (opening->window == NULL)
    g_set_weak_pointer (&opening->window, cav_application_open_new (opening->application));
  cav_tell_failure (opening->window, _ ("The file could not be opened"), error->message);
}

void
cav_application_open_file (CavApplication *self, GFile *file, GtkWindow *near)
{
  GtkWindow *window;
  Opening *opening;
  g_autoptr (CavDocument) document = NULL;

  g_return_if_fail (CAV_IS_APPLICATION (self));
  g_return_if_fail (G_IS_FILE (file));
  window = find_window (self, file);
  if (window != NULL)
    {
      gtk_window_present (window);
      return;
    }
  opening = g_new0 (Opening, 1);
  opening->application = g_object_ref (self);
  g_application_hold (G_APPLICATION (self));
  opening->file = g_object_ref (file);
  if (CAV_IS_WINDOW (near) && cav_document_is_fresh (cav_window_get_document (CAV_WINDOW (near))))
    g_set_weak_pointer (&opening->window, near);
  document = opening->window != NULL ? g_object_ref (cav_window_get_document (CAV_WINDOW (near)))
                                     : cav_document_new ();
  cav_document_load_async (document, file, NULL, loaded_cb, opening);
}

void
cav_application_has_shown (CavApplication *self)
{
  g_return_if_fail (CAV_IS_APPLICATION (self));
  if (self->has_shown)
    return;
  self->has_shown = TRUE;
  cav_application_look_for_lost_work (self);
}

void
cav_application_remember_file (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);
  GtkRecentData data = {
    .mime_type = (char *)CAV_PROJECT_MIME_TYPE,
    .app_name = (char *)"Cavetto",
    .app_exec = (char *)"cavetto %f",
  };

  gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* The class */

static void
cav_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window != NULL)
    gtk_window_present (window);
  else if (g_settings_get_boolean (cav_settings_get (), CAV_SETTING_GREETED))
    cav_application_open_new (CAV_APPLICATION (application));
  else
    {
      g_settings_set_boolean (cav_settings_get (), CAV_SETTING_GREETED, TRUE);
      cav_application_show_start (CAV_APPLICATION (application));
    }
}

static void
cav_application_open (GApplication *application, GFile **files, int n_files, const char *hint)
{
  GtkWindow *near = gtk_application_get_active_window (GTK_APPLICATION (application));

  for (int i = 0; i < n_files; i++)
    cav_application_open_file (CAV_APPLICATION (application), files[i], i == 0 ? near : NULL);
}

static void
cav_application_startup (GApplication *application)
{
  cav_application_register_resources ();
  G_APPLICATION_CLASS (cav_application_parent_class)->startup (application);
  cav_whole_words_install ();
  cav_application_add_actions (CAV_APPLICATION (application));
}

static void
cav_application_class_init (CavApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->activate = cav_application_activate;
  application_class->open = cav_application_open;
  application_class->startup = cav_application_startup;
}

static void
cav_application_init (CavApplication *self)
{
}

CavApplication *
cav_application_new (GApplicationFlags flags)
{
  cav_memory_share_pools ();
  return g_object_new (CAV_TYPE_APPLICATION, "application-id", CAV_APPLICATION_ID,
                       "resource-base-path", "/org/cavetto/Cavetto", "flags",
                       G_APPLICATION_HANDLES_OPEN | flags, NULL);
}

void
cav_application_register_resources (void)
{
  static gsize once;

  if (g_once_init_enter (&once))
    {
      g_resources_register (cav_get_resource ());
      gtk_window_set_default_icon_name (CAV_APPLICATION_ID);
      g_once_init_leave (&once, 1);
    }
}
