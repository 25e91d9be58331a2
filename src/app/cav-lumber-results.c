/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-lumber-results.h"

#include <glib/gi18n.h>

#include "app/cav-finding-row.h"
#include "app/cav-settings.h"
#include "drawing/cav-board-map.h"

struct _CavLumberResults
{
  GtkBox parent_instance;

  /* Children */
  GtkLabel *totals;
  AdwPreferencesGroup *findings;

  /* Owned */
  GPtrArray *rows; /* of the findings, in their order, borrowed from the group */
};

G_DEFINE_FINAL_TYPE (CavLumberResults, cav_lumber_results, GTK_TYPE_BOX)

/* A line says how grave it is in words too. */
static GtkWidget *
create_finding (const CavFinding *finding)
{
  GtkWidget *row = cav_finding_row_new (finding, TRUE);

  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "lumber.show-finding");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "(si)", finding->code, finding->item);
  return row;
}

static void
cav_lumber_results_finalize (GObject *object)
{
  g_ptr_array_unref (CAV_LUMBER_RESULTS (object)->rows);
  G_OBJECT_CLASS (cav_lumber_results_parent_class)->finalize (object);
}

static void
cav_lumber_results_class_init (CavLumberResultsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = cav_lumber_results_finalize;
}

static void
cav_lumber_results_init (CavLumberResults *self)
{
  self->rows = g_ptr_array_new ();
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 18);
  self->totals = GTK_LABEL (gtk_label_new (NULL));
  gtk_label_set_wrap (self->totals, TRUE);
  gtk_label_set_xalign (self->totals, 0.0f);
  gtk_label_set_max_width_chars (self->totals, 34);
  gtk_label_set_selectable (self->totals, TRUE);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->totals));
  self->findings = ADW_PREFERENCES_GROUP (adw_preferences_group_new ());
  adw_preferences_group_set_title (self->findings, _ ("Worth a look"));
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->findings));
  cav_lumber_results_show (self, NULL);
}

void
cav_lumber_results_show (CavLumberResults *self, const CavBoardLayout *layout)
{
  g_return_if_fail (CAV_IS_LUMBER_RESULTS (self));

  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  g_autofree char *totals = layout != NULL && layout->boards->len > 0
                                ? cav_layout_dup_totals (layout, cav_settings_get_length_style ())
                                : NULL;

  gtk_label_set_label (self->totals, totals != NULL ? totals : "");
  gtk_widget_set_visible (GTK_WIDGET (self->totals), totals != NULL);
  cav_finding_rows_list (self->findings, self->rows, layout != NULL ? layout->findings : none,
                         create_finding);
}
