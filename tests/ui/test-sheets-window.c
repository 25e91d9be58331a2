/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-sheets-window.h"

#include <glib/gstdio.h>
#include <math.h>

#include "app/cav-print.h"
#include "app/cav-settings.h"
#include "app/cav-sheet-choice.h"
#include "app/cav-sheet-desk.h"
#include "app/cav-sheet-page.h"
#include "app/cav-window.h"
#include "ui-test.h"

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavSheetsWindow *window;
} Fixture;

static void
reset_settings (void)
{
  static const char *const keys[] = { CAV_SETTING_SHEET, CAV_SETTING_SHEET_LAYOUT,
                                      CAV_SETTING_SHEET_NOTE, CAV_SETTING_PRINT, CAV_SETTING_PAGE };

  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    g_settings_reset (cav_settings_get (), keys[i]);
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  g_settings_set_string (cav_settings_get (), CAV_SETTING_PAPER, "a4");
}

static guint
count_pages (Fixture *self)
{
  return cav_sheets_window_get_pages (self->window)->len;
}

static CavScene *
get_page (Fixture *self, guint index)
{
  return g_ptr_array_index (cav_sheets_window_get_pages (self->window), index);
}

static void
set_up (Fixture *self, gconstpointer data)
{
  reset_settings ();
  self->document = ui_test_open_example (data);
  self->project = cav_document_get_project (self->document);
  self->window = cav_sheets_window_new (self->document, NULL);
  gtk_window_present (GTK_WINDOW (self->window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
  cav_plan_runner_start (cav_document_get_runner (self->document));
  ui_test_wait_for (count_pages (self) > 0);
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

static void
act (Fixture *self, const char *action)
{
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (self->window), action, NULL));
  ui_test_settle ();
}

static gboolean
has_text (CavScene *scene, const char *wanted)
{
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text;
      const CavTextStyle *style;

      cav_scene_get_text (scene, i, &text, &style);
      if (strstr (text, wanted) != NULL)
        return TRUE;
    }
  return FALSE;
}

static guint
count_page_widgets (GtkWidget *widget)
{
  guint count = CAV_IS_SHEET_PAGE (widget) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count += count_page_widgets (child);
  return count;
}

static const char *
get_text (GPtrArray *pages, guint index)
{
  const char *text;
  const CavTextStyle *style;

  cav_scene_get_text (g_ptr_array_index (pages, 0), index, &text, &style);
  return text;
}

/* As many pages with as many words; the date at the head is one more or less. */
static gboolean
are_alike (GPtrArray *shown, GPtrArray *expected)
{
  if (shown->len != expected->len)
    return FALSE;
  for (guint i = 0; i < shown->len; i++)
    {
      int n = (int)cav_scene_get_text_count (g_ptr_array_index (shown, i));

      if (abs (n - (int)cav_scene_get_text_count (g_ptr_array_index (expected, i))) > 1)
        return FALSE;
    }
  return g_str_equal (get_text (shown, 0), get_text (expected, 0));
}

/* What is shown are the pages of the sheet that is chosen, each with a name and its words. */
static void
test_sheets (Fixture *self, gconstpointer data)
{
  g_autoptr (CavPlan) plan
      = cav_plan_ref (cav_plan_runner_get_plan (cav_document_get_runner (self->document)));

  for (int sheet = 0; sheet < CAV_N_SHEET_CHOICES; sheet++)
    {
      const char *id = cav_sheet_choice_get (sheet)->id;
      CavSheetOptions options = cav_sheet_choice_get_options ();
      g_autoptr (GPtrArray) expected = NULL;
      GtkWidget *page;

      g_test_message ("%s", id);
      expected = cav_sheet_choice_create_pages (sheet, self->project, plan, &options);
      g_settings_set_string (cav_settings_get (), CAV_SETTING_SHEET, id);
      ui_test_wait_for (are_alike (cav_sheets_window_get_pages (self->window), expected));
      g_assert_cmpuint (count_page_widgets (GTK_WIDGET (self->window)), ==, expected->len);
      page = ui_test_find (GTK_WIDGET (self->window), CAV_TYPE_SHEET_PAGE);
      g_assert_cmpint (gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (page)), ==,
                       GTK_ACCESSIBLE_ROLE_IMG);
    }
}

static AdwComboRow *
find_combo (GtkWidget *widget, const char *title)
{
  if (ADW_IS_COMBO_ROW (widget)
      && g_str_equal (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title))
    return ADW_COMBO_ROW (widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      AdwComboRow *found = find_combo (child, title);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
choose (Fixture *self, const char *title, guint selected)
{
  AdwComboRow *row = find_combo (GTK_WIDGET (self->window), title);

  g_assert_nonnull (row);
  adw_combo_row_set_selected (row, selected);
}

/* Rows change the pages, and the next window begins with what was chosen in this one. */
static void
test_choices (Fixture *self, gconstpointer data)
{
  CavSheetsWindow *other;

  choose (self, "Paper", 2);
  ui_test_wait_for (fabs (cav_scene_get_width (get_page (self, 0)) - 279.4) < 0.01);
  choose (self, "Unit", 3);
  ui_test_wait_for (has_text (get_page (self, 0), "All figures but tool names"));
  choose (self, "Layout", CAV_SHEET_LAYOUT_STRIP);
  ui_test_wait_for (fabs (cav_scene_get_width (get_page (self, 0)) - 100) < 0.01);
  g_assert_cmpuint (count_pages (self), ==, 1);
  other = cav_sheets_window_new (self->document, NULL);
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (GTK_WIDGET (other), "Layout")), ==,
                    CAV_SHEET_LAYOUT_STRIP);
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (GTK_WIDGET (other), "Paper")), ==, 2);
  g_assert_cmpuint (adw_combo_row_get_selected (find_combo (GTK_WIDGET (other), "Unit")), ==, 3);
  gtk_window_destroy (GTK_WINDOW (other));
}

static void
test_note (Fixture *self, gconstpointer data)
{
  GtkWidget *note = ui_test_find (GTK_WIDGET (self->window), ADW_TYPE_ENTRY_ROW);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *year = g_date_time_format (now, "%Y-");

  /* Without a note the day stands there. */
  g_assert_true (has_text (get_page (self, 0), year));
  gtk_editable_set_text (GTK_EDITABLE (note), "second try");
  ui_test_wait_for (has_text (get_page (self, 0), "second try"));
}

static gboolean
has_label (GtkWidget *widget, const char *prefix)
{
  if (GTK_IS_LABEL (widget) && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (widget)), prefix))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (has_label (child, prefix))
      return TRUE;
  return FALSE;
}

/* Of all pages together, once they have been laid out. */
static double
get_length (Fixture *self)
{
  GtkWidget *desk = ui_test_find (GTK_WIDGET (self->window), CAV_TYPE_SHEET_DESK);
  GtkScrolledWindow *scroller = GTK_SCROLLED_WINDOW (ui_test_find (desk, GTK_TYPE_SCROLLED_WINDOW));

  return gtk_adjustment_get_upper (gtk_scrolled_window_get_vadjustment (scroller));
}

static void
test_turns_pages (Fixture *self, gconstpointer data)
{
  guint n;

  g_settings_set_string (cav_settings_get (), CAV_SETTING_SHEET, "all-sheets");
  ui_test_wait_for (count_pages (self) > 6);
  n = count_pages (self);
  ui_test_wait_for (get_length (self) > n * 300);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), ==, 0);
  ui_test_wait_for (has_label (GTK_WIDGET (self->window), "Page 1 of "));
  act (self, "sheets.next-page");
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), ==, 1);
  act (self, "sheets.next-page");
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), ==, 2);
  act (self, "sheets.previous-page");
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), ==, 1);
  g_assert_true (has_label (GTK_WIDGET (self->window), "Page 2 of "));
  act (self, "sheets.first-page");
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), ==, 0);
  act (self, "sheets.last-page");
  g_assert_cmpuint (cav_sheets_window_get_page (self->window), >=, n - 2);
}

static int
get_shown_width (Fixture *self)
{
  gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
  return gtk_widget_get_width (ui_test_find (GTK_WIDGET (self->window), CAV_TYPE_SHEET_PAGE));
}

static void
test_zoom (Fixture *self, gconstpointer data)
{
  int fitting = get_shown_width (self);

  act (self, "sheets.zoom-in");
  g_assert_cmpint (abs (get_shown_width (self) - (int)(fitting * 1.25)), <, 4);
  act (self, "sheets.zoom-out");
  act (self, "sheets.zoom-out");
  g_assert_cmpint (get_shown_width (self), <, fitting);
  act (self, "sheets.zoom-fit");
  g_assert_cmpint (abs (get_shown_width (self) - fitting), <=, 1);
}

/* Another project, another sheet: nothing stays that is not so any more. */
static void
test_follows_the_project (Fixture *self, gconstpointer data)
{
  cav_project_set_title (self->project, "Another name");
  ui_test_wait_for (count_pages (self) > 0 && has_text (get_page (self, 0), "Another name"));
}

static char *
run_text (const char *program, const char *file)
{
  const char *arguments[] = { program, file, "-", NULL };
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  if (g_str_equal (program, "pdfinfo"))
    arguments[2] = NULL;
  g_spawn_sync (NULL, (char **)arguments, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, &text, NULL, NULL,
                &error);
  g_assert_no_error (error);
  return text;
}

static void
kept_cb (GtkPrintOperation *operation, GtkPrintOperationResult result, gpointer user_data)
{
  *(GtkPrintOperationResult *)user_data = result;
}

/* The printer gets what is shown, through all of GTK's printing but the dialog: as many pages, each
 * of its own size, with the same words as the PDF that is saved. */
static void
test_prints (Fixture *self, gconstpointer data)
{
  g_autofree char *folder = g_dir_make_tmp ("cavetto-XXXXXX", NULL);
  g_autofree char *printed = g_build_filename (folder, "printed.pdf", NULL);
  g_autofree char *saved = g_build_filename (folder, "saved.pdf", NULL);
  GPtrArray *pages = cav_sheets_window_get_pages (self->window);
  g_autoptr (GBytes) pdf = cav_scene_create_pdf (pages, "Title", "Sheet", NULL, NULL);
  g_autoptr (GtkPrintOperation) operation
      = cav_print_operation_new (g_ptr_array_ref (pages), "Title", CAV_PAPER_A4);
  GtkPrintOperationResult result = GTK_PRINT_OPERATION_RESULT_ERROR;
  g_autoptr (GError) error = NULL;
  g_autofree char *pages_line = NULL;
  g_autofree char *info = NULL;
  g_autofree char *printed_text = NULL;
  g_autofree char *saved_text = NULL;

  g_signal_connect (operation, "done", G_CALLBACK (kept_cb), &result);
  gtk_print_operation_set_export_filename (operation, printed);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_EXPORT, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (result, ==, GTK_PRINT_OPERATION_RESULT_APPLY);
  g_assert_true (g_file_set_contents (saved, g_bytes_get_data (pdf, NULL),
                                      (gssize)g_bytes_get_size (pdf), &error));
  info = run_text ("pdfinfo", printed);
  pages_line = g_strdup_printf ("Pages:           %u\n", pages->len);
  g_assert_nonnull (strstr (info, pages_line));
  g_assert_nonnull (strstr (info, "841.8"));
  printed_text = run_text ("pdftotext", printed);
  saved_text = run_text ("pdftotext", saved);
  g_assert_cmpuint (strlen (saved_text), >, 500);
  g_assert_cmpstr (printed_text, ==, saved_text);
  g_remove (printed);
  g_remove (saved);
  g_rmdir (folder);
}

/* Printer and paper are kept, how often and which pages are not. */
static void
test_keeps_the_printer (Fixture *self, gconstpointer data)
{
  g_autoptr (GtkPrintSettings) chosen = gtk_print_settings_new ();
  g_autoptr (GtkPrintOperation) operation = NULL;
  GtkPrintSettings *recalled;

  gtk_print_settings_set_printer (chosen, "By the saw");
  gtk_print_settings_set_n_copies (chosen, 7);
  gtk_print_settings_set_quality (chosen, GTK_PRINT_QUALITY_DRAFT);
  operation = cav_print_operation_new (g_ptr_array_ref (cav_sheets_window_get_pages (self->window)),
                                       "Title", CAV_PAPER_A4);
  gtk_print_operation_set_print_settings (operation, chosen);
  cav_print_keep (operation);
  g_clear_object (&operation);
  operation = cav_print_operation_new (g_ptr_array_ref (cav_sheets_window_get_pages (self->window)),
                                       "Title", CAV_PAPER_LETTER);
  recalled = gtk_print_operation_get_print_settings (operation);
  g_assert_nonnull (recalled);
  g_assert_cmpstr (gtk_print_settings_get_printer (recalled), ==, "By the saw");
  g_assert_cmpint (gtk_print_settings_get_quality (recalled), ==, GTK_PRINT_QUALITY_DRAFT);
  g_assert_cmpint (gtk_print_settings_get_n_copies (recalled), ==, 1);
  g_assert_cmpstr (gtk_paper_size_get_name (gtk_page_setup_get_paper_size (
                       gtk_print_operation_get_default_page_setup (operation))),
                   ==, GTK_PAPER_NAME_LETTER);
}

/* Where the pages have gone is told. */
static void
test_tells_of_the_printer (Fixture *self, gconstpointer data)
{
  g_autoptr (GtkPrintSettings) chosen = gtk_print_settings_new ();
  g_autoptr (GtkPrintOperation) operation = cav_print_operation_new (
      g_ptr_array_ref (cav_sheets_window_get_pages (self->window)), "Fern passes", CAV_PAPER_A4);
  g_autofree char *printer = NULL;
  g_autofree char *file = NULL;

  gtk_print_settings_set_printer (chosen, "By the saw");
  gtk_print_operation_set_print_settings (operation, chosen);
  printer = cav_print_create_words (operation);
  g_assert_cmpstr (printer, ==, "Sent to the printer “By the saw”");
  gtk_print_settings_set (chosen, GTK_PRINT_SETTINGS_OUTPUT_URI, "file:///home/Fern%20passes.pdf");
  gtk_print_operation_set_print_settings (operation, chosen);
  file = cav_print_create_words (operation);
  g_assert_cmpstr (file, ==, "“Fern passes.pdf” is written to the folder “home”");
}

/* What cannot be milled has no pass sheet, and the window says so in its place. */
static void
test_nothing_to_print (Fixture *self, gconstpointer data)
{
  g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavBlank blank = cav_project_get_blank (self->project);
  GtkWidget *status;

  cut->numbers[CAV_CUT_POSITION] = blank.width / 2;
  cut->numbers[CAV_CUT_WIDTH] = 4;
  cut->numbers[CAV_CUT_DEPTH] = blank.thickness;
  cav_project_add_cut (self->project, cut);
  ui_test_wait_for (count_pages (self) == 0);
  status = ui_test_find (GTK_WIDGET (self->window), ADW_TYPE_STATUS_PAGE);
  g_assert_true (gtk_widget_get_mapped (status));
  g_assert_cmpuint (strlen (adw_status_page_get_description (ADW_STATUS_PAGE (status))), >, 10);
}

/* The menu's action opens one such window for a document, and no second one. */
static void
test_is_shown_once (void)
{
  CavDocument *document = ui_test_open_example ("plain-steps.cavetto");
  CavWindow *window = cav_window_new (ui_test_get_application (), document);
  guint shown = 0;
  GListModel *windows = gtk_window_get_toplevels ();

  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  for (int i = 0; i < 2; i++)
    g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.show-sheets", NULL));
  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWindow) toplevel = g_list_model_get_item (windows, i);

      shown += CAV_IS_SHEETS_WINDOW (toplevel) ? 1 : 0;
    }
  g_assert_cmpuint (shown, ==, 1);
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
  g_object_unref (document);
}

/* For eyes: CAV_PICTURES names a folder. */
static void
test_pictures (Fixture *self, gconstpointer data)
{
  const char *folder = g_getenv ("CAV_PICTURES");

  if (folder == NULL)
    {
      g_test_skip ("no folder for pictures");
      return;
    }
  gtk_window_set_default_size (GTK_WINDOW (self->window), 800, 600);
  for (int dark = 0; dark < 2; dark++)
    for (int sheet = 0; sheet < CAV_N_SHEET_CHOICES; sheet++)
      {
        g_autofree char *name
            = g_strdup_printf ("%s/sheets-%s-%s.png", folder, cav_sheet_choice_get (sheet)->id,
                               dark ? "dark" : "light");
        g_autoptr (GPtrArray) before = g_ptr_array_ref (cav_sheets_window_get_pages (self->window));

        adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                            dark ? ADW_COLOR_SCHEME_FORCE_DARK
                                                 : ADW_COLOR_SCHEME_FORCE_LIGHT);
        g_settings_set_string (cav_settings_get (), CAV_SETTING_SHEET,
                               cav_sheet_choice_get (sheet)->id);
        ui_test_wait_for (cav_sheets_window_get_pages (self->window) != before);
        gtk_test_widget_wait_for_draw (GTK_WIDGET (self->window));
        ui_test_take_picture (GTK_WIDGET (self->window), name);
      }
}

#define ADD(path_, data_, test_)                                                                   \
  g_test_add ("/ui/sheets-window/" path_, Fixture, data_, set_up, test_, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("sheets", "plain-steps.cavetto", test_sheets);
  ADD ("choices", "plain-steps.cavetto", test_choices);
  ADD ("note", "plain-steps.cavetto", test_note);
  ADD ("turns-pages", "plain-steps.cavetto", test_turns_pages);
  ADD ("zoom", "plain-steps.cavetto", test_zoom);
  ADD ("follows-the-project", "plain-steps.cavetto", test_follows_the_project);
  ADD ("prints", "plain-steps.cavetto", test_prints);
  ADD ("keeps-the-printer", "plain-steps.cavetto", test_keeps_the_printer);
  ADD ("tells-of-the-printer", "plain-steps.cavetto", test_tells_of_the_printer);
  ADD ("nothing-to-print", "plain-steps.cavetto", test_nothing_to_print);
  ADD ("pictures", "cove-and-bead.cavetto", test_pictures);
  g_test_add_func ("/ui/sheets-window/is-shown-once", test_is_shown_once);
  return g_test_run ();
}
