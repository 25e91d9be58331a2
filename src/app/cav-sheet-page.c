/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sheet-page.h"

#include <glib/gi18n.h>
#include <math.h>

/* A strip is far longer than what graphics can hold in one piece, pixels. */
#define BAND 1024

struct _CavSheetPage
{
  GtkWidget parent_instance;

  GPtrArray *pages; /* owned */
  CavScene *scene;  /* of them */
  double scale;
};

G_DEFINE_FINAL_TYPE (CavSheetPage, cav_sheet_page, GTK_TYPE_WIDGET)

static int
get_length (CavSheetPage *self, double mm)
{
  return MAX ((int)ceil (mm * self->scale), 1);
}

static void
cav_sheet_page_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  CavSheetPage *self = CAV_SHEET_PAGE (widget);
  const CavColour paper = cav_ink_get_colour (CAV_INK_WHITE);
  const GdkRGBA white = { (float)paper.red / 255.0F, (float)paper.green / 255.0F,
                          (float)paper.blue / 255.0F, 1.0F };
  int width = gtk_widget_get_width (widget);
  int height = gtk_widget_get_height (widget);

  gtk_snapshot_append_color (snapshot, &white,
                             &GRAPHENE_RECT_INIT (0, 0, (float)width, (float)height));
  for (int top = 0; top < height; top += BAND)
    {
      cairo_t *cr = gtk_snapshot_append_cairo (
          snapshot,
          &GRAPHENE_RECT_INIT (0, (float)top, (float)width, (float)MIN (BAND, height - top)));

      cairo_scale (cr, self->scale, self->scale);
      cav_scene_render (self->scene, cr);
      cairo_destroy (cr);
    }
}

static void
cav_sheet_page_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  CavSheetPage *self = CAV_SHEET_PAGE (widget);

  *minimum = *natural = get_length (self, orientation == GTK_ORIENTATION_HORIZONTAL
                                              ? cav_scene_get_width (self->scene)
                                              : cav_scene_get_height (self->scene));
}

static void
cav_sheet_page_dispose (GObject *object)
{
  CavSheetPage *self = CAV_SHEET_PAGE (object);

  self->scene = NULL;
  g_clear_pointer (&self->pages, g_ptr_array_unref);
  G_OBJECT_CLASS (cav_sheet_page_parent_class)->dispose (object);
}

static void
cav_sheet_page_class_init (CavSheetPageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_sheet_page_dispose;
  widget_class->snapshot = cav_sheet_page_snapshot;
  widget_class->measure = cav_sheet_page_measure;
  gtk_widget_class_set_css_name (widget_class, "sheet-page");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
cav_sheet_page_init (CavSheetPage *self)
{
  self->scale = 1;
  gtk_widget_set_halign (GTK_WIDGET (self), GTK_ALIGN_CENTER);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_START);
}

/* All that stands on the page, for whoever has it read out. */
static char *
dup_words (const CavScene *scene)
{
  GString *words = g_string_new (NULL);

  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;

      cav_scene_get_text (scene, i, &text, &style);
      g_string_append_printf (words, "%s%s", words->len > 0 ? "\n" : "", text);
    }
  return g_string_free (words, FALSE);
}

GtkWidget *
cav_sheet_page_new (GPtrArray *pages, guint index)
{
  CavSheetPage *self;
  g_autofree char *name = NULL;
  g_autofree char *words = NULL;

  g_return_val_if_fail (pages != NULL && index < pages->len, NULL);

  self = g_object_new (CAV_TYPE_SHEET_PAGE, NULL);
  self->pages = g_ptr_array_ref (pages);
  self->scene = g_ptr_array_index (pages, index);
  name = g_strdup_printf (_ ("Page %u of %u"), index + 1, pages->len);
  words = dup_words (self->scene);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name,
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, words, -1);
  return GTK_WIDGET (self);
}

void
cav_sheet_page_set_scale (CavSheetPage *self, double scale)
{
  g_return_if_fail (CAV_IS_SHEET_PAGE (self) && scale > 0);

  if (fabs (scale - self->scale) < 1e-9)
    return;
  self->scale = scale;
  gtk_widget_queue_resize (GTK_WIDGET (self));
  gtk_widget_queue_draw (GTK_WIDGET (self));
}
