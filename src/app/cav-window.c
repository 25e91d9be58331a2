/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window.h"

#include "app/cav-molding-page.h"

#include <glib/gi18n.h>

struct _CavWindow
{
  AdwApplicationWindow parent_instance;

  /* Owned */
  CavDocument *document;

  /* Template widgets */
  AdwViewStack *stack;
};

G_DEFINE_FINAL_TYPE (CavWindow, cav_window, ADW_TYPE_APPLICATION_WINDOW)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static void
cav_window_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavWindow *self = CAV_WINDOW (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_window_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavWindow *self = CAV_WINDOW (object);

  if (id == PROP_DOCUMENT)
    g_set_object (&self->document, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_window_dispose (GObject *object)
{
  CavWindow *self = CAV_WINDOW (object);

  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_window_parent_class)->dispose (object);
}

static void
cav_window_class_init (CavWindowClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_window_get_property;
  object_class->set_property = cav_window_set_property;
  object_class->dispose = cav_window_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_MOLDING_PAGE);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/cavetto/Cavetto/cav-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CavWindow, stack);
}

static void
cav_window_init (CavWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

CavWindow *
cav_window_new (GtkApplication *application, CavDocument *document)
{
  g_return_val_if_fail (GTK_IS_APPLICATION (application), NULL);
  g_return_val_if_fail (CAV_IS_DOCUMENT (document), NULL);
  return g_object_new (CAV_TYPE_WINDOW, "application", application, "document", document, NULL);
}

CavDocument *
cav_window_get_document (CavWindow *self)
{
  g_return_val_if_fail (CAV_IS_WINDOW (self), NULL);
  return self->document;
}
