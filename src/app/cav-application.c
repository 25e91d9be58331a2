/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-application.h"

#include "app/cav-window.h"

#include <glib/gi18n.h>

/* Made by glib-compile-resources. */
GResource *cav_get_resource (void);

struct _CavApplication
{
  AdwApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (CavApplication, cav_application, ADW_TYPE_APPLICATION)

static void
cav_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window == NULL)
    {
      g_autoptr (CavDocument) document = cav_document_new ();

      window = GTK_WINDOW (cav_window_new (GTK_APPLICATION (application), document));
    }
  gtk_window_present (window);
}

static void
cav_application_startup (GApplication *application)
{
  cav_application_register_resources ();
  G_APPLICATION_CLASS (cav_application_parent_class)->startup (application);
}

static void
cav_application_class_init (CavApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->activate = cav_application_activate;
  application_class->startup = cav_application_startup;
}

static void
cav_application_init (CavApplication *self)
{
}

CavApplication *
cav_application_new (void)
{
  return g_object_new (CAV_TYPE_APPLICATION, "application-id", CAV_APPLICATION_ID,
                       "resource-base-path", "/org/cavetto/Cavetto", "flags",
                       G_APPLICATION_HANDLES_OPEN, NULL);
}

void
cav_application_register_resources (void)
{
  g_resources_register (cav_get_resource ());
}
