/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-document-panel.h"

#include "app/cav-settings.h"

/* Between groups of rows. */
#define SPACING 18

typedef struct
{
  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
} CavDocumentPanelPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (CavDocumentPanel, cav_document_panel, GTK_TYPE_BOX)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static CavDocumentPanelPrivate *
get_private (CavDocumentPanel *self)
{
  return cav_document_panel_get_instance_private (self);
}

static void
project_changed_cb (CavDocumentPanel *self, guint parts)
{
  if ((parts & CAV_DOCUMENT_PANEL_GET_CLASS (self)->parts) != 0)
    cav_document_panel_refresh (self);
}

static void
cav_document_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    g_value_set_object (value, cav_document_panel_get_document (CAV_DOCUMENT_PANEL (object)));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_document_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavDocumentPanel *self = CAV_DOCUMENT_PANEL (object);
  CavDocumentPanelPrivate *priv = get_private (self);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  if (!g_set_object (&priv->document, g_value_get_object (value)))
    return;
  g_signal_group_set_target (priv->project_signals, cav_document_panel_get_project (self));
  cav_document_panel_refresh (self);
}

static void
cav_document_panel_dispose (GObject *object)
{
  CavDocumentPanelPrivate *priv = get_private (CAV_DOCUMENT_PANEL (object));

  g_clear_object (&priv->project_signals);
  g_clear_object (&priv->document);
  G_OBJECT_CLASS (cav_document_panel_parent_class)->dispose (object);
}

static void
cav_document_panel_class_init (CavDocumentPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_document_panel_get_property;
  object_class->set_property = cav_document_panel_set_property;
  object_class->dispose = cav_document_panel_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_document_panel_init (CavDocumentPanel *self)
{
  CavDocumentPanelPrivate *priv = get_private (self);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), SPACING);
  priv->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (priv->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (cav_document_panel_refresh), self, G_CONNECT_SWAPPED);
}

CavDocument *
cav_document_panel_get_document (CavDocumentPanel *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT_PANEL (self), NULL);

  return get_private (self)->document;
}

CavProject *
cav_document_panel_get_project (CavDocumentPanel *self)
{
  g_return_val_if_fail (CAV_IS_DOCUMENT_PANEL (self), NULL);

  CavDocument *document = get_private (self)->document;
  return document != NULL ? cav_document_get_project (document) : NULL;
}

void
cav_document_panel_refresh (CavDocumentPanel *self)
{
  g_return_if_fail (CAV_IS_DOCUMENT_PANEL (self));

  CavProject *project = cav_document_panel_get_project (self);
  if (project != NULL)
    CAV_DOCUMENT_PANEL_GET_CLASS (self)->show_project (self, project);
}
