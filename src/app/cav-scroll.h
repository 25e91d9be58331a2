/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

#include "geometry/cav-point.h"

G_BEGIN_DECLS

/* One movement of a wheel, or of two fingers on a touchpad. */
typedef struct
{
  double dx, dy;        /* clicks of a wheel, or pixels */
  gboolean is_pixels;   /* these are pixels, which no wheel gives */
  gboolean is_touchpad; /* the device is known to be one */
  guint32 time;         /* ms */
} CavScroll;

/* What the last movement came from; begin with zeroes. */
typedef struct
{
  gboolean by_fingers;
  guint32 time;
} CavScrollHabit;

/* What the controller is telling of just now. dx and dy are those of its signal. */
CavScroll cav_scroll_read (GtkEventControllerScroll *controller, double dx, double dy);

/* Whether fingers did it. A display server that has one pointer for all devices does not say;
 * then a wheel is known by whole clicks, or by eighths of one where it is a fine one. What fingers
 * have begun goes on as theirs until there is a pause. */
gboolean cav_scroll_is_by_fingers (CavScrollHabit *habit, const CavScroll *scroll);

/* Pixels that the view goes by. */
CavPoint cav_scroll_get_pixels (const CavScroll *scroll);

G_END_DECLS
