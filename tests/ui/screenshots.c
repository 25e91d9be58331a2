/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pictures of the windows in every state, for eyes: screenshots FOLDER [PREFIX [frame|lumber|
 * molding|windows|pages]]. It fails where a text of a widget is cut off. With the last word it
 * takes those of that page alone, of the windows around it, or one of each page. LETTERS=200 in the
 * environment is a desktop whose letters are twice as large. */
#include "app/cav-frame-page.h"
#include "app/cav-lumber-page.h"
#include "app/cav-section-canvas.h"
#include "app/cav-sheets-window.h"
#include "app/cav-shop-window.h"
#include "app/cav-start-window.h"
#include "app/cav-window.h"
#include "ui-test.h"

static const char *folder;
static const char *prefix = "";
static int n_cut; /* texts that were cut */

static CavWindow *
show (CavDocument *document, int width, int height)
{
  CavWindow *window = cav_window_new (ui_test_get_application (), document);

  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  gtk_window_present (GTK_WINDOW (window));
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  return window;
}

static void
let_pass (guint ms)
{
  gint64 end = g_get_monotonic_time () + (gint64)ms * 1000;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

static void
wait_for_plan (CavDocument *document)
{
  CavPlanRunner *runner = cav_document_get_runner (document);

  ui_test_wait_for (cav_plan_runner_get_state (runner) != CAV_PLAN_STATE_STALE);
  let_pass (300);
}

static void
look_for_cut_words (GtkWindow *window, const char *name)
{
  g_autoptr (GPtrArray) cut = ui_test_find_cut_words (GTK_WIDGET (window));

  for (guint i = 0; i < cut->len; i++)
    g_printerr ("%s%s: “%s” is cut off\n", prefix, name, (char *)g_ptr_array_index (cut, i));
  n_cut += (int)cut->len;
}

/* Takes the picture and closes the window. */
static void
take_window (GtkWindow *window, const char *name)
{
  g_autofree char *base = g_strdup_printf ("%s%s.png", prefix, name);
  g_autofree char *file_name = g_build_filename (folder, base, NULL);

  let_pass (300);
  ui_test_take_picture (GTK_WIDGET (window), file_name);
  look_for_cut_words (window, name);
  gtk_window_destroy (window);
  ui_test_settle ();
}

static void
take (CavWindow *window, const char *name)
{
  take_window (GTK_WINDOW (window), name);
}

static void
take_empty (int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = cav_document_new ();
  CavWindow *window = show (document, width, height);

  wait_for_plan (document);
  take (window, name);
}

static void
take_example (const char *example, int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example (example);
  CavWindow *window = show (document, width, height);

  wait_for_plan (document);
  take (window, name);
}

static void
take_cut_chosen (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = show (document, 1200, 800);

  wait_for_plan (document);
  cav_selection_choose_cut (cav_document_get_selection (document), 1);
  take (window, "cut-chosen");
}

static GtkEventController *
find_controller (GtkWidget *widget, const char *name, GType type)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (g_strcmp0 (gtk_event_controller_get_name (controller), name) == 0
          && G_TYPE_CHECK_INSTANCE_TYPE (controller, type))
        return controller;
    }
  g_error ("There is no controller “%s”.", name);
}

/* A cove that offers itself at the corner, or, where it is dragged so far, mm, its ghost. The hand
 * does not let go. */
static void
take_drawing (double dx, double dy, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavProject *project = cav_document_get_project (document);
  CavBlank blank = cav_project_get_blank (project);
  CavWindow *window = show (document, 1200, 800);
  GtkWidget *canvas = ui_test_find (GTK_WIDGET (window), CAV_TYPE_SECTION_CANVAS);
  CavView view = cav_section_canvas_get_view (CAV_SECTION_CANVAS (canvas));
  CavPoint corner;

  for (guint i = cav_project_get_cut_count (project); i-- > 0;)
    if (cav_project_get_cut (project, i)->kind == CAV_CUT_ROUND)
      cav_project_remove_cut (project, i);
  wait_for_plan (document);
  view = cav_section_canvas_get_view (CAV_SECTION_CANVAS (canvas));
  corner = cav_view_to_pixel (&view, CAV_POINT (blank.width, blank.thickness));
  cav_selection_set_kind (cav_document_get_selection (document), CAV_CUT_ROUND);
  g_signal_emit_by_name (find_controller (canvas, NULL, GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion",
                         corner.x - 3, corner.y + 3);
  if (dx > 0)
    {
      GtkEventController *hand = find_controller (canvas, "draw", GTK_TYPE_GESTURE_DRAG);

      g_signal_emit_by_name (hand, "drag-begin", corner.x, corner.y);
      for (int i = 1; i <= 5; i++)
        g_signal_emit_by_name (hand, "drag-update", -dx * view.scale * i / 5,
                               dy * view.scale * i / 5);
      wait_for_plan (document);
    }
  take (window, name);
}

static void
take_pass (int pass, int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = show (document, width, height);

  wait_for_plan (document);
  cav_selection_set_pass (cav_document_get_selection (document), pass);
  take (window, name);
}

/* (transfer full) A slot that is wider within, as for a bolt's head: no straight tool gets there.
 */
static CavCut *
create_undercut (void)
{
  static const double CORNERS[][2] = { { 26, 0 },  { 26, 4 }, { 21, 4 }, { 21, 10 },
                                       { 35, 10 }, { 35, 4 }, { 30, 4 }, { 30, 0 } };
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (CORNERS[0][0], CORNERS[0][1]));
  for (guint i = 1; i < G_N_ELEMENTS (CORNERS); i++)
    cav_path_line_to (path, CAV_POINT (CORNERS[i][0], CORNERS[i][1]));
  cav_path_close (path);
  return cav_cut_new_drawn (path);
}

static void
take_finding (int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavPlanRunner *runner = cav_document_get_runner (document);
  g_autoptr (CavCut) cut = create_undercut ();
  CavWindow *window = show (document, width, height);
  const CavPlan *plan;

  cav_project_add_cut (cav_document_get_project (document), cut);
  wait_for_plan (document);
  plan = cav_plan_runner_get_plan (runner);
  /* A picture without what it is taken for would tell nobody. */
  g_assert_true (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT && plan != NULL
                 && plan->places->len > 0);
  take (window, name);
}

/* A cut through the whole blank: there is no plan, and the last one is stale. */
static void
take_failed (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  CavProject *project = cav_document_get_project (document);
  g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavWindow *window = show (document, 1200, 800);

  wait_for_plan (document);
  cut->numbers[CAV_CUT_POSITION] = cav_project_get_blank (project).width / 2;
  cut->numbers[CAV_CUT_DEPTH] = cav_project_get_blank (project).thickness;
  cav_project_add_cut (project, cut);
  wait_for_plan (document);
  take (window, "failed");
}

static void
set_unit (const char *unit)
{
  g_action_group_activate_action (G_ACTION_GROUP (ui_test_get_application ()), "unit",
                                  g_variant_new_string (unit));
}

static void
take_inches (void)
{
  set_unit ("inch-32");
  take_pass (2, 1200, 800, "inches");
  set_unit ("mm");
}

static void
take_dark (void)
{
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_DARK);
  take_example ("cove-and-bead.cavetto", 1200, 800, "dark");
  take_pass (1, 1200, 800, "dark-pass");
  take_finding (1200, 800, "dark-finding");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_LIGHT);
}

/* The page of the frame in one of its views, with what was measured unfolded. */
static void
take_frame (const char *view, int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavProject *project = cav_document_get_project (document);
  CavWindow *window = show (document, width, height);
  g_autoptr (CavFrameSettings) settings
      = cav_frame_settings_copy (cav_project_get_frame_settings (project));
  GtkWidget *expander;

  settings->dry_fit.has_gaps = TRUE;
  settings->dry_fit.gap_left = 6.5;
  cav_frame_settings_set_picture_file (settings, "gone.png");
  cav_project_set_frame_settings (project, settings);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", "frame");
  ui_test_settle ();
  g_object_set (ui_test_find (GTK_WIDGET (window), CAV_TYPE_FRAME_PAGE), "view", view, NULL);
  expander = ui_test_find (GTK_WIDGET (window), ADW_TYPE_EXPANDER_ROW);
  g_object_set (expander, "expanded", TRUE, NULL);
  wait_for_plan (document);
  let_pass (800);
  take (window, name);
}

static void
take_frame_page (void)
{
  take_frame ("wall", 1200, 800, "frame");
  take_frame ("through", 1200, 800, "frame-through");
  take_frame ("mitre", 1200, 800, "frame-mitre");
  take_frame ("wall", 800, 600, "small-frame");
  take_frame ("mitre", 800, 600, "small-frame-mitre");
  take_frame ("through", 800, 600, "small-frame-through");
  set_unit ("inch-32");
  take_frame ("wall", 800, 600, "inches-frame");
  take_frame ("mitre", 800, 600, "inches-frame-mitre");
  take_frame ("through", 800, 600, "inches-frame-through");
  set_unit ("mm");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_DARK);
  take_frame ("wall", 1200, 800, "dark-frame");
  take_frame ("through", 1200, 800, "dark-frame-through");
  take_frame ("mitre", 1200, 800, "dark-frame-mitre");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_LIGHT);
}

static void
unfold_rows (GtkWidget *widget, guint *inout_n)
{
  if (ADW_IS_EXPANDER_ROW (widget) && *inout_n > 0)
    {
      adw_expander_row_set_expanded (ADW_EXPANDER_ROW (widget), TRUE);
      (*inout_n)--;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    unfold_rows (child, inout_n);
}

/* n_unfolded: rows of boards that are open, to see what they hold. */
static void
take_lumber (
    const char *example, int frames, guint n_unfolded, int width, int height, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example (example);
  CavProject *project = cav_document_get_project (document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));
  CavWindow *window = show (document, width, height);

  lumber->frames = frames;
  cav_project_set_lumber (project, lumber);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", "lumber");
  ui_test_settle ();
  unfold_rows (GTK_WIDGET (ui_test_find (GTK_WIDGET (window), CAV_TYPE_LUMBER_PAGE)), &n_unfolded);
  wait_for_plan (document);
  let_pass (800);
  take (window, name);
}

/* Another project on the same boards, boards that can be bought, and too little of all. */
static void
take_lumber_joined (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavProject *project = cav_document_get_project (document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));
  CavBoardJob *job = cav_board_job_new (lumber, "Fern, A4", 45.0, 22.0, 45.0);
  CavBoard *stock = cav_board_copy (g_ptr_array_index (lumber->boards, 1));
  CavWindow *window = show (document, 1200, 1000);

  cav_board_job_set_rectangle (job, 290.0, 377.0);
  job->frames = 3;
  g_ptr_array_add (lumber->joined, job);
  stock->count = 0;
  g_ptr_array_add (lumber->stock, stock);
  cav_project_set_lumber (project, lumber);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", "lumber");
  wait_for_plan (document);
  let_pass (1200);
  take (window, "lumber-joined");
}

/* More than is laid out in half a second: what is seen meanwhile. */
static void
take_lumber_busy (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("plain-steps.cavetto");
  CavProject *project = cav_document_get_project (document);
  CavBoardRunner *runner = cav_document_get_board_runner (document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));
  CavWindow *window = show (document, 1200, 800);
  gint64 end;

  for (int i = 0; i < 300; i++)
    {
      CavBoard *board = cav_board_copy (g_ptr_array_index (lumber->boards, i % 2));

      board->length += 7 * (i % 40);
      board->width += i % 37;
      g_ptr_array_add (lumber->boards, board);
    }
  lumber->frames = 300;
  lumber->order = CAV_GRAIN_PAIRS;
  wait_for_plan (document);
  cav_project_set_lumber (project, lumber);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-page", "s", "lumber");
  end = g_get_monotonic_time () + 1500000;
  while (g_get_monotonic_time () < end && cav_board_runner_get_progress (runner) < 1.0)
    g_main_context_iteration (NULL, FALSE);
  take (window, "lumber-busy");
}

static void
take_lumber_page (void)
{
  take_lumber_joined ();
  take_lumber_busy ();
  take_lumber ("cove-and-bead.cavetto", 1, 2, 1200, 1400, "lumber-unfolded");
  take_lumber ("cove-and-bead.cavetto", 1, 0, 1200, 800, "lumber");
  take_lumber ("plain-steps.cavetto", 4, 0, 1200, 800, "lumber-four");
  take_lumber ("wide-scoop.cavetto", 6, 0, 1200, 800, "lumber-missing");
  take_lumber ("cove-and-bead.cavetto", 1, 0, 800, 600, "small-lumber");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_DARK);
  take_lumber ("cove-and-bead.cavetto", 2, 0, 1200, 800, "dark-lumber");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_LIGHT);
}

static void
take_start (const char *name)
{
  GtkWindow *window = cav_start_window_new (ui_test_get_application ());

  gtk_window_present (window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  let_pass (4000);
  take_window (window, name);
}

/* action, with its parameter or NULL: what is shown of the shop; NULL: its tools. */
static void
take_shop (const char *action, const char *parameter, const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  GtkWindow *window = GTK_WINDOW (cav_shop_window_new (document, NULL));
  GVariant *value = parameter != NULL ? g_variant_new_string (parameter) : NULL;

  gtk_window_present (window);
  gtk_test_widget_wait_for_draw (GTK_WIDGET (window));
  if (action != NULL)
    gtk_widget_activate_action_variant (GTK_WIDGET (window), action, value);
  take_window (window, name);
}

static void
take_sheets (const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavSheetsWindow *window = cav_sheets_window_new (document, NULL);

  gtk_window_present (GTK_WINDOW (window));
  cav_plan_runner_start (cav_document_get_runner (document));
  ui_test_wait_for (cav_sheets_window_get_pages (window)->len > 0);
  take_window (GTK_WINDOW (window), name);
}

static void
take_keys (const char *name)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  CavWindow *window = show (document, 1200, 800);
  GtkWindow *keys;

  gtk_widget_activate_action (GTK_WIDGET (window), "win.show-keys", NULL);
  keys = gtk_application_get_active_window (ui_test_get_application ());
  for (GList *link = gtk_window_list_toplevels (); link != NULL; link = link->next)
    if (GTK_IS_SHORTCUTS_WINDOW (link->data))
      keys = link->data;
  g_object_ref (keys);
  take_window (keys, name);
  g_object_unref (keys);
  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
}

static void
take_windows (void)
{
  g_autoptr (CavDocument) document = ui_test_open_example ("cove-and-bead.cavetto");
  const CavShop *shop = cav_project_get_shop (cav_document_get_project (document));
  const CavCutter *cutter = g_ptr_array_index (shop->cutters, 0);
  const CavBlade *blade = g_ptr_array_index (shop->blades, 0);

  take_start ("start");
  take_shop (NULL, NULL, "shop");
  take_shop ("shop.edit-tool", cutter->id, "shop-cutter");
  take_shop ("shop.edit-tool", blade->id, "shop-blade");
  take_sheets ("sheets");
  take_keys ("keys");
}

/* One picture of each page, of what is chosen on it, and of each window. */
static void
take_pages (void)
{
  take_example ("cove-and-bead.cavetto", 1200, 900, "page-molding");
  take_cut_chosen ();
  take_pass (2, 1200, 800, "pass");
  take_finding (1200, 800, "finding");
  take_frame ("wall", 1200, 900, "page-frame");
  take_frame ("through", 1200, 900, "page-frame-through");
  take_frame ("mitre", 1200, 900, "page-frame-mitre");
  take_lumber ("cove-and-bead.cavetto", 1, 1, 1200, 900, "page-lumber");
  take_windows ();
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  /* A picture is of what stays, not of one page fading into the next. */
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  if (g_getenv ("LETTERS") != NULL)
    g_object_set (gtk_settings_get_default (), "gtk-xft-dpi",
                  (int)(96 * 1024 * g_ascii_strtoll (g_getenv ("LETTERS"), NULL, 10) / 100), NULL);
  g_assert_cmpint (argc, >=, 2);
  folder = argv[1];
  if (argc > 2)
    prefix = argv[2];
  if (argc < 4 || g_str_equal (argv[3], "frame"))
    take_frame_page ();
  if (argc < 4 || g_str_equal (argv[3], "lumber"))
    take_lumber_page ();
  if (argc < 4 || g_str_equal (argv[3], "windows"))
    take_windows ();
  if (argc > 3 && g_str_equal (argv[3], "pages"))
    take_pages ();
  if (argc > 3 && !g_str_equal (argv[3], "molding"))
    return n_cut > 0 ? 1 : 0;
  take_empty (1200, 800, "empty");
  take_example ("plain-steps.cavetto", 1200, 800, "steps");
  take_example ("cove-and-bead.cavetto", 1200, 800, "cove");
  take_example ("wide-scoop.cavetto", 1200, 800, "scoop");
  take_cut_chosen ();
  take_drawing (0, 0, "offer");
  take_drawing (6.2, 6.2, "drawing");
  take_pass (2, 1200, 800, "pass");
  take_finding (1200, 800, "finding");
  take_finding (800, 600, "small-finding");
  take_failed ();
  take_inches ();
  take_example ("cove-and-bead.cavetto", 800, 600, "small");
  take_pass (0, 800, 600, "small-pass");
  take_example ("cove-and-bead.cavetto", 2560, 1440, "large");
  take_pass (1, 2560, 1440, "large-pass");
  take_dark ();
  return n_cut > 0 ? 1 : 0;
}
