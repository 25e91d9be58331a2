/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-column.h"

#include "app/cav-cut-panel.h"
#include "app/cav-findings.h"
#include "app/cav-pass-settings.h"
#include "app/cav-project-panel.h"

struct _CavColumn
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *selection_signals;

  /* Template widgets */
  GtkWidget *content;
  GtkStack *stack;
};

G_DEFINE_FINAL_TYPE (CavColumn, cav_column, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

enum
{
  SHOW_FINDING,
  N_SIGNALS,
};

static GParamSpec *properties[N_PROPERTIES];
static guint signals[N_SIGNALS];

static const char *
get_panel (CavColumn *self)
{
  CavSelection *selection;

  if (self->document == NULL)
    return "project";
  selection = cav_document_get_selection (self->document);
  if (cav_selection_get_pass (selection) != CAV_NO_PASS)
    return "pass";
  return cav_selection_get_cut_count (selection) > 0 ? "cuts" : "project";
}

/* Panels of what has to be chosen first are made when it is. */
static void
fill_panel (CavColumn *self, const char *name, GType type)
{
  AdwBin *bin = ADW_BIN (gtk_stack_get_child_by_name (self->stack, name));
  GtkWidget *panel;

  if (adw_bin_get_child (bin) != NULL)
    return;
  panel = g_object_new (type, NULL);
  g_object_bind_property (self, "document", panel, "document", G_BINDING_SYNC_CREATE);
  adw_bin_set_child (bin, panel);
}

static void
refresh (CavColumn *self)
{
  const char *name = get_panel (self);

  if (g_str_equal (name, "cuts"))
    fill_panel (self, name, CAV_TYPE_CUT_PANEL);
  else if (g_str_equal (name, "pass"))
    fill_panel (self, name, CAV_TYPE_PASS_SETTINGS);
  gtk_stack_set_visible_child_name (self->stack, name);
}

static void
show_finding_cb (CavColumn *self, const CavFinding *finding)
{
  g_signal_emit (self, signals[SHOW_FINDING], 0, finding);
}

static void
set_document (CavColumn *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->selection_signals,
                             document != NULL ? cav_document_get_selection (document) : NULL);
  refresh (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DOCUMENT]);
}

static void
cav_column_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavColumn *self = CAV_COLUMN (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_column_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  if (id == PROP_DOCUMENT)
    set_document (CAV_COLUMN (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_column_dispose (GObject *object)
{
  CavColumn *self = CAV_COLUMN (object);

  g_clear_object (&self->selection_signals);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_column_parent_class)->dispose (object);
}

static void
cav_column_class_init (CavColumnClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_column_get_property;
  object_class->set_property = cav_column_set_property;
  object_class->dispose = cav_column_dispose;

  properties[PROP_DOCUMENT]
      = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  signals[SHOW_FINDING] = g_signal_new ("show-finding", CAV_TYPE_COLUMN, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 1, G_TYPE_POINTER);

  g_type_ensure (CAV_TYPE_PROJECT_PANEL);
  g_type_ensure (CAV_TYPE_FINDINGS);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/cavetto/Cavetto/cav-column.ui");
  gtk_widget_class_bind_template_child (widget_class, CavColumn, content);
  gtk_widget_class_bind_template_child (widget_class, CavColumn, stack);
  gtk_widget_class_bind_template_callback (widget_class, show_finding_cb);
}

static void
cav_column_init (CavColumn *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->selection_signals = g_signal_group_new (CAV_TYPE_SELECTION);
  g_signal_group_connect_object (self->selection_signals, "cuts-changed", G_CALLBACK (refresh),
                                 self, G_CONNECT_SWAPPED);
  g_signal_group_connect_object (self->selection_signals, "notify::pass", G_CALLBACK (refresh),
                                 self, G_CONNECT_SWAPPED);
}

CavColumn *
cav_column_new (void)
{
  return g_object_new (CAV_TYPE_COLUMN, NULL);
}
