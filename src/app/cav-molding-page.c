/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-molding-page.h"

struct _CavMoldingPage
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;

  /* Template widgets */
  GtkWidget *content;
};

G_DEFINE_FINAL_TYPE (CavMoldingPage, cav_molding_page, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static void
cav_molding_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_molding_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_set_object (&self->document, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_molding_page_dispose (GObject *object)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_molding_page_parent_class)->dispose (object);
}

static void
cav_molding_page_class_init (CavMoldingPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_molding_page_get_property;
  object_class->set_property = cav_molding_page_set_property;
  object_class->dispose = cav_molding_page_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-molding-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CavMoldingPage, content);
}

static void
cav_molding_page_init (CavMoldingPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
