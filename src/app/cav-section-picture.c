/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-section-picture.h"

#include "app/cav-light.h"
#include "drawing/cav-section-pane.h"

#include <math.h>

#define WIDTH 168
#define HEIGHT 112
/* Pixels around the wood. */
#define AIR 6.0
/* Pixels a millimetre at the most, so that a narrow molding looks narrow beside a wide one. */
#define SCALE_MAX 3.0

struct _CavSectionPicture
{
  GtkWidget parent_instance;

  /* Owned */
  CavProject *project;    /* nullable */
  cairo_surface_t *grain; /* nullable: to be painted */
  CavPane pane;           /* that it was painted for */
};

G_DEFINE_FINAL_TYPE (CavSectionPicture, cav_section_picture, GTK_TYPE_WIDGET)

static CavPane
get_pane (CavSectionPicture *self, const CavBlank *blank)
{
  GtkWidget *widget = GTK_WIDGET (self);
  CavPane pane = {
    .width = gtk_widget_get_width (widget),
    .height = gtk_widget_get_height (widget),
    .device = gtk_widget_get_scale_factor (widget),
    .light = cav_light_get_current (),
  };

  pane.view = cav_view_fit (blank, pane.width, pane.height, AIR);
  if (pane.view.scale > SCALE_MAX)
    cav_view_zoom (&pane.view, SCALE_MAX / pane.view.scale,
                   CAV_POINT (pane.width / 2.0, pane.height / 2.0));
  return pane;
}

static void
forget_grain (CavSectionPicture *self)
{
  g_clear_pointer (&self->grain, cairo_surface_destroy);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
cav_section_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavSectionPicture *self = CAV_SECTION_PICTURE (widget);
  CavSectionContent content = { 0 };
  CavPane pane;
  cairo_t *cr;

  if (self->project == NULL || gtk_widget_get_width (widget) <= 0
      || gtk_widget_get_height (widget) <= 0)
    return;
  content.blank = cav_project_get_blank (self->project);
  content.profile = cav_project_get_profile (self->project)->region;
  pane = get_pane (self, &content.blank);
  if (self->grain == NULL || !cav_pane_equal (&pane, &self->pane))
    {
      g_clear_pointer (&self->grain, cairo_surface_destroy);
      self->grain = cav_grain_create_surface (&content.blank, &pane);
      self->pane = pane;
    }
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float)pane.width, (float)pane.height));
  cav_section_pane_draw_wood (cr, &pane, &content, self->grain);
  cairo_destroy (cr);
}

static void
cav_section_picture_measure (GtkWidget *widget,
                             GtkOrientation orientation,
                             int for_size,
                             int *minimum,
                             int *natural,
                             int *minimum_baseline,
                             int *natural_baseline)
{
  *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? WIDTH : HEIGHT;
}

static void
cav_section_picture_dispose (GObject *object)
{
  CavSectionPicture *self = CAV_SECTION_PICTURE (object);

  g_clear_pointer (&self->grain, cairo_surface_destroy);
  g_clear_object (&self->project);
  G_OBJECT_CLASS (cav_section_picture_parent_class)->dispose (object);
}

static void
cav_section_picture_class_init (CavSectionPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_section_picture_dispose;
  widget_class->snapshot = cav_section_picture_snapshot;
  widget_class->measure = cav_section_picture_measure;
  /* The words beside it say what it shows. */
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_PRESENTATION);
}

static void
cav_section_picture_init (CavSectionPicture *self)
{
  cav_light_watch (G_CALLBACK (forget_grain), self);
}

GtkWidget *
cav_section_picture_new (void)
{
  return g_object_new (CAV_TYPE_SECTION_PICTURE, NULL);
}

void
cav_section_picture_set_project (CavSectionPicture *self, CavProject *project)
{
  g_return_if_fail (CAV_IS_SECTION_PICTURE (self));
  g_return_if_fail (project == NULL || CAV_IS_PROJECT (project));

  if (g_set_object (&self->project, project))
    forget_grain (self);
}
