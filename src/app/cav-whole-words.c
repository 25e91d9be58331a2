/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-whole-words.h"

#include <adwaita.h>

static void
let_wrap (GtkLabel *label)
{
  gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
  gtk_label_set_wrap (label, TRUE);
}

static gboolean
is_within (GtkWidget *widget, GType type)
{
  return gtk_widget_get_ancestor (widget, type) != NULL;
}

/* The widgets of libadwaita have no property for it, and make some of their labels late. */
static gboolean
realized_cb (GSignalInvocationHint *hint, guint n_values, const GValue *values, gpointer user_data)
{
  GtkWidget *widget = g_value_get_object (values);
  GtkLabel *label = GTK_IS_LABEL (widget) ? GTK_LABEL (widget) : NULL;

  if (label == NULL || gtk_label_get_ellipsize (label) != PANGO_ELLIPSIZE_END)
    return TRUE;
  if (is_within (widget, ADW_TYPE_COMBO_ROW))
    {
      if (is_within (widget, GTK_TYPE_POPOVER))
        {
          gtk_label_set_ellipsize (label, PANGO_ELLIPSIZE_NONE);
          gtk_label_set_max_width_chars (label, -1);
        }
      else
        {
          let_wrap (label);
          gtk_label_set_xalign (label, 1);
          gtk_label_set_justify (label, GTK_JUSTIFY_RIGHT);
        }
    }
  else if (is_within (widget, ADW_TYPE_PREFERENCES_GROUP)
           && gtk_widget_has_css_class (widget, "heading"))
    let_wrap (label);
  return TRUE;
}

void
cav_whole_words_install (void)
{
  static gsize installed = 0;

  if (!g_once_init_enter (&installed))
    return;
  /* The signal is there with the class. */
  g_type_class_unref (g_type_class_ref (GTK_TYPE_WIDGET));
  g_signal_add_emission_hook (g_signal_lookup ("realize", GTK_TYPE_WIDGET), 0, realized_cb, NULL,
                              NULL);
  g_once_init_leave (&installed, 1);
}
