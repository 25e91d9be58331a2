/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-row.h"

#include <glib/gi18n.h>

#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "app/cav-settings.h"

enum
{
  EDITED,
  REMOVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* A defect is entered as one stretch over the whole width; more of them come with the file. */
struct _CavBoardRow
{
  AdwExpanderRow parent_instance;

  GtkEditable *name;
  CavFigureRow *count;
  CavFigureRow *length;
  CavFigureRow *width;
  CavFigureRow *thickness;
  AdwActionRow *planed_row;
  GtkSwitch *planed;
  CavFigureRow *trim;
  CavFigureRow *price;
  AdwComboRow *basis;
  gboolean is_showing;
};

G_DEFINE_FINAL_TYPE (CavBoardRow, cav_board_row, ADW_TYPE_EXPANDER_ROW)

static void
edited_cb (CavBoardRow *self)
{
  if (!self->is_showing)
    g_signal_emit (self, signals[EDITED], 0);
}

static void
removed_cb (CavBoardRow *self)
{
  g_signal_emit (self, signals[REMOVED], 0);
}

static CavFigureRow *
add_length (CavBoardRow *self, const char *title, double least)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_length_entry_new (title));

  cav_figure_row_set_range (row, least, CAV_BOARD_MAX);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
  return row;
}

static CavFigureRow *
add_number (CavBoardRow *self, const char *title, int decimals, double least, double most)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_number_entry_new (title, decimals, "", 1.0));

  cav_figure_row_set_range (row, least, most);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
  return row;
}

static void
add_basis (CavBoardRow *self)
{
  const char *const words[]
      = { _ ("No price"),          _ ("For the board"), _ ("For a board foot"),
          _ ("For a cubic metre"), _ ("For a metre"),   NULL };

  self->basis = ADW_COMBO_ROW (adw_combo_row_new ());
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->basis), _ ("Price is"));
  adw_combo_row_set_model (self->basis, G_LIST_MODEL (gtk_string_list_new (words)));
  g_signal_connect_swapped (self->basis, "notify::selected", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (self->basis));
}

static void
add_planed (CavBoardRow *self)
{
  self->planed_row = ADW_ACTION_ROW (adw_action_row_new ());
  self->planed = GTK_SWITCH (gtk_switch_new ());
  gtk_widget_set_valign (GTK_WIDGET (self->planed), GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->planed_row), _ ("Planed already"));
  adw_action_row_add_suffix (self->planed_row, GTK_WIDGET (self->planed));
  adw_action_row_set_activatable_widget (self->planed_row, GTK_WIDGET (self->planed));
  g_signal_connect_swapped (self->planed, "notify::active", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (self->planed_row));
}

static void
add_remove (CavBoardRow *self)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("user-trash-symbolic");

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Take off the list"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Take off the list"), -1);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (removed_cb), self);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (self), button);
}

static void
cav_board_row_class_init (CavBoardRowClass *klass)
{
  signals[EDITED] = g_signal_new ("edited", CAV_TYPE_BOARD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[REMOVED] = g_signal_new ("removed", CAV_TYPE_BOARD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cav_board_row_init (CavBoardRow *self)
{
  GtkWidget *name = adw_entry_row_new ();

  self->is_showing = TRUE;
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  self->name = GTK_EDITABLE (name);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (name), _ ("Name"));
  adw_entry_row_set_show_apply_button (ADW_ENTRY_ROW (name), TRUE);
  g_signal_connect_swapped (name, "apply", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), name);
  self->count = add_number (self, _ ("Number"), 0, 1.0, CAV_BOARD_MAX_COUNT);
  self->length = add_length (self, _ ("Length"), CAV_BOARD_MIN);
  self->width = add_length (self, _ ("Width"), CAV_BOARD_MIN);
  self->thickness = add_length (self, _ ("Thickness"), CAV_BOARD_MIN);
  add_planed (self);
  self->trim = add_length (self, _ ("Off either end"), 0.0);
  self->price = add_number (self, _ ("Price"), 2, 0.0, 1e6);
  add_basis (self);
  add_remove (self);
  self->is_showing = FALSE;
}

CavBoardRow *
cav_board_row_new (void)
{
  return g_object_new (CAV_TYPE_BOARD_ROW, NULL);
}

static void
show_heading (CavBoardRow *self, const CavBoard *board, guint number)
{
  const CavUnit unit = cav_settings_get_length_style ().unit;
  g_autofree char *length = cav_length_format_bare (board->length, unit, 16);
  g_autofree char *width = cav_length_format_bare (board->width, unit, 16);
  g_autofree char *thickness = cav_length_format (board->thickness, unit, 16);
  g_autofree char *title
      = board->name[0] != '\0' ? g_strdup (board->name) : g_strdup_printf (_ ("Board %u"), number);
  g_autofree char *subtitle
      = g_strdup_printf ("%d: %s × %s × %s", board->count, length, width, thickness);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self), subtitle);
}

void
cav_board_row_show (CavBoardRow *self, const CavBoard *board, guint number)
{
  g_return_if_fail (CAV_IS_BOARD_ROW (self));
  g_return_if_fail (board != NULL);

  self->is_showing = TRUE;
  show_heading (self, board, number);
  if (g_strcmp0 (gtk_editable_get_text (self->name), board->name) != 0)
    gtk_editable_set_text (self->name, board->name);
  cav_figure_row_set_value (self->count, board->count);
  cav_figure_row_set_value (self->length, board->length);
  cav_figure_row_set_value (self->width, board->width);
  cav_figure_row_set_value (self->thickness, board->thickness);
  gtk_switch_set_active (self->planed, board->planed);
  cav_figure_row_set_value (self->trim, board->end_trim);
  cav_figure_row_set_value (self->price, board->price);
  gtk_widget_set_visible (GTK_WIDGET (self->price), board->basis != CAV_PRICE_UNKNOWN);
  adw_combo_row_set_selected (self->basis, board->basis);
  self->is_showing = FALSE;
}

void
cav_board_row_apply (CavBoardRow *self, CavBoard *board)
{
  g_return_if_fail (CAV_IS_BOARD_ROW (self));
  g_return_if_fail (board != NULL);

  g_free (board->name);
  board->name = g_strdup (gtk_editable_get_text (self->name));
  board->count = (int)cav_figure_row_get_value (self->count);
  board->length = cav_figure_row_get_value (self->length);
  board->width = cav_figure_row_get_value (self->width);
  board->thickness = cav_figure_row_get_value (self->thickness);
  board->planed = gtk_switch_get_active (self->planed);
  board->end_trim = cav_figure_row_get_value (self->trim);
  board->price = cav_figure_row_get_value (self->price);
  board->basis = (CavPriceBasis)adw_combo_row_get_selected (self->basis);
}
