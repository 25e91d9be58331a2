/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-panel.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "frame/cav-material.h"
#include "frame/cav-stock-size.h"

/* What a row sets. Numbers by their name in the settings, the others one by one. */
typedef enum
{
  ROW_NUMBER,
  ROW_START,
  ROW_STOCK,
  ROW_SIDES,
  ROW_MATS,
  ROW_GLAZING,
  ROW_BACKING,
  ROW_SAWN,
  ROW_FINISH,
  ROW_COATS,
  ROW_HANGERS,
  ROW_FLOATED,
  ROW_STANDS_OUT,
  ROW_WIRE,
  ROW_REFLECTION,
} RowKind;

typedef struct
{
  const char *group; /* NULL: goes on with the group before */
  RowKind kind;
  const char *number; /* of ROW_NUMBER */
  const char *title;
} RowInfo;

/* The column from top to bottom. It has as many rows as the settings have numbers, so that a table
 * says it better than forty pieces of interface would. */
static const RowInfo ROWS[] = {
  { N_ ("Size"), ROW_START, NULL, N_ ("Work from") },
  { NULL, ROW_STOCK, NULL, N_ ("Sheet size") },
  { NULL, ROW_NUMBER, "picture-width", N_ ("Picture width") },
  { NULL, ROW_NUMBER, "picture-height", N_ ("Picture height") },
  { NULL, ROW_NUMBER, "width", N_ ("Width at hand") },
  { NULL, ROW_NUMBER, "height", N_ ("Height at hand") },
  { NULL, ROW_NUMBER, "allowance", N_ ("Allowance") },
  { NULL, ROW_SIDES, NULL, N_ ("Sides") },
  { N_ ("Mats"), ROW_MATS, NULL, N_ ("Number of mats") },
  { NULL, ROW_FLOATED, NULL, N_ ("Float without a mat") },
  { NULL, ROW_NUMBER, "float-margin", N_ ("Board around it") },
  { NULL, ROW_NUMBER, "border-left", N_ ("Border left") },
  { NULL, ROW_NUMBER, "border-right", N_ ("Border right") },
  { NULL, ROW_NUMBER, "border-top", N_ ("Border top") },
  { NULL, ROW_NUMBER, "border-bottom", N_ ("Border bottom") },
  { NULL, ROW_NUMBER, "overlap", N_ ("Overlap on the picture") },
  { NULL, ROW_NUMBER, "reveal-2", N_ ("Reveal of the second") },
  { NULL, ROW_NUMBER, "reveal-3", N_ ("Reveal of the third") },
  { N_ ("Package"), ROW_GLAZING, NULL, N_ ("Glazing") },
  { NULL, ROW_NUMBER, "glazing-thickness", N_ ("Its thickness") },
  { NULL, ROW_NUMBER, "spacer", N_ ("Spacer") },
  { NULL, ROW_NUMBER, "picture-thickness", N_ ("Picture thickness") },
  { NULL, ROW_BACKING, NULL, N_ ("Backing") },
  { NULL, ROW_NUMBER, "backing-thickness", N_ ("Its thickness") },
  { NULL, ROW_NUMBER, "point-room", N_ ("Room for points") },
  { NULL, ROW_STANDS_OUT, NULL, N_ ("May stand out of the back") },
  { N_ ("Wood and finish"), ROW_SAWN, NULL, N_ ("Sawn") },
  { NULL, ROW_FINISH, NULL, N_ ("Finish") },
  { NULL, ROW_COATS, NULL, N_ ("Coats") },
  { N_ ("Air over the year"), ROW_NUMBER, "shop-humidity", N_ ("Humidity in the shop") },
  { NULL, ROW_NUMBER, "shop-temperature", N_ ("Temperature in the shop") },
  { NULL, ROW_NUMBER, "dry-humidity", N_ ("Driest season") },
  { NULL, ROW_NUMBER, "dry-temperature", N_ ("Its temperature") },
  { NULL, ROW_NUMBER, "damp-humidity", N_ ("Dampest season") },
  { NULL, ROW_NUMBER, "damp-temperature", N_ ("Its temperature") },
  { N_ ("Errors to expect"), ROW_NUMBER, "saw-error", N_ ("Each mitre cut") },
  { NULL, ROW_NUMBER, "pair-error", N_ ("Opposite rails") },
  { NULL, ROW_NUMBER, "safe-length", N_ ("Shortest strip to mill") },
  { N_ ("Hanging"), ROW_HANGERS, NULL, N_ ("Hangers") },
  { NULL, ROW_WIRE, NULL, N_ ("Wire between them") },
  { NULL, ROW_NUMBER, "wire-angle", N_ ("Wire above level") },
  { NULL, ROW_REFLECTION, NULL, N_ ("Show glass") },
};

static const char *const STARTS[] = { N_ ("Picture and mats"), N_ ("Glass at hand"),
                                      N_ ("Rabbet opening"), N_ ("Outside wanted") };
static const char *const GLAZINGS[] = { N_ ("None"), N_ ("Glass"), N_ ("Acrylic") };
static const char *const BACKINGS[]
    = { N_ ("None"), N_ ("Card"), N_ ("Foam board"), N_ ("Hardboard"), N_ ("Plywood") };
static const char *const SAWN[] = { N_ ("Flat"), N_ ("Quarter") };
static const char *const FINISHES[] = { N_ ("Bare"),  N_ ("Oil"),   N_ ("Wax"), N_ ("Varnish"),
                                        N_ ("Black"), N_ ("White"), N_ ("Gilt") };

typedef struct
{
  GtkWidget *row;
  const CavFrameNumberInfo *number;
} Row;

struct _CavFramePanel
{
  GtkBox parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;

  /* Children, as ROWS has them */
  Row rows[G_N_ELEMENTS (ROWS)];

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavFramePanel, cav_frame_panel, GTK_TYPE_BOX)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavFramePanel *self)
{
  return self->document != NULL ? cav_document_get_project (self->document) : NULL;
}

/* Showing */

static int
get_count (const CavFrameSettings *settings, RowKind kind)
{
  switch ((int)kind)
    {
    case ROW_SIDES:
      return settings->sides;
    case ROW_MATS:
      return settings->n_mats;
    case ROW_COATS:
      return settings->coats;
    default:
      return settings->hangers;
    }
}

static gboolean
get_switch (const CavFrameSettings *settings, RowKind kind)
{
  switch ((int)kind)
    {
    case ROW_FLOATED:
      return settings->floated;
    case ROW_STANDS_OUT:
      return settings->stands_out;
    case ROW_WIRE:
      return settings->wire;
    default:
      return settings->reflection;
    }
}

/* The first line of the list of sizes is "another". */
static guint
find_stock (const CavFrameSettings *settings)
{
  const CavStockSize *size
      = cav_stock_size_match (settings->picture_width, settings->picture_height);

  for (guint i = 0; size != NULL && i < cav_stock_size_get_count (); i++)
    if (cav_stock_size_get (i) == size)
      return i + 1;
  return 0;
}

static guint
get_choice (const CavFrameSettings *settings, RowKind kind)
{
  switch ((int)kind)
    {
    case ROW_START:
      return settings->start;
    case ROW_STOCK:
      return find_stock (settings);
    case ROW_GLAZING:
      return settings->glazing;
    case ROW_BACKING:
      return settings->backing;
    case ROW_SAWN:
      return settings->sawn;
    default:
      return settings->finish;
    }
}

/* Rows that mean nothing now are not shown. */
static gboolean
is_shown (const CavFrameSettings *settings, const RowInfo *info)
{
  const char *name = info->number != NULL ? info->number : "";
  gboolean matted = settings->n_mats > 0 && !settings->floated;

  if (g_str_equal (name, "width"))
    return settings->start != CAV_FRAME_START_PICTURE;
  if (g_str_equal (name, "height"))
    return settings->start != CAV_FRAME_START_PICTURE && settings->sides == 4;
  if (g_str_equal (name, "picture-height"))
    return settings->sides == 4;
  if (g_str_equal (name, "float-margin"))
    return settings->floated;
  if (g_str_equal (name, "border-left"))
    return matted;
  if (g_str_has_prefix (name, "border-"))
    return matted && settings->sides == 4;
  if (g_str_equal (name, "overlap"))
    return matted;
  if (g_str_equal (name, "reveal-2"))
    return matted && settings->n_mats > 1;
  if (g_str_equal (name, "reveal-3"))
    return matted && settings->n_mats > 2;
  if (g_str_equal (name, "glazing-thickness"))
    return settings->glazing != CAV_GLAZING_NONE;
  if (g_str_equal (name, "backing-thickness"))
    return settings->backing != CAV_BACKING_NONE;
  if (g_str_equal (name, "wire-angle"))
    return settings->wire;
  if (info->kind == ROW_COATS)
    return settings->finish != CAV_FINISH_BARE;
  return TRUE;
}

static void
refresh_row (const CavFrameSettings *settings, const RowInfo *info, const Row *row)
{
  gtk_widget_set_visible (row->row, is_shown (settings, info));
  if (CAV_IS_FIGURE_ROW (row->row))
    cav_figure_row_set_value (CAV_FIGURE_ROW (row->row),
                              row->number != NULL
                                  ? cav_frame_settings_get_number (settings, row->number)
                                  : get_count (settings, info->kind));
  else if (ADW_IS_COMBO_ROW (row->row))
    adw_combo_row_set_selected (ADW_COMBO_ROW (row->row), get_choice (settings, info->kind));
  else
    gtk_switch_set_active (
        GTK_SWITCH (adw_action_row_get_activatable_widget (ADW_ACTION_ROW (row->row))),
        get_switch (settings, info->kind));
}

static void
refresh (CavFramePanel *self)
{
  CavProject *project = get_project (self);

  if (project == NULL)
    return;
  self->is_refreshing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    refresh_row (cav_project_get_frame_settings (project), &ROWS[i], &self->rows[i]);
  self->is_refreshing = FALSE;
}

static void
project_changed_cb (CavFramePanel *self, guint parts)
{
  if ((parts & CAV_PART_FRAME) != 0)
    refresh (self);
}

/* Editing */

static void
set_count (CavFrameSettings *settings, RowKind kind, int value)
{
  switch ((int)kind)
    {
    case ROW_SIDES:
      settings->sides = value;
      break;
    case ROW_MATS:
      settings->n_mats = value;
      break;
    case ROW_COATS:
      settings->coats = value;
      break;
    default:
      settings->hangers = value;
    }
}

static void
set_switch (CavFrameSettings *settings, RowKind kind, gboolean value)
{
  switch ((int)kind)
    {
    case ROW_FLOATED:
      settings->floated = value;
      break;
    case ROW_STANDS_OUT:
      settings->stands_out = value;
      break;
    case ROW_WIRE:
      settings->wire = value;
      break;
    default:
      settings->reflection = value;
    }
}

/* A sheet size keeps the way up that the picture has. */
static void
set_stock (CavFrameSettings *settings, guint choice)
{
  const CavStockSize *size = choice > 0 ? cav_stock_size_get (choice - 1) : NULL;
  gboolean lying = settings->picture_width > settings->picture_height;

  if (size == NULL)
    return;
  settings->picture_width = lying ? size->height : size->width;
  settings->picture_height = lying ? size->width : size->height;
}

/* Another sheet brings its own weight, and a board its usual thickness. */
static void
set_choice (CavFrameSettings *settings, RowKind kind, guint choice)
{
  switch ((int)kind)
    {
    case ROW_START:
      settings->start = (CavFrameStart)choice;
      break;
    case ROW_STOCK:
      set_stock (settings, choice);
      break;
    case ROW_GLAZING:
      settings->glazing = (CavGlazing)choice;
      if (settings->glazing != CAV_GLAZING_NONE)
        settings->glazing_density = cav_glazing_get_density (settings->glazing);
      break;
    case ROW_BACKING:
      settings->backing = (CavBacking)choice;
      if (settings->backing != CAV_BACKING_NONE)
        {
          settings->backing_density = cav_backing_get_density (settings->backing);
          settings->backing_thickness = cav_backing_get_thickness (settings->backing);
        }
      break;
    case ROW_SAWN:
      settings->sawn = (CavSawn)choice;
      break;
    default:
      settings->finish = (CavFinish)choice;
    }
}

/* One step of the history: whatever a row says goes into a copy of the settings. */
static void
apply_row (CavFramePanel *self, guint index)
{
  CavProject *project = get_project (self);
  const RowInfo *info = &ROWS[index];
  const Row *row = &self->rows[index];
  g_autoptr (CavFrameSettings) settings = NULL;

  if (self->is_refreshing || project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  if (row->number != NULL)
    cav_frame_settings_set_number (settings, row->number,
                                   cav_figure_row_get_value (CAV_FIGURE_ROW (row->row)));
  else if (CAV_IS_FIGURE_ROW (row->row))
    set_count (settings, info->kind,
               (int)lround (cav_figure_row_get_value (CAV_FIGURE_ROW (row->row))));
  else if (ADW_IS_COMBO_ROW (row->row))
    set_choice (settings, info->kind, adw_combo_row_get_selected (ADW_COMBO_ROW (row->row)));
  else
    set_switch (settings, info->kind,
                gtk_switch_get_active (GTK_SWITCH (
                    adw_action_row_get_activatable_widget (ADW_ACTION_ROW (row->row)))));
  if (cav_frame_settings_equal (settings, cav_project_get_frame_settings (project)))
    return;
  cav_project_begin (project, "change frame");
  cav_project_set_frame_settings (project, settings);
  cav_project_end (project);
}

static guint
find_row (CavFramePanel *self, GtkWidget *widget)
{
  guint i = 0;

  while (i + 1 < G_N_ELEMENTS (ROWS) && self->rows[i].row != widget)
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

/* Building */

static const CavFrameNumberInfo *
find_number (const char *name)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    if (g_str_equal (numbers[i].name, name))
      return &numbers[i];
  g_assert_not_reached ();
}

static const char *
get_number_unit (const char *name)
{
  if (g_str_has_suffix (name, "humidity"))
    return "%";
  if (g_str_has_suffix (name, "temperature"))
    return "°C";
  return "°";
}

static GtkWidget *
create_number_row (Row *row, const RowInfo *info)
{
  CavFigureRow *figure;

  row->number = find_number (info->number);
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
create_count_row (const RowInfo *info)
{
  CavFigureRow *figure = CAV_FIGURE_ROW (cav_number_entry_new (_ (info->title), 0, "", 1));

  if (info->kind == ROW_SIDES)
    cav_figure_row_set_range (figure, CAV_FRAME_SIDES_MIN, CAV_FRAME_SIDES_MAX);
  else if (info->kind == ROW_MATS)
    cav_figure_row_set_range (figure, 0, CAV_MATS_MAX);
  else if (info->kind == ROW_COATS)
    cav_figure_row_set_range (figure, 0, CAV_COATS_MAX);
  else
    cav_figure_row_set_range (figure, 1, CAV_HANGERS_MAX);
  return GTK_WIDGET (figure);
}

static GtkStringList *
create_names (RowKind kind)
{
  GtkStringList *list = gtk_string_list_new (NULL);
  const char *const *words = FINISHES;
  guint n_words = G_N_ELEMENTS (FINISHES);

  if (kind == ROW_STOCK)
    {
      gtk_string_list_append (list, _ ("Another"));
      for (guint i = 0; i < cav_stock_size_get_count (); i++)
        gtk_string_list_append (list, cav_stock_size_get (i)->name);
      return list;
    }
  if (kind == ROW_START)
    words = STARTS, n_words = G_N_ELEMENTS (STARTS);
  else if (kind == ROW_GLAZING)
    words = GLAZINGS, n_words = G_N_ELEMENTS (GLAZINGS);
  else if (kind == ROW_BACKING)
    words = BACKINGS, n_words = G_N_ELEMENTS (BACKINGS);
  else if (kind == ROW_SAWN)
    words = SAWN, n_words = G_N_ELEMENTS (SAWN);
  for (guint i = 0; i < n_words; i++)
    gtk_string_list_append (list, _ (words[i]));
  return list;
}

static GtkWidget *
create_choice_row (CavFramePanel *self, const RowInfo *info)
{
  GtkWidget *row = adw_combo_row_new ();
  g_autoptr (GtkStringList) names = create_names (info->kind);

  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (row), FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (info->title));
  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (names));
  g_signal_connect (row, "notify::selected", G_CALLBACK (selected_cb), self);
  return row;
}

static GtkWidget *
create_switch_row (CavFramePanel *self, const RowInfo *info)
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
create_row (CavFramePanel *self, Row *row, const RowInfo *info)
{
  GtkWidget *widget = NULL;

  switch (info->kind)
    {
    case ROW_NUMBER:
      widget = create_number_row (row, info);
      break;
    case ROW_SIDES:
    case ROW_MATS:
    case ROW_COATS:
    case ROW_HANGERS:
      widget = create_count_row (info);
      break;
    case ROW_START:
    case ROW_STOCK:
    case ROW_GLAZING:
    case ROW_BACKING:
    case ROW_SAWN:
    case ROW_FINISH:
      return create_choice_row (self, info);
    case ROW_FLOATED:
    case ROW_STANDS_OUT:
    case ROW_WIRE:
    case ROW_REFLECTION:
      return create_switch_row (self, info);
    }
  g_signal_connect (widget, "applied", G_CALLBACK (applied_cb), self);
  return widget;
}

static void
add_rows (CavFramePanel *self)
{
  AdwPreferencesGroup *group = NULL;

  self->is_refreshing = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (ROWS); i++)
    {
      if (ROWS[i].group != NULL)
        {
          group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
          adw_preferences_group_set_title (group, _ (ROWS[i].group));
          gtk_box_append (GTK_BOX (self), GTK_WIDGET (group));
        }
      self->rows[i].row = create_row (self, &self->rows[i], &ROWS[i]);
      adw_preferences_group_add (group, self->rows[i].row);
    }
  self->is_refreshing = FALSE;
}

static void
cav_frame_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFramePanel *self = CAV_FRAME_PANEL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavFramePanel *self = CAV_FRAME_PANEL (object);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  if (!g_set_object (&self->document, g_value_get_object (value)))
    return;
  g_signal_group_set_target (self->project_signals, get_project (self));
  refresh (self);
}

static void
cav_frame_panel_dispose (GObject *object)
{
  CavFramePanel *self = CAV_FRAME_PANEL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_frame_panel_parent_class)->dispose (object);
}

static void
cav_frame_panel_class_init (CavFramePanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = cav_frame_panel_get_property;
  object_class->set_property = cav_frame_panel_set_property;
  object_class->dispose = cav_frame_panel_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
}

static void
cav_frame_panel_init (CavFramePanel *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 18);
  add_rows (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
}
