/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-pass-tile.h"

#include "app/cav-pass-picture.h"
#include "app/cav-strip-words.h"

struct _CavPassTile
{
  GtkWidget parent_instance;

  /* Owned */
  CavPlan *plan; /* nullable */

  /* Template widgets */
  GtkToggleButton *button;
  GtkLabel *figures_label;
  GtkLabel *lie_label;
  GtkLabel *number_label;
  CavPassPicture *picture;

  /* State */
  guint setup;
  guint pass;
  guint number;
  gboolean chosen;
};

G_DEFINE_FINAL_TYPE (CavPassTile, cav_pass_tile, GTK_TYPE_WIDGET)

enum
{
  CHOSEN,
  N_SIGNALS,
};

static guint signals[N_SIGNALS];

/* Whether it stays down is for the selection to say. */
static void
clicked_cb (CavPassTile *self)
{
  gtk_toggle_button_set_active (self->button, self->chosen);
  g_signal_emit (self, signals[CHOSEN], 0);
}

static gboolean
cav_pass_tile_grab_focus (GtkWidget *widget)
{
  return gtk_widget_grab_focus (GTK_WIDGET (CAV_PASS_TILE (widget)->button));
}

static void
cav_pass_tile_dispose (GObject *object)
{
  CavPassTile *self = CAV_PASS_TILE (object);

  if (self->button != NULL)
    gtk_widget_unparent (GTK_WIDGET (self->button));
  self->button = NULL;
  g_clear_pointer (&self->plan, cav_plan_unref);
  G_OBJECT_CLASS (cav_pass_tile_parent_class)->dispose (object);
}

static void
cav_pass_tile_class_init (CavPassTileClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_pass_tile_dispose;
  widget_class->grab_focus = cav_pass_tile_grab_focus;
  signals[CHOSEN] = g_signal_new ("chosen", CAV_TYPE_PASS_TILE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                  NULL, G_TYPE_NONE, 0);

  g_type_ensure (CAV_TYPE_PASS_PICTURE);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-pass-tile.ui");
  gtk_widget_class_bind_template_child (widget_class, CavPassTile, button);
  gtk_widget_class_bind_template_child (widget_class, CavPassTile, figures_label);
  gtk_widget_class_bind_template_child (widget_class, CavPassTile, lie_label);
  gtk_widget_class_bind_template_child (widget_class, CavPassTile, number_label);
  gtk_widget_class_bind_template_child (widget_class, CavPassTile, picture);
  gtk_widget_class_bind_template_callback (widget_class, clicked_cb);
}

static void
cav_pass_tile_init (CavPassTile *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
cav_pass_tile_new (void)
{
  return g_object_new (CAV_TYPE_PASS_TILE, NULL);
}

void
cav_pass_tile_set_pass (CavPassTile *self, CavPlan *plan, guint setup, guint pass, guint number)
{
  g_return_if_fail (CAV_IS_PASS_TILE (self));
  g_return_if_fail (plan != NULL && setup < plan->setups->len);
  cav_plan_ref (plan);
  g_clear_pointer (&self->plan, cav_plan_unref);
  self->plan = plan;
  self->setup = setup;
  self->pass = pass;
  self->number = number;
  cav_pass_picture_set_pass (self->picture, plan, setup, pass);
  cav_pass_tile_update_words (self);
}

guint
cav_pass_tile_get_number (CavPassTile *self)
{
  g_return_val_if_fail (CAV_IS_PASS_TILE (self), 0);
  return self->number;
}

void
cav_pass_tile_set_chosen (CavPassTile *self, gboolean chosen)
{
  g_return_if_fail (CAV_IS_PASS_TILE (self));
  self->chosen = chosen;
  gtk_toggle_button_set_active (self->button, chosen);
}

void
cav_pass_tile_update_words (CavPassTile *self)
{
  const CavSetup *setup;
  const CavPass *pass;
  g_autofree char *number = NULL;
  g_autofree char *lie = NULL;
  g_autofree char *figures = NULL;
  g_autofree char *name = NULL;

  g_return_if_fail (CAV_IS_PASS_TILE (self));
  if (self->plan == NULL)
    return;
  setup = g_ptr_array_index (self->plan->setups, self->setup);
  pass = g_ptr_array_index (setup->passes, self->pass);
  number = g_strdup_printf ("%u", self->number + 1);
  lie = cav_strip_words_new_lie (pass);
  figures = cav_strip_words_new_figures (self->plan, setup, pass);
  name = cav_strip_words_new_name (self->plan, self->setup, self->pass);
  gtk_label_set_label (self->number_label, number);
  gtk_label_set_label (self->lie_label, lie);
  gtk_label_set_label (self->figures_label, figures);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->button), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  name, -1);
}
