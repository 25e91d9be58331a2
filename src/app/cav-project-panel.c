/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-project-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-choice-list.h"
#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "geometry/cav-number-text.h"

struct _CavProjectPanel
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;

  /* Template widgets */
  GtkWidget *content;
  CavFigureRow *width;
  CavFigureRow *thickness;
  AdwComboRow *wood;
  AdwPreferencesRow *wood_figures;
  CavFigureRow *carrier;
  AdwPreferencesGroup *rails_group;
  CavFigureRow *rails;
  CavFigureRow *length;
  GtkEditable *title;
  GtkTextView *notes;

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavProjectPanel, cav_project_panel, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavProjectPanel *self)
{
  return self->document != NULL ? cav_document_get_project (self->document) : NULL;
}

/* Showing */

/* "670 kg/m³; moves 0.17 to 0.27 % for 1 % of moisture" */
static char *
describe_wood (const CavWood *wood)
{
  char radial[G_ASCII_DTOSTR_BUF_SIZE];
  char tangential[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *density = NULL;

  if (wood == NULL)
    return g_strdup ("");
  cav_number_format (radial, sizeof radial, "%.2f", wood->radial * 100);
  cav_number_format (tangential, sizeof tangential, "%.2f", wood->tangential * 100);
  density = wood->density > 0 ? g_strdup_printf (_ ("%.0f kg/m³"), wood->density)
                              : g_strdup (_ ("Density not published"));
  /* Translators: density; then the change in width, quarter sawn and flat sawn */
  return g_strdup_printf (_ ("%s; moves %s to %s %% for each 1 %% of moisture"), density, radial,
                          tangential);
}

static guint
find_wood (const CavWood *wood)
{
  for (guint i = 0; wood != NULL && i < cav_wood_get_count (); i++)
    if (cav_wood_get (i) == wood)
      return i + 1;
  return 0;
}

static void
refresh_wood (CavProjectPanel *self)
{
  const CavWood *wood = cav_project_get_wood (get_project (self));
  g_autofree char *description = describe_wood (wood);

  adw_combo_row_set_selected (self->wood, find_wood (wood));
  adw_preferences_row_set_title (self->wood_figures, description);
  gtk_widget_set_visible (GTK_WIDGET (self->wood_figures), wood != NULL);
}

static char *
dup_notes (CavProjectPanel *self)
{
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (self->notes);
  GtkTextIter start;
  GtkTextIter end;

  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

/* Texts that somebody is writing are left alone unless the project's have changed. */
static void
refresh_texts (CavProjectPanel *self)
{
  CavProject *project = get_project (self);
  g_autofree char *notes = dup_notes (self);

  if (g_strcmp0 (gtk_editable_get_text (self->title), cav_project_get_title (project)) != 0)
    gtk_editable_set_text (self->title, cav_project_get_title (project));
  if (g_strcmp0 (notes, cav_project_get_notes (project)) != 0)
    gtk_text_buffer_set_text (gtk_text_view_get_buffer (self->notes),
                              cav_project_get_notes (project), -1);
}

/* A frame says itself what rails it takes; without one they are typed here. */
static void
refresh_rails (CavProjectPanel *self)
{
  CavProject *project = get_project (self);
  gboolean has_frame = cav_project_has_frame (project);
  double length;
  int rails;

  cav_project_get_milled_rails (project, &rails, &length);
  cav_figure_row_set_value (self->rails, rails);
  cav_figure_row_set_value (self->length, length);
  gtk_widget_set_sensitive (GTK_WIDGET (self->rails), !has_frame);
  gtk_widget_set_sensitive (GTK_WIDGET (self->length), !has_frame);
  adw_preferences_group_set_description (self->rails_group,
                                         has_frame ? _ ("As the page Frame asks for them") : NULL);
}

static void
refresh (CavProjectPanel *self, guint parts)
{
  CavProject *project = get_project (self);
  CavBlank blank;

  if (project == NULL)
    return;
  blank = cav_project_get_blank (project);
  self->is_refreshing = TRUE;
  cav_figure_row_set_value (self->width, blank.width);
  cav_figure_row_set_value (self->thickness, blank.thickness);
  cav_figure_row_set_value (self->carrier, cav_project_get_shop (project)->limits.carrier);
  refresh_rails (self);
  refresh_wood (self);
  if ((parts & CAV_PART_TEXTS) != 0)
    refresh_texts (self);
  self->is_refreshing = FALSE;
}

static void
project_changed_cb (CavProjectPanel *self, guint parts)
{
  refresh (self, parts);
}

/* Editing: each callback is one step. */

static void
blank_applied_cb (CavProjectPanel *self, double value, CavFigureRow *row)
{
  CavProject *project = get_project (self);
  CavBlank blank;

  if (project == NULL)
    return;
  blank = cav_project_get_blank (project);
  if (row == self->width)
    blank.width = value;
  else
    blank.thickness = value;
  cav_project_begin (project, row == self->width ? C_ ("step", "change width of blank")
                                                 : C_ ("step", "change thickness of blank"));
  cav_project_set_blank (project, blank);
  cav_project_end (project);
}

static void
carrier_applied_cb (CavProjectPanel *self, double value)
{
  CavProject *project = get_project (self);
  g_autoptr (CavShop) shop = NULL;

  if (project == NULL)
    return;
  shop = cav_shop_copy (cav_project_get_shop (project));
  shop->limits.carrier = value;
  cav_project_begin (project, C_ ("step", "change carrier"));
  cav_project_set_shop (project, shop);
  cav_project_end (project);
}

static void
rails_applied_cb (CavProjectPanel *self)
{
  CavProject *project = get_project (self);

  if (project == NULL)
    return;
  cav_project_begin (project, C_ ("step", "change rails"));
  cav_project_set_rails (project, (int)lround (cav_figure_row_get_value (self->rails)),
                         cav_figure_row_get_value (self->length));
  cav_project_end (project);
}

static void
wood_selected_cb (CavProjectPanel *self)
{
  CavProject *project = get_project (self);
  guint selected = adw_combo_row_get_selected (self->wood);

  if (self->is_refreshing || project == NULL || selected == GTK_INVALID_LIST_POSITION)
    return;
  cav_project_begin (project, C_ ("step", "change wood"));
  cav_project_set_wood (project, selected > 0 ? cav_wood_get (selected - 1) : NULL);
  cav_project_end (project);
}

static void
title_left_cb (CavProjectPanel *self)
{
  CavProject *project = get_project (self);
  g_autofree char *title = g_strdup (gtk_editable_get_text (self->title));

  if (project == NULL || g_strcmp0 (title, cav_project_get_title (project)) == 0)
    return;
  cav_project_begin (project, C_ ("step", "change title"));
  cav_project_set_title (project, title);
  cav_project_end (project);
}

static void
notes_left_cb (CavProjectPanel *self)
{
  CavProject *project = get_project (self);
  g_autofree char *notes = dup_notes (self);

  if (project == NULL || g_strcmp0 (notes, cav_project_get_notes (project)) == 0)
    return;
  cav_project_begin (project, C_ ("step", "change notes"));
  cav_project_set_notes (project, notes);
  cav_project_end (project);
}

/* Class */

static void
fill_woods (CavProjectPanel *self)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);

  gtk_string_list_append (names, _ ("Not chosen"));
  for (guint i = 0; i < cav_wood_get_count (); i++)
    gtk_string_list_append (names, cav_wood_get_name (cav_wood_get (i)));
  self->is_refreshing = TRUE;
  cav_choice_list_make_later (self->wood);
  adw_combo_row_set_model (self->wood, G_LIST_MODEL (names));
  self->is_refreshing = FALSE;
}

static void
cav_project_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavProjectPanel *self = CAV_PROJECT_PANEL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_project_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavProjectPanel *self = CAV_PROJECT_PANEL (object);

  if (id == PROP_DOCUMENT)
    {
      if (!g_set_object (&self->document, g_value_get_object (value)))
        return;
      g_signal_group_set_target (self->project_signals, get_project (self));
      refresh (self, CAV_PART_ALL);
    }
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_project_panel_dispose (GObject *object)
{
  CavProjectPanel *self = CAV_PROJECT_PANEL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_project_panel_parent_class)->dispose (object);
}

static void
cav_project_panel_class_init (CavProjectPanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_project_panel_get_property;
  object_class->set_property = cav_project_panel_set_property;
  object_class->dispose = cav_project_panel_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_LENGTH_ENTRY);
  g_type_ensure (CAV_TYPE_NUMBER_ENTRY);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-project-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, content);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, width);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, thickness);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, wood);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, wood_figures);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, carrier);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, rails);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, rails_group);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, length);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, title);
  gtk_widget_class_bind_template_child (widget_class, CavProjectPanel, notes);
  gtk_widget_class_bind_template_callback (widget_class, blank_applied_cb);
  gtk_widget_class_bind_template_callback (widget_class, carrier_applied_cb);
  gtk_widget_class_bind_template_callback (widget_class, rails_applied_cb);
  gtk_widget_class_bind_template_callback (widget_class, wood_selected_cb);
  gtk_widget_class_bind_template_callback (widget_class, title_left_cb);
  gtk_widget_class_bind_template_callback (widget_class, notes_left_cb);
}

static void
cav_project_panel_init (CavProjectPanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  cav_figure_row_set_range (self->width, CAV_BLANK_MIN, CAV_BLANK_MAX);
  cav_figure_row_set_range (self->thickness, CAV_BLANK_MIN, CAV_BLANK_MAX);
  fill_woods (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
}
