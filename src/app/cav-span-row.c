/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-span-row.h"

#include <glib/gi18n.h>

#include "app/cav-length-entry.h"
#include "app/cav-length-text.h"

/* A shorter stretch is a slip of the key. */
#define LEAST 1.0

enum
{
  FROM,
  TO,
  LOW,
  HIGH,
  N_ENTRIES,
};

enum
{
  EDITED,
  REMOVED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

struct _CavSpanRow
{
  AdwExpanderRow parent_instance;

  AdwComboRow *kind;
  CavFigureRow *entries[N_ENTRIES];
  double width; /* of the board */
  gboolean is_showing;
};

G_DEFINE_FINAL_TYPE (CavSpanRow, cav_span_row, ADW_TYPE_EXPANDER_ROW)

static void
edited_cb (CavSpanRow *self)
{
  if (!self->is_showing)
    g_signal_emit (self, signals[EDITED], 0);
}

static void
removed_cb (CavSpanRow *self)
{
  g_signal_emit (self, signals[REMOVED], 0);
}

static void
add_kind (CavSpanRow *self)
{
  const char *const words[] = { _ ("Defect"), _ ("Clear"), NULL };

  self->kind = ADW_COMBO_ROW (adw_combo_row_new ());
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self->kind), _ ("The wood here is"));
  adw_combo_row_set_model (self->kind, G_LIST_MODEL (gtk_string_list_new (words)));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->kind),
                               _ ("No rail has a defect in it. Where a board has clear stretches, "
                                  "only they are used."));
  g_signal_connect_swapped (self->kind, "notify::selected", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (self->kind));
}

static void
add_entry (CavSpanRow *self, guint index, const char *title, const char *tip)
{
  CavFigureRow *row = CAV_FIGURE_ROW (cav_length_entry_new (title));

  cav_figure_row_set_range (row, 0.0, CAV_BOARD_MAX);
  gtk_widget_set_tooltip_text (GTK_WIDGET (row), tip);
  g_signal_connect_swapped (row, "applied", G_CALLBACK (edited_cb), self);
  adw_expander_row_add_row (ADW_EXPANDER_ROW (self), GTK_WIDGET (row));
  self->entries[index] = row;
}

static void
add_remove (CavSpanRow *self)
{
  GtkWidget *button = gtk_button_new_from_icon_name ("user-trash-symbolic");

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, _ ("Take this stretch off"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Take this stretch off"), -1);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (removed_cb), self);
  adw_expander_row_add_action (ADW_EXPANDER_ROW (self), button);
}

static void
cav_span_row_class_init (CavSpanRowClass *klass)
{
  signals[EDITED] = g_signal_new ("edited", CAV_TYPE_SPAN_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  signals[REMOVED] = g_signal_new ("removed", CAV_TYPE_SPAN_ROW, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
}

static void
cav_span_row_init (CavSpanRow *self)
{
  self->is_showing = TRUE;
  adw_preferences_row_set_use_markup (ADW_PREFERENCES_ROW (self), FALSE);
  add_kind (self);
  add_entry (self, FROM, _ ("Begins at"), _ ("From the board's left end"));
  add_entry (self, TO, _ ("Ends at"), _ ("From the board's left end"));
  add_entry (self, LOW, _ ("Lower edge at"), _ ("From the board's lower edge"));
  add_entry (self, HIGH, _ ("Upper edge at"),
             _ ("From the board's lower edge; both edges 0: across the whole width"));
  add_remove (self);
  self->is_showing = FALSE;
}

CavSpanRow *
cav_span_row_new (void)
{
  return g_object_new (CAV_TYPE_SPAN_ROW, NULL);
}

static char *
describe (const CavBoardSpan *span)
{
  g_autofree char *from = cav_length_text_new_bare (span->from);
  g_autofree char *to = cav_length_text_new (span->to);
  g_autofree char *low = cav_length_text_new_bare (span->low);
  g_autofree char *high = cav_length_text_new (span->high);

  if (span->high <= 0.0)
    /* Translators: lengths along a board */
    return g_strdup_printf (_ ("%s to %s, the whole width"), from, to);
  /* Translators: lengths along a board, then across it */
  return g_strdup_printf (_ ("%s to %s, across %s to %s"), from, to, low, high);
}

void
cav_span_row_show (CavSpanRow *self, const CavBoardSpan *span, double width)
{
  g_return_if_fail (CAV_IS_SPAN_ROW (self) && span != NULL);

  g_autofree char *subtitle = describe (span);
  self->width = width;
  self->is_showing = TRUE;
  adw_preferences_row_set_title (ADW_PREFERENCES_ROW (self),
                                 span->clear ? _ ("Clear stretch") : _ ("Defect"));
  adw_expander_row_set_subtitle (ADW_EXPANDER_ROW (self), subtitle);
  adw_combo_row_set_selected (self->kind, span->clear ? 1 : 0);
  cav_figure_row_set_value (self->entries[FROM], span->from);
  cav_figure_row_set_value (self->entries[TO], span->to);
  cav_figure_row_set_value (self->entries[LOW], span->low);
  cav_figure_row_set_value (self->entries[HIGH], span->high);
  self->is_showing = FALSE;
}

CavBoardSpan
cav_span_row_get (CavSpanRow *self)
{
  g_return_val_if_fail (CAV_IS_SPAN_ROW (self), (CavBoardSpan){ .to = LEAST });

  const double from = cav_figure_row_get_value (self->entries[FROM]);
  const double to = cav_figure_row_get_value (self->entries[TO]);
  const double low = cav_figure_row_get_value (self->entries[LOW]);
  const double typed = cav_figure_row_get_value (self->entries[HIGH]);
  const double high = typed <= 0.0 && low > 0.0 ? MAX (self->width, low) : typed;

  const double first = MIN (MIN (from, to), CAV_BOARD_MAX - LEAST);

  return (CavBoardSpan){ .clear = adw_combo_row_get_selected (self->kind) == 1,
                         .from = first,
                         .to = MAX (MAX (from, to), first + LEAST),
                         .low = MIN (low, high),
                         .high = MAX (low, high) };
}
