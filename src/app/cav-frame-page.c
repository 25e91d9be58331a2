/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-page.h"

#include "app/cav-dry-fit-panel.h"
#include "app/cav-frame-canvas.h"
#include "app/cav-frame-detail.h"
#include "app/cav-frame-looks.h"
#include "app/cav-frame-panel.h"
#include "app/cav-frame-results.h"
#include "app/cav-letters.h"

/* Pixels beside the scale of humidity. */
#define MARK_ROOM 32
/* That the switch of the column takes of its row. */
#define SWITCH_ROOM 60

struct _CavFramePage
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  char *view;
  gboolean has_order;

  /* Template widgets */
  GtkWidget *content;
  CavFramePanel *panel;
  GtkWidget *order_button;
  GtkWidget *air;
};

G_DEFINE_FINAL_TYPE (CavFramePage, cav_frame_page, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  PROP_VIEW,
  PROP_ORDER,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* The views, as their buttons and keys have them. */
static const char *const VIEWS[] = { "wall", "through", "mitre" };

static void
set_view (CavFramePage *self, const char *view)
{
  for (guint i = 0; i < G_N_ELEMENTS (VIEWS); i++)
    if (g_strcmp0 (VIEWS[i], view) == 0 && g_strcmp0 (self->view, view) != 0)
      {
        g_free (self->view);
        self->view = g_strdup (view);
        /* Numbers are shown on the wall alone; elsewhere the button would lie over the slider. */
        gtk_widget_set_visible (self->order_button, i == 0);
        g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_VIEW]);
      }
}

static void
toggle_column (GtkWidget *widget, const char *name, GVariant *parameter)
{
  AdwFlap *flap = ADW_FLAP (CAV_FRAME_PAGE (widget)->content);

  adw_flap_set_reveal_flap (flap, !adw_flap_get_reveal_flap (flap));
}

/* What no row of the column puts right is a matter of the molding or its wood. */
static void
show_finding (GtkWidget *widget, const char *name, GVariant *parameter)
{
  CavFramePage *self = CAV_FRAME_PAGE (widget);

  adw_flap_set_reveal_flap (ADW_FLAP (self->content), TRUE);
  if (!cav_frame_panel_show_finding (self->panel, g_variant_get_string (parameter, NULL)))
    gtk_widget_activate_action (widget, "win.show-page", "s", "molding");
}

static void
cav_frame_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavFramePage *self = CAV_FRAME_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else if (id == PROP_VIEW)
    g_value_set_string (value, self->view);
  else if (id == PROP_ORDER)
    g_value_set_boolean (value, self->has_order);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavFramePage *self = CAV_FRAME_PAGE (object);

  if (id == PROP_DOCUMENT)
    g_set_object (&self->document, g_value_get_object (value));
  else if (id == PROP_VIEW)
    set_view (self, g_value_get_string (value));
  else if (id == PROP_ORDER)
    self->has_order = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_frame_page_dispose (GObject *object)
{
  CavFramePage *self = CAV_FRAME_PAGE (object);

  g_clear_pointer (&self->content, gtk_widget_unparent);
  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_frame_page_parent_class)->dispose (object);
}

static void
cav_frame_page_finalize (GObject *object)
{
  g_free (CAV_FRAME_PAGE (object)->view);
  G_OBJECT_CLASS (cav_frame_page_parent_class)->finalize (object);
}

static void
cav_frame_page_class_init (CavFramePageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_frame_page_get_property;
  object_class->set_property = cav_frame_page_set_property;
  object_class->dispose = cav_frame_page_dispose;
  object_class->finalize = cav_frame_page_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_VIEW]
      = g_param_spec_string ("view", NULL, NULL, "wall",
                             G_PARAM_READWRITE | G_PARAM_EXPLICIT_NOTIFY | G_PARAM_STATIC_STRINGS);
  properties[PROP_ORDER] = g_param_spec_boolean ("order", NULL, NULL, FALSE,
                                                 G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_DRY_FIT_PANEL);
  g_type_ensure (CAV_TYPE_FRAME_CANVAS);
  g_type_ensure (CAV_TYPE_FRAME_DETAIL);
  g_type_ensure (CAV_TYPE_FRAME_LOOKS);
  g_type_ensure (CAV_TYPE_FRAME_PANEL);
  g_type_ensure (CAV_TYPE_FRAME_RESULTS);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_install_action (widget_class, "frame.toggle-column", NULL, toggle_column);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_F9, 0, "frame.toggle-column", NULL);
  gtk_widget_class_install_action (widget_class, "frame.show-finding", "s", show_finding);
  gtk_widget_class_install_property_action (widget_class, "frame.view", "view");
  gtk_widget_class_install_property_action (widget_class, "frame.order", "order");
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_4, GDK_CONTROL_MASK, "frame.order",
                                       NULL);
  for (guint i = 0; i < G_N_ELEMENTS (VIEWS); i++)
    gtk_widget_class_add_binding_action (widget_class, GDK_KEY_1 + i, GDK_CONTROL_MASK,
                                         "frame.view", "s", VIEWS[i]);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-frame-page.ui");
  gtk_widget_class_bind_template_child (widget_class, CavFramePage, content);
  gtk_widget_class_bind_template_child (widget_class, CavFramePage, air);
  gtk_widget_class_bind_template_child (widget_class, CavFramePage, panel);
  gtk_widget_class_bind_template_child (widget_class, CavFramePage, order_button);
}

/* Half of a word below the end of the scale reaches beyond it. */
static void
make_room_for_marks (CavFramePage *self)
{
  int room = (int)(MARK_ROOM * cav_letters_get_size (GTK_WIDGET (self)));

  gtk_widget_set_margin_start (self->air, room);
  gtk_widget_set_margin_end (self->air, SWITCH_ROOM + room - MARK_ROOM);
}

static void
cav_frame_page_init (CavFramePage *self)
{
  self->view = g_strdup (VIEWS[0]);
  gtk_widget_init_template (GTK_WIDGET (self));
  cav_letters_watch (G_CALLBACK (make_room_for_marks), GTK_WIDGET (self));
  make_room_for_marks (self);
}
