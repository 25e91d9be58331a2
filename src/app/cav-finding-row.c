/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-finding-row.h"

#include <glib/gi18n.h>

#include "app/cav-settings.h"

static const char *
get_word (CavFindingSeverity severity)
{
  switch (severity)
    {
    case CAV_FINDING_NOTE:
      return C_ ("finding", "Good to know");
    case CAV_FINDING_CAUTION:
      return C_ ("finding", "Take care");
    case CAV_FINDING_WRONG:
      return C_ ("finding", "Wrong");
    }
  g_return_val_if_reached ("");
}

static const char *
get_icon (CavFindingSeverity severity)
{
  switch (severity)
    {
    case CAV_FINDING_NOTE:
      return "dialog-information-symbolic";
    case CAV_FINDING_CAUTION:
      return "dialog-warning-symbolic";
    case CAV_FINDING_WRONG:
      return "dialog-error-symbolic";
    }
  g_return_val_if_reached ("");
}

static const char *
get_style (CavFindingSeverity severity)
{
  switch (severity)
    {
    case CAV_FINDING_NOTE:
      return "dim-label";
    case CAV_FINDING_CAUTION:
      return "warning";
    case CAV_FINDING_WRONG:
      return "error";
    }
  g_return_val_if_reached ("");
}

GtkWidget *
cav_finding_row_new (const CavFinding *finding, gboolean leads)
{
  g_return_val_if_fail (finding != NULL, NULL);

  g_autofree char *sentence
      = cav_length_restyle (finding->message, cav_settings_get_length_style ());
  GtkWidget *icon = gtk_image_new_from_icon_name (get_icon (finding->severity));
  GtkWidget *row
      = g_object_new (ADW_TYPE_ACTION_ROW, "use-markup", FALSE, "title", sentence, "subtitle",
                      get_word (finding->severity), "activatable", leads, NULL);

  gtk_widget_add_css_class (icon, get_style (finding->severity));
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), icon);
  if (leads)
    adw_action_row_add_suffix (ADW_ACTION_ROW (row),
                               gtk_image_new_from_icon_name ("go-next-symbolic"));
  gtk_widget_add_css_class (row, "finding");
  return row;
}

gboolean
cav_finding_row_shows (GtkWidget *row, const CavFinding *finding)
{
  g_return_val_if_fail (ADW_IS_ACTION_ROW (row) && finding != NULL, FALSE);

  g_autofree char *sentence
      = cav_length_restyle (finding->message, cav_settings_get_length_style ());
  return g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row)), sentence) == 0
         && g_strcmp0 (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)),
                       get_word (finding->severity))
                == 0;
}

static gboolean
are_listed (const GPtrArray *rows, const GPtrArray *findings)
{
  if (findings->len != rows->len)
    return FALSE;
  for (guint i = 0; i < findings->len; i++)
    if (!cav_finding_row_shows (g_ptr_array_index (rows, i), g_ptr_array_index (findings, i)))
      return FALSE;
  return TRUE;
}

void
cav_finding_rows_list (AdwPreferencesGroup *group,
                       GPtrArray *rows,
                       const GPtrArray *findings,
                       CavFindingRowCreate create)
{
  g_return_if_fail (ADW_IS_PREFERENCES_GROUP (group));
  g_return_if_fail (rows != NULL && findings != NULL && create != NULL);

  gtk_widget_set_visible (GTK_WIDGET (group), findings->len > 0);
  if (are_listed (rows, findings))
    return;
  for (guint i = 0; i < rows->len; i++)
    adw_preferences_group_remove (group, g_ptr_array_index (rows, i));
  g_ptr_array_set_size (rows, 0);
  for (guint i = 0; i < findings->len; i++)
    {
      GtkWidget *row = create (g_ptr_array_index (findings, i));

      g_ptr_array_add (rows, row);
      adw_preferences_group_add (group, row);
    }
}
