/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-pass-picture.h"

#include "app/cav-letters.h"
#include "app/cav-light.h"
#include "drawing/cav-drawing.h"

#include <math.h>

#define WIDTH 144
#define HEIGHT 96
/* The drawing thinks in millimetres of paper: so many pixels are one, which makes lines thin. */
#define PIXELS_PER_MM 2.2
/* Greatest enlargement of the wood; a small blank looks small beside a large one. */
#define SCALE_MAX 2.0

struct _CavPassPicture
{
  GtkWidget parent_instance;

  /* Owned */
  CavPlan *plan;       /* nullable */
  GdkTexture *texture; /* nullable: to be drawn */

  /* State */
  guint setup;
  guint pass;
  int scale; /* that the texture was drawn for */
};

G_DEFINE_FINAL_TYPE (CavPassPicture, cav_pass_picture, GTK_TYPE_WIDGET)

/* The words below are as large as they are wanted; pictures as large would leave no room for the
 * section. */
static double
get_growth (CavPassPicture *self)
{
  return 1.0 + 0.4 * (cav_letters_get_size (GTK_WIDGET (self)) - 1.0);
}

static GdkTexture *
create_texture (CavPassPicture *self, int width, int height, int scale)
{
  const CavMachineLook look
      = { .letters = 2.5, .scale = SCALE_MAX, .progress = 1, .unfigured = TRUE };
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width * scale, height * scale);
  cairo_t *cr = cairo_create (surface);
  g_autoptr (GBytes) bytes = NULL;
  GdkTexture *texture;

  cairo_scale (cr, scale, scale);
  cav_draw_pass (cr, self->plan, self->setup, self->pass,
                 (CavDrawBox){ 0, 0, width, height, PIXELS_PER_MM * get_growth (self) },
                 cav_light_get_current (), &look);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  bytes = g_bytes_new (cairo_image_surface_get_data (surface),
                       (gsize)cairo_image_surface_get_stride (surface) * (gsize)(height * scale));
  texture = gdk_memory_texture_new (width * scale, height * scale, GDK_MEMORY_DEFAULT, bytes,
                                    (gsize)cairo_image_surface_get_stride (surface));
  cairo_surface_destroy (surface);
  return texture;
}

static void
forget_texture (CavPassPicture *self)
{
  g_clear_object (&self->texture);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
cav_pass_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavPassPicture *self = CAV_PASS_PICTURE (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  int scale = gtk_widget_get_scale_factor (widget);

  if (self->plan == NULL || width <= 0 || height <= 0)
    return;
  if (self->texture == NULL || self->scale != scale
      || gdk_texture_get_width (self->texture) != width * scale
      || gdk_texture_get_height (self->texture) != height * scale)
    {
      g_clear_object (&self->texture);
      self->texture = create_texture (self, width, height, scale);
      self->scale = scale;
    }
  gtk_snapshot_append_texture (snapshot, self->texture,
                               &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
}

static void
cav_pass_picture_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  int usual = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT;

  *minimum = *natural = (int)lround (usual * get_growth (CAV_PASS_PICTURE (widget)));
}

static void
cav_pass_picture_dispose (GObject *object)
{
  CavPassPicture *self = CAV_PASS_PICTURE (object);

  g_clear_object (&self->texture);
  g_clear_pointer (&self->plan, cav_plan_unref);
  G_OBJECT_CLASS (cav_pass_picture_parent_class)->dispose (object);
}

static void
cav_pass_picture_class_init (CavPassPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_pass_picture_dispose;
  widget_class->snapshot = cav_pass_picture_snapshot;
  widget_class->measure = cav_pass_picture_measure;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cav_pass_picture_init (CavPassPicture *self)
{
  cav_letters_watch (G_CALLBACK (gtk_widget_queue_resize), GTK_WIDGET (self));
  cav_light_watch (G_CALLBACK (forget_texture), self);
}

void
cav_pass_picture_set_pass (CavPassPicture *self, CavPlan *plan, guint setup, guint pass)
{
  g_return_if_fail (CAV_IS_PASS_PICTURE (self));
  g_clear_pointer (&self->plan, cav_plan_unref);
  self->plan = plan != NULL ? cav_plan_ref (plan) : NULL;
  self->setup = setup;
  self->pass = pass;
  forget_texture (self);
}
