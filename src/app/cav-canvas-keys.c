/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "app/cav-canvas-private.h"

/*
 * The way through the section without a pointer: Page Down and Page Up go from cut to cut and,
 * within a chosen cut, from handle to handle. (Tab is for the way through the window, on which the
 * canvas is one stop however many cuts there are.) Return draws a cut of a chosen kind. Arrow keys
 * move what is reached (cav-canvas-actions.c), Return and figures type its number.
 */

static guint
count_handles (CavSectionCanvas *self)
{
  const GArray *handles = cav_canvas_get_handles (self);

  return handles != NULL ? handles->len : 0;
}

/* FALSE at the end of the way. */
static gboolean
walk_on (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  guint index;

  if (!cav_selection_get_single_cut (selection, &index))
    {
      if (self->cuts->len == 0 || cav_selection_get_cut_count (selection) > 0)
        return FALSE;
      cav_selection_choose_cut (selection, 0);
      return TRUE;
    }
  if (self->focused_handle + 1 < (int)count_handles (self))
    {
      self->focused_handle++;
      return TRUE;
    }
  if (index + 1 >= self->cuts->len)
    return FALSE;
  cav_selection_choose_cut (selection, index + 1);
  return TRUE;
}

static gboolean
walk_back (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  guint index;

  if (!cav_selection_get_single_cut (selection, &index))
    {
      if (self->cuts->len == 0 || cav_selection_get_cut_count (selection) > 0)
        return FALSE;
      cav_selection_choose_cut (selection, self->cuts->len - 1);
      self->focused_handle = (int)count_handles (self) - 1;
      return TRUE;
    }
  if (self->focused_handle >= 0)
    {
      self->focused_handle--;
      return TRUE;
    }
  if (index == 0)
    return FALSE;
  cav_selection_choose_cut (selection, index - 1);
  self->focused_handle = (int)count_handles (self) - 1;
  return TRUE;
}

static gboolean
walk (CavSectionCanvas *self, gboolean back)
{
  gboolean walked = back ? walk_back (self) : walk_on (self);

  cav_canvas_update_words (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  return walked;
}

/* From what is nearest to being done outward. */
static gboolean
escape (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);

  if (self->drag.deed != CAV_DEED_NONE)
    cav_deed_abandon (self);
  else if (cav_selection_get_kind (selection) != CAV_NO_KIND)
    cav_selection_set_kind (selection, CAV_NO_KIND);
  else if (self->focused_handle >= 0)
    self->focused_handle = -1;
  else if (cav_selection_get_cut_count (selection) > 0)
    cav_selection_clear_cuts (selection);
  else
    return FALSE;
  cav_canvas_set_figure (self, FALSE, NULL);
  cav_canvas_update_words (self);
  return TRUE;
}

/* A kind that Return can put on the blank as a whole. */
static gboolean
is_kind_to_place (CavSectionCanvas *self)
{
  int kind = cav_selection_get_kind (cav_canvas_get_selection (self));

  return kind != CAV_NO_KIND && kind != CAV_CUT_DRAWN;
}

/* What a number may begin with. */
static gboolean
type (CavSectionCanvas *self, guint keyval)
{
  gunichar letter = gdk_keyval_to_unicode (keyval);
  char text[8] = { 0 };

  if (letter == 0 || letter > 127 || strchr ("0123456789.,", (int)letter) == NULL)
    return FALSE;
  text[0] = (char)letter;
  return cav_canvas_open_entry (self, text);
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller,
                guint keyval,
                guint keycode,
                GdkModifierType state,
                CavSectionCanvas *self)
{
  gboolean plain = (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) == 0;

  self->modifiers = state;
  if (!cav_canvas_is_drawable (self) || cav_canvas_is_typing (self))
    return GDK_EVENT_PROPAGATE;
  switch (keyval)
    {
    case GDK_KEY_space:
      self->space_held = plain;
      gtk_widget_set_cursor_from_name (GTK_WIDGET (self), "grab");
      return plain;
    case GDK_KEY_Page_Down:
    case GDK_KEY_KP_Page_Down:
      return plain && walk (self, FALSE);
    case GDK_KEY_Page_Up:
    case GDK_KEY_KP_Page_Up:
      return plain && walk (self, TRUE);
    case GDK_KEY_Escape:
      return escape (self);
    case GDK_KEY_BackSpace:
      return plain && cav_path_tool_step_back (self);
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      if (self->drag.deed == CAV_DEED_PATH)
        {
          cav_path_tool_finish (self);
          return GDK_EVENT_STOP;
        }
      if (plain && self->drag.deed == CAV_DEED_NONE && is_kind_to_place (self))
        {
          cav_deed_draw_at_once (self);
          return GDK_EVENT_STOP;
        }
      return plain && cav_canvas_open_entry (self, "");
    default:
      return plain && type (self, keyval);
    }
}

static void
key_released_cb (GtkEventControllerKey *controller,
                 guint keyval,
                 guint keycode,
                 GdkModifierType state,
                 CavSectionCanvas *self)
{
  if (keyval != GDK_KEY_space)
    return;
  self->space_held = FALSE;
  gtk_widget_set_cursor (GTK_WIDGET (self), NULL);
}

static gboolean
modifiers_cb (GtkEventControllerKey *controller, GdkModifierType state, CavSectionCanvas *self)
{
  self->modifiers = state;
  return GDK_EVENT_PROPAGATE;
}

static void
focus_cb (GtkEventController *controller, CavSectionCanvas *self)
{
  self->space_held = FALSE;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

void
cav_canvas_add_key_controllers (CavSectionCanvas *self)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  g_signal_connect (key, "key-released", G_CALLBACK (key_released_cb), self);
  g_signal_connect (key, "modifiers", G_CALLBACK (modifiers_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
  g_signal_connect (focus, "enter", G_CALLBACK (focus_cb), self);
  g_signal_connect (focus, "leave", G_CALLBACK (focus_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
}
