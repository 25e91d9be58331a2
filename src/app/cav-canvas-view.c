/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-letters.h"

/* Pixels between the wood and the canvas's edge when it is fitted; there the measures stand. */
#define AIR 110.0
/* Pixels of the blank that stay on the canvas, however it is moved. */
#define HOLD 48.0
/* By so much for so many pixels of scrolling, which is one click of a wheel. */
#define WHEEL_FACTOR 1.15
#define WHEEL_PIXELS 30.0

static void
take_view (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  if (self->document != NULL)
    cav_view_hold (&self->view, &self->drawn_blank, gtk_widget_get_width (widget),
                   gtk_widget_get_height (widget), HOLD);
  cav_canvas_update_hover (self);
  cav_canvas_queue_base (self);
}

void
cav_canvas_fit (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double ruler;

  self->is_fitted = TRUE;
  self->view = cav_view_fit (&self->drawn_blank, gtk_widget_get_width (widget),
                             gtk_widget_get_height (widget), AIR);
  /* Rulers take from the left and the top. */
  ruler = CAV_PANE_RULER * cav_letters_get_size (widget);
  cav_view_pan (&self->view, ruler / 2, ruler / 2);
  take_view (self);
}

void
cav_canvas_zoom (CavSectionCanvas *self, double factor, CavPoint pixel)
{
  self->is_fitted = FALSE;
  cav_view_zoom (&self->view, factor, pixel);
  take_view (self);
}

void
cav_canvas_zoom_middle (CavSectionCanvas *self, double factor)
{
  GtkWidget *widget = GTK_WIDGET (self);

  cav_canvas_zoom (
      self, factor,
      CAV_POINT (gtk_widget_get_width (widget) / 2.0, gtk_widget_get_height (widget) / 2.0));
}

void
cav_canvas_pan (CavSectionCanvas *self, double dx, double dy)
{
  self->is_fitted = FALSE;
  cav_view_pan (&self->view, dx, dy);
  take_view (self);
}

void
cav_section_canvas_show_place (CavSectionCanvas *self, CavPoint place)
{
  GtkWidget *widget = GTK_WIDGET (self);
  double width = gtk_widget_get_width (widget);
  double height = gtk_widget_get_height (widget);
  double ruler = CAV_PANE_RULER * cav_letters_get_size (widget);
  CavPoint pixel = cav_view_to_pixel (&self->view, place);

  g_return_if_fail (CAV_IS_SECTION_CANVAS (self));

  if (pixel.x < ruler || pixel.y < ruler || pixel.x > width || pixel.y > height)
    cav_canvas_pan (self, width / 2 - pixel.x, height / 2 - pixel.y);
  self->is_lit = TRUE;
  self->lit = place;
  gtk_widget_queue_draw (widget);
}

/* Two fingers carry the section, with Control they zoom; a wheel zooms, and with Shift or where it
 * is tilted carries aside. */
static gboolean
scroll_cb (GtkEventController *controller, double dx, double dy, CavSectionCanvas *self)
{
  GdkModifierType state = gtk_event_controller_get_current_event_state (controller);
  CavScroll scroll = cav_scroll_read (GTK_EVENT_CONTROLLER_SCROLL (controller), dx, dy);
  gboolean by_fingers = cav_scroll_is_by_fingers (&self->scroll_habit, &scroll);
  CavPoint pixels = cav_scroll_get_pixels (&scroll);
  CavPoint at = self->has_pointer ? self->pointer
                                  : CAV_POINT (gtk_widget_get_width (GTK_WIDGET (self)) / 2.0,
                                               gtk_widget_get_height (GTK_WIDGET (self)) / 2.0);

  if (!cav_canvas_is_drawable (self))
    return GDK_EVENT_PROPAGATE;
  if (by_fingers && !(state & GDK_CONTROL_MASK))
    cav_canvas_pan (self, pixels.x, pixels.y);
  else if (state & GDK_SHIFT_MASK)
    cav_canvas_pan (self, pixels.x + pixels.y, 0);
  else if (fabs (dx) > fabs (dy))
    cav_canvas_pan (self, pixels.x, 0);
  else
    cav_canvas_zoom (self, pow (WHEEL_FACTOR, pixels.y / WHEEL_PIXELS), at);
  return GDK_EVENT_STOP;
}

static void
pinch_begin_cb (GtkGesture *gesture, GdkEventSequence *sequence, CavSectionCanvas *self)
{
  self->pinch_scale = self->view.scale;
}

static void
pinch_cb (GtkGestureZoom *gesture, double scale, CavSectionCanvas *self)
{
  double x = 0;
  double y = 0;

  if (!cav_canvas_is_drawable (self) || self->pinch_scale <= 0 || !(scale > 0))
    return;
  if (!gtk_gesture_is_active (GTK_GESTURE (gesture))
      || !gtk_gesture_get_bounding_box_center (GTK_GESTURE (gesture), &x, &y))
    {
      x = gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
      y = gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
    }
  cav_canvas_zoom (self, self->pinch_scale * scale / self->view.scale, CAV_POINT (x, y));
}

static void
pan_begin_cb (GtkGestureDrag *gesture, double x, double y, CavSectionCanvas *self)
{
  self->drag.now = CAV_POINT (0, 0);
  gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grabbing");
}

/* now holds how far it has been moved, for what comes is counted from the begin. */
static void
pan_update_cb (GtkGestureDrag *gesture, double dx, double dy, CavSectionCanvas *self)
{
  if (!cav_canvas_is_drawable (self))
    return;
  cav_canvas_pan (self, dx - self->drag.now.x, dy - self->drag.now.y);
  self->drag.now = CAV_POINT (dx, dy);
}

static void
pan_cancel_cb (GtkGesture *gesture, GdkEventSequence *sequence, CavSectionCanvas *self)
{
  gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
}

static void
pan_end_cb (GtkGestureDrag *gesture, double dx, double dy, CavSectionCanvas *self)
{
  gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
}

void
cav_canvas_add_view_controllers (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkEventController *scroll
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  GtkGesture *pinch = gtk_gesture_zoom_new ();
  GtkGesture *pan = gtk_gesture_drag_new ();

  g_signal_connect (scroll, "scroll", G_CALLBACK (scroll_cb), self);
  gtk_widget_add_controller (widget, scroll);
  g_signal_connect (pinch, "begin", G_CALLBACK (pinch_begin_cb), self);
  g_signal_connect (pinch, "scale-changed", G_CALLBACK (pinch_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pinch));
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (pan), GDK_BUTTON_MIDDLE);
  gtk_event_controller_set_name (GTK_EVENT_CONTROLLER (pan), "pan");
  g_signal_connect (pan, "drag-begin", G_CALLBACK (pan_begin_cb), self);
  g_signal_connect (pan, "drag-update", G_CALLBACK (pan_update_cb), self);
  g_signal_connect (pan, "drag-end", G_CALLBACK (pan_end_cb), self);
  g_signal_connect (pan, "cancel", G_CALLBACK (pan_cancel_cb), self);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (pan));
}
