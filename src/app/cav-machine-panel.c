/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-machine-panel.h"

#include <glib/gi18n.h>

#include "app/cav-length-entry.h"
#include "app/cav-number-entry.h"
#include "app/cav-shop-edit.h"
#include "storage/cav-shop-tables.h"

struct _CavMachinePanel
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;

  /* Template widgets */
  GtkWidget *content;
  GtkSwitch *saw;
  GtkSwitch *coving;
  GtkSwitch *router;
  CavFigureRow *collet;
  CavFigureRow *opening;
  GtkSwitch *light_finish;
  AdwPreferencesGroup *limits;
  AdwPreferencesGroup *rates;

  /* Borrowed from the groups, in the order of the tables */
  CavFigureRow *limit_rows[CAV_N_LIMITS];
  CavFigureRow *rate_rows[CAV_N_RATES];

  /* State */
  gboolean is_refreshing;
};

G_DEFINE_FINAL_TYPE (CavMachinePanel, cav_machine_panel, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

/* What people call the numbers of storage's tables, by their names there. */
static const struct
{
  const char *name;
  const char *label;
  const char *unit; /* "" for a length */
} WORDS[] = {
  { "step", N_ ("Step of fence and height"), "" },
  { "leftover", N_ ("Thickest left to hand work"), "" },
  { "push-gap", N_ ("Least gap from fence to blade where a piece comes off"), "" },
  { "cove-layer", N_ ("Most in one coving pass"), "" },
  { "light-layer", N_ ("Most of a last light pass"), "" },
  { "carrier", N_ ("Widest carrier strip, 0 for none"), "" },
  { "saw-setup", N_ ("Setting up the saw"), N_ ("min") },
  { "tilt-setup", N_ ("Setting up with a tilted blade"), N_ ("min") },
  { "cove-setup", N_ ("Setting up for coving"), N_ ("min") },
  { "blade-change", N_ ("Changing the blade"), N_ ("min") },
  { "router-setup", N_ ("Another cutter in the router"), N_ ("min") },
  { "router-return", N_ ("The router again, cutter still in"), N_ ("min") },
  { "turn", N_ ("Turning the rails in a setup"), N_ ("min") },
  { "move", N_ ("Moving fence or height"), N_ ("min") },
  { "metre", N_ ("Feeding a metre"), N_ ("min") },
  { "cove-metre", N_ ("Feeding a metre in coving"), N_ ("min") },
  { "rail", N_ ("Each rail of a pass"), N_ ("min") },
  { "scrape-metre", N_ ("Scraping a metre of a coved hollow"), N_ ("min") },
  { "hand-volume", N_ ("Taking off a cm³ by hand"), N_ ("min") },
  { "hand-surface", N_ ("A metre of a mm wide surface by hand"), N_ ("min") },
};

static double *
get_limit (CavShop *shop, guint i)
{
  return &G_STRUCT_MEMBER (double, &shop->limits, cav_shop_tables_limits[i].offset);
}

static double *
get_rate (CavShop *shop, guint i)
{
  return &G_STRUCT_MEMBER (double, &shop->rates, cav_shop_tables_rates[i].offset);
}

/* (transfer full) */
static CavShop *
copy_shop (CavMachinePanel *self)
{
  return cav_shop_copy (cav_project_get_shop (cav_document_get_project (self->document)));
}

static void
put_shop (CavMachinePanel *self, const CavShop *shop, const char *name)
{
  cav_shop_edit_replace (cav_document_get_project (self->document), shop, name);
}

static void
refresh (CavMachinePanel *self)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->document == NULL)
    return;
  shop = copy_shop (self);
  self->is_refreshing = TRUE;
  gtk_switch_set_active (self->saw, shop->has_saw);
  gtk_switch_set_active (self->coving, shop->coving);
  gtk_switch_set_active (self->router, shop->has_router);
  gtk_switch_set_active (self->light_finish, shop->light_finish);
  gtk_widget_set_sensitive (GTK_WIDGET (self->coving), shop->has_saw);
  gtk_widget_set_sensitive (GTK_WIDGET (self->collet), shop->has_router);
  gtk_widget_set_sensitive (GTK_WIDGET (self->opening), shop->has_router);
  cav_figure_row_set_value (self->collet, shop->collet);
  cav_figure_row_set_value (self->opening, shop->opening);
  for (guint i = 0; i < CAV_N_LIMITS; i++)
    cav_figure_row_set_value (self->limit_rows[i], *get_limit (shop, i));
  for (guint i = 0; i < CAV_N_RATES; i++)
    cav_figure_row_set_value (self->rate_rows[i], *get_rate (shop, i));
  self->is_refreshing = FALSE;
}

static void
project_changed_cb (CavMachinePanel *self, guint parts)
{
  if ((parts & CAV_PART_SHOP) != 0)
    refresh (self);
}

/* Editing */

static void
machine_cb (CavMachinePanel *self)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->is_refreshing || self->document == NULL)
    return;
  shop = copy_shop (self);
  shop->has_saw = gtk_switch_get_active (self->saw);
  shop->coving = gtk_switch_get_active (self->coving);
  shop->has_router = gtk_switch_get_active (self->router);
  put_shop (self, shop, C_ ("step", "change machines"));
}

static void
finish_cb (CavMachinePanel *self)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->is_refreshing || self->document == NULL)
    return;
  shop = copy_shop (self);
  shop->light_finish = gtk_switch_get_active (self->light_finish);
  put_shop (self, shop, C_ ("step", "change limits"));
}

static void
opening_cb (CavMachinePanel *self)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->document == NULL)
    return;
  shop = copy_shop (self);
  shop->collet = cav_figure_row_get_value (self->collet);
  shop->opening = cav_figure_row_get_value (self->opening);
  put_shop (self, shop, C_ ("step", "change router table"));
}

static void
limit_applied_cb (CavMachinePanel *self, double value, CavFigureRow *row)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->document == NULL)
    return;
  shop = copy_shop (self);
  for (guint i = 0; i < CAV_N_LIMITS; i++)
    if (self->limit_rows[i] == row)
      *get_limit (shop, i) = value;
  put_shop (self, shop, C_ ("step", "change limits"));
}

static void
rate_applied_cb (CavMachinePanel *self, double value, CavFigureRow *row)
{
  g_autoptr (CavShop) shop = NULL;

  if (self->document == NULL)
    return;
  shop = copy_shop (self);
  for (guint i = 0; i < CAV_N_RATES; i++)
    if (self->rate_rows[i] == row)
      *get_rate (shop, i) = value;
  put_shop (self, shop, C_ ("step", "change minutes"));
}

/* Class */

static CavFigureRow *
create_row (const CavShopNumber *number)
{
  CavFigureRow *row = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (WORDS) && row == NULL; i++)
    if (g_str_equal (WORDS[i].name, number->name))
      row = *WORDS[i].unit == '\0' ? CAV_FIGURE_ROW (cav_length_entry_new (_ (WORDS[i].label)))
                                   : CAV_FIGURE_ROW (cav_number_entry_new (_ (WORDS[i].label), 2,
                                                                           _ (WORDS[i].unit), 1));
  /* A number that nobody has a word for is shown all the same. */
  if (row == NULL)
    row = CAV_FIGURE_ROW (cav_number_entry_new (number->name, 2, "", 1));
  cav_figure_row_set_range (row, number->minimum, number->maximum);
  return row;
}

static void
make_rows (CavMachinePanel *self)
{
  for (guint i = 0; i < CAV_N_LIMITS; i++)
    {
      self->limit_rows[i] = create_row (&cav_shop_tables_limits[i]);
      g_signal_connect_object (self->limit_rows[i], "applied", G_CALLBACK (limit_applied_cb), self,
                               G_CONNECT_SWAPPED);
      adw_preferences_group_add (self->limits, GTK_WIDGET (self->limit_rows[i]));
    }
  for (guint i = 0; i < CAV_N_RATES; i++)
    {
      self->rate_rows[i] = create_row (&cav_shop_tables_rates[i]);
      g_signal_connect_object (self->rate_rows[i], "applied", G_CALLBACK (rate_applied_cb), self,
                               G_CONNECT_SWAPPED);
      adw_preferences_group_add (self->rates, GTK_WIDGET (self->rate_rows[i]));
    }
}

static void
cav_machine_panel_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavMachinePanel *self = CAV_MACHINE_PANEL (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_machine_panel_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavMachinePanel *self = CAV_MACHINE_PANEL (object);

  if (id != PROP_DOCUMENT)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  if (!g_set_object (&self->document, g_value_get_object (value)))
    return;
  g_signal_group_set_target (self->project_signals, self->document != NULL
                                                        ? cav_document_get_project (self->document)
                                                        : NULL);
  refresh (self);
}

static void
cav_machine_panel_dispose (GObject *object)
{
  CavMachinePanel *self = CAV_MACHINE_PANEL (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_machine_panel_parent_class)->dispose (object);
}

static void
cav_machine_panel_class_init (CavMachinePanelClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_machine_panel_get_property;
  object_class->set_property = cav_machine_panel_set_property;
  object_class->dispose = cav_machine_panel_dispose;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  g_type_ensure (CAV_TYPE_LENGTH_ENTRY);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-machine-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, content);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, saw);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, coving);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, router);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, collet);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, opening);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, light_finish);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, limits);
  gtk_widget_class_bind_template_child (widget_class, CavMachinePanel, rates);
  gtk_widget_class_bind_template_callback (widget_class, machine_cb);
  gtk_widget_class_bind_template_callback (widget_class, finish_cb);
  gtk_widget_class_bind_template_callback (widget_class, opening_cb);
}

static void
cav_machine_panel_init (CavMachinePanel *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_rows (self);
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
}
