/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-shop-window.h"

#include <glib/gstdio.h>
#include <math.h>

#include "app/cav-blade-form.h"
#include "app/cav-cutter-form.h"
#include "app/cav-figure-row.h"
#include "app/cav-machine-panel.h"
#include "app/cav-own-shop.h"
#include "app/cav-settings.h"
#include "app/cav-shop-edit.h"
#include "app/cav-tool-list.h"
#include "app/cav-window.h"
#include "storage/cav-storage.h"
#include "ui-test.h"

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavShopWindow *window;
  CavToolList *tools;
  CavCutterForm *cutter_form;
  CavBladeForm *blade_form;
  GtkWidget *machines;
} Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  GtkWidget *root;

  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  self->document = ui_test_open_example ("cove-and-bead.cavetto");
  self->project = cav_document_get_project (self->document);
  self->window = cav_shop_window_new (self->document, NULL);
  root = GTK_WIDGET (self->window);
  self->tools = CAV_TOOL_LIST (ui_test_find (root, CAV_TYPE_TOOL_LIST));
  self->cutter_form = CAV_CUTTER_FORM (ui_test_find (root, CAV_TYPE_CUTTER_FORM));
  self->blade_form = CAV_BLADE_FORM (ui_test_find (root, CAV_TYPE_BLADE_FORM));
  self->machines = ui_test_find (root, CAV_TYPE_MACHINE_PANEL);
  gtk_window_present (GTK_WINDOW (self->window));
  gtk_test_widget_wait_for_draw (root);
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  g_object_ref (self->window);
  gtk_window_destroy (GTK_WINDOW (self->window));
  ui_test_settle ();
  ui_test_finalize (self->window);
  ui_test_finalize (self->document);
}

static const CavShop *
get_shop (Fixture *self)
{
  return cav_project_get_shop (self->project);
}

static void
act (Fixture *self, const char *action, const char *id)
{
  g_assert_true (id != NULL
                     ? gtk_widget_activate_action (GTK_WIDGET (self->window), action, "s", id)
                     : gtk_widget_activate_action (GTK_WIDGET (self->window), action, NULL));
}

static gboolean
is_form_shown (Fixture *self)
{
  GtkWidget *stack = ui_test_find (GTK_WIDGET (self->window), GTK_TYPE_STACK);

  return g_str_equal (gtk_stack_get_visible_child_name (GTK_STACK (stack)), "form");
}

/* (nullable) The row with that title below root. */
static GtkWidget *
find_row (GtkWidget *root, const char *title)
{
  if (ADW_IS_PREFERENCES_ROW (root)
      && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (root)), title) == 0)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_row (child, title);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
type (GtkWidget *row, const char *text)
{
  g_assert_nonnull (row);
  gtk_editable_set_text (cav_figure_row_get_editable (CAV_FIGURE_ROW (row)), text);
}

static void
test_lists_every_tool (Fixture *self, gconstpointer data)
{
  const CavShop *shop = get_shop (self);

  for (guint i = 0; i < shop->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (shop->cutters, i);
      GtkWidget *row = cav_tool_list_get_row (self->tools, cutter->id);

      g_assert_nonnull (row);
      g_assert_cmpstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row)), ==, cutter->name);
    }
  for (guint i = 0; i < shop->blades->len; i++)
    g_assert_nonnull (cav_tool_list_get_row (
        self->tools, ((const CavBlade *)g_ptr_array_index (shop->blades, i))->id));
}

static gboolean
is_planned (CavPlanRunner *runner)
{
  return cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT
         && cav_plan_runner_is_thorough (runner);
}

static const char *
get_cost (Fixture *self)
{
  return gtk_label_get_text (GTK_LABEL (
      gtk_widget_get_template_child (GTK_WIDGET (self->window), CAV_TYPE_SHOP_WINDOW, "cost")));
}

/* After the window has heard of the plan, which it began to listen to earlier. */
static void
planned_cb (CavPlanRunner *runner, Fixture *self)
{
  if (!cav_plan_runner_is_thorough (runner))
    g_assert_null (strstr (get_cost (self), "before"));
}

/* Taking a cutter away plans again, and the line at the bottom says what it costs. */
static void
test_removing_plans_again (Fixture *self, gconstpointer data)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  guint before = get_shop (self)->cutters->len;
  const CavSetup *setup = NULL;
  gulong handler;
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_BEAD, CAV_CORNER_FACE_OUTSIDE);
  g_autoptr (CavPlan) plan = NULL;
  g_autofree char *id = NULL;

  /* One cut, which is soon planned thoroughly. */
  while (cav_project_get_cut_count (self->project) > 0)
    cav_project_remove_cut (self->project, 0);
  cav_project_add_cut (self->project, cut);
  cav_plan_runner_start (runner);
  ui_test_wait_for (is_planned (runner));
  g_assert_null (strstr (get_cost (self), "before"));
  plan = cav_plan_ref (cav_plan_runner_get_plan (runner));
  for (guint i = 0; i < plan->setups->len; i++)
    if (((const CavSetup *)g_ptr_array_index (plan->setups, i))->machine == CAV_MACHINE_ROUTER)
      setup = g_ptr_array_index (plan->setups, i);
  g_assert_nonnull (setup);
  id = g_strdup (setup->tool);

  act (self, "shop.remove-tool", id);
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before - 1);
  g_assert_null (cav_shop_find_cutter (get_shop (self), id));
  g_assert_null (cav_tool_list_get_row (self->tools, id));
  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  /* A quick plan is not compared with the thorough one that was there before. */
  handler = g_signal_connect (runner, "planned", G_CALLBACK (planned_cb), self);
  ui_test_wait_for (is_planned (runner));
  g_signal_handler_disconnect (runner, handler);
  g_test_message ("%s", get_cost (self));
  g_assert_cmpfloat (fabs (cav_plan_runner_get_plan (runner)->minutes - plan->minutes), >, 1.0);
  g_assert_nonnull (strstr (get_cost (self), "before"));
  for (guint i = 0; i < cav_plan_runner_get_plan (runner)->setups->len; i++)
    g_assert_cmpstr (
        ((const CavSetup *)g_ptr_array_index (cav_plan_runner_get_plan (runner)->setups, i))->tool,
        !=, id);

  act (self, "shop.undo", NULL);
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
  g_assert_nonnull (cav_tool_list_get_row (self->tools, id));
}

static void
test_adds_every_family (Fixture *self, gconstpointer data)
{
  for (int i = 0; i < CAV_CUTTER_DRAWN; i++)
    {
      guint before = get_shop (self)->cutters->len;
      const CavCutterFamilyInfo *info = cav_cutter_family_get_info ((CavCutterFamily)i);
      const CavCutter *added;

      g_test_message ("%s", info->name);
      act (self, "shop.add-cutter", NULL);
      g_assert_true (is_form_shown (self));
      cav_cutter_form_set_family (self->cutter_form, (CavCutterFamily)i);
      for (guint j = 0; j < info->n_numbers; j++)
        g_assert_nonnull (
            cav_cutter_form_get_number_row (self->cutter_form, info->numbers[j].number));
      g_assert_null (cav_cutter_form_get_message (self->cutter_form));
      act (self, "shop.commit", NULL);
      g_assert_false (is_form_shown (self));
      g_assert_cmpuint (get_shop (self)->cutters->len, ==, before + 1);
      added = g_ptr_array_index (get_shop (self)->cutters, before);
      g_assert_cmpint (added->family, ==, i);
      for (guint j = 0; j < info->n_numbers; j++)
        g_assert_cmpfloat_with_epsilon (added->numbers[info->numbers[j].number],
                                        info->numbers[j].usual, 1e-9);
      g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "add cutter");
    }
}

/* A decimal comma and a fraction are understood; bite and speed follow until they are entered. */
static void
test_edits_a_cutter (Fixture *self, gconstpointer data)
{
  const CavCutter *cutter;
  guint at = get_shop (self)->cutters->len;

  act (self, "shop.add-cutter", NULL);
  gtk_editable_set_text (GTK_EDITABLE (find_row (GTK_WIDGET (self->cutter_form), "Name")),
                         "Straight, worn");
  type (cav_cutter_form_get_number_row (self->cutter_form, CAV_CUTTER_DIAMETER), "12,5");
  act (self, "shop.commit", NULL);
  cutter = g_ptr_array_index (get_shop (self)->cutters, at);
  g_assert_cmpstr (cutter->name, ==, "Straight, worn");
  g_assert_cmpstr (cutter->id, ==, "straight-worn");
  g_assert_cmpfloat_with_epsilon (cutter->numbers[CAV_CUTTER_DIAMETER], 12.5, 1e-9);

  act (self, "shop.edit-tool", "straight-worn");
  type (cav_cutter_form_get_number_row (self->cutter_form, CAV_CUTTER_DIAMETER), "1/2 in");
  type (find_row (GTK_WIDGET (self->cutter_form), "Greatest speed"), "15000");
  act (self, "shop.commit", NULL);
  cutter = g_ptr_array_index (get_shop (self)->cutters, at);
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, at + 1);
  g_assert_cmpstr (cutter->id, ==, "straight-worn");
  g_assert_cmpfloat_with_epsilon (cutter->numbers[CAV_CUTTER_DIAMETER], 12.7, 1e-9);
  g_assert_cmpfloat_with_epsilon (cutter->speed, 15000, 1e-9);

  /* Leaving the form leaves the shop as it was. */
  act (self, "shop.edit-tool", "straight-worn");
  type (cav_cutter_form_get_number_row (self->cutter_form, CAV_CUTTER_DIAMETER), "20");
  act (self, "shop.cancel", NULL);
  cutter = g_ptr_array_index (get_shop (self)->cutters, at);
  g_assert_cmpfloat_with_epsilon (cutter->numbers[CAV_CUTTER_DIAMETER], 12.7, 1e-9);
}

/* What cannot be is said in the form while it is typed, and not added. */
static void
test_refuses_in_place (Fixture *self, gconstpointer data)
{
  guint before = get_shop (self)->cutters->len;
  GtkWidget *length;

  act (self, "shop.add-cutter", NULL);
  cav_cutter_form_set_family (self->cutter_form, CAV_CUTTER_COVE);
  length = cav_cutter_form_get_number_row (self->cutter_form, CAV_CUTTER_CUTTING_LENGTH);
  type (length, "3");
  g_assert_nonnull (cav_cutter_form_get_message (self->cutter_form));
  g_assert_nonnull (
      strstr (cav_cutter_form_get_message (self->cutter_form), "shorter than its curve"));
  act (self, "shop.commit", NULL);
  g_assert_true (is_form_shown (self));
  type (length, "12");
  g_assert_null (cav_cutter_form_get_message (self->cutter_form));
  type (length, "nonsense");
  act (self, "shop.commit", NULL);
  g_assert_true (is_form_shown (self));
  g_assert_false (cav_figure_row_is_valid (CAV_FIGURE_ROW (length)));
  type (length, "12");
  /* A bearing under 2 mm is the shop's to refuse. */
  type (find_row (GTK_WIDGET (self->cutter_form), "Bearing, diameter"), "1");
  type (find_row (GTK_WIDGET (self->cutter_form), "Bearing, length"), "3");
  act (self, "shop.commit", NULL);
  g_assert_true (is_form_shown (self));
  g_assert_nonnull (strstr (cav_cutter_form_get_message (self->cutter_form), "pilot"));
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);

  act (self, "shop.cancel", NULL);
  act (self, "shop.add-blade", NULL);
  type (find_row (GTK_WIDGET (self->blade_form), "Highest above the table"), "200");
  act (self, "shop.commit", NULL);
  g_assert_true (is_form_shown (self));
  g_assert_nonnull (strstr (cav_blade_form_get_message (self->blade_form), "height"));
}

static void
test_adds_blades (Fixture *self, gconstpointer data)
{
  guint before = get_shop (self)->blades->len;
  const CavBlade *blade;

  act (self, "shop.add-blade", NULL);
  gtk_editable_set_text (GTK_EDITABLE (find_row (GTK_WIDGET (self->blade_form), "Name")),
                         "Grooving 8");
  type (find_row (GTK_WIDGET (self->blade_form), "Diameter"), "203");
  type (find_row (GTK_WIDGET (self->blade_form), "Kerf"), "8");
  type (find_row (GTK_WIDGET (self->blade_form), "Highest above the table"), "45");
  act (self, "shop.commit", NULL);
  g_assert_false (is_form_shown (self));
  g_assert_cmpuint (get_shop (self)->blades->len, ==, before + 1);
  blade = cav_shop_find_blade (get_shop (self), "grooving-8");
  g_assert_nonnull (blade);
  g_assert_cmpfloat_with_epsilon (blade->kerf, 8, 1e-9);
  /* A grooving head is not tilted, whatever stands in the form. */
  g_assert_cmpfloat_with_epsilon (blade->tilt, 0, 1e-9);

  act (self, "shop.duplicate-tool", "grooving-8");
  g_assert_true (is_form_shown (self));
  blade = cav_shop_find_blade (get_shop (self), "grooving-8-2");
  g_assert_nonnull (blade);
  g_assert_cmpstr (blade->name, ==, "Grooving 8 (2)");
}

static void
test_machines (Fixture *self, gconstpointer data)
{
  GtkWidget *router = find_row (self->machines, "Router table");
  GtkWidget *widget = adw_action_row_get_activatable_widget (ADW_ACTION_ROW (router));

  gtk_switch_set_active (GTK_SWITCH (widget), FALSE);
  g_assert_false (get_shop (self)->has_router);
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "change machines");
  cav_project_undo (self->project);
  g_assert_true (gtk_switch_get_active (GTK_SWITCH (widget)));

  type (find_row (self->machines, "Largest collet, 0 for any"), "1/4 in");
  cav_figure_row_apply (CAV_FIGURE_ROW (find_row (self->machines, "Largest collet, 0 for any")));
  g_assert_cmpfloat_with_epsilon (get_shop (self)->collet, 6.35, 1e-9);
  /* Tools that no longer fit say so in the list. */
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (
                                cav_tool_list_get_row (self->tools, "straight-12.7"))),
                            "collet"));

  type (find_row (self->machines, "Thickest left to hand work"), "0,5");
  cav_figure_row_apply (CAV_FIGURE_ROW (find_row (self->machines, "Thickest left to hand work")));
  g_assert_cmpfloat_with_epsilon (get_shop (self)->limits.leftover, 0.5, 1e-9);
  type (find_row (self->machines, "Setting up the saw"), "4.5");
  cav_figure_row_apply (CAV_FIGURE_ROW (find_row (self->machines, "Setting up the saw")));
  g_assert_cmpfloat_with_epsilon (get_shop (self)->rates.saw_setup, 4.5, 1e-9);
}

static GFile *
get_scratch_file (const char *name)
{
  g_autofree char *path = g_build_filename (g_get_user_cache_dir (), name, NULL);

  g_mkdir_with_parents (g_get_user_cache_dir (), 0700);
  return g_file_new_for_path (path);
}

static void
test_files (Fixture *self, gconstpointer data)
{
  g_autoptr (GFile) file = get_scratch_file ("shop.xml");
  g_autoptr (GFile) nowhere = g_file_new_for_path ("/nowhere/at/all/shop.xml");
  g_autoptr (GFile) remote = g_file_new_for_uri ("sftp://elsewhere/shop.xml");
  g_autofree char *content = NULL;
  guint before = get_shop (self)->cutters->len;

  cav_project_set_title (self->project, "Comma");
  type (find_row (self->machines, "Thickest left to hand work"), "0,75");
  cav_figure_row_apply (CAV_FIGURE_ROW (find_row (self->machines, "Thickest left to hand work")));
  g_assert_true (cav_shop_window_export (self->window, file));
  g_assert_true (g_file_load_contents (file, NULL, &content, NULL, NULL, NULL));
  g_assert_nonnull (strstr (content, "leftover=\"0.75\""));

  act (self, "shop.remove-tool", "straight-12.7");
  g_assert_true (cav_shop_window_import (self->window, file));
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "import shop");
  g_assert_null (cav_shop_window_get_message (self->window));

  g_assert_false (cav_shop_window_export (self->window, nowhere));
  g_assert_nonnull (cav_shop_window_get_message (self->window));
  g_assert_false (cav_shop_window_import (self->window, nowhere));
  g_assert_nonnull (cav_shop_window_get_message (self->window));
  g_assert_false (cav_shop_window_import (self->window, remote));
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
  g_assert_true (cav_shop_window_export (self->window, file));
  g_assert_null (cav_shop_window_get_message (self->window));
}

static void
test_newer_file (Fixture *self, gconstpointer data)
{
  g_autoptr (GFile) file = get_scratch_file ("newer.xml");
  const char *content = "<shop version=\"99\" unit=\"mm\"/>\n";
  guint before = get_shop (self)->cutters->len;

  g_assert_true (
      g_file_replace_contents (file, content, strlen (content), NULL, FALSE, 0, NULL, NULL, NULL));
  g_assert_false (cav_shop_window_import (self->window, file));
  g_assert_nonnull (cav_shop_window_get_message (self->window));
  g_test_message ("%s", cav_shop_window_get_message (self->window));
  g_assert_nonnull (strstr (cav_shop_window_get_message (self->window), "newer version"));
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
}

static void
test_own_shop (Fixture *self, gconstpointer data)
{
  g_autofree char *file_name = cav_own_shop_get_file_name ();
  guint before = get_shop (self)->cutters->len;

  g_unlink (file_name);
  g_assert_false (cav_own_shop_exists ());
  act (self, "shop.remove-tool", "straight-12.7");
  act (self, "shop.keep-as-mine", NULL);
  g_assert_null (cav_shop_window_get_message (self->window));
  g_assert_true (cav_own_shop_exists ());
  act (self, "shop.undo", NULL);
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
  act (self, "shop.use-mine", NULL);
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before - 1);
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "use my shop");

  /* A file that cannot be read leaves the project alone. */
  g_assert_true (g_file_set_contents (file_name, "<shop", -1, NULL));
  act (self, "shop.undo", NULL);
  act (self, "shop.use-mine", NULL);
  g_assert_nonnull (cav_shop_window_get_message (self->window));
  g_assert_cmpuint (get_shop (self)->cutters->len, ==, before);
  g_unlink (file_name);
}

/* A new document is planned for the user's own shop, and is as new as any. */
static void
test_new_document_has_own_shop (void)
{
  g_autofree char *file_name = cav_own_shop_get_file_name ();
  g_autoptr (CavShop) shop = cav_shop_new_saw_only ();
  g_autoptr (GError) error = NULL;
  CavDocument *document;
  CavProject *project;

  g_assert_true (cav_own_shop_save (shop, &error));
  g_assert_no_error (error);
  document = cav_document_new ();
  project = cav_document_get_project (document);
  g_assert_cmpuint (cav_project_get_shop (project)->blades->len, ==, shop->blades->len);
  g_assert_cmpuint (cav_project_get_shop (project)->cutters->len, ==, 0);
  g_assert_false (cav_project_is_modified (project));
  g_assert_null (cav_project_get_undo_name (project));
  ui_test_finalize (document);

  g_assert_true (g_file_set_contents (file_name, "<shop", -1, NULL));
  document = cav_document_new ();
  g_assert_cmpuint (cav_project_get_shop (cav_document_get_project (document))->cutters->len, >, 0);
  ui_test_finalize (document);
  g_unlink (file_name);
}

/* One window for a document, which goes with the window that it belongs to. */
static void
test_one_window (void)
{
  CavDocument *document = cav_document_new ();
  CavWindow *window = cav_window_new (ui_test_get_application (), document);
  GListModel *windows = gtk_window_get_toplevels ();
  guint before;

  gtk_window_present (GTK_WINDOW (window));
  before = g_list_model_get_n_items (windows);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.show-shop", NULL));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.show-shop", NULL));
  ui_test_settle ();
  g_assert_cmpuint (g_list_model_get_n_items (windows), ==, before + 1);
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
  /* The window with the keys went with it, too. */
  g_assert_cmpuint (g_list_model_get_n_items (windows), <, before);
  ui_test_finalize (document);
}

static void
test_ids (void)
{
  static const struct
  {
    const char *name;
    const char *id;
  } rows[] = {
    { "Straight 12.7", "straight-12.7-2" },
    { "Straight, worn!", "straight-worn" },
    { "Größe Ø 8", "grosse-8" },
    { "", "tool" },
    { "...", "tool" },
    { "<&>\"'", "tool" },
  };
  g_autoptr (CavShop) shop = cav_shop_new_default ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *id = cav_shop_edit_create_id (shop, rows[i].name);
      g_autoptr (GError) error = NULL;

      g_test_message ("“%s” “%s”", rows[i].name, id);
      if (i != 2)
        g_assert_cmpstr (id, ==, rows[i].id);
      /* Whatever it is, it can be one. */
      g_assert_true (cav_shop_add_blade (shop, cav_blade_new (id, 254, 3.2), &error));
      g_assert_no_error (error);
      g_ptr_array_remove_index (shop->blades, shop->blades->len - 1);
    }
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/shop-edit/ids", test_ids);
  g_test_add_func ("/ui/shop-window/new-document-has-own-shop", test_new_document_has_own_shop);
  g_test_add_func ("/ui/shop-window/one-window", test_one_window);
  ADD ("/ui/shop-window/lists-every-tool", test_lists_every_tool);
  ADD ("/ui/shop-window/removing-plans-again", test_removing_plans_again);
  ADD ("/ui/shop-window/adds-every-family", test_adds_every_family);
  ADD ("/ui/shop-window/edits-a-cutter", test_edits_a_cutter);
  ADD ("/ui/shop-window/refuses-in-place", test_refuses_in_place);
  ADD ("/ui/shop-window/adds-blades", test_adds_blades);
  ADD ("/ui/shop-window/machines", test_machines);
  ADD ("/ui/shop-window/files", test_files);
  ADD ("/ui/shop-window/newer-file", test_newer_file);
  ADD ("/ui/shop-window/own-shop", test_own_shop);
  return g_test_run ();
}
