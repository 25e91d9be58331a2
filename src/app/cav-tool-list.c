/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-tool-list.h"

#include <glib/gi18n.h>

#include "app/cav-length-text.h"
#include "app/cav-settings.h"
#include "app/cav-tool-picture.h"

/* Pixels for a millimetre of any tool in the list. */
#define SCALE 1.25
/* Room of a picture, so that the names stand under one another: fits a cutter of 55 mm. */
#define PICTURE_WIDTH 72

struct _CavToolList
{
  GtkWidget parent_instance;

  /* Owned */
  CavDocument *document;
  GSignalGroup *project_signals;
  GHashTable *rows; /* tool's id to its row, borrowed from the groups */

  /* Template widgets */
  GtkWidget *content;
  AdwPreferencesGroup *cutters;
  AdwPreferencesGroup *blades;
};

G_DEFINE_FINAL_TYPE (CavToolList, cav_tool_list, GTK_TYPE_WIDGET)

enum
{
  PROP_DOCUMENT = 1,
  N_PROPERTIES,
};

static GParamSpec *properties[N_PROPERTIES];

static void
add_button (
    AdwActionRow *row, const char *icon, const char *label, const char *action, const char *id)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);

  gtk_widget_set_valign (button, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label,
                                  -1);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  adw_action_row_add_suffix (row, button);
}

/* reason: why it cannot be used; NULL where it can. */
static GtkWidget *
create_row (CavToolPicture *picture,
            const char *id,
            const char *name,
            const char *sizes,
            const char *reason)
{
  g_autofree char *subtitle
      = reason != NULL ? g_strdup_printf ("%s\n%s", sizes, reason) : g_strdup (sizes);
  GtkWidget *row = g_object_new (ADW_TYPE_ACTION_ROW, "use-markup", FALSE, "title", name,
                                 "subtitle", subtitle, "activatable", TRUE, NULL);
  g_autofree char *duplicate = g_strdup_printf (_ ("Duplicate %s"), name);
  g_autofree char *remove = g_strdup_printf (_ ("Remove %s"), name);

  cav_tool_picture_set_scale (picture, SCALE);
  gtk_widget_set_size_request (GTK_WIDGET (picture), PICTURE_WIDTH, -1);
  gtk_widget_add_css_class (row, "tool");
  adw_action_row_add_prefix (ADW_ACTION_ROW (row), GTK_WIDGET (picture));
  if (reason != NULL)
    {
      GtkWidget *icon = gtk_image_new_from_icon_name ("dialog-warning-symbolic");

      gtk_widget_add_css_class (icon, "warning");
      adw_action_row_add_suffix (ADW_ACTION_ROW (row), icon);
    }
  add_button (ADW_ACTION_ROW (row), "edit-copy-symbolic", duplicate, "shop.duplicate-tool", id);
  add_button (ADW_ACTION_ROW (row), "user-trash-symbolic", remove, "shop.remove-tool", id);
  gtk_actionable_set_action_target (GTK_ACTIONABLE (row), "s", id);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (row), "shop.edit-tool");
  return row;
}

static char *
describe_cutter (const CavCutter *cutter)
{
  g_autofree char *diameter = cav_length_text_new (2 * cav_cutter_get_greatest_radius (cutter));
  g_autofree char *length = cav_length_text_new (cutter->length);
  const char *family
      = g_dpgettext2 (NULL, "cutter", cav_cutter_family_get_info (cutter->family)->label);

  /* Translators: family of a cutter, its greatest diameter, its cutting length */
  return g_strdup_printf (_ ("%s, %s wide, %s long"), family, diameter, length);
}

static char *
describe_blade (const CavBlade *blade)
{
  g_autofree char *diameter = cav_length_text_new (blade->diameter);
  g_autofree char *kerf = cav_length_text_new (blade->kerf);

  return g_strdup_printf (_ ("Diameter %s, kerf %s"), diameter, kerf);
}

static void
add_row (CavToolList *self, AdwPreferencesGroup *group, const char *id, GtkWidget *row)
{
  adw_preferences_group_add (group, row);
  g_hash_table_insert (self->rows, g_strdup (id), row);
}

static void
add_cutter (CavToolList *self, const CavShop *shop, const CavCutter *cutter)
{
  CavToolPicture *picture = cav_tool_picture_new ();
  g_autofree char *sizes = describe_cutter (cutter);
  g_autofree char *reason = cav_shop_explain_cutter (shop, cutter);

  cav_tool_picture_set_cutter (picture, cutter);
  add_row (self, self->cutters, cutter->id,
           create_row (picture, cutter->id, cav_shop_translate_name (cutter->name), sizes, reason));
}

static void
add_blade (CavToolList *self, const CavShop *shop, const CavBlade *blade)
{
  CavToolPicture *picture = cav_tool_picture_new ();
  g_autofree char *sizes = describe_blade (blade);
  g_autofree char *reason = cav_shop_explain_blade (shop, blade);

  cav_tool_picture_set_blade (picture, blade);
  add_row (self, self->blades, blade->id,
           create_row (picture, blade->id, cav_shop_translate_name (blade->name), sizes, reason));
}

static void
remove_rows (CavToolList *self)
{
  GHashTableIter iter;
  gpointer row;

  g_hash_table_iter_init (&iter, self->rows);
  while (g_hash_table_iter_next (&iter, NULL, &row))
    {
      GtkWidget *group = gtk_widget_get_ancestor (row, ADW_TYPE_PREFERENCES_GROUP);

      adw_preferences_group_remove (ADW_PREFERENCES_GROUP (group), row);
    }
  g_hash_table_remove_all (self->rows);
}

static void
refresh (CavToolList *self)
{
  const CavShop *shop;

  remove_rows (self);
  if (self->document == NULL)
    return;
  shop = cav_project_get_shop (cav_document_get_project (self->document));
  for (guint i = 0; i < shop->cutters->len; i++)
    add_cutter (self, shop, g_ptr_array_index (shop->cutters, i));
  for (guint i = 0; i < shop->blades->len; i++)
    add_blade (self, shop, g_ptr_array_index (shop->blades, i));
  adw_preferences_group_set_description (
      self->cutters, shop->cutters->len > 0 ? NULL : _ ("No cutters: the router table is idle."));
  adw_preferences_group_set_description (
      self->blades, shop->blades->len > 0 ? NULL : _ ("No blades: the table saw is idle."));
}

static void
project_changed_cb (CavToolList *self, guint parts)
{
  if ((parts & CAV_PART_SHOP) != 0)
    refresh (self);
}

/* Class */

static void
cav_tool_list_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  CavToolList *self = CAV_TOOL_LIST (object);

  if (id == PROP_DOCUMENT)
    g_value_set_object (value, self->document);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
cav_tool_list_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  CavToolList *self = CAV_TOOL_LIST (object);

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
cav_tool_list_dispose (GObject *object)
{
  CavToolList *self = CAV_TOOL_LIST (object);

  g_clear_object (&self->project_signals);
  g_clear_object (&self->document);
  g_clear_pointer (&self->content, gtk_widget_unparent);
  G_OBJECT_CLASS (cav_tool_list_parent_class)->dispose (object);
}

static void
cav_tool_list_finalize (GObject *object)
{
  g_hash_table_unref (CAV_TOOL_LIST (object)->rows);
  G_OBJECT_CLASS (cav_tool_list_parent_class)->finalize (object);
}

static void
cav_tool_list_class_init (CavToolListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = cav_tool_list_get_property;
  object_class->set_property = cav_tool_list_set_property;
  object_class->dispose = cav_tool_list_dispose;
  object_class->finalize = cav_tool_list_finalize;

  properties[PROP_DOCUMENT] = g_param_spec_object ("document", NULL, NULL, CAV_TYPE_DOCUMENT,
                                                   G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPERTIES, properties);

  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-tool-list.ui");
  gtk_widget_class_bind_template_child (widget_class, CavToolList, content);
  gtk_widget_class_bind_template_child (widget_class, CavToolList, cutters);
  gtk_widget_class_bind_template_child (widget_class, CavToolList, blades);
}

static void
cav_tool_list_init (CavToolList *self)
{
  self->rows = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gtk_widget_init_template (GTK_WIDGET (self));
  self->project_signals = g_signal_group_new (CAV_TYPE_PROJECT);
  g_signal_group_connect_object (self->project_signals, "changed", G_CALLBACK (project_changed_cb),
                                 self, G_CONNECT_SWAPPED);
  g_signal_connect_object (cav_settings_get (), "changed::" CAV_SETTING_UNIT, G_CALLBACK (refresh),
                           self, G_CONNECT_SWAPPED);
}

GtkWidget *
cav_tool_list_get_row (CavToolList *self, const char *id)
{
  g_return_val_if_fail (CAV_IS_TOOL_LIST (self) && id != NULL, NULL);

  return g_hash_table_lookup (self->rows, id);
}
