/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-figure-row-private.h"

#include <math.h>

#include "geometry/cav-tolerance.h"

static gboolean
key_pressed_cb (CavFigureRow *self, guint key, guint code, GdkModifierType state)
{
  gboolean fine = (state & GDK_SHIFT_MASK) != 0;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) != 0)
    return GDK_EVENT_PROPAGATE;
  switch (key)
    {
    case GDK_KEY_Up:
    case GDK_KEY_KP_Up:
      cav_figure_row_step (self, 1.0, fine);
      return GDK_EVENT_STOP;
    case GDK_KEY_Down:
    case GDK_KEY_KP_Down:
      cav_figure_row_step (self, -1.0, fine);
      return GDK_EVENT_STOP;
    case GDK_KEY_Escape:
      return cav_figure_row_give_up (self) ? GDK_EVENT_STOP : GDK_EVENT_PROPAGATE;
    default:
      return GDK_EVENT_PROPAGATE;
    }
}

/* A click into a number that was not in hand takes the whole of it, so that the next one can be
 * typed at once, as Tab does; the second click sets the cursor. Raw events are looked at, for a
 * gesture would end where the text begins its own. */
static gboolean
event_cb (CavFigureRow *self, GdkEvent *event)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  GtkEditable *editable = GTK_EDITABLE (priv->entry);
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (editable));
  const GdkEventType type = gdk_event_get_event_type (event);

  if (type == GDK_BUTTON_PRESS)
    priv->is_entered
        = !gtk_widget_has_focus (text) && gdk_button_event_get_button (event) == GDK_BUTTON_PRIMARY;
  else if (type == GDK_BUTTON_RELEASE && priv->is_entered)
    {
      priv->is_entered = FALSE;
      if (!gtk_editable_get_selection_bounds (editable, NULL, NULL))
        gtk_editable_select_region (editable, 0, -1);
    }
  return GDK_EVENT_PROPAGATE;
}

static gboolean
scroll_cb (CavFigureRow *self, double dx, double dy, GtkEventControllerScroll *scroll)
{
  CavFigureRowPrivate *priv = cav_figure_row_get_private (self);
  GdkModifierType state
      = gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (scroll));
  GtkWidget *text = GTK_WIDGET (gtk_editable_get_delegate (GTK_EDITABLE (priv->entry)));
  /* Some desktops turn the wheel sideways with Shift. */
  double turned = fabs (dy) > fabs (dx) ? dy : dx;

  if (!gtk_widget_has_focus (text) || fabs (turned) <= CAV_TOLERANCE_POINT)
    return GDK_EVENT_PROPAGATE;
  cav_figure_row_step (self, turned < 0 ? 1.0 : -1.0, (state & GDK_SHIFT_MASK) != 0);
  return GDK_EVENT_STOP;
}

void
cav_figure_row_bind_input (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_callback (widget_class, key_pressed_cb);
  gtk_widget_class_bind_template_callback (widget_class, event_cb);
  gtk_widget_class_bind_template_callback (widget_class, scroll_cb);
}
