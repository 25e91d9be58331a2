/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-findings.h"
#include "app/cav-print.h"
#include "app/cav-settings.h"
#include "app/cav-starter.h"
#include "drawing/cav-sheets.h"
#include "storage/cav-storage.h"
#include "window-rig.h"

#include <glib/gstdio.h>

/* (nullable) The dialog that stands before the window. */
static AdwMessageDialog *
find_dialog (void)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();

  for (GList *link = windows; link != NULL; link = link->next)
    if (ADW_IS_MESSAGE_DIALOG (link->data) && gtk_widget_get_visible (link->data))
      return link->data;
  return NULL;
}

static void
answer (const char *response)
{
  AdwMessageDialog *dialog = find_dialog ();

  g_assert_nonnull (dialog);
  adw_message_dialog_response (dialog, response);
  gtk_window_destroy (GTK_WINDOW (dialog));
}

static void
test_is_freed (WindowRig *rig, gconstpointer data)
{
  g_assert_true (cav_window_get_document (rig->window) == rig->document);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (rig->window)), ==, "New molding – Cavetto");
}

static const char *
get_tip (WindowRig *rig, const char *action)
{
  g_autoptr (GQueue) queue = g_queue_new ();

  g_queue_push_tail (queue, rig->window);
  while (!g_queue_is_empty (queue))
    {
      GtkWidget *widget = g_queue_pop_head (queue);

      if (GTK_IS_BUTTON (widget)
          && g_strcmp0 (gtk_actionable_get_action_name (GTK_ACTIONABLE (widget)), action) == 0)
        return gtk_widget_get_tooltip_text (widget);
      for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
           child = gtk_widget_get_next_sibling (child))
        g_queue_push_tail (queue, child);
    }
  return NULL;
}

/* Undo and redo say what they would do, and the title marks what is not saved. */
static void
test_undo (WindowRig *rig, gconstpointer data)
{
  g_autofree char *tip = NULL;

  g_assert_true (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (rig->window)), "• "));
  tip = g_strdup (get_tip (rig, "win.undo"));
  g_assert_true (g_str_has_prefix (tip, "Undo "));
  g_assert_nonnull (strstr (tip, cav_project_get_undo_name (rig->project)));

  window_rig_act (rig, "win.undo");
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  g_assert_cmpstr (get_tip (rig, "win.undo"), ==, "Undo");
  g_assert_false (g_str_has_prefix (gtk_window_get_title (GTK_WINDOW (rig->window)), "• "));
  window_rig_act (rig, "win.redo");
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
}

static void
test_passes (WindowRig *rig, gconstpointer data)
{
  int count = (int)cav_plan_get_pass_count (
      cav_plan_runner_get_plan (cav_document_get_runner (rig->document)));

  g_assert_cmpint (count, >=, 1);
  window_rig_act (rig, "win.next-pass");
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, 0);
  for (int i = 0; i < count + 3; i++)
    window_rig_act (rig, "win.next-pass");
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, count - 1);
  window_rig_act (rig, "win.leave-pass");
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, CAV_NO_PASS);
  window_rig_act (rig, "win.previous-pass");
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, count - 1);
}

/* Letters choose a cut, Escape goes a step back. */
static void
test_kinds (WindowRig *rig, gconstpointer data)
{
  GtkWidget *page = ui_test_find (GTK_WIDGET (rig->window), g_type_from_name ("CavMoldingPage"));

  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      g_assert_true (gtk_widget_activate_action (page, "molding.draw", "s",
                                                 cav_cut_kind_get_info ((CavCutKind)i)->name));
      g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, i);
    }
  gtk_widget_activate_action (page, "molding.leave", NULL);
  g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, CAV_NO_KIND);
  cav_selection_choose_cut (rig->selection, 0);
  cav_selection_set_pass (rig->selection, 0);
  gtk_widget_activate_action (page, "molding.leave", NULL);
  g_assert_cmpint (cav_selection_get_pass (rig->selection), ==, CAV_NO_PASS);
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 1);
  gtk_widget_activate_action (page, "molding.leave", NULL);
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 0);
}

static void
test_closes_unasked (void)
{
  CavDocument *document = cav_document_new ();
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  g_object_ref (window);
  gtk_window_close (GTK_WINDOW (window));
  ui_test_settle ();
  g_assert_null (find_dialog ());
  ui_test_finalize (window);
  ui_test_finalize (document);
}

/* With something to lose it asks; cancelling leaves all as it is, discarding closes. */
static void
test_asks_before_closing (void)
{
  CavDocument *document = ui_test_open_example ("plain-steps.cavetto");
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  cav_project_set_title (cav_document_get_project (document), "Changed");
  g_object_ref (window);
  gtk_window_close (GTK_WINDOW (window));
  g_assert_nonnull (find_dialog ());
  answer ("cancel");
  ui_test_settle ();
  g_assert_null (find_dialog ());
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (window)));

  gtk_window_close (GTK_WINDOW (window));
  answer ("discard");
  ui_test_settle ();
  ui_test_finalize (window);
  ui_test_finalize (document);
}

/* Saving as the answer closes when the file is whole, and only then. */
static void
test_saves_and_closes (void)
{
  g_autofree char *folder = g_dir_make_tmp ("cavetto-XXXXXX", NULL);
  g_autofree char *name = g_build_filename (folder, "mine.cavetto", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (name);
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavProject) read = NULL;
  g_autoptr (GError) error = NULL;
  CavDocument *document;
  CavWindow *window;

  g_assert_true (cav_storage_save_project (project, name, &error));
  document = cav_document_new_for_project (project, file);
  window = cav_window_new (ui_test_get_application (), document);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  cav_project_set_title (project, "Kept");
  g_object_add_weak_pointer (G_OBJECT (window), (gpointer *)&window);
  gtk_window_close (GTK_WINDOW (window));
  answer ("save");
  ui_test_wait_for (window == NULL);
  read = cav_storage_load_project (name, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (cav_project_get_title (read), ==, "Kept");
  ui_test_finalize (document);
  g_remove (name);
  g_rmdir (folder);
}

/* A file that cannot be read is said, in the window that is there. */
static void
test_says_what_cannot_be_read (WindowRig *rig, gconstpointer data)
{
  g_autoptr (GFile) file = g_file_new_for_path ("/no/such/file.cavetto");

  cav_application_open_file (CAV_APPLICATION (ui_test_get_application ()), file,
                             GTK_WINDOW (rig->window));
  ui_test_wait_for (find_dialog () != NULL);
  g_assert_nonnull (strstr (adw_message_dialog_get_body (find_dialog ()), "file.cavetto"));
  answer ("close");
  ui_test_settle ();
  g_assert_true (cav_document_is_fresh (rig->document));
}

/* A fresh window takes the file; one that shows it already is shown again. */
static void
test_opens_in_place (WindowRig *rig, gconstpointer data)
{
  g_autofree char *name = g_build_filename (g_getenv ("CAV_EXAMPLES"), "wide-scoop.cavetto", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (name);
  CavApplication *application = CAV_APPLICATION (ui_test_get_application ());

  cav_application_open_file (application, file, GTK_WINDOW (rig->window));
  ui_test_wait_for (cav_document_get_file (rig->document) != NULL);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), >, 0);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (rig->window)), ==, "wide-scoop – Cavetto");
  cav_application_open_file (application, file, GTK_WINDOW (rig->window));
  ui_test_settle ();
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (application))), ==,
                    1);
}

static gboolean
drop (WindowRig *rig, const char *name)
{
  GtkEventController *target
      = ui_test_get_controller (GTK_WIDGET (rig->window), GTK_TYPE_DROP_TARGET);
  g_autoptr (GFile) file = g_file_new_for_path (name);
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean taken = FALSE;

  g_value_init (&value, G_TYPE_FILE);
  g_value_set_object (&value, file);
  g_signal_emit_by_name (target, "drop", &value, 200.0, 200.0, &taken);
  return taken;
}

/* A file that is dropped on the window is opened; one that is no project is said to be none. */
static void
test_drop (WindowRig *rig, gconstpointer data)
{
  g_autofree char *name = g_build_filename (g_getenv ("CAV_EXAMPLES"), "wide-scoop.cavetto", NULL);
  g_autofree char *other = g_test_build_filename (G_TEST_DIST, "meson.build", NULL);

  g_assert_true (drop (rig, other));
  ui_test_wait_for (find_dialog () != NULL);
  g_assert_nonnull (strstr (adw_message_dialog_get_body (find_dialog ()), "meson.build"));
  answer ("close");
  ui_test_settle ();
  g_assert_true (drop (rig, name));
  ui_test_wait_for (cav_document_get_file (rig->document) != NULL);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), >, 0);
  g_assert_cmpstr (gtk_window_get_title (GTK_WINDOW (rig->window)), ==, "wide-scoop – Cavetto");
}

/* The printer gets the pages of the PDF, without a dialog here. */
static void
test_prints (WindowRig *rig, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("cavetto-XXXXXX", NULL);
  g_autofree char *name = g_build_filename (folder, "print.pdf", NULL);
  const CavSheetOptions options = { .unit = CAV_UNIT_MM, .denominator = 64 };
  const CavPlan *plan = cav_plan_runner_get_plan (cav_document_get_runner (rig->document));
  g_autoptr (GtkPrintOperation) operation = NULL;
  g_autoptr (GError) error = NULL;
  GStatBuf status;

  /* Pages that stand and pages that lie. */
  operation = cav_print_operation_new (cav_sheets_create_scenes (rig->project, plan, &options),
                                       "Test", CAV_PAPER_A4);
  gtk_print_operation_set_export_filename (operation, name);
  g_assert_cmpint (
      gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error), ==,
      GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_no_error (error);
  g_assert_cmpint (g_stat (name, &status), ==, 0);
  g_assert_cmpint (status.st_size, >, 2000);
  g_remove (name);
  g_rmdir (folder);
}

/* What the menu of keys names is an action that is there. */
static void
test_keys_have_actions (WindowRig *rig, gconstpointer data)
{
  GtkApplication *application = ui_test_get_application ();
  g_auto (GStrv) actions = gtk_application_list_action_descriptions (application);
  guint checked = 0;

  for (guint i = 0; actions[i] != NULL; i++)
    {
      g_autofree char *name = NULL;
      g_autoptr (GVariant) target = NULL;
      GType owner;
      guint at = 0;
      gboolean found = FALSE;
      const char *action;
      const GVariantType *type;
      const char *property;

      g_assert_true (g_action_parse_detailed_name (actions[i], &name, &target, NULL));
      checked++;
      if (g_str_has_prefix (name, "app."))
        {
          g_assert_true (g_action_group_has_action (G_ACTION_GROUP (application), name + 4));
          continue;
        }
      while (gtk_widget_class_query_action (GTK_WIDGET_GET_CLASS (rig->window), at++, &owner,
                                            &action, &type, &property))
        found = found || g_str_equal (action, name);
      if (!found)
        g_test_message ("%s is no action", name);
      g_assert_true (found);
    }
  g_assert_cmpuint (checked, >, 10);
}

/* (nullable) The label below root that says exactly this. */
static GtkWidget *
find_label (GtkWidget *root, const char *text)
{
  GtkWidget *found = NULL;

  if (GTK_IS_LABEL (root) && g_str_equal (gtk_label_get_text (GTK_LABEL (root)), text))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_label (child, text);
  return found;
}

/* What is told stands there as it is, whatever signs the name of a file holds. */
static void
test_say (WindowRig *rig, gconstpointer data)
{
  const char *text = "“Oak & <ash>.pdf” is written";

  cav_window_say (rig->window, text);
  ui_test_wait_for (find_label (GTK_WIDGET (rig->window), text) != NULL);
}

/* Saves under that name and waits until it is done. */
static void
save_as (WindowRig *rig, const char *name)
{
  g_autofree char *path = g_build_filename (g_get_user_cache_dir (), name, NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);

  g_mkdir_with_parents (g_get_user_cache_dir (), 0700);
  cav_window_save_as (rig->window, file);
  ui_test_wait_for (!cav_document_is_saving (rig->document)
                    && !cav_document_is_unsaved (rig->document));
}

/* Sheets are headed by the title: it follows the file's name until somebody writes another. */
static void
test_title_follows_the_name (WindowRig *rig, gconstpointer data)
{
  guint n_moldings;
  const CavStarter *moldings = cav_starters_get_moldings (&n_moldings);

  cav_project_set_title (rig->project, cav_starter_get_name (&moldings[1]));
  save_as (rig, "Fernery.cavetto");
  g_assert_cmpstr (cav_project_get_title (rig->project), ==, "Fernery");
  save_as (rig, "Reading room.cavetto");
  g_assert_cmpstr (cav_project_get_title (rig->project), ==, "Reading room");
  cav_project_set_title (rig->project, "Twelve prints");
  save_as (rig, "Fernery.cavetto");
  g_assert_cmpstr (cav_project_get_title (rig->project), ==, "Twelve prints");
}

static gboolean
has_bar (WindowRig *rig)
{
  GtkWidget *bar = ui_test_find (GTK_WIDGET (rig->window), ADW_TYPE_VIEW_SWITCHER_BAR);

  return bar != NULL && adw_view_switcher_bar_get_reveal (ADW_VIEW_SWITCHER_BAR (bar));
}

/* In a narrow window with large letters the names of the pages stand below, and come back. */
static void
test_large_letters (WindowRig *rig, gconstpointer data)
{
  GtkSettings *settings = gtk_settings_get_default ();
  int usual;

  g_object_get (settings, "gtk-xft-dpi", &usual, NULL);
  gtk_window_set_default_size (GTK_WINDOW (rig->window), 800, 600);
  ui_test_wait_for (gtk_widget_get_width (GTK_WIDGET (rig->window)) <= 800);
  g_assert_false (has_bar (rig));
  g_object_set (settings, "gtk-xft-dpi", 2 * 96 * 1024, NULL);
  ui_test_wait_for (has_bar (rig));
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024, NULL);
  ui_test_wait_for (!has_bar (rig));
  g_object_set (settings, "gtk-xft-dpi", usual, NULL);
}

/* (nullable) The names of the pages that are seen. */
static GtkWidget *
find_switcher (GtkWidget *root)
{
  GtkWidget *found = ADW_IS_VIEW_SWITCHER (root) && gtk_widget_get_mapped (root) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_switcher (child);
  return found;
}

static guint
count_switchers (GtkWidget *root)
{
  guint count = ADW_IS_VIEW_SWITCHER (root) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count += count_switchers (child);
  return count;
}

/* Of the header, not of the bar below. */
static gboolean
is_named (CavWindow *window, AdwViewSwitcherPolicy policy)
{
  GtkWidget *found = find_switcher (ui_test_find (GTK_WIDGET (window), ADW_TYPE_HEADER_BAR));

  return found != NULL && adw_view_switcher_get_policy (ADW_VIEW_SWITCHER (found)) == policy;
}

static void
make_as_wide (CavWindow *window, int width)
{
  gtk_window_set_default_size (GTK_WINDOW (window), width, 700);
  ui_test_wait_for (gtk_widget_get_width (GTK_WIDGET (window)) <= width);
  ui_test_settle ();
}

/* A window that is made narrow has the names of the pages below their icons, by a switcher that was
 * not made before, and beside them again when there is room; one that begins narrow has them from
 * the beginning. */
static void
test_names_of_pages (WindowRig *rig, gconstpointer data)
{
  g_autoptr (CavDocument) document = cav_document_new ();
  CavWindow *other;
  int width = 1200;

  make_as_wide (rig->window, width);
  ui_test_wait_for (is_named (rig->window, ADW_VIEW_SWITCHER_POLICY_WIDE));
  g_assert_cmpuint (count_switchers (GTK_WIDGET (rig->window)), ==, 1);
  while (width > 640 && !is_named (rig->window, ADW_VIEW_SWITCHER_POLICY_NARROW))
    {
      width -= 20;
      make_as_wide (rig->window, width);
    }
  g_assert_cmpint (width, >, 640);

  g_settings_set (cav_settings_get (), "window-size", "(ii)", width, 700);
  other = cav_window_new (ui_test_get_application (), document);
  g_settings_reset (cav_settings_get (), "window-size");
  g_assert_cmpuint (count_switchers (GTK_WIDGET (other)), ==, 2);
  gtk_window_present (GTK_WINDOW (other));
  ui_test_wait_for (is_named (other, ADW_VIEW_SWITCHER_POLICY_NARROW));
  gtk_window_destroy (GTK_WINDOW (other));
  ui_test_settle ();

  gtk_window_set_default_size (GTK_WINDOW (rig->window), 1200, 700);
  ui_test_wait_for (is_named (rig->window, ADW_VIEW_SWITCHER_POLICY_WIDE));
}

/* What stands in the list beside the section and is a matter of the frame leads to its page. */
static void
test_finding_of_the_frame (void)
{
  CavDocument *document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = cav_window_new (ui_test_get_application (), document);
  GtkWidget *stack, *findings;

  gtk_window_present (GTK_WINDOW (window));
  /* The column comes after the first frame. */
  ui_test_wait_for ((findings = ui_test_find (GTK_WIDGET (window), CAV_TYPE_FINDINGS)) != NULL);
  stack = ui_test_find (GTK_WIDGET (window), ADW_TYPE_VIEW_STACK);
  g_assert_cmpstr (adw_view_stack_get_visible_child_name (ADW_VIEW_STACK (stack)), ==, "molding");
  for (guint i = 0; i < cav_findings_get_count (CAV_FINDINGS (findings)); i++)
    cav_findings_activate (CAV_FINDINGS (findings), i);
  g_assert_cmpstr (adw_view_stack_get_visible_child_name (ADW_VIEW_STACK (stack)), ==, "frame");
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
  ui_test_finalize (document);
}

/* Beside the pages and the buttons there is room for letters of the name, and not for dots alone.
 */
static void
test_name_in_narrow_window (WindowRig *rig, gconstpointer data)
{
  GtkWidget *label = ui_test_find (GTK_WIDGET (rig->window), GTK_TYPE_LABEL);
  g_autofree char *name = cav_document_dup_name (rig->document);
  g_autoptr (PangoLayout) least = gtk_widget_create_pango_layout (label, "n…n");
  int width;

  g_assert_cmpstr (gtk_label_get_label (GTK_LABEL (label)), ==, name);
  gtk_window_set_default_size (GTK_WINDOW (rig->window), 800, 600);
  ui_test_wait_for (gtk_widget_get_width (GTK_WIDGET (rig->window)) <= 800);
  pango_layout_get_pixel_size (least, &width, NULL);
  g_assert_cmpint (gtk_widget_get_width (label), >=, width);
}

#define ADD(path_, data_, test_)                                                                   \
  g_test_add ("/ui/window/" path_, WindowRig, data_, window_rig_set_up, test_, window_rig_tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("is-freed", NULL, test_is_freed);
  ADD ("undo", "a cut", test_undo);
  ADD ("passes", "a cut", test_passes);
  ADD ("kinds", "a cut", test_kinds);
  ADD ("says-what-cannot-be-read", NULL, test_says_what_cannot_be_read);
  ADD ("opens-in-place", NULL, test_opens_in_place);
  ADD ("drop", NULL, test_drop);
  ADD ("name-in-narrow-window", NULL, test_name_in_narrow_window);
  ADD ("names-of-pages", NULL, test_names_of_pages);
  ADD ("title-follows-the-name", "a cut", test_title_follows_the_name);
  ADD ("large-letters", NULL, test_large_letters);
  ADD ("prints", "a cut", test_prints);
  ADD ("says-names-as-they-are", NULL, test_say);
  ADD ("keys-have-actions", NULL, test_keys_have_actions);
  g_test_add_func ("/ui/window/finding-of-the-frame", test_finding_of_the_frame);
  g_test_add_func ("/ui/window/closes-unasked", test_closes_unasked);
  g_test_add_func ("/ui/window/asks-before-closing", test_asks_before_closing);
  g_test_add_func ("/ui/window/saves-and-closes", test_saves_and_closes);
  return g_test_run ();
}
