/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-canvas-private.h"

static gboolean
hits_equal (const CavHit *a, const CavHit *b)
{
  return a->kind == b->kind && a->index == b->index;
}

/* What the pointer would do says its shape: a cross draws, a hand moves. */
static void
update_cursor (CavSectionCanvas *self)
{
  const char *name = NULL;

  if (self->space_held)
    name = "grab";
  else if (self->document == NULL || !cav_canvas_is_drawable (self))
    name = NULL;
  else if (cav_selection_get_kind (cav_canvas_get_selection (self)) != CAV_NO_KIND)
    name = "crosshair";
  else if (self->hover.kind == CAV_HIT_HANDLE)
    name = "move";
  else if (self->hover.kind == CAV_HIT_CUT)
    name = "pointer";
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), name);
}

static void
update_proposal (CavSectionCanvas *self, int kind)
{
  g_clear_pointer (&self->proposal, cav_cut_free);
  if (!self->has_pointer || kind == CAV_NO_KIND || kind == CAV_CUT_DRAWN)
    return;
  self->proposal = cav_proposal_at (cav_canvas_get_project (self), (CavCutKind)kind,
                                    cav_canvas_to_wood (self, self->pointer),
                                    CAV_CANVAS_PROPOSAL_REACH / self->view.scale);
}

void
cav_canvas_update_hover (CavSectionCanvas *self)
{
  CavHit before = self->hover;
  int kind;

  self->hover = (CavHit){ .kind = CAV_HIT_NOTHING };
  if (self->document == NULL || self->shapes == NULL || !cav_canvas_is_drawable (self))
    {
      g_clear_pointer (&self->proposal, cav_cut_free);
      return;
    }
  kind = cav_selection_get_kind (cav_canvas_get_selection (self));
  update_proposal (self, kind);
  if (self->has_pointer && kind == CAV_NO_KIND)
    self->hover = cav_section_hit (&self->drawn_blank, self->shapes, cav_canvas_get_handles (self),
                                   &self->view, self->pointer, CAV_CANVAS_TOLERANCE);
  if (!hits_equal (&before, &self->hover))
    update_cursor (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
motion_cb (GtkEventController *controller, double x, double y, CavSectionCanvas *self)
{
  /* What is chosen in the menu is for the place where it was opened. */
  if (self->menu_open)
    return;
  self->is_lit = FALSE;
  self->has_pointer = TRUE;
  self->pointer = CAV_POINT (x, y);
  self->modifiers = gtk_event_controller_get_current_event_state (controller);
  if (self->drag.deed == CAV_DEED_PATH)
    cav_path_tool_hover (self, self->pointer);
  else if (self->drag.deed == CAV_DEED_NONE)
    {
      if (self->figure != NULL)
        cav_canvas_set_figure (self, FALSE, NULL);
      cav_canvas_update_hover (self);
    }
}

static void
leave_cb (GtkEventController *controller, CavSectionCanvas *self)
{
  if (self->menu_open || (self->drag.deed != CAV_DEED_NONE && self->drag.deed != CAV_DEED_PATH))
    return;
  self->has_pointer = FALSE;
  cav_canvas_update_hover (self);
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, CavSectionCanvas *self)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!cav_canvas_is_drawable (self))
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  self->modifiers = state;
  self->has_pointer = TRUE;
  self->pointer = CAV_POINT (x, y);
  cav_deed_press (self, CAV_POINT (x, y), (state & GDK_SHIFT_MASK) != 0);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, CavSectionCanvas *self)
{
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (gesture));
  double x;
  double y;

  if (!gtk_gesture_drag_get_start_point (gesture, &x, &y))
    {
      /* Emitted by a test and not by a pointer. */
      x = self->drag.begin.x;
      y = self->drag.begin.y;
    }
  self->modifiers = state;
  self->pointer = CAV_POINT (x + dx, y + dy);
  if (self->drag.deed != CAV_DEED_PRESSED && self->drag.deed != CAV_DEED_NONE)
    gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  cav_deed_drag (self, self->pointer);
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, CavSectionCanvas *self)
{
  cav_deed_release (self, self->pointer);
  cav_canvas_update_hover (self);
  update_cursor (self);
}

static void
drag_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, CavSectionCanvas *self)
{
  cav_deed_abandon (self);
}

static void
menu_cb (GtkGestureClick *gesture, int n_press, double x, double y, CavSectionCanvas *self)
{
  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (!cav_canvas_is_drawable (self))
    return;
  if (self->drag.deed == CAV_DEED_PATH)
    {
      cav_path_tool_finish (self);
      return;
    }
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
  cav_canvas_open_menu (self, CAV_POINT (x, y));
}

void
cav_canvas_add_pointer_controllers (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkGesture *menu = gtk_gesture_click_new ();

  g_signal_connect (motion, "enter", G_CALLBACK (motion_cb), self);
  g_signal_connect (motion, "motion", G_CALLBACK (motion_cb), self);
  g_signal_connect (motion, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (widget, motion);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (drag), GDK_BUTTON_PRIMARY);
  gtk_event_controller_set_name (GTK_EVENT_CONTROLLER (drag), "draw");
  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  g_signal_connect (drag, "cancel", G_CALLBACK (drag_cancel_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (drag));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (menu), GDK_BUTTON_SECONDARY);
  gtk_event_controller_set_name (GTK_EVENT_CONTROLLER (menu), "menu");
  g_signal_connect (menu, "pressed", G_CALLBACK (menu_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (menu));
}
