/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-panel.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-choice-list.h"
#include "app/cav-frame-edit.h"
#include "app/cav-frame-rows.h"
#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"

typedef struct
{
  GtkWidget *row;
  const CavFrameNumberInfo *number;
} Row;

struct _CavFramePanel
{
  CavDocumentPanel parent_instance;

  /* Children, as cav_frame_rows_get() has them */
  Row *rows; /* owned */

  /* State */
  gboolean is_refreshing;
  gboolean has_each_border; /* asked for, whatever the numbers are */
};

G_DEFINE_FINAL_TYPE (CavFramePanel, cav_frame_panel, CAV_TYPE_DOCUMENT_PANEL)

/* (nullable) */
static CavProject *
get_project (CavFramePanel *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

/* Showing */

static CavBorderKind
get_borders (CavFramePanel *self, const CavFrameSettings *settings)
{
  return self->has_each_border ? CAV_BORDERS_EACH : cav_frame_rows_get_borders (settings);
}

static void
refresh_row (CavFramePanel *self,
             const CavFrameSettings *settings,
             const CavFrameRow *info,
             const Row *row)
{
  const CavBorderKind borders = get_borders (self, settings);

  gtk_widget_set_visible (row->row, cav_frame_row_is_shown (settings, borders, info));
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row->row),
                                 cav_frame_row_get_title (info, borders));
  if (CAV_IS_FIGURE_ROW (row->row))
    cav_figure_row_set_value (CAV_FIGURE_ROW (row->row),
                              row->number != NULL
                                  ? cav_frame_settings_get_number (settings, row->number)
                                  : cav_frame_row_get_count (settings, info->kind));
  else if (ADW_IS_COMBO_ROW (row->row))
    adw_combo_row_set_selected (ADW_COMBO_ROW (row->row),
                                info->kind == CAV_FRAME_ROW_BORDERS
                                    ? (guint)borders
                                    : cav_frame_row_get_choice (settings, info));
  else
    gtk_switch_set_active (
        GTK_SWITCH (adw_action_row_get_activatable_widget (ADW_ACTION_ROW (row->row))),
        cav_frame_row_get_switch (settings, info->kind));
}

static void
cav_frame_panel_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavFramePanel *self = CAV_FRAME_PANEL (panel);
  guint n_rows = 0;
  const CavFrameRow *rows = cav_frame_rows_get (&n_rows);

  self->is_refreshing = TRUE;
  for (guint i = 0; i < n_rows; i++)
    refresh_row (self, cav_project_get_frame_settings (project), &rows[i], &self->rows[i]);
  self->is_refreshing = FALSE;
}

/* Editing */

static void
apply_number (CavFramePanel *self, CavFrameSettings *settings, const Row *row)
{
  const double value = cav_figure_row_get_value (CAV_FIGURE_ROW (row->row));

  if (g_str_equal (row->number->name, "border-left"))
    cav_frame_rows_set_border (settings, get_borders (self, settings), value);
  else
    cav_frame_settings_set_number (settings, row->number, value);
}

static void
apply_choice (CavFramePanel *self,
              CavFrameSettings *settings,
              const CavFrameRow *info,
              const Row *row)
{
  const guint choice = adw_combo_row_get_selected (ADW_COMBO_ROW (row->row));

  if (info->kind == CAV_FRAME_ROW_BORDERS)
    self->has_each_border = choice == CAV_BORDERS_EACH;
  cav_frame_row_set_choice (settings, info, choice);
}

/* One step of the history: whatever a row says goes into a copy of the settings. A row that could
 * not have its way says again what is. */
static void
apply_row (CavFramePanel *self, guint index)
{
  CavProject *project = get_project (self);
  guint n_rows = 0;
  const CavFrameRow *info = &cav_frame_rows_get (&n_rows)[index];
  const Row *row = &self->rows[index];
  g_autoptr (CavFrameSettings) settings = NULL;

  if (self->is_refreshing || project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  if (row->number != NULL)
    apply_number (self, settings, row);
  else if (CAV_IS_FIGURE_ROW (row->row))
    cav_frame_row_set_count (settings, info->kind,
                             (int)lround (cav_figure_row_get_value (CAV_FIGURE_ROW (row->row))));
  else if (ADW_IS_COMBO_ROW (row->row))
    apply_choice (self, settings, info, row);
  else
    cav_frame_row_set_switch (
        settings, info->kind,
        gtk_switch_get_active (
            GTK_SWITCH (adw_action_row_get_activatable_widget (ADW_ACTION_ROW (row->row)))));
  cav_frame_edit_apply (project, settings, C_ ("step", "change frame"));
  cav_document_panel_refresh (CAV_DOCUMENT_PANEL (self));
}

static guint
find_row (CavFramePanel *self, GtkWidget *widget)
{
  guint n_rows = 0;
  guint i = 0;

  cav_frame_rows_get (&n_rows);
  while (i + 1 < n_rows && self->rows[i].row != widget)
    i++;
  return i;
}

static void
applied_cb (GtkWidget *row, double value, CavFramePanel *self)
{
  apply_row (self, find_row (self, row));
}

static void
selected_cb (GtkWidget *row, GParamSpec *spec, CavFramePanel *self)
{
  apply_row (self, find_row (self, row));
}

static void
switched_cb (GtkWidget *widget, GParamSpec *spec, CavFramePanel *self)
{
  apply_row (self, find_row (self, gtk_widget_get_ancestor (widget, ADW_TYPE_ACTION_ROW)));
}

gboolean
cav_frame_panel_show_finding (CavFramePanel *self, const char *code)
{
  CavProject *project;
  int index;

  g_return_val_if_fail (CAV_IS_FRAME_PANEL (self) && code != NULL, FALSE);

  project = get_project (self);
  if (project == NULL)
    return FALSE;
  index = cav_frame_rows_find_for (cav_project_get_frame_settings (project), code);
  return index >= 0 && gtk_widget_child_focus (self->rows[index].row, GTK_DIR_TAB_FORWARD);
}

/* Building */

static const char *
get_number_unit (const char *name)
{
  if (g_str_has_suffix (name, "humidity"))
    return "%";
  if (g_str_has_suffix (name, "temperature"))
    return "°C";
  if (g_str_has_suffix (name, "density"))
    return "kg/m³";
  return "°";
}

static GtkWidget *
create_number_row (Row *row, const CavFrameRow *info)
{
  CavFigureRow *figure;

  row->number = cav_frame_rows_find_number (info->number);
  if (row->number->is_length)
    figure = CAV_FIGURE_ROW (cav_length_entry_new (_ (info->title)));
  else
    figure = CAV_FIGURE_ROW (
        cav_number_entry_new (_ (info->title), 2, get_number_unit (info->number),
                              g_str_equal (info->number, "saw-error") ? 0.05 : 1.0));
  cav_figure_row_set_range (figure, row->number->minimum, row->number->maximum);
  return GTK_WIDGET (figure);
}

static GtkWidget *
create_count_row (const CavFrameRow *info)
{
  CavFigureRow *figure = CAV_FIGURE_ROW (cav_number_entry_new (_ (info->title), 0, "", 1));

  if (info->kind == CAV_FRAME_ROW_SIDES)
    cav_figure_row_set_range (figure, CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX);
  else if (info->kind == CAV_FRAME_ROW_MATS)
    cav_figure_row_set_range (figure, 0, CAV_MATS_MAX);
  else if (info->kind == CAV_FRAME_ROW_COATS)
    cav_figure_row_set_range (figure, 0, CAV_COATS_MAX);
  else
    cav_figure_row_set_range (figure, 1, CAV_HANGERS_MAX);
  return GTK_WIDGET (figure);
}

static GtkWidget *
create_choice_row (CavFramePanel *self, const CavFrameRow *info)
{
  GtkWidget *row = adw_combo_row_new ();
  g_autoptr (GtkStringList) names = cav_frame_row_create_names (info->kind);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (info->title));
  cav_choice_list_make_later (ADW_COMBO_ROW (row));
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (names));
  g_signal_connect (row, "notify::selected", G_CALLBACK (selected_cb), self);
  return row;
}

static GtkWidget *
create_switch_row (CavFramePanel *self, const CavFrameRow *info)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *button = gtk_switch_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (info->title));
  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ (info->title), -1);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), button);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), button);
  g_signal_connect (button, "notify::active", G_CALLBACK (switched_cb), self);
  return row;
}

static GtkWidget *
create_row (CavFramePanel *self, Row *row, const CavFrameRow *info)
{
  GtkWidget *widget = NULL;

  switch (info->kind)
    {
    case CAV_FRAME_ROW_NUMBER:
      widget = create_number_row (row, info);
      break;
    case CAV_FRAME_ROW_SIDES:
    case CAV_FRAME_ROW_MATS:
    case CAV_FRAME_ROW_COATS:
    case CAV_FRAME_ROW_HANGERS:
      widget = create_count_row (info);
      break;
    case CAV_FRAME_ROW_START:
    case CAV_FRAME_ROW_STOCK:
    case CAV_FRAME_ROW_PLY:
    case CAV_FRAME_ROW_BORDERS:
    case CAV_FRAME_ROW_GLAZING:
    case CAV_FRAME_ROW_BACKING:
    case CAV_FRAME_ROW_SAWN:
    case CAV_FRAME_ROW_FINISH:
      return create_choice_row (self, info);
    case CAV_FRAME_ROW_LANDSCAPE:
    case CAV_FRAME_ROW_FLOATED:
    case CAV_FRAME_ROW_BEVELLED:
    case CAV_FRAME_ROW_STANDS_OUT:
    case CAV_FRAME_ROW_WIRE:
    case CAV_FRAME_ROW_REFLECTION:
      return create_switch_row (self, info);
    }
  g_signal_connect (widget, "applied", G_CALLBACK (applied_cb), self);
  return widget;
}

static void
add_rows (CavFramePanel *self)
{
  AdwPreferencesGroup *group = NULL;
  guint n_rows = 0;
  const CavFrameRow *rows = cav_frame_rows_get (&n_rows);

  self->rows = g_new0 (Row, n_rows);
  self->is_refreshing = TRUE;
  for (guint i = 0; i < n_rows; i++)
    {
      if (rows[i].group != NULL)
        {
          group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
          adw_preferences_group_set_title (group, _ (rows[i].group));
          gtk_box_append (GTK_BOX (self), GTK_WIDGET (group));
        }
      self->rows[i].row = create_row (self, &self->rows[i], &rows[i]);
      adw_preferences_group_add (group, self->rows[i].row);
    }
  self->is_refreshing = FALSE;
}

static void
cav_frame_panel_finalize (GObject *object)
{
  g_free (CAV_FRAME_PANEL (object)->rows);
  G_OBJECT_CLASS (cav_frame_panel_parent_class)->finalize (object);
}

static void
cav_frame_panel_class_init (CavFramePanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_FRAME;
  panel_class->show_project = cav_frame_panel_show_project;
  object_class->finalize = cav_frame_panel_finalize;
}

static void
cav_frame_panel_init (CavFramePanel *self)
{
  add_rows (self);
}
