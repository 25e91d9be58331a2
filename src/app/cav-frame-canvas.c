/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-canvas.h"

#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

#include "app/cav-frame-edit.h"
#include "app/cav-letters.h"
#include "drawing/cav-preview.h"
#include "tool/cav-picture.h"

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
/* Longer side of what stands for a picture that could not be read. */
#define MISSING_PIXELS 900.0

struct _CavFrameCanvas
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GSignalGroup *board_signals;
  CavPreview *preview; /* (nullable) */
  char *message;       /* (nullable) why there is none, or what is wrong with the picture */

  /* State */
  int width; /* of the preview, device pixels */
  int height;
  gboolean is_painting; /* on a worker thread */
  gboolean is_stale;    /* what is being painted is not what is wanted any more */
  gboolean is_dragging;
  gboolean has_order;  /* rails show their numbers */
  CavFrameGrain grain; /* where the rails of the preview lie on the boards */
  double light_angle;  /* while the lamp is dragged */
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

/* Painting, on a worker thread */

typedef struct
{
  CavProject *project;    /* a snapshot */
  CavBoardLayout *layout; /* (nullable) */
  char *picture_path;     /* (nullable) */
  CavFrameGrain grain;
  int width;
  int height;
  CavPreview *preview;
  char *message;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  g_object_unref (job->project);
  g_clear_pointer (&job->layout, cav_board_layout_unref);
  g_free (job->picture_path);
  g_free (job->message);
  cav_preview_free (job->preview);
  g_free (job);
}

/* (transfer full) What keeps the frame from being shown. */
static char *
explain (const CavFrame *frame)
{
  for (guint i = 0; i < frame->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (frame->findings, i);

      if (finding->severity == CAV_FINDING_WRONG)
        return g_strdup (finding->message);
    }
  return NULL;
}

/* (transfer full) A sheet in the shape of the picture that could not be read. */
static cairo_surface_t *
create_missing (const CavFrame *frame)
{
  CavSize size = frame->sizes.picture;
  double scale = MISSING_PIXELS / fmax (fmax (size.width, size.height), 1.0);
  int width = MAX ((int)(size.width * scale), 1);
  int height = MAX ((int)(size.height * scale), 1);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);

  cav_draw_missing_picture (cr, width, height);
  cairo_destroy (cr);
  return surface;
}

static void
paint_job (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Job *job = data;
  const CavFrame *frame = cav_project_get_frame (job->project);
  cairo_surface_t *picture = NULL;

  if (job->picture_path != NULL)
    {
      g_autoptr (GError) error = NULL;

      picture = cav_picture_load (job->picture_path, &error);
      if (picture == NULL)
        {
          job->message = g_strdup (error->message);
          picture = create_missing (frame);
        }
    }
  cav_frame_grain_init (&job->grain, frame);
  cav_frame_grain_place (&job->grain, job->layout, 0);
  job->preview = cav_preview_new (frame, cav_project_get_profile (job->project), &job->grain,
                                  picture, job->width, job->height);
  if (job->preview == NULL && job->message == NULL)
    job->message = explain (frame);
  g_clear_pointer (&picture, cairo_surface_destroy);
  g_task_return_boolean (task, TRUE);
}

static void start_painting (CavFrameCanvas *self);

static void
update_description (CavFrameCanvas *self)
{
  double angle;
  double height;
  g_autofree char *light = NULL;

  get_light (self, &angle, &height);
  light = g_strdup_printf (_ ("Light from %.0f degrees, %.0f degrees high. %s"),
                           fmod (angle + 720.0, 360.0), height,
                           self->message != NULL ? self->message : "");
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, light,
                                  -1);
}

static void
painted_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (source);
  Job *job = g_task_get_task_data (G_TASK (result));

  self->is_painting = FALSE;
  g_clear_pointer (&self->preview, cav_preview_free);
  g_free (self->message);
  self->preview = g_steal_pointer (&job->preview);
  self->message = g_steal_pointer (&job->message);
  self->width = job->width;
  self->height = job->height;
  self->grain = job->grain;
  update_description (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
  if (self->is_stale)
    start_painting (self);
}

static char *
dup_picture_path (CavFrameCanvas *self)
{
  const char *file = cav_project_get_frame_settings (get_project (self))->picture_file;
  GFile *own = cav_document_get_file (self->document);
  g_autofree char *own_path = own != NULL ? g_file_get_path (own) : NULL;

  return file != NULL && *file != '\0' ? cav_picture_find (file, own_path) : NULL;
}

/* (transfer full) (nullable) The layout of boards, where there are any. */
static CavBoardLayout *
dup_layout (CavFrameCanvas *self)
{
  CavBoardLayout *layout
      = cav_board_runner_get_layout (cav_document_get_board_runner (self->document));

  return layout != NULL ? cav_board_layout_ref (layout) : NULL;
}

static void
start_painting (CavFrameCanvas *self)
{
  int scale = gtk_widget_get_scale_factor (GTK_WIDGET (self));
  int width = MIN (gtk_widget_get_width (GTK_WIDGET (self)) * scale, PIXELS_MAX);
  int height = MIN (gtk_widget_get_height (GTK_WIDGET (self)) * scale, PIXELS_MAX);
  CavProject *project = get_project (self);

  self->is_stale = self->is_painting;
  if (self->is_painting || project == NULL || width < 2 || height < 2
      || !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;

  g_autoptr (GTask) task = g_task_new (self, NULL, painted_cb, NULL);
  Job *job = g_new0 (Job, 1);
  job->project = cav_project_copy_snapshot (project);
  job->layout = dup_layout (self);
  job->picture_path = dup_picture_path (self);
  job->width = width;
  job->height = height;
  g_task_set_task_data (task, job, job_free);
  self->is_painting = TRUE;
  g_task_run_in_thread (task, paint_job);
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
  g_autoptr (CavBoardLayout) layout = NULL;

  if (get_project (self) == NULL)
    return;
  layout = dup_layout (self);
  cav_frame_grain_init (&grain, cav_project_get_frame (get_project (self)));
  cav_frame_grain_place (&grain, layout, 0);
  if (memcmp (&grain, &self->grain, sizeof grain) != 0)
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
      (float)(gtk_widget_get_width (GTK_WIDGET (self)) / 2.0 + away * sin (angle * G_PI / 180.0)),
      (float)(gtk_widget_get_height (GTK_WIDGET (self)) / 2.0 - away * cos (angle * G_PI / 180.0)));
}

static void
set_lamp (CavFrameCanvas *self, double x, double y)
{
  double dx = x - gtk_widget_get_width (GTK_WIDGET (self)) / 2.0;
  double dy = y - gtk_widget_get_height (GTK_WIDGET (self)) / 2.0;
  double away = hypot (dx, dy) / fmax (get_rim (self), 1.0);

  if (away > 0.01)
    self->light_angle = atan2 (dx, -dy) * 180.0 / G_PI;
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
  cav_project_begin (project, C_ ("step", "move light"));
  cav_project_set_frame_settings (project, settings);
  cav_project_end (project);
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

static void
draw_preview (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  double angle;
  double high;
  double scale = fmin (width / self->width, height / self->height);

  get_light (self, &angle, &high);
  cairo_save (cr);
  cairo_translate (cr, (width - self->width * scale) / 2, (height - self->height * scale) / 2);
  cairo_scale (cr, scale, scale);
  cairo_set_source_surface (cr, cav_preview_shade (self->preview, angle, high), 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_paint (cr);
  cairo_restore (cr);
}

/* In which order the rails lie on the boards. */
static void
draw_order (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  const double scale
      = cav_preview_get_scale (self->preview) * fmin (width / self->width, height / self->height);
  double letters = cav_letters_get_size (GTK_WIDGET (self));

  cairo_save (cr);
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, letters, letters);
  cav_frame_grain_draw_numbers (&self->grain, cav_project_get_frame (get_project (self)), cr,
                                scale / letters);
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

static void
draw_message (CavFrameCanvas *self, cairo_t *cr, double width, double height)
{
  g_autoptr (PangoLayout) layout
      = gtk_widget_create_pango_layout (GTK_WIDGET (self), self->message);
  int text_width;
  int text_height;
  double x;
  double y;

  pango_layout_set_width (layout, (int)(fmin (width - 80, 520) * PANGO_SCALE));
  pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  pango_layout_get_pixel_size (layout, &text_width, &text_height);
  x = (width - fmin (width - 80, 520)) / 2;
  y = self->preview != NULL ? height - text_height - 24 : (height - text_height) / 2;
  set_tone (cr, CAV_TONE_PLATE, 0.94);
  cairo_rectangle (cr, x - 12, y - 10, fmin (width - 80, 520) + 24, text_height + 20);
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

  if (width < 1 || height < 1)
    return;
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  if (self->preview != NULL)
    {
      draw_preview (self, cr, width, height);
      if (self->has_order)
        draw_order (self, cr, width, height);
      draw_lamp (self, cr);
    }
  if (self->message != NULL)
    draw_message (self, cr, width, height);
  cairo_destroy (cr);
}

static void
cav_frame_canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CavFrameCanvas *self = CAV_FRAME_CANVAS (widget);
  int scale = gtk_widget_get_scale_factor (widget);

  if (width * scale != self->width || height * scale != self->height)
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
  return !self->is_painting && !self->is_stale && (self->preview != NULL || self->message != NULL);
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

  cav_preview_free (self->preview);
  g_free (self->message);
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
}
