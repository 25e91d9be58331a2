/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-molding-page.h"

#include "app/cav-column.h"
#include "app/cav-cut-palette.h"
#include "app/cav-pass-strip.h"
#include "app/cav-section-canvas.h"

struct _CavMoldingPage
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;

  /* Template widgets */
  AdwBin *column_bin;
  GtkWidget *canvas;
  GtkWidget *content;

  /* State */
  gulong first_frame; /* handler, until there was one */
  guint column_idle;
};

G_DEFINE_FINAL_TYPE (CavMoldingPage, cav_molding_page, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* The commands of the page. Single letters choose a cut; whoever types into an entry keeps them. */

static void
draw (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (widget);
  CavCutKind kind;

  if (self->document != NULL
      && cav_cut_kind_from_string (g_variant_get_string (parameter, NULL), &kind))
    {
      cav_selection_set_kind (cav_document_get_selection (self->document), (int)kind);
      gtk_widget_grab_focus (self->canvas);
    }
}

/* One step back: from drawing to choosing, from a pass to the section, from cuts to none. */
static void
leave (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (widget);
  CavSelection *selection;

  if (self->document == NULL)
    return;
  selection = cav_document_get_selection (self->document);
  if (cav_selection_get_kind (selection) != CAV_NO_KIND)
    cav_selection_set_kind (selection, CAV_NO_KIND);
  else if (cav_selection_get_pass (selection) != CAV_NO_PASS)
    cav_selection_set_pass (selection, CAV_NO_PASS);
  else
    cav_selection_clear_cuts (selection);
}

static void
toggle_column (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwFlap *flap = ADW_FLAP (CAV_MOLDING_PAGE (widget)->content);

  adw_flap_set_reveal_flap (flap, !adw_flap_get_reveal_flap (flap));
}

static void
add_keys (GtkWidgetClass *widget_class)
{
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    gtk_widget_class_add_binding_action (widget_class, cav_cut_palette_get_key ((CavCutKind)i), 0,
                                         "molding.draw", "s",
                                         cav_cut_kind_get_info ((CavCutKind)i)->name);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "molding.leave", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "molding.toggle-column", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_period, 0, "win.next-pass", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_comma, 0, "win.previous-pass", NULL);
}

static void
show_finding_cb (CavColumn *column, const CavFinding *finding, gpointer user_data)
{
  CavMoldingPage *self
      = CAV_MOLDING_PAGE (gtk_widget_get_ancestor (GTK_WIDGET (column), CAV_TYPE_MOLDING_PAGE));

  if (finding->cut >= 0)
    cav_selection_choose_cut (cav_document_get_selection (self->document), (guint)finding->cut);
  if (finding->has_place)
    cav_section_canvas_show_place (CAV_SECTION_CANVAS (self->canvas), finding->place);
}

/* The column is many rows, and comes with the second frame, so that the first is there sooner. */
static void
add_column_cb (gpointer user_data)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (user_data);
  CavColumn *column = cav_column_new ();

  self->column_idle = 0;
  g_object_bind_property (self, "document", column, "document", G_BINDING_SYNC_CREATE);
  g_signal_connect (column, "show-finding", G_CALLBACK (show_finding_cb), NULL);
  adw_bin_set_child (self->column_bin, GTK_WIDGET (column));
  gtk_widget_set_size_request (GTK_WIDGET (self->column_bin), -1, -1);
}

static void
first_frame_cb (GdkFrameClock *clock, gpointer user_data)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (user_data);

  g_clear_signal_handler (&self->first_frame, clock);
  self->column_idle = g_idle_add_once (add_column_cb, self);
}

static void
cav_molding_page_realize (GtkWidget *widget)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (widget);

  GTK_WIDGET_CLASS (cav_molding_page_parent_class)->realize (widget);
  if (adw_bin_get_child (self->column_bin) == NULL && self->first_frame == 0
      && self->column_idle == 0)
    self->first_frame = g_signal_connect_object (gtk_widget_get_frame_clock (widget), "after-paint",
                                                 G_CALLBACK (first_frame_cb), widget, 0);
}

/* The keys of the page are for the canvas first. */
static void
cav_molding_page_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (cav_molding_page_parent_class)->map (widget);
  gtk_widget_grab_focus (CAV_MOLDING_PAGE (widget)->canvas);
}

static void
cav_molding_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_molding_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_set_object (&self->document, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_molding_page_dispose (GObject *object)
{
  CavMoldingPage *self = CAV_MOLDING_PAGE (object);

  g_clear_handle_id (&self->column_idle, g_source_remove);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_molding_page_parent_class)->dispose (object);
}

static void
cav_molding_page_class_init (CavMoldingPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_molding_page_get_property;
  object_class->set_property = cav_molding_page_set_property;
  object_class->dispose = cav_molding_page_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  widget_class->map = cav_molding_page_map;
  widget_class->realize = cav_molding_page_realize;
  g_type_ensure (CAV_TYPE_COLUMN);
  g_type_ensure (CAV_TYPE_CUT_PALETTE);
  g_type_ensure (CAV_TYPE_PASS_STRIP);
  g_type_ensure (CAV_TYPE_SECTION_CANVAS);
  gtk_widget_class_install_action (widget_class, "molding.draw", "s", draw);
  gtk_widget_class_install_action (widget_class, "molding.leave", NULL, leave);
  gtk_widget_class_install_action (widget_class, "molding.toggle-column", NULL, toggle_column);
  add_keys (widget_class);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-molding-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CavMoldingPage, canvas);
  gtk_widget_class_bind_template_child (widget_class, CavMoldingPage, column_bin);
  gtk_widget_class_bind_template_child (widget_class, CavMoldingPage, content);
}

static void
cav_molding_page_init (CavMoldingPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

void
cav_molding_page_run_in_canvas (CavMoldingPage *self, const char *action)
{
  g_return_if_fail (CAV_IS_MOLDING_PAGE (self));
  gtk_widget_activate_action (self->canvas, action, NULL);
}
