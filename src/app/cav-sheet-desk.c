/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sheet-desk.h"

#include "app/cav-sheet-page.h"
#include "geometry/cav-unit.h"

#include <glib/gi18n.h>
#include <math.h>

/* Pixels: around and between pages, and for a millimetre where nothing limits it (96 an inch). */
#define AROUND 18
#define ACTUAL (96 / CAV_INCH)
#define LEAST_SCALE 0.4
#define LARGEST_SCALE 16.0
/* Narrower pages than this are not made wider to fill the desk, mm: a strip stays as it is. */
#define NARROW 150.0

struct _CavSheetDesk
{
  GtkWidget parent_instance;

  GtkWidget *scroller; /* owned, as a child */
  GtkBox *box;
  GPtrArray *pages; /* owned */
  double zoom;      /* pixels for a millimetre; 0: as wide as the desk */
};

enum
{
  TURNED,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (CavSheetDesk, cav_sheet_desk, GTK_TYPE_WIDGET)

static GtkAdjustment *
get_adjustment (CavSheetDesk *self)
{
  return gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (self->scroller));
}

static double
get_scale (CavSheetDesk *self)
{
  double room = gtk_widget_get_width (GTK_WIDGET (self)) - 2 * AROUND;
  double widest = 1;
  double fitting;

  for (guint i = 0; i < self->pages->len; i++)
    widest = fmax (widest, cav_scene_get_width (g_ptr_array_index (self->pages, i)));
  if (self->zoom > 0)
    return self->zoom;
  fitting = room / widest;
  if (widest < NARROW)
    fitting = fmin (fitting, ACTUAL);
  return CLAMP (fitting, LEAST_SCALE, LARGEST_SCALE);
}

static void
scale_pages (CavSheetDesk *self)
{
  double scale = get_scale (self);

  for (GtkWidget *page = gtk_widget_get_first_child (GTK_WIDGET (self->box)); page != NULL;
       page = gtk_widget_get_next_sibling (page))
    cav_sheet_page_set_scale (CAV_SHEET_PAGE (page), scale);
}

/* Of a page within all that is scrolled. */
static double
get_top (CavSheetDesk *self, guint index)
{
  GtkWidget *page = gtk_widget_get_first_child (GTK_WIDGET (self->box));
  graphene_rect_t bounds;

  for (guint i = 0; i < index && page != NULL; i++)
    page = gtk_widget_get_next_sibling (page);
  if (page == NULL || !gtk_widget_compute_bounds (page, GTK_WIDGET (self->box), &bounds))
    return 0;
  return bounds.origin.y + AROUND;
}

static void
turned_cb (CavSheetDesk *self)
{
  g_signal_emit (self, signals[TURNED], 0);
}

static gboolean
scale_cb (gpointer user_data)
{
  CavSheetDesk *self = user_data;

  scale_pages (self);
  turned_cb (self);
  return G_SOURCE_REMOVE;
}

/* Pages cannot ask for another size while they are being given one. */
static void
cav_sheet_desk_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  CavSheetDesk *self = CAV_SHEET_DESK (widget);

  gtk_widget_allocate (self->scroller, width, height, baseline, NULL);
  g_idle_add_full (G_PRIORITY_HIGH_IDLE, scale_cb, g_object_ref (self), g_object_unref);
}

static void
cav_sheet_desk_measure (GtkWidget *widget,
                        GtkOrientation orientation,
                        int for_size,
                        int *minimum,
                        int *natural,
                        int *minimum_baseline,
                        int *natural_baseline)
{
  gtk_widget_measure (CAV_SHEET_DESK (widget)->scroller, orientation, for_size, minimum, natural,
                      NULL, NULL);
}

static void
cav_sheet_desk_dispose (GObject *object)
{
  CavSheetDesk *self = CAV_SHEET_DESK (object);

  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_sheet_desk_parent_class)->dispose (object);
}

static void
cav_sheet_desk_finalize (GObject *object)
{
  g_ptr_array_unref (CAV_SHEET_DESK (object)->pages);
  G_OBJECT_CLASS (cav_sheet_desk_parent_class)->finalize (object);
}

static void
cav_sheet_desk_class_init (CavSheetDeskClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_sheet_desk_dispose;
  G_OBJECT_CLASS (klass)->finalize = cav_sheet_desk_finalize;
  widget_class->size_allocate = cav_sheet_desk_size_allocate;
  widget_class->measure = cav_sheet_desk_measure;
  signals[TURNED] = g_signal_new ("turned", CAV_TYPE_SHEET_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "sheet-desk");
}

static void
cav_sheet_desk_init (CavSheetDesk *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, AROUND);

  self->pages = g_ptr_array_new ();
  self->box = GTK_BOX (box);
  gtk_widget_set_margin_top (box, AROUND);
  gtk_widget_set_margin_bottom (box, AROUND);
  gtk_widget_set_margin_start (box, AROUND);
  gtk_widget_set_margin_end (box, AROUND);
  gtk_widget_set_halign (box, GTK_ALIGN_CENTER);
  self->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (self->scroller), box);
  gtk_widget_set_focusable (self->scroller, TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->scroller), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Pages"), -1);
  gtk_widget_set_parent (self->scroller, GTK_WIDGET (self));
  /* The second when pages have been given their places. */
  g_signal_connect_object (get_adjustment (self), "value-changed", G_CALLBACK (turned_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (get_adjustment (self), "changed", G_CALLBACK (turned_cb), self,
                           G_CONNECT_SWAPPED);
}

void
cav_sheet_desk_set_pages (CavSheetDesk *self, GPtrArray *pages)
{
  GtkWidget *page;

  g_return_if_fail (CAV_IS_SHEET_DESK (self) && pages != NULL);

  while ((page = gtk_widget_get_first_child (GTK_WIDGET (self->box))) != NULL)
    gtk_box_remove (self->box, page);
  g_ptr_array_ref (pages);
  g_ptr_array_unref (self->pages);
  self->pages = pages;
  for (guint i = 0; i < pages->len; i++)
    gtk_box_append (self->box, cav_sheet_page_new (pages, i));
  scale_pages (self);
}

guint
cav_sheet_desk_get_page (CavSheetDesk *self)
{
  double middle;
  guint page = 0;

  g_return_val_if_fail (CAV_IS_SHEET_DESK (self), 0);

  middle = gtk_adjustment_get_value (get_adjustment (self))
           + gtk_adjustment_get_page_size (get_adjustment (self)) / 3;
  while (page + 1 < self->pages->len && get_top (self, page + 1) <= middle)
    page++;
  return page;
}

void
cav_sheet_desk_show_page (CavSheetDesk *self, guint page)
{
  g_return_if_fail (CAV_IS_SHEET_DESK (self));

  if (self->pages->len > 0)
    gtk_adjustment_set_value (get_adjustment (self),
                              get_top (self, MIN (page, self->pages->len - 1)) - AROUND);
}

void
cav_sheet_desk_zoom (CavSheetDesk *self, double factor)
{
  g_return_if_fail (CAV_IS_SHEET_DESK (self) && factor >= 0);

  self->zoom = factor > 0 ? CLAMP (get_scale (self) * factor, LEAST_SCALE, LARGEST_SCALE) : 0;
  scale_pages (self);
}
