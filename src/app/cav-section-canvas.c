/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-section-canvas.h"

#include "app/cav-canvas-private.h"
#include "app/cav-letters.h"
#include "app/cav-light.h"
#include "app/cav-settings.h"

G_DEFINE_FINAL_TYPE (CavSectionCanvas, cav_section_canvas, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

CavProject *
cav_canvas_get_project (CavSectionCanvas *self)
{
  return cav_document_get_project (self->document);
}

CavSelection *
cav_canvas_get_selection (CavSectionCanvas *self)
{
  return cav_document_get_selection (self->document);
}

gboolean
cav_canvas_is_drawable (CavSectionCanvas *self)
{
  return self->document != NULL
         && cav_selection_get_pass (cav_canvas_get_selection (self)) == CAV_NO_PASS;
}

CavPoint
cav_canvas_to_wood (CavSectionCanvas *self, CavPoint pixel)
{
  return cav_view_to_wood (&self->view, pixel);
}

double
cav_canvas_get_snap (CavSectionCanvas *self)
{
  gboolean off = (self->modifiers & GDK_ALT_MASK) != 0
                 || !g_settings_get_boolean (cav_settings_get (), CAV_SETTING_SNAP);

  return off ? 0 : CAV_CANVAS_TOLERANCE / self->view.scale;
}

void
cav_canvas_set_figure (CavSectionCanvas *self, gboolean is_refused, char *figure)
{
  g_free (self->figure);
  self->figure = figure;
  self->is_refused = is_refused;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
project_changed_cb (CavSectionCanvas *self, guint parts)
{
  if ((parts & (CAV_PART_SECTION | CAV_PART_SHOP | CAV_PART_RAILS)) == 0)
    return;
  cav_canvas_update_shapes (self);
  cav_canvas_update_plan (self);
  if (self->drag.deed == CAV_DEED_NONE)
    cav_canvas_update_hover (self);
  cav_canvas_update_words (self);
  cav_canvas_update_actions (self);
}

static void
cuts_changed_cb (CavSectionCanvas *self)
{
  self->has_handles = FALSE;
  self->focused_handle = -1;
  cav_canvas_close_entry (self);
  cav_canvas_update_words (self);
  cav_canvas_update_actions (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
kind_changed_cb (CavSectionCanvas *self)
{
  cav_deed_abandon (self);
  cav_path_tool_abandon (self);
  cav_canvas_update_hover (self);
  cav_canvas_update_words (self);
}

static void
pass_changed_cb (CavSectionCanvas *self)
{
  if (!cav_canvas_is_drawable (self))
    cav_deed_abandon (self);
  cav_canvas_update_words (self);
  cav_canvas_update_actions (self);
  cav_canvas_queue_base (self);
}

static void
planned_cb (CavSectionCanvas *self)
{
  cav_canvas_update_plan (self);
}

static void
appearance_changed_cb (CavSectionCanvas *self)
{
  cav_canvas_forget_pictures (self);
  cav_canvas_update_words (self);
}

static void
disconnect (CavSectionCanvas *self)
{
  if (self->document == NULL)
    return;
  g_signal_handlers_disconnect_by_data (cav_canvas_get_project (self), self);
  g_signal_handlers_disconnect_by_data (cav_canvas_get_selection (self), self);
  g_signal_handlers_disconnect_by_data (cav_document_get_runner (self->document), self);
}

static void
connect_document (CavSectionCanvas *self)
{
  CavSelection *selection = cav_canvas_get_selection (self);
  CavPlanRunner *runner = cav_document_get_runner (self->document);

  g_signal_connect_object (cav_canvas_get_project (self), "changed",
                           G_CALLBACK (project_changed_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (selection, "cuts-changed", G_CALLBACK (cuts_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (selection, "notify::kind", G_CALLBACK (kind_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (selection, "notify::pass", G_CALLBACK (pass_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (selection, "notify::progress", G_CALLBACK (cav_canvas_queue_base), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (runner, "planned", G_CALLBACK (planned_cb), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (runner, "notify::state", G_CALLBACK (planned_cb), self,
                           G_CONNECT_SWAPPED);
}

void
cav_section_canvas_set_document (CavSectionCanvas *self, CavDocument *document)
{
  g_return_if_fail (CAV_IS_SECTION_CANVAS (self));
  g_return_if_fail (document == NULL || CAV_IS_DOCUMENT (document));

  if (document == self->document)
    return;
  if (self->document != NULL)
    {
      cav_deed_abandon (self);
      cav_path_tool_abandon (self);
      disconnect (self);
    }
  g_set_object (&self->document, document);
  self->is_fitted = TRUE;
  if (document != NULL)
    {
      connect_document (self);
      cav_canvas_update_shapes (self);
      cav_canvas_update_plan (self);
      cuts_changed_cb (self);
      cav_canvas_fit (self);
    }
  cav_canvas_forget_pictures (self);
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_DOCUMENT]);
}

CavView
cav_section_canvas_get_view (CavSectionCanvas *self)
{
  g_return_val_if_fail (CAV_IS_SECTION_CANVAS (self), ((CavView){ 1, 0, 0 }));
  return self->view;
}

const char *
cav_section_canvas_get_figure (CavSectionCanvas *self)
{
  g_return_val_if_fail (CAV_IS_SECTION_CANVAS (self), NULL);
  return self->figure;
}

static void
cav_section_canvas_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_section_canvas_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (object);

  if (id == PROP_DOCUMENT)
    cav_section_canvas_set_document (self, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_section_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);

  if (self->document != NULL)
    cav_canvas_snapshot (self, snapshot);
  GTK_WIDGET_CLASS (cav_section_canvas_parent_class)->snapshot (widget, snapshot);
}

static void
cav_section_canvas_measure (GtkWidget *widget,
                            GtkOrientation orientation,
                            int for_size,
                            int *minimum,
                            int *natural,
                            int *minimum_baseline,
                            int *natural_baseline)
{
  *minimum = orientation == GTK_ORIENTATION_HORIZONTAL ? 240 : 160;
  *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? 900 : 560;
}

static void
cav_section_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (widget);

  /* What a hand is drawing on does not slip away under it. */
  self->fit_waits = self->is_fitted && self->drag.deed != CAV_DEED_NONE;
  if (self->is_fitted && !self->fit_waits && self->document != NULL)
    cav_canvas_fit (self);
  cav_canvas_place_entry (self);
  if (self->menu != NULL)
    gtk_popover_present (GTK_POPOVER (self->menu));
}

static void
cav_section_canvas_dispose (GObject *object)
{
  CavSectionCanvas *self = CAV_SECTION_CANVAS (object);

  cav_section_canvas_set_document (self, NULL);
  g_clear_handle_id (&self->plain_idle, g_source_remove);
  g_clear_pointer (&self->entry, gtk_widget_unparent);
  g_clear_pointer (&self->menu, gtk_widget_unparent);
  cav_deed_clear (self);
  cav_canvas_forget_pictures (self);
  g_clear_pointer (&self->cuts, g_ptr_array_unref);
  g_clear_pointer (&self->shapes, g_ptr_array_unref);
  g_clear_pointer (&self->findings, g_ptr_array_unref);
  g_clear_pointer (&self->leftover, cav_region_unref);
  g_clear_pointer (&self->handles, g_array_unref);
  g_clear_pointer (&self->proposal, cav_cut_free);
  g_clear_pointer (&self->path, cav_path_free);
  g_clear_pointer (&self->figure, g_free);
  G_OBJECT_CLASS (cav_section_canvas_parent_class)->dispose (object);
}

static void
cav_section_canvas_finalize (GObject *object)
{
  cav_tile_sheet_free (CAV_SECTION_CANVAS (object)->sheet);
  G_OBJECT_CLASS (cav_section_canvas_parent_class)->finalize (object);
}

static void
cav_section_canvas_class_init (CavSectionCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_section_canvas_get_property;
  object_class->set_property = cav_section_canvas_set_property;
  object_class->dispose = cav_section_canvas_dispose;
  object_class->finalize = cav_section_canvas_finalize;
  widget_class->snapshot = cav_section_canvas_snapshot;
  widget_class->measure = cav_section_canvas_measure;
  widget_class->size_allocate = cav_section_canvas_size_allocate;

  properties[PROP_DOCUMENT]
      = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS | G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_css_name (widget_class, "sectioncanvas");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_GROUP);
  cav_canvas_class_add_actions (widget_class);
}

static void
cav_section_canvas_init (CavSectionCanvas *self)
{
  GtkWidget *widget = GTK_WIDGET (self);

  self->sheet = cav_tile_sheet_new ();
  self->view = (CavView){ 1, 0, 0 };
  self->is_fitted = TRUE;
  self->focused_handle = -1;
  self->drag.held = -1;
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_hexpand (widget, TRUE);
  gtk_widget_set_vexpand (widget, TRUE);
  gtk_widget_set_overflow (widget, GTK_OVERFLOW_HIDDEN);
  cav_canvas_add_view_controllers (self);
  cav_canvas_add_pointer_controllers (self);
  cav_canvas_add_key_controllers (self);
  cav_light_watch (G_CALLBACK (appearance_changed_cb), self);
  cav_letters_watch (G_CALLBACK (cav_canvas_fit), GTK_WIDGET (self));
  g_signal_connect_object (cav_settings_get (), "changed::unit", G_CALLBACK (appearance_changed_cb),
                           self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "notify::scale-factor", G_CALLBACK (cav_canvas_forget_pictures), NULL);
}

GtkWidget *
cav_section_canvas_new (CavDocument *document)
{
  return g_object_new (CAV_TYPE_SECTION_CANVAS, "document", document, NULL);
}
