/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-shop-window.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/cav-blade-form.h"
#include "app/cav-cutter-form.h"
#include "app/cav-file-choice.h"
#include "app/cav-machine-panel.h"
#include "app/cav-own-shop.h"
#include "app/cav-settings.h"
#include "app/cav-shop-edit.h"
#include "app/cav-toast.h"
#include "app/cav-tool-list.h"
#include "storage/cav-storage.h"

struct _CavShopWindow
{
  AdwWindow parent_instance;

  /* Owned */
  CavDocument *document;

  /* Template widgets */
  GtkStack *stack;
  GtkInfoBar *trouble;
  GtkLabel *message;
  AdwToastOverlay *toasts;
  CavToolList *tools;
  CavMachinePanel *machines;
  GtkLabel *cost;
  GtkWidget *undo;
  AdwWindowTitle *form_title;
  GtkButton *commit;
  GtkStack *forms;
  CavCutterForm *cutter_form;
  CavBladeForm *blade_form;

  /* State */
  double minutes_before; /* of the thorough plan before the shop was edited; below 0: not known */
};

G_DEFINE_FINAL_TYPE (CavShopWindow, cav_shop_window, ADW_TYPE_WINDOW)

static CavProject *
get_project (CavShopWindow *self)
{
  return cav_document_get_project (self->document);
}

/* What happened */

static void
set_message (CavShopWindow *self, const char *message)
{
  gtk_label_set_text (self->message, message != NULL ? message : "");
  gtk_info_bar_set_revealed (self->trouble, message != NULL);
}

static void
trouble_closed_cb (CavShopWindow *self)
{
  set_message (self, NULL);
}

static void
tell (CavShopWindow *self, const char *text, gboolean can_undo)
{
  AdwToast *toast = cav_toast_new (text);

  if (can_undo)
    {
      adw_toast_set_button_label (toast, _ ("Undo"));
      adw_toast_set_action_name (toast, "shop.undo");
    }
  adw_toast_overlay_add_toast (self->toasts, toast);
}

/* What the plan comes to */

/* A quick plan may take longer at the machine than a thorough one with fewer tools: only thorough
 * ones are compared. */
static gboolean
has_comparison (CavShopWindow *self)
{
  return self->minutes_before >= 0
         && cav_plan_runner_is_thorough (cav_document_get_runner (self->document));
}

static char *
describe_plan (CavShopWindow *self, const CavPlan *plan)
{
  double more = round (plan->minutes) - round (self->minutes_before);
  const guint n_passes = cav_plan_get_pass_count (plan);
  const guint n_setups = plan->setups->len;
  g_autofree char *passes = g_strdup_printf (ngettext ("%u pass", "%u passes", n_passes), n_passes);
  g_autofree char *setups
      = g_strdup_printf (ngettext ("%u setup", "%u setups", n_setups), n_setups);
  g_autofree char *text
      = g_strdup_printf (/* Translators: “12 passes” in “5 setups”, minutes. */
                         _ ("This molding: %s in %s, %.0f minutes"), passes, setups, plan->minutes);

  if (plan->leftover_area > 0.05 && plan->leftover_thickness > 0.05)
    {
      g_autofree char *without = g_steal_pointer (&text);

      text = g_strdup_printf (_ ("%s, some of it by hand"), without);
    }
  if (!has_comparison (self) || fabs (more) < 0.5)
    return g_strdup_printf ("%s.", text);
  /* Translators: the line before, minutes more or fewer than before the last edit */
  return g_strdup_printf (more > 0 ? _ ("%s; %.0f more than before.")
                                   : _ ("%s; %.0f fewer than before."),
                          text, fabs (more));
}

static void
refresh_cost (CavShopWindow *self)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  CavPlan *plan = cav_plan_runner_get_plan (runner);
  g_autofree char *text = NULL;

  switch (cav_plan_runner_get_state (runner))
    {
    case CAV_PLAN_STATE_CURRENT:
      text = plan->usable ? describe_plan (self, plan)
                          : g_strdup (_ ("This molding cannot be milled with this shop."));
      break;
    case CAV_PLAN_STATE_FAILED:
      text = g_strdup (cav_plan_runner_get_message (runner));
      break;
    case CAV_PLAN_STATE_STALE:
      text = g_strdup (_ ("Planning…"));
      break;
    }
  gtk_label_set_text (self->cost, text != NULL ? text : "");
}

/* Before an edit, so that its cost can be told. Edits that follow one another before there is a
 * thorough plan are told together. */
static void
remember_cost (CavShopWindow *self)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);

  if (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT
      && cav_plan_runner_is_thorough (runner))
    self->minutes_before = cav_plan_runner_get_plan (runner)->minutes;
}

/* What another edit costs is no matter of the shop. */
static void
project_changed_cb (CavShopWindow *self, guint parts)
{
  if ((parts & ~(guint)CAV_PART_SHOP) != 0)
    self->minutes_before = -1;
}

/* The step that would be undone may also be one of the drawing: its name says so. */
static void
history_cb (CavShopWindow *self)
{
  const char *step = cav_project_get_undo_name (get_project (self));
  g_autofree char *tip
      = step != NULL ? g_strdup_printf (_ ("Undo %s"), step) : g_strdup (_ ("Undo"));

  gtk_widget_set_tooltip_text (self->undo, tip);
  gtk_widget_action_set_enabled (GTK_WIDGET (self), "shop.undo", step != NULL);
}

/* Tools */

static void
show_form (CavShopWindow *self, const char *form, const char *title, gboolean is_new)
{
  set_message (self, NULL);
  adw_window_title_set_title (self->form_title, title);
  gtk_button_set_label (self->commit, is_new ? _ ("Add") : _ ("Done"));
  gtk_stack_set_visible_child_name (self->forms, form);
  gtk_stack_set_visible_child_name (self->stack, "form");
}

static void
add_cutter_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);

  cav_cutter_form_open (self->cutter_form, get_project (self), NULL);
  show_form (self, "cutter", _ ("Add cutter"), TRUE);
}

static void
add_blade_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);

  cav_blade_form_open (self->blade_form, get_project (self), NULL);
  show_form (self, "blade", _ ("Add blade"), TRUE);
}

static void
edit_tool_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  const char *id = g_variant_get_string (parameter, NULL);
  const CavShop *shop = cav_project_get_shop (get_project (self));
  const CavCutter *cutter = cav_shop_find_cutter (shop, id);
  const CavBlade *blade = cav_shop_find_blade (shop, id);

  if (cutter != NULL)
    {
      cav_cutter_form_open (self->cutter_form, get_project (self), id);
      show_form (self, "cutter", cav_shop_translate_name (cutter->name), FALSE);
    }
  else if (blade != NULL)
    {
      cav_blade_form_open (self->blade_form, get_project (self), id);
      show_form (self, "blade", cav_shop_translate_name (blade->name), FALSE);
    }
}

static void
cancel_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  gtk_stack_set_visible_child_name (CAV_SHOP_WINDOW (widget)->stack, "shop");
}

static void
commit_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  gboolean is_cutter = g_str_equal (gtk_stack_get_visible_child_name (self->forms), "cutter");

  remember_cost (self);
  if (is_cutter ? cav_cutter_form_commit (self->cutter_form)
                : cav_blade_form_commit (self->blade_form))
    gtk_stack_set_visible_child_name (self->stack, "shop");
}

static char *
dup_tool_name (CavShopWindow *self, const char *id)
{
  const CavShop *shop = cav_project_get_shop (get_project (self));
  const CavCutter *cutter = cav_shop_find_cutter (shop, id);
  const CavBlade *blade = cav_shop_find_blade (shop, id);

  return g_strdup (cutter != NULL  ? cav_shop_translate_name (cutter->name)
                   : blade != NULL ? cav_shop_translate_name (blade->name)
                                   : id);
}

static void
remove_tool_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  const char *id = g_variant_get_string (parameter, NULL);
  g_autofree char *name = dup_tool_name (self, id);
  g_autofree char *text = g_strdup_printf (_ ("%s removed"), name);

  remember_cost (self);
  if (cav_shop_edit_remove (get_project (self), id))
    tell (self, text, TRUE);
}

static void
duplicate_tool_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  g_autofree char *id = NULL;

  remember_cost (self);
  id = cav_shop_edit_duplicate (get_project (self), g_variant_get_string (parameter, NULL));
  if (id != NULL)
    gtk_widget_activate_action (widget, "shop.edit-tool", "s", id);
}

static void
undo_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);

  remember_cost (self);
  cav_project_undo (get_project (self));
}

/* My shop and shop files */

static void
use_mine_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavShop) shop = cav_own_shop_load (&error);

  set_message (self, error != NULL ? error->message : NULL);
  if (shop == NULL)
    return;
  remember_cost (self);
  cav_shop_edit_replace (get_project (self), shop, C_ ("step", "use my shop"));
  tell (self,
        cav_own_shop_exists () ? _ ("This project is planned for your shop now")
                               : _ ("You have kept no shop yet: this is the one to begin with"),
        TRUE);
}

static void
keep_as_mine_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (cav_own_shop_save (cav_project_get_shop (get_project (self)), &error))
    tell (self, _ ("Kept as your shop"), FALSE);
  set_message (self, error != NULL ? error->message : NULL);
}

gboolean
cav_shop_window_import (CavShopWindow *self, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CavShop) shop = NULL;

  g_return_val_if_fail (CAV_IS_SHOP_WINDOW (self), FALSE);
  g_return_val_if_fail (G_IS_FILE (file), FALSE);

  if (g_file_peek_path (file) == NULL)
    {
      set_message (self, _ ("This place is not on this computer: copy the file here first."));
      return FALSE;
    }
  shop = cav_storage_load_shop (g_file_peek_path (file), &error);
  set_message (self, error != NULL ? error->message : NULL);
  if (shop == NULL)
    return FALSE;
  remember_cost (self);
  cav_shop_edit_replace (get_project (self), shop, C_ ("step", "import shop"));
  tell (self, _ ("Shop imported"), TRUE);
  return TRUE;
}

gboolean
cav_shop_window_export (CavShopWindow *self, GFile *file)
{
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (CAV_IS_SHOP_WINDOW (self), FALSE);
  g_return_val_if_fail (G_IS_FILE (file), FALSE);

  if (g_file_peek_path (file) == NULL)
    {
      set_message (self, _ ("This place is not on this computer: choose a folder that is."));
      return FALSE;
    }
  if (cav_storage_save_shop (cav_project_get_shop (get_project (self)), g_file_peek_path (file),
                             &error))
    tell (self, _ ("Shop exported"), FALSE);
  set_message (self, error != NULL ? error->message : NULL);
  return error == NULL;
}

const char *
cav_shop_window_get_message (CavShopWindow *self)
{
  g_return_val_if_fail (CAV_IS_SHOP_WINDOW (self), NULL);

  return gtk_info_bar_get_revealed (self->trouble) ? gtk_label_get_text (self->message) : NULL;
}

/* The next file is looked for beside this one. */
static void
remember_file (GFile *file)
{
  g_autofree char *uri = g_file_get_uri (file);

  g_settings_set_string (cav_settings_get (), CAV_SETTING_RECENT_SHOP, uri);
}

static void
chosen_to_import_cb (GFile *file, gpointer user_data)
{
  if (cav_shop_window_import (CAV_SHOP_WINDOW (user_data), file))
    remember_file (file);
}

static void
chosen_to_export_cb (GFile *file, gpointer user_data)
{
  if (cav_shop_window_export (CAV_SHOP_WINDOW (user_data), file))
    remember_file (file);
}

static void
import_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_choose_file_to_open (GTK_WINDOW (widget), _ ("Import a shop"), CAV_FILE_SHOP,
                           chosen_to_import_cb, widget);
}

static void
export_cb (GtkWidget *widget, const char *action, GVariant *parameter)
{
  cav_choose_file_to_save (GTK_WINDOW (widget), _ ("Export this shop"), CAV_FILE_SHOP,
                           /* Translators: the name of a file, proposed without its ending. */
                           C_ ("file", "shop"), chosen_to_export_cb, widget);
}

/* Class */

/* Escape leaves the form first, then the window. */
static gboolean
escape_cb (GtkWidget *widget, GVariant *arguments, gpointer user_data)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (widget);

  if (g_str_equal (gtk_stack_get_visible_child_name (self->stack), "form"))
    gtk_stack_set_visible_child_name (self->stack, "shop");
  else
    gtk_window_close (GTK_WINDOW (self));
  return TRUE;
}

static void
cav_shop_window_dispose (GObject *object)
{
  CavShopWindow *self = CAV_SHOP_WINDOW (object);

  g_clear_object (&self->document);
  G_OBJECT_CLASS (cav_shop_window_parent_class)->dispose (object);
}

static void
install_actions (GtkWidgetClass *widget_class)
{
  gtk_widget_class_install_action (widget_class, "shop.add-cutter", NULL, add_cutter_cb);
  gtk_widget_class_install_action (widget_class, "shop.add-blade", NULL, add_blade_cb);
  gtk_widget_class_install_action (widget_class, "shop.edit-tool", "s", edit_tool_cb);
  gtk_widget_class_install_action (widget_class, "shop.duplicate-tool", "s", duplicate_tool_cb);
  gtk_widget_class_install_action (widget_class, "shop.remove-tool", "s", remove_tool_cb);
  gtk_widget_class_install_action (widget_class, "shop.cancel", NULL, cancel_cb);
  gtk_widget_class_install_action (widget_class, "shop.commit", NULL, commit_cb);
  gtk_widget_class_install_action (widget_class, "shop.undo", NULL, undo_cb);
  gtk_widget_class_install_action (widget_class, "shop.use-mine", NULL, use_mine_cb);
  gtk_widget_class_install_action (widget_class, "shop.keep-as-mine", NULL, keep_as_mine_cb);
  gtk_widget_class_install_action (widget_class, "shop.import", NULL, import_cb);
  gtk_widget_class_install_action (widget_class, "shop.export", NULL, export_cb);
  gtk_widget_class_add_binding (widget_class, GDK_KEY_Escape, 0, escape_cb, NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK, "shop.undo",
                                       NULL);
  /* The keys of the program, which GTK minds in its main windows alone. */
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_q, GDK_CONTROL_MASK, "app.quit", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close",
                                       NULL);
}

static void
cav_shop_window_class_init (CavShopWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = cav_shop_window_dispose;

  g_type_ensure (CAV_TYPE_TOOL_LIST);
  g_type_ensure (CAV_TYPE_MACHINE_PANEL);
  g_type_ensure (CAV_TYPE_CUTTER_FORM);
  g_type_ensure (CAV_TYPE_BLADE_FORM);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/cavetto/Cavetto/cav-shop-window.ui");
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, stack);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, trouble);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, message);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, toasts);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, tools);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, machines);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, cost);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, undo);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, form_title);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, commit);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, forms);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, cutter_form);
  gtk_widget_class_bind_template_child (widget_class, CavShopWindow, blade_form);
  gtk_widget_class_bind_template_callback (widget_class, trouble_closed_cb);
  install_actions (widget_class);
}

static void
cav_shop_window_init (CavShopWindow *self)
{
  self->minutes_before = -1;
  gtk_widget_init_template (GTK_WIDGET (self));
}

CavShopWindow *
cav_shop_window_new (CavDocument *document, GtkWindow *parent)
{
  CavShopWindow *self;
  CavPlanRunner *runner;

  g_return_val_if_fail (CAV_IS_DOCUMENT (document), NULL);
  g_return_val_if_fail (parent == NULL || GTK_IS_WINDOW (parent), NULL);

  self = g_object_new (CAV_TYPE_SHOP_WINDOW, "application",
                       parent != NULL ? gtk_window_get_application (parent) : NULL, "transient-for",
                       parent, "destroy-with-parent", TRUE, NULL);
  self->document = g_object_ref (document);
  g_object_set (self->tools, "document", document, NULL);
  g_object_set (self->machines, "document", document, NULL);
  runner = cav_document_get_runner (document);
  g_signal_connect_object (runner, "planned", G_CALLBACK (refresh_cost), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (runner, "notify::state", G_CALLBACK (refresh_cost), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (get_project (self), "changed", G_CALLBACK (project_changed_cb), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (get_project (self), "history", G_CALLBACK (history_cb), self,
                           G_CONNECT_SWAPPED);
  refresh_cost (self);
  history_cb (self);
  return self;
}

void
cav_shop_window_show (CavDocument *document, GtkWindow *parent)
{
  GListModel *windows = gtk_window_get_toplevels ();

  g_return_if_fail (CAV_IS_DOCUMENT (document));
  g_return_if_fail (parent == NULL || GTK_IS_WINDOW (parent));

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) window = g_list_model_get_item (windows, i);

      if (CAV_IS_SHOP_WINDOW (window) && CAV_SHOP_WINDOW (window)->document == document)
        {
          gtk_window_present (window);
          return;
        }
    }
  gtk_window_present (GTK_WINDOW (cav_shop_window_new (document, parent)));
}
