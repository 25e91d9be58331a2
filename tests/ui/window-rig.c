/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window-rig.h"

void
window_rig_set_up (WindowRig *rig, gconstpointer data)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  rig->document = cav_document_new ();
  rig->project = cav_document_get_project (rig->document);
  rig->selection = cav_document_get_selection (rig->document);
  rig->window = cav_window_new (ui_test_get_application (), rig->document);
  gtk_window_present (GTK_WINDOW (rig->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (rig->window));
  if (data == NULL)
    return;
  cav_project_add_cut (rig->project, cut);
  ui_test_wait_for (cav_plan_runner_get_state (cav_document_get_runner (rig->document))
                    == CAV_PLAN_STATE_CURRENT);
}

void
window_rig_tear_down (WindowRig *rig, gconstpointer data)
{
  g_object_ref (rig->window);
  gtk_window_destroy (GTK_WINDOW (rig->window));
  ui_test_settle ();
  ui_test_finalize (rig->window);
  ui_test_finalize (rig->document);
}

gboolean
window_rig_act (WindowRig *rig, const char *action)
{
  return gtk_widget_activate_action (GTK_WIDGET (rig->window), action, NULL);
}
