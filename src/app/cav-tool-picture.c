/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-tool-picture.h"

#include <math.h>

#include "drawing/cav-tool-outline.h"

/* Pixels around the picture. */
#define MARGIN 3.0
/* A small tool is not blown up beyond this where the picture is to fill its room, pixels a mm. */
#define SCALE_MAX 8.0

struct _CavToolPicture
{
  GtkWidget parent_instance;

  /* Owned, one of them or none */
  CavCutter *cutter;
  CavBlade *blade;

  /* State */
  double scale;
};

G_DEFINE_FINAL_TYPE (CavToolPicture, cav_tool_picture, GTK_TYPE_WIDGET)

static CavBox
get_box (CavToolPicture *self)
{
  return self->cutter != NULL ? cav_cutter_get_picture_box (self->cutter)
                              : cav_blade_get_picture_box (self->blade);
}

static double
get_scale (CavToolPicture *self, CavBox box)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self)) - 2 * MARGIN;
  double height = gtk_widget_get_height (GTK_WIDGET (self)) - 2 * MARGIN;

  if (self->scale > 0)
    return self->scale;
  return fmin (SCALE_MAX, fmin (width / (box.x1 - box.x0), height / (box.y1 - box.y0)));
}

static void
cav_tool_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavToolPicture *self = CAV_TOOL_PICTURE (widget);
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);
  CavToolLook look;
  CavBox box;
  GdkRGBA colour;
  cairo_t *cr;

  if (self->cutter == NULL && self->blade == NULL)
    return;
  box = get_box (self);
  gtk_style_context_get_color (gtk_widget_get_style_context (widget), &colour);
  look = (CavToolLook){ colour.red, colour.green, colour.blue, get_scale (self, box) };
  if (!(look.scale > 0))
    return;
  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  /* On the middle of a pixel, so that edges are crisp. */
  cairo_translate (cr, floor (width / 2.0) + 0.5,
                   floor ((height - (box.y1 + box.y0) * look.scale) / 2.0) + 0.5);
  if (self->cutter != NULL)
    cav_cutter_draw_picture (cr, self->cutter, &look);
  else
    cav_blade_draw_picture (cr, self->blade, &look);
  cairo_destroy (cr);
}

static void
cav_tool_picture_measure (GtkWidget *widget,
                          GtkOrientation orientation,
                          int for_size,
                          int *minimum,
                          int *natural,
                          int *minimum_baseline,
                          int *natural_baseline)
{
  CavToolPicture *self = CAV_TOOL_PICTURE (widget);
  CavBox box;

  *minimum = *natural = 0;
  if (!(self->scale > 0) || (self->cutter == NULL && self->blade == NULL))
    return;
  box = get_box (self);
  *minimum = *natural = (int)ceil (
      (orientation == GTK_ORIENTATION_HORIZONTAL ? box.x1 - box.x0 : box.y1 - box.y0) * self->scale
      + 2 * MARGIN);
}

static void
cav_tool_picture_finalize (GObject *object)
{
  CavToolPicture *self = CAV_TOOL_PICTURE (object);

  cav_cutter_free (self->cutter);
  cav_blade_free (self->blade);
  G_OBJECT_CLASS (cav_tool_picture_parent_class)->finalize (object);
}

static void
cav_tool_picture_class_init (CavToolPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = cav_tool_picture_finalize;
  widget_class->snapshot = cav_tool_picture_snapshot;
  widget_class->measure = cav_tool_picture_measure;
  gtk_widget_class_set_css_name (widget_class, "toolpicture");
  /* The words beside it say what it shows. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cav_tool_picture_init (CavToolPicture *self)
{
  gtk_widget_set_can_target (GTK_WIDGET (self), FALSE);
}

CavToolPicture *
cav_tool_picture_new (void)
{
  return g_object_new (CAV_TYPE_TOOL_PICTURE, NULL);
}

static void
take (CavToolPicture *self, CavCutter *cutter, CavBlade *blade)
{
  cav_cutter_free (self->cutter);
  cav_blade_free (self->blade);
  self->cutter = cutter;
  self->blade = blade;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

void
cav_tool_picture_set_cutter (CavToolPicture *self, const CavCutter *cutter)
{
  g_return_if_fail (CAV_IS_TOOL_PICTURE (self));

  take (self, cutter != NULL ? cav_cutter_copy (cutter) : NULL, NULL);
}

void
cav_tool_picture_set_blade (CavToolPicture *self, const CavBlade *blade)
{
  g_return_if_fail (CAV_IS_TOOL_PICTURE (self));

  take (self, NULL, blade != NULL ? cav_blade_copy (blade) : NULL);
}

void
cav_tool_picture_set_scale (CavToolPicture *self, double scale)
{
  g_return_if_fail (CAV_IS_TOOL_PICTURE (self));
  g_return_if_fail (scale >= 0);

  self->scale = scale;
  gtk_widget_queue_resize (GTK_WIDGET (self));
}
