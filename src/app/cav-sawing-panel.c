/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sawing-panel.h"

#include <glib/gi18n.h>
#include <string.h>

#include "app/cav-length-entry.h"
#include "app/cav-lumber-edit.h"
#include "app/cav-number-entry.h"

typedef enum
{
  ROW_LENGTH,
  ROW_COUNT,
  ROW_SWITCH,
  ROW_ORDER, /* of the grain */
  ROW_START, /* which corner does not match */
} RowKind;

typedef struct
{
  const char *group; /* NULL: goes on with the group before */
  RowKind kind;
  gsize offset; /* in CavLumber */
  const char *title;
  const char *tip; /* NULL: none */
  double most;
  gsize needs; /* offset of the switch without which it means nothing; 0: none */
} RowInfo;

#define AT(field) G_STRUCT_OFFSET (CavLumber, field)

static const RowInfo ROWS[] = {
  { N_ ("Rails"), ROW_ORDER, AT (order), N_ ("Grain"), NULL, 0, 0 },
  { NULL, ROW_START, AT (run_start), N_ ("Corner that does not match"),
    N_ ("Where a run begins and ends"), 0, 0 },
  { NULL, ROW_COUNT, AT (frames), N_ ("Equal frames"), NULL, CAV_JOB_MAX_FRAMES, 0 },
  { NULL, ROW_LENGTH, AT (test), N_ ("Length for trial cuts"), N_ ("Of blank, to try settings on"),
    CAV_BOARD_MAX, 0 },
  { NULL, ROW_LENGTH, AT (spare), N_ ("Spare length"), N_ ("Of molding, besides the rails"),
    CAV_BOARD_MAX, 0 },
  { NULL, ROW_SWITCH, AT (square_first), N_ ("Cut square first"),
    N_ ("Blanks are cut to length before they are milled"), 0, 0 },
  { NULL, ROW_LENGTH, AT (square_extra), N_ ("Longer than the rail by"),
    N_ ("Of a blank that is cut square first"), 1000, AT (square_first) },
  { N_ ("Sawing"), ROW_LENGTH, AT (kerf), N_ ("Kerf"), NULL, 20, 0 },
  { NULL, ROW_LENGTH, AT (jointing), N_ ("Off the edge"),
    N_ ("To joint one long edge of each board"), 100, 0 },
  { NULL, ROW_LENGTH, AT (strip_extra), N_ ("Strips wider by"),
    N_ ("To be planed or jointed off each strip"), 100, 0 },
  { NULL, ROW_LENGTH, AT (planing), N_ ("Off the faces"),
    N_ ("To plane both faces of a rough board, together"), 100, 0 },
  { NULL, ROW_LENGTH, AT (shortest), N_ ("Shortest piece"),
    N_ ("Shorter pieces are not milled alone; see what your machines' manuals ask for"),
    CAV_BOARD_MAX, 0 },
  { NULL, ROW_LENGTH, AT (useful), N_ ("Offcuts from"), N_ ("What is shorter is waste"),
    CAV_BOARD_MAX, 0 },
  { N_ ("Thick and thin boards"), ROW_SWITCH, AT (resaw), N_ ("Resaw thick boards"),
    N_ ("Into as many layers as the thickness gives"), 0, 0 },
  { NULL, ROW_LENGTH, AT (resaw_kerf), N_ ("Kerf of resawing"), NULL, 20, AT (resaw) },
  { NULL, ROW_LENGTH, AT (resaw_planing), N_ ("Off each sawn face"), N_ ("To plane it flat again"),
    50, AT (resaw) },
  { NULL, ROW_SWITCH, AT (glue_up), N_ ("Glue thin boards up"),
    N_ ("Strips are glued face to face to the thickness that is needed"), 0, 0 },
};
#define N_ROWS G_N_ELEMENTS (ROWS)

struct _CavSawingPanel
{
  CavDocumentPanel parent_instance;

  /* Children */
  GtkWidget *rows[N_ROWS];
  GtkWidget *switches[N_ROWS]; /* NULL where a row has none */

  /* State */
  int corners; /* that the row of corners has names for; 0: none yet */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavSawingPanel, cav_sawing_panel, CAV_TYPE_DOCUMENT_PANEL)

/* (nullable) */
static CavProject *
get_project (CavSawingPanel *self)
{
  return cav_document_panel_get_project (CAV_DOCUMENT_PANEL (self));
}

/* Corners, by the rail that comes after them */

static int
count_corners (CavProject *project)
{
  return cav_project_has_frame (project) ? cav_project_get_frame_settings (project)->sides
                                         : MIN (cav_project_get_rails (project), CAV_JOB_MAX_RAILS);
}

static void
name_corners (CavSawingPanel *self, guint index)
{
  const int corners = count_corners (get_project (self));
  const char *const four[]
      = { _ ("Upper left"), _ ("Upper right"), _ ("Lower right"), _ ("Lower left"), NULL };
  g_autoptr (GtkStringList) names = NULL;

  if (corners == self->corners)
    return;
  self->corners = corners;
  names = gtk_string_list_new (corners == 4 ? four : NULL);
  for (int i = 0; corners != 4 && i < corners; i++)
    {
      g_autofree char *name = g_strdup_printf (_ ("Before rail %d"), i + 1);

      gtk_string_list_append (names, name);
    }
  adw_combo_row_set_model (ADW_COMBO_ROW (self->rows[index]), G_LIST_MODEL (names));
}

/* Editing */

static void
take_order (CavSawingPanel *self, guint index, CavLumber *lumber)
{
  const CavGrainOrder order
      = (CavGrainOrder)adw_combo_row_get_selected (ADW_COMBO_ROW (self->rows[index]));

  /* Wishes were for runs or rails of the order before. */
  if (order != lumber->order)
    g_array_set_size (lumber->pins, 0);
  lumber->order = order;
}

static void
take_start (CavSawingPanel *self, guint index, CavLumber *lumber)
{
  const guint start = adw_combo_row_get_selected (ADW_COMBO_ROW (self->rows[index]));

  if (start == GTK_INVALID_LIST_POSITION || (int)start == lumber->run_start)
    return;
  g_array_set_size (lumber->pins, 0);
  lumber->run_start = (int)start;
}

static void
take (CavSawingPanel *self, guint index, CavLumber *lumber)
{
  const RowInfo *info = &ROWS[index];

  switch (info->kind)
    {
    case ROW_LENGTH:
      G_STRUCT_MEMBER (double, lumber, info->offset)
          = cav_figure_row_get_value (CAV_FIGURE_ROW (self->rows[index]));
      break;
    case ROW_COUNT:
      G_STRUCT_MEMBER (int, lumber, info->offset)
          = (int)cav_figure_row_get_value (CAV_FIGURE_ROW (self->rows[index]));
      break;
    case ROW_SWITCH:
      G_STRUCT_MEMBER (gboolean, lumber, info->offset)
          = gtk_switch_get_active (GTK_SWITCH (self->switches[index]));
      break;
    case ROW_ORDER:
      take_order (self, index, lumber);
      break;
    case ROW_START:
      take_start (self, index, lumber);
      break;
    }
}

static void
edited_cb (CavSawingPanel *self, GtkWidget *widget)
{
  CavLumber *lumber;

  if (self->is_refreshing || get_project (self) == NULL)
    return;
  lumber = cav_lumber_edit_begin (get_project (self));
  for (guint i = 0; i < N_ROWS; i++)
    if (self->rows[i] == widget || self->switches[i] == widget)
      take (self, i, lumber);
  cav_lumber_edit_end (get_project (self), lumber, C_ ("step", "change of lumber"));
}

static void
edited_swapped_cb (GtkWidget *widget, gpointer unused, CavSawingPanel *self)
{
  edited_cb (self, widget);
}

static void
applied_cb (GtkWidget *widget, double value, CavSawingPanel *self)
{
  edited_cb (self, widget);
}

/* Showing */

static void
show_row (CavSawingPanel *self, guint index, const CavLumber *lumber)
{
  const RowInfo *info = &ROWS[index];
  GtkWidget *row = self->rows[index];

  switch (info->kind)
    {
    case ROW_LENGTH:
      cav_figure_row_set_value (CAV_FIGURE_ROW (row),
                                G_STRUCT_MEMBER (double, lumber, info->offset));
      break;
    case ROW_COUNT:
      cav_figure_row_set_value (CAV_FIGURE_ROW (row), G_STRUCT_MEMBER (int, lumber, info->offset));
      break;
    case ROW_SWITCH:
      gtk_switch_set_active (GTK_SWITCH (self->switches[index]),
                             G_STRUCT_MEMBER (gboolean, lumber, info->offset));
      break;
    case ROW_ORDER:
      adw_combo_row_set_selected (ADW_COMBO_ROW (row), lumber->order);
      break;
    case ROW_START:
      name_corners (self, index);
      adw_combo_row_set_selected (ADW_COMBO_ROW (row),
                                  (guint)(lumber->run_start % MAX (self->corners, 1)));
      gtk_widget_set_visible (row, lumber->order == CAV_GRAIN_RUNNING);
      break;
    }
  if (info->needs != 0)
    gtk_widget_set_visible (row, G_STRUCT_MEMBER (gboolean, lumber, info->needs));
}

static void
cav_sawing_panel_show_project (CavDocumentPanel *panel, CavProject *project)
{
  CavSawingPanel *self = CAV_SAWING_PANEL (panel);

  self->is_refreshing = TRUE;
  for (guint i = 0; i < N_ROWS; i++)
    show_row (self, i, cav_project_get_lumber (project));
  self->is_refreshing = FALSE;
}

/* Building */

static GtkWidget *
create_order (void)
{
  const char *const names[] = { _ ("In no order"), _ ("Opposite rails side by side"),
                                _ ("Around three corners"), _ ("All corners, resawn"), NULL };
  g_autoptr (GtkStringList) list = gtk_string_list_new (names);
  GtkWidget *row = adw_combo_row_new ();

  adw_combo_row_set_model (ADW_COMBO_ROW (row), G_LIST_MODEL (list));
  return row;
}

static GtkWidget *
create_switch (CavSawingPanel *self, guint index)
{
  GtkWidget *row = adw_action_row_new ();
  GtkWidget *toggle = gtk_switch_new ();

  gtk_widget_set_valign (toggle, GTK_ALIGN_CENTER);
  adw_action_row_add_suffix (ADW_ACTION_ROW (row), toggle);
  adw_action_row_set_activatable_widget (ADW_ACTION_ROW (row), toggle);
  g_signal_connect (toggle, "notify::active", G_CALLBACK (edited_swapped_cb), self);
  self->switches[index] = toggle;
  return row;
}

static GtkWidget *
create_figure (CavSawingPanel *self, const RowInfo *info)
{
  GtkWidget *row = info->kind == ROW_LENGTH
                       ? GTK_WIDGET (cav_length_entry_new (_ (info->title)))
                       : GTK_WIDGET (cav_number_entry_new (_ (info->title), 0, "", 1.0));

  cav_figure_row_set_range (CAV_FIGURE_ROW (row), info->kind == ROW_COUNT ? 1.0 : 0.0, info->most);
  g_signal_connect (row, "applied", G_CALLBACK (applied_cb), self);
  return row;
}

static GtkWidget *
create_row (CavSawingPanel *self, guint index)
{
  const RowInfo *info = &ROWS[index];
  GtkWidget *row = NULL;

  switch (info->kind)
    {
    case ROW_LENGTH:
    case ROW_COUNT:
      row = create_figure (self, info);
      break;
    case ROW_SWITCH:
      row = create_switch (self, index);
      break;
    case ROW_ORDER:
      row = create_order ();
      break;
    case ROW_START:
      row = adw_combo_row_new ();
      break;
    }
  if (info->kind == ROW_ORDER || info->kind == ROW_START)
    g_signal_connect (row, "notify::selected", G_CALLBACK (edited_swapped_cb), self);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ (info->title));
  if (info->tip != NULL)
    gtk_widget_set_tooltip_text (row, _ (info->tip));
  return row;
}

static GtkWidget *
create_free_button (void)
{
  GtkWidget *button = gtk_button_new_with_label (_ ("Set all free"));

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Let every rail lie where it fits best again"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "lumber.free-all");
  return button;
}

static void
add_rows (CavSawingPanel *self)
{
  AdwPreferencesGroup *group = NULL;

  for (guint i = 0; i < N_ROWS; i++)
    {
      if (ROWS[i].group != NULL)
        {
          group = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
          adw_preferences_group_set_title (group, _ (ROWS[i].group));
          gtk_box_append (GTK_BOX (self), GTK_WIDGET (group));
          if (i == 0)
            adw_preferences_group_set_header_suffix (group, create_free_button ());
        }
      self->rows[i] = create_row (self, i);
      adw_preferences_group_add (group, self->rows[i]);
    }
}

static void
cav_sawing_panel_class_init (CavSawingPanelClass *klass)
{
  CavDocumentPanelClass *panel_class = CAV_DOCUMENT_PANEL_CLASS (klass);

  panel_class->parts = CAV_PART_BOARDS | CAV_PART_FRAME | CAV_PART_RAILS;
  panel_class->show_project = cav_sawing_panel_show_project;
}

static void
cav_sawing_panel_init (CavSawingPanel *self)
{
  self->is_refreshing = TRUE;
  add_rows (self);
  self->is_refreshing = FALSE;
}

gboolean
cav_sawing_panel_show_finding (CavSawingPanel *self, const char *code)
{
  static const struct
  {
    const char *code;
    gsize offset;
  } places[] = {
    { "lumber-missing", AT (frames) },  { "lumber-order", AT (order) },
    { "lumber-odd-rails", AT (order) }, { "lumber-corner", AT (run_start) },
    { "lumber-resaw", AT (resaw) },     { "lumber-short-rails", AT (shortest) },
    { "lumber-gap", AT (frames) },
  };

  g_return_val_if_fail (CAV_IS_SAWING_PANEL (self) && code != NULL, FALSE);

  for (guint p = 0; p < G_N_ELEMENTS (places); p++)
    for (guint i = 0; strcmp (code, places[p].code) == 0 && i < N_ROWS; i++)
      if (ROWS[i].offset == places[p].offset)
        return gtk_widget_child_focus (self->rows[i], GTK_DIR_TAB_FORWARD);
  return FALSE;
}
