/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-canvas-private.h"
#include "app/cav-cut-words.h"
#include "app/cav-settings.h"

/* From the pointer to the entry, pixels. */
#define AWAY 22.0

static GtkWidget *
get_field (CavSectionCanvas *self)
{
  return gtk_widget_get_last_child (self->entry);
}

static const CavCutNumberInfo *
find_number (const CavCut *cut, CavCutNumber number)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  for (guint i = 0; i < info->n_numbers; i++)
    if (info->numbers[i].number == number)
      return &info->numbers[i];
  return NULL;
}

/* Of a cut that is being drawn the number whose handle is nearest to the pointer is meant. */
static gboolean
find_drawn_handle (CavSectionCanvas *self, CavHandle *out_handle)
{
  const GArray *handles = cav_canvas_get_handles (self);
  CavPoint point = cav_canvas_to_wood (self, self->drag.now);
  double best = G_MAXDOUBLE;

  for (guint i = 0; handles != NULL && i < handles->len; i++)
    {
      const CavHandle *handle = &g_array_index (handles, CavHandle, i);
      double distance = cav_point_distance (handle->point, point);

      if (handle->kind != CAV_HANDLE_NUMBER || handle->n_numbers == 0 || distance >= best)
        continue;
      best = distance;
      *out_handle = *handle;
    }
  return best < G_MAXDOUBLE;
}

/* Whose number is meant, and where it is typed. */
static gboolean
find_typed (CavSectionCanvas *self)
{
  const GArray *handles = cav_canvas_get_handles (self);

  if (self->drag.deed == CAV_DEED_HANDLE)
    {
      self->typed = self->drag.handle;
      self->typed_cut = self->drag.cut;
    }
  else if (self->drag.deed == CAV_DEED_DRAW && self->drag.has_cut)
    {
      self->typed_cut = self->drag.cut;
      return find_drawn_handle (self, &self->typed);
    }
  else if (self->drag.deed == CAV_DEED_NONE && handles != NULL && self->focused_handle >= 0
           && self->focused_handle < (int)handles->len
           && cav_selection_get_single_cut (cav_canvas_get_selection (self), &self->typed_cut))
    self->typed = g_array_index (handles, CavHandle, self->focused_handle);
  else
    return FALSE;
  return self->typed.n_numbers > 0;
}

gboolean
cav_canvas_is_typing (CavSectionCanvas *self)
{
  return self->entry != NULL && gtk_widget_get_visible (self->entry);
}

void
cav_canvas_place_entry (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);
  GtkRequisition size;
  CavPoint at;
  GskTransform *transform;

  if (!cav_canvas_is_typing (self))
    return;
  at = self->drag.deed == CAV_DEED_NONE ? cav_view_to_pixel (&self->view, self->typed.point)
                                        : self->drag.now;
  gtk_widget_get_preferred_size (self->entry, NULL, &size);
  at.x = CLAMP (at.x + AWAY, 0, fmax (gtk_widget_get_width (widget) - size.width, 0));
  at.y = CLAMP (at.y + AWAY, 0, fmax (gtk_widget_get_height (widget) - size.height, 0));
  transform = gsk_transform_translate (NULL, &GRAPHENE_POINT_INIT ((float)at.x, (float)at.y));
  gtk_widget_allocate (self->entry, size.width, size.height, -1, transform);
}

void
cav_canvas_close_entry (CavSectionCanvas *self)
{
  if (!cav_canvas_is_typing (self))
    return;
  gtk_widget_set_visible (self->entry, FALSE);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

static gboolean
parse (const char *text, gboolean is_length, double *out_value, GError **error)
{
  if (cav_length_parse (text, is_length ? cav_settings_get_length_style ().unit : CAV_UNIT_MM,
                        out_value, error))
    return TRUE;
  return FALSE;
}

/* Puts the typed number in; the step that a drag has opened ends with it. */
static void
take_number (CavSectionCanvas *self, double value)
{
  CavProject *project = cav_canvas_get_project (self);
  gboolean in_drag = self->drag.deed != CAV_DEED_NONE;
  int focused = self->focused_handle;
  const CavCut *cut = self->drag.before != NULL ? self->drag.before
                                                : cav_project_get_cut (project, self->typed_cut);
  g_autoptr (CavCut) typed = cav_handle_type (cut, &self->typed, &self->drawn_blank, value);
  g_autofree char *name
      = g_strdup_printf (C_ ("step", "resize %s"), cav_cut_kind_get_word (typed->kind));

  gtk_widget_set_visible (self->entry, FALSE);
  cav_project_begin (project, name);
  cav_project_set_cut (project, self->typed_cut, typed);
  cav_project_end (project);
  if (in_drag)
    cav_deed_finish (self);
  else
    self->focused_handle = focused;
  gtk_widget_grab_focus (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* FALSE where what was typed is no number; error then says why. */
static gboolean
take_typed (CavSectionCanvas *self, GError **error)
{
  const CavCutNumberInfo *number;
  double value;

  number = find_number (g_ptr_array_index (self->cuts, self->typed_cut), self->typed.numbers[0]);
  if (!parse (gtk_editable_get_text (GTK_EDITABLE (get_field (self))),
              number != NULL && number->is_length, &value, error))
    return FALSE;
  take_number (self, value);
  return TRUE;
}

static void
activate_cb (GtkEntry *entry, CavSectionCanvas *self)
{
  g_autoptr (GError) error = NULL;

  if (self->typed_cut >= self->cuts->len)
    {
      cav_canvas_close_entry (self);
      return;
    }
  if (take_typed (self, &error))
    return;
  gtk_widget_add_css_class (GTK_WIDGET (entry), "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               GTK_ACCESSIBLE_INVALID_TRUE, -1);
  cav_canvas_set_figure (self, TRUE, g_strdup (error->message));
}

/* What was typed counts when one goes on elsewhere; what is no number is forgotten, and the cut
 * stays as it was dragged. */
void
cav_canvas_enter_typed (CavSectionCanvas *self)
{
  if (!cav_canvas_is_typing (self))
    return;
  if (self->typed_cut < self->cuts->len && take_typed (self, NULL))
    return;
  cav_canvas_close_entry (self);
  if (self->drag.deed != CAV_DEED_NONE)
    cav_deed_finish (self);
}

static void
leave_cb (GtkEventControllerFocus *controller, CavSectionCanvas *self)
{
  /* Another window is no other place. */
  if (gtk_window_is_active (GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)))))
    cav_canvas_enter_typed (self);
}

static void
text_changed_cb (GtkEditable *editable, CavSectionCanvas *self)
{
  gtk_widget_remove_css_class (GTK_WIDGET (editable), "error");
  gtk_accessible_reset_state (GTK_ACCESSIBLE (editable), GTK_ACCESSIBLE_STATE_INVALID);
  if (self->is_refused)
    cav_canvas_set_figure (self, FALSE, NULL);
}

static gboolean
key_pressed_cb (GtkEventControllerKey *controller,
                guint keyval,
                guint keycode,
                GdkModifierType state,
                CavSectionCanvas *self)
{
  if (keyval != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  cav_canvas_close_entry (self);
  cav_deed_abandon (self);
  cav_canvas_set_figure (self, FALSE, NULL);
  return GDK_EVENT_STOP;
}

static void
create_entry (CavSectionCanvas *self)
{
  GtkWidget *label = gtk_label_new (NULL);
  GtkWidget *field = gtk_entry_new ();
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();

  self->entry = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6);
  gtk_widget_add_css_class (self->entry, "canvas-entry");
  gtk_widget_add_css_class (self->entry, "card");
  gtk_editable_set_width_chars (GTK_EDITABLE (field), 9);
  gtk_widget_set_margin_start (label, 9);
  gtk_box_append (GTK_BOX (self->entry), label);
  gtk_box_append (GTK_BOX (self->entry), field);
  gtk_widget_set_visible (self->entry, FALSE);
  gtk_widget_set_parent (self->entry, GTK_WIDGET (self));
  g_signal_connect (field, "activate", G_CALLBACK (activate_cb), self);
  g_signal_connect (field, "changed", G_CALLBACK (text_changed_cb), self);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (field, key);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), self);
  gtk_widget_add_controller (field, focus);
}

gboolean
cav_canvas_open_entry (CavSectionCanvas *self, const char *text)
{
  const CavCut *cut;
  const CavCutNumberInfo *number;
  GtkWidget *field;

  if (!find_typed (self) || self->typed_cut >= self->cuts->len)
    return FALSE;
  cut = g_ptr_array_index (self->cuts, self->typed_cut);
  number = find_number (cut, self->typed.numbers[0]);
  if (number == NULL)
    return FALSE;
  if (self->entry == NULL)
    create_entry (self);
  field = get_field (self);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_first_child (self->entry)),
                      cav_cut_words_get_number (cut, number));
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  cav_cut_words_get_number (cut, number), -1);
  gtk_widget_remove_css_class (field, "error");
  gtk_editable_set_text (GTK_EDITABLE (field), text);
  cav_canvas_set_figure (self, FALSE, NULL);
  gtk_widget_set_visible (self->entry, TRUE);
  gtk_widget_grab_focus (field);
  gtk_editable_set_position (GTK_EDITABLE (field), -1);
  gtk_widget_queue_allocate (GTK_WIDGET (self));
  return TRUE;
}
