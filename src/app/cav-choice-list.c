/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-choice-list.h"

/* Name of what a list is to show when it is opened. */
#define CHOICES "cav-choices"

/* (nullable) */
static GtkWidget *
find (GtkWidget *widget, GType type)
{
  GtkWidget *found = G_TYPE_CHECK_INSTANCE_TYPE (widget, type) ? widget : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find (child, type);
  return found;
}

/* A list has a widget for every line, seen or not. */
static void
keep_choices_cb (GtkListView *list)
{
  GtkSelectionModel *choices = gtk_list_view_get_model (list);

  if (choices == NULL
      || gtk_widget_get_realized (gtk_widget_get_ancestor (GTK_WIDGET (list), GTK_TYPE_POPOVER)))
    return;
  g_object_set_data_full (G_OBJECT (list), CHOICES, g_object_ref (choices), g_object_unref);
  gtk_list_view_set_model (list, NULL);
}

/* Before the popover is measured: it opens in its size. */
static void
realized_cb (GtkListView *list)
{
  GtkSelectionModel *choices = g_object_steal_data (G_OBJECT (list), CHOICES);

  if (choices == NULL)
    return;
  gtk_list_view_set_model (list, choices);
  g_object_unref (choices);
}

void
cav_choice_list_make_later (AdwComboRow *row)
{
  GtkWidget *popover;
  GtkWidget *list;

  g_return_if_fail (ADW_IS_COMBO_ROW (row));
  popover = find (GTK_WIDGET (row), GTK_TYPE_POPOVER);
  list = popover != NULL ? find (popover, GTK_TYPE_LIST_VIEW) : NULL;
  if (list == NULL)
    return;
  g_signal_connect (list, "notify::model", G_CALLBACK (keep_choices_cb), NULL);
  g_signal_connect_object (popover, "realize", G_CALLBACK (realized_cb), list, G_CONNECT_SWAPPED);
  keep_choices_cb (GTK_LIST_VIEW (list));
}
