/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-detail.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-letters.h"
#include "app/cav-light.h"
#include "app/cav-settings.h"
#include "drawing/cav-frame-section.h"
#include "drawing/cav-mitre-view.h"

/* Pixels for a millimetre of the drawing: its smallest letters have to be read. */
#define PIXELS 4.0
/* Where the longest sentence of the drawings, mm, has no room, all of it gets smaller rather than
 * being cut; not below this share. */
#define SENTENCE 150.0
#define SMALLEST 0.7
/* What stands above and below each other at a corner needs so much height, mm. */
#define CORNER_HEIGHT 110.0
#define MARGIN 24
/* Buttons lie over the upper edge. */
#define HEAD 56
/* Scales that a section is drawn to, the largest that fits; an even one reads best. */
static const double SCALES[] = { 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.75, 0.5, 0.25, 0.1 };

struct _CavFrameDetail
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  CavScene *scene; /* (nullable) for the size of now */
  int width;       /* that it was made for */
  int height;

  /* State */
  gboolean is_corner;
  double humidity;
};

G_DEFINE_FINAL_TYPE (CavFrameDetail, cav_frame_detail, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  PROP_IS_CORNER,
  PROP_HUMIDITY,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static double
get_pixels (CavFrameDetail *self)
{
  const double room = gtk_widget_get_width (GTK_WIDGET (self)) - 2.0 * MARGIN;
  const double letters = cav_letters_get_size (GTK_WIDGET (self));
  /* Sentences stand at a corner, where there are rows of them; a section has words. */
  const double usual = PIXELS * (self->is_corner ? letters : 1.0);

  return PIXELS * letters * CLAMP (room / usual / SENTENCE, SMALLEST, 1.0);
}

/* Where letters are too large for the window one scrolls. */
static void
cav_frame_detail_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  const double pixels = PIXELS * SMALLEST * cav_letters_get_size (widget);

  *minimum = 0;
  if (CAV_FRAME_DETAIL (widget)->is_corner)
    *minimum = orientation == GTK_ORIENTATION_HORIZONTAL
                   ? (int)ceil (SENTENCE * pixels) + 2 * MARGIN
                   : (int)ceil (CORNER_HEIGHT * pixels) + HEAD + MARGIN;
  *natural = *minimum;
  *minimum_baseline = *natural_baseline = -1;
}

static CavScene *
create_section (CavProject *project, double width, double height)
{
  const CavFrame *frame = cav_project_get_frame (project);
  const CavProfile *profile = cav_project_get_profile (project);
  CavLengthStyle style = cav_settings_get_length_style ();
  CavScene *scene = cav_scene_new (width, height);

  for (guint i = 0; i < G_N_ELEMENTS (SCALES); i++)
    {
      CavBox extent = cav_frame_section_get_extent (scene, frame, profile, SCALES[i], style);

      if ((extent.x1 - extent.x0 > width || extent.y1 - extent.y0 > height)
          && i + 1 < G_N_ELEMENTS (SCALES))
        continue;
      cav_frame_section_draw (
          scene, frame, profile, SCALES[i],
          CAV_POINT ((width - extent.x0 - extent.x1) / 2.0, (height - extent.y0 - extent.y1) / 2.0),
          style);
      break;
    }
  return scene;
}

CavScene *
cav_frame_detail_get_scene (CavFrameDetail *self)
{
  CavProject *project;
  double width;
  double height;

  g_return_val_if_fail (CAV_IS_FRAME_DETAIL (self), NULL);

  project = self->document != NULL ? cav_document_get_project (self->document) : NULL;
  self->width = gtk_widget_get_width (GTK_WIDGET (self));
  self->height = gtk_widget_get_height (GTK_WIDGET (self));
  width = (self->width - 2 * MARGIN) / get_pixels (self);
  height = (self->height - HEAD - MARGIN) / get_pixels (self);
  if (self->scene != NULL || project == NULL || !cav_project_get_frame (project)->possible
      || width < 1 || height < 1)
    return self->scene;
  self->scene
      = self->is_corner
            ? cav_mitre_view_create_scene (cav_project_get_frame (project), self->humidity, width,
                                           height, cav_settings_get_length_style ().unit)
            : create_section (project, width, height);
  return self->scene;
}

/* What the drawing says, for those who do not see it. */
static void
describe (CavFrameDetail *self)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; self->scene != NULL && i < cav_scene_get_text_count (self->scene); i++)
    {
      const char *words = NULL;
      const CavTextStyle *style = NULL;

      cav_scene_get_text (self->scene, i, &words, &style);
      g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", words);
    }
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  text->str, -1);
  g_string_free (text, TRUE);
}

static void
forget_scene (CavFrameDetail *self)
{
  g_clear_pointer (&self->scene, cav_scene_free);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
letters_changed_cb (CavFrameDetail *self)
{
  gtk_widget_queue_resize (GTK_WIDGET (self));
  forget_scene (self);
}

static void
project_changed_cb (CavFrameDetail *self, guint parts)
{
  if ((parts & (CAV_PART_SECTION | CAV_PART_WOOD | CAV_PART_FRAME)) != 0)
    forget_scene (self);
}

static void
cav_frame_detail_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CavFrameDetail *self = CAV_FRAME_DETAIL (widget);

  if (width != self->width || height != self->height)
    g_clear_pointer (&self->scene, cav_scene_free);
}

static void
draw_nothing (CavFrameDetail *self, cairo_t *cr, CavColour ink)
{
  g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (
      GTK_WIDGET (self),
      _ ("There is nothing to draw yet: see what is worth a look in the side column."));

  pango_layout_set_width (layout, MAX (self->width - 2 * MARGIN, 1) * PANGO_SCALE);
  pango_layout_set_alignment (layout, PANGO_ALIGN_CENTER);
  cairo_set_source_rgb (cr, ink.red / 255.0, ink.green / 255.0, ink.blue / 255.0);
  cairo_move_to (cr, MARGIN, self->height / 2.0);
  pango_cairo_show_layout (cr, layout);
}

static void
cav_frame_detail_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavFrameDetail *self = CAV_FRAME_DETAIL (widget);
  gboolean is_made = self->scene == NULL;
  CavScene *scene = cav_frame_detail_get_scene (self);
  CavLight light = cav_light_get_current ();
  CavColour ground = cav_tone_get_colour (CAV_TONE_GROUND, light);
  cairo_t *cr;

  if (self->width < 1 || self->height < 1)
    return;
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)self->width, (float)self->height));
  cairo_set_source_rgb (cr, ground.red / 255.0, ground.green / 255.0, ground.blue / 255.0);
  cairo_paint (cr);
  if (scene != NULL)
    {
      cairo_translate (cr, MARGIN, HEAD);
      cairo_scale (cr, get_pixels (self), get_pixels (self));
      cav_scene_render_in (scene, cr, light);
    }
  else
    draw_nothing (self, cr, cav_tone_get_colour (CAV_TONE_TEXT, light));
  cairo_destroy (cr);
  if (is_made)
    describe (self);
}

static void
cav_frame_detail_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFrameDetail *self = CAV_FRAME_DETAIL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else if (id == PROP_IS_CORNER)
    g_value_set_boolean (value, self->is_corner);
  else if (id == PROP_HUMIDITY)
    g_value_set_double (value, self->humidity);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
set_document (CavFrameDetail *self, CavDocument *document)
{
  if (g_set_object (&self->document, document))
    g_signal_group_set_target (self->project_signals,
                               document != NULL ? cav_document_get_project (document) : NULL);
}

static void
cav_frame_detail_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavFrameDetail *self = CAV_FRAME_DETAIL (object);

  if (id == PROP_DOCUMENT)
    set_document (self, g_value_get_object (value));
  else if (id == PROP_IS_CORNER)
    {
      self->is_corner = g_value_get_boolean (value);
      gtk_widget_queue_resize (GTK_WIDGET (self));
    }
  else if (id == PROP_HUMIDITY)
    self->humidity = g_value_get_double (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
  gtk_accessible_update_property (
      GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL,
      self->is_corner ? _ ("A mitre close up") : _ ("Section through frame and package"), -1);
  forget_scene (self);
}

static void
cav_frame_detail_dispose (GObject *object)
{
  CavFrameDetail *self = CAV_FRAME_DETAIL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->scene, cav_scene_free);
  G_OBJECT_CLASS (cav_frame_detail_parent_class)->dispose (object);
}

static void
cav_frame_detail_class_init (CavFrameDetailClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_frame_detail_get_property;
  object_class->set_property = cav_frame_detail_set_property;
  object_class->dispose = cav_frame_detail_dispose;
  widget_class->measure = cav_frame_detail_measure;
  widget_class->snapshot = cav_frame_detail_snapshot;
  widget_class->size_allocate = cav_frame_detail_size_allocate;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_IS_CORNER] = g_param_spec_boolean ("is-corner", NULL, NULL, FALSE,
                                                     G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_HUMIDITY] = g_param_spec_double ("humidity", NULL, NULL, 0, 100, 30,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
cav_frame_detail_init (CavFrameDetail *self)
{
  self->humidity = 30.0;
  cav_letters_watch (G_CALLBACK (letters_changed_cb), GTK_WIDGET (self));
  gtk_widget_set_hexpand (GTK_WIDGET (self), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (self), TRUE);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT,
                           G_CALLBACK (forget_scene), self, G_CONNECT_SWAPPED);
  cav_light_watch (G_CALLBACK (gtk_widget_queue_draw), self);
}
