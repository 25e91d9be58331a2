/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-starter-tile.h"

#include "app/cav-length-text.h"
#include "app/cav-section-picture.h"

#include <glib/gi18n.h>
#include <math.h>

struct _CavStarterTile
{
  GtkFlowBoxChild parent_instance;

  /* Children */
  GtkWidget *picture;
  GtkLabel *name;
  GtkLabel *words;
  GtkLabel *size;
  GtkLabel *cost;

  /* Owned */
  CavProject *project; /* nullable */

  const CavStarter *starter;
};

G_DEFINE_FINAL_TYPE (CavStarterTile, cav_starter_tile, GTK_TYPE_FLOW_BOX_CHILD)

/* All of it in one sentence, for who cannot see the picture. */
static void
update_name (CavStarterTile *self)
{
  g_autofree char *name = g_strdup_printf (
      "%s, %s, %s, %s", gtk_label_get_label (self->name), gtk_label_get_label (self->words),
      gtk_label_get_label (self->size), gtk_label_get_label (self->cost));

  gtk_accessible_update_property (GTK_ACCESSIBLE (self), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static GtkLabel *
add_label (GtkWidget *box, const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 20);
  gtk_widget_add_css_class (label, class);
  gtk_box_append (GTK_BOX (box), label);
  return GTK_LABEL (label);
}

static void
cav_starter_tile_dispose (GObject *object)
{
  g_clear_object (&CAV_STARTER_TILE (object)->project);
  G_OBJECT_CLASS (cav_starter_tile_parent_class)->dispose (object);
}

static void
cav_starter_tile_class_init (CavStarterTileClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = cav_starter_tile_dispose;
}

static void
cav_starter_tile_init (CavStarterTile *self)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 3);

  self->picture = cav_section_picture_new ();
  gtk_box_append (GTK_BOX (box), self->picture);
  self->name = add_label (box, "heading");
  self->words = add_label (box, "caption");
  self->size = add_label (box, "caption");
  self->cost = add_label (box, "caption-heading");
  gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (self), box);
  gtk_widget_add_css_class (GTK_WIDGET (self), "starter");
  gtk_widget_add_css_class (GTK_WIDGET (self), "card");
}

GtkWidget *
cav_starter_tile_new (const CavStarter *starter)
{
  CavStarterTile *self;

  g_return_val_if_fail (starter != NULL, NULL);

  self = g_object_new (CAV_TYPE_STARTER_TILE, NULL);
  self->starter = starter;
  gtk_label_set_label (self->name, cav_starter_get_name (starter));
  gtk_label_set_label (self->words, _ (starter->words));
  return GTK_WIDGET (self);
}

const CavStarter *
cav_starter_tile_get_starter (CavStarterTile *self)
{
  g_return_val_if_fail (CAV_IS_STARTER_TILE (self), NULL);
  return self->starter;
}

void
cav_starter_tile_set_project (CavStarterTile *self, CavProject *project)
{
  CavBlank blank;
  g_autofree char *width = NULL;
  g_autofree char *thickness = NULL;
  g_autofree char *size = NULL;

  g_return_if_fail (CAV_IS_STARTER_TILE (self));
  g_return_if_fail (CAV_IS_PROJECT (project));

  g_set_object (&self->project, project);
  cav_section_picture_set_project (CAV_SECTION_PICTURE (self->picture), project);
  blank = cav_project_get_blank (project);
  width = cav_length_text_new_bare (blank.width);
  thickness = cav_length_text_new (blank.thickness);
  size = g_strdup_printf ("%s × %s", width, thickness);
  gtk_label_set_label (self->size, size);
  gtk_label_set_label (self->cost, "…");
  update_name (self);
}

CavProject *
cav_starter_tile_get_project (CavStarterTile *self)
{
  g_return_val_if_fail (CAV_IS_STARTER_TILE (self), NULL);
  return self->project;
}

/* "2 setups, 19 minutes" */
static char *
create_cost (const CavPlan *plan)
{
  guint minutes = (guint)lround (plan->minutes);
  g_autofree char *setups
      = g_strdup_printf (ngettext ("%u setup", "%u setups", plan->setups->len), plan->setups->len);
  g_autofree char *time = g_strdup_printf (ngettext ("%u minute", "%u minutes", minutes), minutes);

  return g_strdup_printf ("%s, %s", setups, time);
}

void
cav_starter_tile_set_plan (CavStarterTile *self, const CavPlan *plan, const char *message)
{
  g_autofree char *cost = NULL;

  g_return_if_fail (CAV_IS_STARTER_TILE (self));

  if (plan == NULL || !plan->usable)
    cost = g_strdup (_ ("Not with your tools"));
  else if (plan->places->len > 0)
    cost = g_strdup (_ ("Your tools leave some of it to hand work"));
  else
    cost = create_cost (plan);
  gtk_label_set_label (self->cost, cost);
  gtk_widget_set_tooltip_text (GTK_WIDGET (self), plan == NULL ? message : NULL);
  update_name (self);
}
