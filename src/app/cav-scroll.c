/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-scroll.h"

#include <math.h>

/* Pixels for a click. */
#define CLICK 30.0
/* Parts of a click that fine wheels tell of. */
#define PARTS 8.0
/* ms without a movement after which another one may come from elsewhere. */
#define PAUSE 400

CavScroll
cav_scroll_read (GtkEventControllerScroll *controller, double dx, double dy)
{
  GdkEvent *event = gtk_event_controller_get_current_event (GTK_EVENT_CONTROLLER (controller));
  GdkDevice *device = event != NULL ? gdk_event_get_device (event) : NULL;

  return (CavScroll){
    .dx = dx,
    .dy = dy,
    .is_pixels = gtk_event_controller_scroll_get_unit (controller) == GDK_SCROLL_UNIT_SURFACE,
    .is_touchpad = device != NULL && gdk_device_get_source (device) == GDK_SOURCE_TOUCHPAD,
    .time = gtk_event_controller_get_current_event_time (GTK_EVENT_CONTROLLER (controller)),
  };
}

static gboolean
is_in_parts (double clicks)
{
  return fabs (clicks * PARTS - round (clicks * PARTS)) < 1e-3;
}

gboolean
cav_scroll_is_by_fingers (CavScrollHabit *habit, const CavScroll *scroll)
{
  gboolean goes_on;
  gboolean known;

  g_return_val_if_fail (habit != NULL && scroll != NULL, FALSE);

  goes_on = habit->by_fingers && scroll->time - habit->time < PAUSE;
  known = scroll->is_pixels || scroll->is_touchpad;
  habit->time = scroll->time;
  habit->by_fingers = known || goes_on || !is_in_parts (scroll->dx) || !is_in_parts (scroll->dy);
  return habit->by_fingers;
}

CavPoint
cav_scroll_get_pixels (const CavScroll *scroll)
{
  double factor;

  g_return_val_if_fail (scroll != NULL, CAV_POINT (0, 0));

  factor = scroll->is_pixels ? 1 : CLICK;
  return CAV_POINT (-scroll->dx * factor, -scroll->dy * factor);
}
