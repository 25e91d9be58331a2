/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-canvas.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/cav-frame-edit.h"
#include "app/cav-frame-painting.h"
#include "app/cav-letters.h"
#include "app/cav-settings.h"
#include "geometry/cav-unit.h"

/* The lamp: how near the pointer has to be, and its radius; pixels. */
#define LAMP_REACH 24.0
#define LAMP_RADIUS 9.0
/* Far from the middle the light is low: its height at the rim of the lamp's circle, degrees. */
#define LIGHT_LOW 10.0
#define LIGHT_HIGH 90.0
/* Part of the canvas's smaller half that the circle takes. */
#define RIM 0.9
#define STEP 5.0
#define PIXELS_MAX 3000
/* What is wrong stands in a box, above the button at the lower edge; pixels. */
#define MESSAGE_WIDTH 520.0
#define MESSAGE_MARGIN 40.0
#define MESSAGE_BOTTOM 68.0

struct _CavFrameCanvas
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *board_signals;
  CavFramePainting *painting; /* (nullable) before the first one is there */

  /* State */
  gboolean is_painting; /* on a worker thread */
  gboolean is_stale;    /* what is being painted is not what is wanted any more */
  gboolean is_dragging;
  gboolean has_order; /* rails show their numbers */
  double light_angle; /* while the lamp is dragged */
  double light_height;
};

G_DEFINE_FINAL_TYPE (CavFrameCanvas, cav_frame_canvas, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  PROP_ORDER,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* (nullable) */
static CavProject *
get_project (CavFrameCanvas *self)
{
  return self->document != NULL ? cav_document_get_project (self->document) : NULL;
}

static void
get_light (CavFrameCanvas *self, double *out_angle, double *out_height)
{
  CavProject *project = get_project (self);

  *out_angle = self->light_angle;
  *out_height = self->light_height;
  if (self->is_dragging || project == NULL)
    return;
  *out_angle = cav_project_get_frame_settings (project)->light_angle;
  *out_height = cav_project_get_frame_settings (project)->light_height;
}

/* (transfer full) (nullable) What is wrong, with lengths in the unit of the settings. */
static char *
create_message (CavFrameCanvas *self)
{
  if (self->painting == NULL || self->painting->message == NULL)
    return NULL;
  return cav_length_restyle (self->painting->message, cav_settings_get_length_style ());
}

/* Painting, on a worker thread */

static void start_painting (CavFrameCanvas *self);

static void
update_description (CavFrameCanvas *self)
{
  double angle;
  double height;
  g_autofree char *light = NULL;
  g_autofree char *message = create_message (self);

  get_light (self, &angle, &height);
  light = g_strdup_printf (_ ("Light from %.0f degrees, %.0f degrees high. %s"),
                           fmod (angle + 720.0, 360.0), height, message != NULL ? message : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, light,
                                  -1);
}

static void
painted_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (source);

  self->is_painting = FALSE;
  cav_frame_painting_free (self->painting);
  self->painting = cav_frame_painting_finish (result);
  update_description (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (self->is_stale)
    start_painting (self);
}

static void
start_painting (CavFrameCanvas *self)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  int width = MIN (gtk_widget_get_width (GTK_WIDGET (self)) * scale, PIXELS_MAX);
  int height = MIN (gtk_widget_get_height (GTK_WIDGET (self)) * scale, PIXELS_MAX);

  self->is_stale = self->is_painting;
  if (self->is_painting || self->document == NULL || width < 2 || height < 2
      || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  self->is_painting = TRUE;
  cav_frame_painting_start (G_OBJECT (self), self->document, width, height, painted_cb);
}

/* Light alone asks for no new paint; what is painted is lit when it is drawn. */
static void
project_changed_cb (CavFrameCanvas *self, guint parts)
{
  update_description (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if ((parts & (CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_FRAME)) != 0 && !self->is_dragging)
    start_painting (self);
}

/* Rails may have come to lie elsewhere; where they have not, nothing is painted anew. */
static void
laid_cb (CavFrameCanvas *self)
{
  CavFrameGrain grain;

  if (self->document == NULL || self->painting == NULL)
    return;
  cav_frame_painting_find_grain (self->document, &grain);
  if (memcmp (&grain, &self->painting->grain, sizeof grain) != 0)
    start_painting (self);
}

/* The lamp */

static double
get_rim (CavFrameCanvas *self)
{
  return RIM / 2.0
         * MIN (gtk_widget_get_width (GTK_WIDGET (self)),
                gtk_widget_get_height (GTK_WIDGET (self)));
}

static graphene_point_t
get_lamp (CavFrameCanvas *self)
{
  double angle;
  double height;
  double away;

  get_light (self, &angle, &height);
  away = get_rim (self) * (LIGHT_HIGH - height) / (LIGHT_HIGH - LIGHT_LOW);
  return GRAPHENE_POINT_INIT (
      (float)(gtk_widget_get_width (GTK_WIDGET (self)) / 2.0 + away * sin (CAV_RADIANS (angle))),
      (float)(gtk_widget_get_height (GTK_WIDGET (self)) / 2.0 - away * cos (CAV_RADIANS (angle))));
}

static void
set_lamp (CavFrameCanvas *self, double x, double y)
{
  double dx = x - gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
  double dy = y - gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double away = hypot (dx, dy) / fmax (get_rim (self), 1.0);

  if (away > 0.01)
    self->light_angle = CAV_DEGREES (atan2 (dx, -dy));
  self->light_height = CLAMP (LIGHT_HIGH - away * (LIGHT_HIGH - LIGHT_LOW), LIGHT_LOW, LIGHT_HIGH);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* One step of the history, however long the drag was. */
static void
keep_light (CavFrameCanvas *self, double angle, double height)
{
  CavProject *project = get_project (self);
  g_autoptr (CavFrameSettings) settings = NULL;

  if (project == NULL)
    return;
  settings = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  settings->light_angle = remainder (angle, 360.0);
  settings->light_height = CLAMP (height, LIGHT_LOW, LIGHT_HIGH);
  cav_frame_edit_apply (project, settings, C_ ("step", "move light"));
}

static void
drag_begin_cb (GtkGestureDrag *gesture, double x, double y, CavFrameCanvas *self)
{
  graphene_point_t lamp = get_lamp (self);

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (hypot (x - lamp.x, y - lamp.y) > LAMP_REACH)
    {
      gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  get_light (self, &self->light_angle, &self->light_height);
  self->is_dragging = TRUE;
  gtk_gesture_set_state (GTK_GESTURE (gesture), GTK_EVENT_SEQUENCE_CLAIMED);
}

static void
drag_update_cb (GtkGestureDrag *gesture, double dx, double dy, CavFrameCanvas *self)
{
  double x;
  double y;

  if (self->is_dragging && gtk_gesture_drag_get_start_point (gesture, &x, &y))
    set_lamp (self, x + dx, y + dy);
}

static void
drag_end_cb (GtkGestureDrag *gesture, double dx, double dy, CavFrameCanvas *self)
{
  if (!self->is_dragging)
    return;
  keep_light (self, self->light_angle, self->light_height);
  self->is_dragging = FALSE;
}

static gboolean
key_pressed_cb (
    GtkEventControllerKey *keys, guint key, guint code, GdkModifierType state, CavFrameCanvas *self)
{
  double angle;
  double height;

  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  get_light (self, &angle, &height);
  if (key == GDK_KEY_Left || key == GDK_KEY_Right)
    keep_light (self, angle + (key == GDK_KEY_Left ? -STEP : STEP), height);
  else if (key == GDK_KEY_Up || key == GDK_KEY_Down)
    keep_light (self, angle, height + (key == GDK_KEY_Up ? STEP : -STEP));
  else
    return FALSE;
  return TRUE;
}

static gboolean
drop_cb (GtkDropTarget *target, const GValue *value, double x, double y, CavFrameCanvas *self)
{
  GFile *file = g_value_get_object (value);
  g_autofree char *path = file != NULL ? g_file_get_path (file) : NULL;

  if (path == NULL || self->document == NULL || g_str_has_suffix (path, ".cavetto"))
    return FALSE;
  return cav_frame_edit_set_picture (self->document, file);
}

/* Drawing */

/* What a pixel of the painting takes on the canvas. */
static double
get_scale (CavFrameCanvas *self, double width, double height)
{
  return fmin (width / self->painting->width, height / self->painting->height);
}

static void
draw_preview (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  const CavFramePainting *painting = self->painting;
  double angle;
  double high;
  double scale = get_scale (self, width, height);

  get_light (self, &angle, &high);
  cairo_save (cr);
  cairo_translate (cr, (width - painting->width * scale) / 2,
                   (height - painting->height * scale) / 2);
  cairo_scale (cr, scale, scale);
  cairo_set_source_surface (cr, cav_preview_shade (painting->preview, angle, high), 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_paint (cr);
  cairo_restore (cr);
}

/* In which order the rails lie on the boards. */
static void
draw_order (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  double letters = cav_letters_get_size (GTK_WIDGET (self));

  cairo_save (cr);
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, letters, letters);
  cav_frame_grain_draw_numbers (
      &self->painting->grain, cav_project_get_frame (get_project (self)), cr,
      cav_preview_get_scale (self->painting->preview) * get_scale (self, width, height) / letters);
  cairo_restore (cr);
}

/* The wall is as light as it is, whatever the desktop: tones are those of the day. */
static void
set_tone (cairo_t *cr, CavTone tone, double share)
{
  CavColour colour = cav_tone_get_colour (tone, CAV_LIGHT_DAY_STRONG);

  cairo_set_source_rgba (cr, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0, share);
}

/* A disc with rays; dark and light rims, so that it is seen on any wall. */
static void
draw_lamp (CavFrameCanvas *self, cairo_t *cr)
{
  graphene_point_t lamp = get_lamp (self);
  double radius = LAMP_RADIUS + (gtk_widget_has_focus (GTK_WIDGET (self)) ? 2.0 : 0.0);

  for (int pass = 0; pass < 2; pass++)
    {
      set_tone (cr, pass == 0 ? CAV_TONE_OUTLINE : CAV_TONE_HANDLE, 1.0);
      cairo_set_line_width (cr, pass == 0 ? 5.0 : 2.0);
      cairo_arc (cr, lamp.x, lamp.y, radius - 3.0, 0, 2 * G_PI);
      cairo_fill_preserve (cr);
      cairo_stroke (cr);
      for (int i = 0; i < 8; i++)
        {
          double x = cos (i * G_PI / 4);
          double y = sin (i * G_PI / 4);

          cairo_move_to (cr, lamp.x + radius * x, lamp.y + radius * y);
          cairo_line_to (cr, lamp.x + (radius + 4.0) * x, lamp.y + (radius + 4.0) * y);
        }
      cairo_stroke (cr);
    }
}

/* Below the frame, clear of the button at the edge; in the middle where no frame is shown. */
static void
draw_message (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  g_autofree char *message = create_message (self);
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (GTK_WIDGET (self), message);
  const double line = fmax (fmin (width - 2 * MESSAGE_MARGIN, MESSAGE_WIDTH), 1);
  int text_width;
  int text_height;
  double x = (width - line) / 2;
  double y;

  pango_layout_set_width (layout, (int)(line * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  y = self->painting->preview != NULL ? height - text_height - MESSAGE_BOTTOM
                                      : (height - text_height) / 2;
  set_tone (cr, CAV_TONE_PLATE, 0.94);
  cairo_rectangle (cr, x - 12, y - 10, line + 24, text_height + 20);
  cairo_fill (cr);
  set_tone (cr, CAV_TONE_TEXT, 1.0);
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
}

static void
cav_frame_canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  cairo_t *cr;

  if (width < 1 || height < 1 || self->painting == NULL)
    return;
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  if (self->painting->preview != NULL)
    {
      draw_preview (self, cr, width, height);
      if (self->has_order)
        draw_order (self, cr, width, height);
      draw_lamp (self, cr);
    }
  if (self->painting->message != NULL)
    draw_message (self, cr, width, height);
  cairo_destroy (cr);
}

static void
cav_frame_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (widget);
  int scale = gtk_widget_get_scale_factor (widget);

  if (self->painting == NULL || width * scale != self->painting->width
      || height * scale != self->painting->height)
    start_painting (self);
}

static void
cav_frame_canvas_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cav_frame_canvas_parent_class)->map (widget);
  start_painting (CAV_FRAME_CANVAS (widget));
}

gboolean
cav_frame_canvas_is_settled (CavFrameCanvas *self)
{
  g_return_val_if_fail (CAV_IS_FRAME_CANVAS (self), FALSE);
  return !self->is_painting && !self->is_stale && self->painting != NULL;
}

static void
set_document (CavFrameCanvas *self, CavDocument *document)
{
  if (!g_set_object (&self->document, document))
    return;
  g_signal_group_set_target (self->project_signals, get_project (self));
  g_signal_group_set_target (self->board_signals,
                             document != NULL ? cav_document_get_board_runner (document) : NULL);
  start_painting (self);
}

static void
cav_frame_canvas_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else if (id == PROP_ORDER)
    g_value_set_boolean (value, self->has_order);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_canvas_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (object);

  if (id == PROP_ORDER)
    {
      self->has_order = g_value_get_boolean (value);
      gtk_widget_queue_draw (GTK_WIDGET (self));
    }
  else if (id == PROP_DOCUMENT)
    set_document (self, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_canvas_dispose (GObject *object)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->board_signals);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_frame_canvas_parent_class)->dispose (object);
}

static void
cav_frame_canvas_finalize (GObject *object)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (object);

  cav_frame_painting_free (self->painting);
  G_OBJECT_CLASS (cav_frame_canvas_parent_class)->finalize (object);
}

static void
cav_frame_canvas_class_init (CavFrameCanvasClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_frame_canvas_get_property;
  object_class->set_property = cav_frame_canvas_set_property;
  object_class->dispose = cav_frame_canvas_dispose;
  object_class->finalize = cav_frame_canvas_finalize;
  widget_class->snapshot = cav_frame_canvas_snapshot;
  widget_class->size_allocate = cav_frame_canvas_size_allocate;
  widget_class->map = cav_frame_canvas_map;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_ORDER] = g_param_spec_boolean ("order", NULL, NULL, FALSE,
                                                 G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
  gtk_widget_class_set_css_name (widget_class, "framecanvas");
}

static void
add_controllers (CavFrameCanvas *self)
{
  GtkGesture *drag = gtk_gesture_drag_new ();
  GtkEventController *keys = gtk_event_controller_key_new ();
  GtkDropTarget *drop = gtk_drop_target_new (G_TYPE_FILE, GDK_ACTION_COPY);

  g_signal_connect (drag, "drag-begin", G_CALLBACK (drag_begin_cb), self);
  g_signal_connect (drag, "drag-update", G_CALLBACK (drag_update_cb), self);
  g_signal_connect (drag, "drag-end", G_CALLBACK (drag_end_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drag));
  g_signal_connect (keys, "key-pressed", G_CALLBACK (key_pressed_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
  g_signal_connect (drop, "drop", G_CALLBACK (drop_cb), self);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (drop));
}

static void
cav_frame_canvas_init (CavFrameCanvas *self)
{
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("The frame on the wall; arrow keys move the light"), -1);
  add_controllers (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  self->board_signals = g_signal_group_new (CAV_TYPE_BOARD_RUNNER);
  g_signal_group_connect_object (self->board_signals, "laid", G_CALLBACK (laid_cb), self,
                                 G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (gtk_widget_queue_draw), self, G_CONNECT_SWAPPED);
}
