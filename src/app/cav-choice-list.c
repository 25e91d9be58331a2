/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-choice-list.h"

/* (nullable) */
static GtkWidget *
find_popover (GtkWidget *widget)
{
  GtkWidget *found = GTK_IS_POPOVER (widget) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_popover (child);
  return found;
}

/* Before it is measured: it opens in its size. */
static void
realized_cb (AdwComboRow *row, GtkWidget *popover)
{
  adw_combo_row_set_list_factory (row, NULL);
}

void
cav_choice_list_make_later (AdwComboRow *row)
{
  g_autoptr (GtkListItemFactory) nothing = NULL;
  GtkWidget *popover;

  g_return_if_fail (ADW_IS_COMBO_ROW (row));
  popover = find_popover (GTK_WIDGET (row));
  if (popover == NULL)
    return;
  nothing = gtk_signal_list_item_factory_new ();
  adw_combo_row_set_list_factory (row, nothing);
  g_signal_connect_object (popover, "realize", G_CALLBACK (realized_cb), row, G_CONNECT_SWAPPED);
}
