/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-window-private.h"

/* The milling as a film: how long a pass takes, and the time between two pictures. Where motion is
 * not wanted each pass stands still, before and after. */
#define PASS_SECONDS 1.2
#define REST_SECONDS 0.5
#define FRAME_MS 33

static int
get_pass_count (CavWindow *self)
{
  const CavPlan *plan = cav_plan_runner_get_plan (cav_document_get_runner (self->document));

  return plan != NULL ? (int)cav_plan_get_pass_count (plan) : 0;
}

void
cav_window_step_pass (CavWindow *self, int by)
{
  CavSelection *selection = cav_document_get_selection (self->document);
  int count = get_pass_count (self);
  int pass = cav_selection_get_pass (selection);

  cav_window_stop_play (self);
  if (count == 0)
    return;
  if (pass == CAV_NO_PASS)
    pass = by > 0 ? 0 : count - 1;
  else
    pass = CLAMP (pass + by, 0, count - 1);
  cav_selection_set_pass (selection, pass);
}

static gboolean
wants_motion (CavWindow *self)
{
  gboolean animations;

  g_object_get (gtk_widget_get_settings (GTK_WIDGET (self)), "gtk-enable-animations", &animations,
                NULL);
  return animations;
}

static gboolean
play_cb (gpointer user_data)
{
  CavWindow *self = CAV_WINDOW (user_data);
  CavSelection *selection = cav_document_get_selection (self->document);
  double step = FRAME_MS / 1000.0 / PASS_SECONDS;

  /* Somebody has chosen another pass, or left them. */
  if (cav_selection_get_pass (selection) != self->play_pass)
    {
      self->play_source = 0;
      cav_selection_set_playing (selection, FALSE);
      cav_selection_set_progress (selection, 1);
      return G_SOURCE_REMOVE;
    }
  self->play_time += FRAME_MS / 1000.0;
  if (self->play_time < PASS_SECONDS)
    {
      double progress = cav_selection_get_progress (selection) + step;

      if (wants_motion (self))
        cav_selection_set_progress (selection, MIN (progress, 1));
      return G_SOURCE_CONTINUE;
    }
  if (cav_selection_get_progress (selection) < 1)
    cav_selection_set_progress (selection, 1);
  if (self->play_time < PASS_SECONDS + REST_SECONDS)
    return G_SOURCE_CONTINUE;
  self->play_time = 0;
  if (cav_selection_get_pass (selection) + 1 >= get_pass_count (self))
    {
      self->play_source = 0;
      cav_selection_set_playing (selection, FALSE);
      cav_window_update_actions (self);
      return G_SOURCE_REMOVE;
    }
  cav_selection_set_progress (selection, 0);
  cav_selection_set_pass (selection, ++self->play_pass);
  return G_SOURCE_CONTINUE;
}

void
cav_window_toggle_play (CavWindow *self)
{
  CavSelection *selection = cav_document_get_selection (self->document);

  if (self->play_source != 0)
    {
      cav_window_stop_play (self);
      return;
    }
  if (get_pass_count (self) == 0)
    return;
  /* From where one stands; after the last pass from the beginning. */
  if (cav_selection_get_pass (selection) + 1 >= get_pass_count (self)
      || cav_selection_get_pass (selection) == CAV_NO_PASS)
    cav_selection_set_pass (selection, 0);
  cav_selection_set_progress (selection, 0);
  self->play_time = 0;
  self->play_pass = cav_selection_get_pass (selection);
  self->play_source = g_timeout_add (FRAME_MS, play_cb, self);
  cav_selection_set_playing (selection, TRUE);
}

void
cav_window_stop_play (CavWindow *self)
{
  CavSelection *selection = cav_document_get_selection (self->document);

  g_clear_handle_id (&self->play_source, g_source_remove);
  cav_selection_set_playing (selection, FALSE);
  if (cav_selection_get_progress (selection) < 1)
    cav_selection_set_progress (selection, 1);
}
