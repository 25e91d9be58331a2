/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-row.h"

#include <glib/gi18n.h>

#include "app/cav-choice-list.h"
#include "app/cav-length-entry.h"
#include "app/cav-length-text.h"
#include "app/cav-number-entry.h"
#include "app/cav-span-row.h"
#include "shop/cav-wood.h"

enum
{
  EDITED,
  REMOVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

struct _CavBoardRow
{
  AdwExpanderRow parent_instance;

  /* Owned */
  CavBoard *board;  /* (nullable) as it was shown */
  GPtrArray *spans; /* CavSpanRow, borrowed from the row */

  /* Children, once the row has been open */
  GtkEditable *name;
  CavFigureRow *count;
  CavFigureRow *length;
  CavFigureRow *width;
  CavFigureRow *thickness;
  GtkSwitch *planed;
  AdwComboRow *wood;
  CavFigureRow *trim;
  AdwComboRow *basis;
  CavFigureRow *price;

  /* State */
  gboolean is_stock;
  gboolean is_filled;
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

/* Stretches */

static void
span_removed_cb (CavBoardRow *self, CavSpanRow *row)
{
  guint index;

  if (!g_ptr_array_find (self->spans, row, &index))
    return;
  g_array_remove_index (self->board->spans, index);
  g_ptr_array_remove_index (self->spans, index);
  /* The row may not go while its own button is being clicked. */
  g_object_ref (row);
  adw_expander_row_remove (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
  edited_cb (self);
  g_object_unref (row);
}

static void
add_span_row (CavBoardRow *self)
{
  CavSpanRow *row = cav_span_row_new ();

  g_signal_connect_swapped (row, "edited", G_CALLBACK (edited_cb), self);
  g_signal_connect_swapped (row, "removed", G_CALLBACK (span_removed_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
  g_ptr_array_add (self->spans, row);
}

/* In the middle of the board, where it is seen and can be moved from. */
static void
add_span (CavBoardRow *self, gboolean clear)
{
  const CavBoard *board = self->board;
  const double length = clear ? 0.5 * board->length : MIN (60.0, 0.5 * board->length);
  const double middle = 0.5 * board->length;
  const CavBoardSpan span
      = { .clear = clear, .from = middle - 0.5 * length, .to = middle + 0.5 * length };

  g_array_append_val (self->board->spans, span);
  add_span_row (self);
  cav_span_row_show (g_ptr_array_index (self->spans, self->spans->len - 1), &span, board->width);
  adw_expander_row_set_expanded (g_ptr_array_index (self->spans, self->spans->len - 1), TRUE);
  edited_cb (self);
}

static void
defect_clicked_cb (CavBoardRow *self)
{
  add_span (self, FALSE);
}

static void
clear_clicked_cb (CavBoardRow *self)
{
  add_span (self, TRUE);
}

static void
show_spans (CavBoardRow *self)
{
  while (self->spans->len > self->board->spans->len)
    {
      adw_expander_row_remove (ADW_EXPANDER_ROW (self),
                               g_ptr_array_index (self->spans, self->spans->len - 1));
      g_ptr_array_remove_index (self->spans, self->spans->len - 1);
    }
  while (self->spans->len < self->board->spans->len)
    add_span_row (self);
  for (guint i = 0; i < self->spans->len; i++)
    cav_span_row_show (g_ptr_array_index (self->spans, i),
                       &g_array_index (self->board->spans, CavBoardSpan, i), self->board->width);
}

/* Building */

static void
add_row (CavBoardRow *self, gpointer row)
{
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
}

static CavFigureRow *
add_length (CavBoardRow *self, const char *title, double least)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_length_entry_new (title));

  cav_figure_row_set_range (row, least, CAV_BOARD_MAX);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (edited_cb), self);
  add_row (self, row);
  return row;
}

static CavFigureRow *
add_number (CavBoardRow *self, const char *title, int decimals, double least, double most)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_number_entry_new (title, decimals, "", 1.0));

  cav_figure_row_set_range (row, least, most);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (edited_cb), self);
  add_row (self, row);
  return row;
}

/* (transfer full) names. */
static AdwComboRow *
add_choice (CavBoardRow *self, const char *title, GtkStringList *names)
{
  AdwComboRow *row = ADW_COMBO_ROW (adw_combo_row_new ());

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), title);
  cav_choice_list_make_later (row);
  adw_combo_row_set_model (row, G_LIST_MODEL (names));
  g_signal_connect_swapped (row, "notify::selected", G_CALLBACK (edited_cb), self);
  add_row (self, row);
  g_object_unref (names);
  return row;
}

static GtkStringList *
create_bases (void)
{
  const char *const words[]
      = { _ ("No price"),          _ ("For the board"), _ ("For a board foot"),
          _ ("For a cubic metre"), _ ("For a metre"),   NULL };

  return gtk_string_list_new (words);
}

static GtkStringList *
create_woods (void)
{
  const char *const first[] = { _ ("Not said"), NULL };
  GtkStringList *names = gtk_string_list_new (first);

  for (guint i = 0; i < cav_wood_get_count (); i++)
    gtk_string_list_append (names, cav_wood_get_name (cav_wood_get (i)));
  return names;
}

static void
add_name (CavBoardRow *self)
{
  GtkWidget *row = adw_entry_row_new ();

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("Name"));
  adw_entry_row_set_show_apply_button (ADW_ENTRY_ROW (row), TRUE);
  g_signal_connect_swapped (row, "apply", G_CALLBACK (edited_cb), self);
  add_row (self, row);
  self->name = GTK_EDITABLE (row);
}

static void
add_planed (CavBoardRow *self)
{
  AdwActionRow *row = ADW_ACTION_ROW (adw_action_row_new ());

  self->planed = GTK_SWITCH (gtk_switch_new ());
  gtk_widget_set_valign (GTK_WIDGET (self->planed), GTK_ALIGN_CENTER);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("Planed already"));
  adw_action_row_add_suffix (row, GTK_WIDGET (self->planed));
  adw_action_row_set_activatable_widget (row, GTK_WIDGET (self->planed));
  g_signal_connect_swapped (self->planed, "notify::active", G_CALLBACK (edited_cb), self);
  add_row (self, row);
}

static GtkWidget *
create_button (CavBoardRow *self, const char *label, const char *tip, GCallback clicked)
{
  GtkWidget *button = gtk_button_new_with_label (label);

  gtk_widget_set_hexpand (button, TRUE);
  gtk_widget_set_tooltip_text (button, tip);
  g_signal_connect_swapped (button, "clicked", clicked, self);
  return button;
}

/* Stretches follow below them. */
static void
add_buttons (CavBoardRow *self)
{
  GtkWidget *row = adw_preferences_row_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);

  gtk_widget_set_margin_top (box, 9);
  gtk_widget_set_margin_bottom (box, 9);
  gtk_widget_set_margin_start (box, 12);
  gtk_widget_set_margin_end (box, 12);
  gtk_box_append (GTK_BOX (box), create_button (self, _ ("Add a defect"),
                                                _ ("A knot, a split, wane: no rail is to have it"),
                                                G_CALLBACK (defect_clicked_cb)));
  gtk_box_append (GTK_BOX (box),
                  create_button (self, _ ("Add a clear stretch"), _ ("Only such wood is used then"),
                                 G_CALLBACK (clear_clicked_cb)));
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_widget_set_focusable (row, FALSE);
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (row), _ ("Defects and clear stretches"));
  add_row (self, row);
}

static void
fill (CavBoardRow *self)
{
  self->is_filled = TRUE;
  self->is_showing = TRUE;
  add_name (self);
  self->count = add_number (self, _ ("Number"), 0, self->is_stock ? 0.0 : 1.0, CAV_BOARD_MAX_COUNT);
  if (self->is_stock)
    gtk_widget_set_tooltip_text (GTK_WIDGET (self->count), _ ("0: as many as are wanted"));
  self->length = add_length (self, _ ("Length"), CAV_BOARD_MIN);
  self->width = add_length (self, _ ("Width"), CAV_BOARD_MIN);
  self->thickness = add_length (self, _ ("Thickness"), CAV_BOARD_MIN);
  add_planed (self);
  self->wood = add_choice (self, _ ("Wood"), create_woods ());
  self->trim = add_length (self, _ ("Off either end"), 0.0);
  self->basis = add_choice (self, _ ("Price is"), create_bases ());
  self->price = add_number (self, _ ("Price"), 2, 0.0, 1e6);
  add_buttons (self);
  self->is_showing = FALSE;
}

static guint
find_wood (const char *id)
{
  for (guint i = 0; i < cav_wood_get_count (); i++)
    if (g_strcmp0 (cav_wood_get (i)->id, id) == 0)
      return i + 1;
  return 0;
}

static void
show_inside (CavBoardRow *self)
{
  const CavBoard *board = self->board;

  self->is_showing = TRUE;
  if (g_strcmp0 (gtk_editable_get_text (self->name), board->name) != 0)
    gtk_editable_set_text (self->name, board->name);
  cav_figure_row_set_value (self->count, board->count);
  cav_figure_row_set_value (self->length, board->length);
  cav_figure_row_set_value (self->width, board->width);
  cav_figure_row_set_value (self->thickness, board->thickness);
  gtk_switch_set_active (self->planed, board->planed);
  adw_combo_row_set_selected (self->wood, find_wood (board->wood));
  cav_figure_row_set_value (self->trim, board->end_trim);
  adw_combo_row_set_selected (self->basis, board->basis);
  cav_figure_row_set_value (self->price, board->price);
  gtk_widget_set_visible (GTK_WIDGET (self->price), board->basis != CAV_PRICE_UNKNOWN);
  show_spans (self);
  self->is_showing = FALSE;
}

static void
expanded_cb (CavBoardRow *self)
{
  if (self->is_filled || self->board == NULL
      || !adw_expander_row_get_expanded (&self->parent_instance))
    return;
  fill (self);
  show_inside (self);
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
cav_board_row_finalize (GObject *object)
{
  CavBoardRow *self = CAV_BOARD_ROW (object);

  g_clear_pointer (&self->board, cav_board_free);
  g_ptr_array_unref (self->spans);
  G_OBJECT_CLASS (cav_board_row_parent_class)->finalize (object);
}

static void
cav_board_row_class_init (CavBoardRowClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cav_board_row_finalize;

  signals[EDITED] = g_signal_new ("edited", CAV_TYPE_BOARD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[REMOVED] = g_signal_new ("removed", CAV_TYPE_BOARD_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cav_board_row_init (CavBoardRow *self)
{
  self->spans = g_ptr_array_new ();
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  add_remove (self);
  g_signal_connect (self, "notify::expanded", G_CALLBACK (expanded_cb), NULL);
}

CavBoardRow *
cav_board_row_new (gboolean is_stock)
{
  CavBoardRow *self = g_object_new (CAV_TYPE_BOARD_ROW, NULL);

  self->is_stock = is_stock;
  return self;
}

static void
show_heading (CavBoardRow *self, guint number)
{
  const CavBoard *board = self->board;
  g_autofree char *length = cav_length_text_new_bare (board->length);
  g_autofree char *width = cav_length_text_new_bare (board->width);
  g_autofree char *thickness = cav_length_text_new (board->thickness);
  g_autofree char *title
      = board->name[0] != '\0' ? g_strdup (board->name) : g_strdup_printf (_ ("Board %u"), number);
  /* Translators: length, width and thickness of a board */
  g_autofree char *size = g_strdup_printf (_ ("%s × %s × %s"), length, width, thickness);
  /* Translators: how many boards, and their size */
  g_autofree char *subtitle = board->count == 0
                                  ? g_strdup_printf (_ ("Any number: %s"), size)
                                  : g_strdup_printf (_ ("%d: %s"), board->count, size);

  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self), title);
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self), subtitle);
}

void
cav_board_row_show (CavBoardRow *self, const CavBoard *board, guint number)
{
  g_return_if_fail (CAV_IS_BOARD_ROW (self));
  g_return_if_fail (board != NULL);

  CavBoard *copy = cav_board_copy (board);
  g_clear_pointer (&self->board, cav_board_free);
  self->board = copy;
  show_heading (self, number);
  if (self->is_filled)
    show_inside (self);
}

static void
take_text (char **field, const char *text)
{
  char *copy = g_strdup (text);

  g_free (*field);
  *field = copy;
}

/* A wood that this program does not know stays where another was not chosen. */
static void
take_wood (CavBoardRow *self, CavBoard *board)
{
  const guint selected = adw_combo_row_get_selected (self->wood);

  if (selected != find_wood (board->wood))
    take_text (&board->wood, selected > 0 ? cav_wood_get (selected - 1)->id : "");
}

CavBoard *
cav_board_row_dup_board (CavBoardRow *self)
{
  g_return_val_if_fail (CAV_IS_BOARD_ROW (self) && self->board != NULL, NULL);

  CavBoard *board = cav_board_copy (self->board);

  if (!self->is_filled)
    return board;
  take_text (&board->name, gtk_editable_get_text (self->name));
  board->count = (int)cav_figure_row_get_value (self->count);
  board->length = cav_figure_row_get_value (self->length);
  board->width = cav_figure_row_get_value (self->width);
  board->thickness = cav_figure_row_get_value (self->thickness);
  board->planed = gtk_switch_get_active (self->planed);
  take_wood (self, board);
  board->end_trim = cav_figure_row_get_value (self->trim);
  board->price = cav_figure_row_get_value (self->price);
  board->basis = (CavPriceBasis)adw_combo_row_get_selected (self->basis);
  g_array_set_size (board->spans, 0);
  for (guint i = 0; i < self->spans->len; i++)
    cav_board_add_span (board, cav_span_row_get (g_ptr_array_index (self->spans, i)));
  return board;
}
