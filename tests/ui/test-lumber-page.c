/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-canvas.h"
#include "app/cav-board-row.h"
#include "app/cav-boards-panel.h"
#include "app/cav-figure-row.h"
#include "app/cav-findings.h"
#include "app/cav-joined-panel.h"
#include "app/cav-lumber-page.h"
#include "app/cav-span-row.h"
#include "drawing/cav-board-map.h"
#include "ui-test.h"

#include "layout-checker.h"

#include <string.h>

typedef struct
{
  CavDocument *document;
  GtkWindow *window;
  GtkWidget *page;
  GtkWidget *canvas;
} Fixture;

/* Two boards, two frames whose rails are laid one by one. */
static void
set_lumber (CavProject *project)
{
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  CavBoard *board = cav_board_new ();

  board->count = 3;
  g_ptr_array_add (lumber->boards, board);
  lumber->frames = 2;
  lumber->order = CAV_GRAIN_FREE;
  cav_project_set_lumber (project, lumber);
  cav_project_set_frame_settings (project, settings);
}

static const CavLumber *
get_lumber (Fixture *fixture)
{
  return cav_project_get_lumber (cav_document_get_project (fixture->document));
}

static void
set_up (Fixture *fixture, gconstpointer data)
{
  fixture->document = ui_test_open_example ("plain-steps.cavetto");
  set_lumber (cav_document_get_project (fixture->document));
  fixture->page = g_object_new (CAV_TYPE_LUMBER_PAGE, "document", fixture->document, NULL);
  fixture->window = ui_test_show (fixture->page, 1100, 700);
  fixture->canvas = ui_test_find (fixture->page, CAV_TYPE_BOARD_CANVAS);
  g_assert_nonnull (fixture->canvas);
  /* Its height is that of the boards as soon as they are laid out. */
  ui_test_wait_for (
      gtk_widget_get_height (fixture->canvas) > 75
      && cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document)) != NULL);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  CavBoardRunner *runner = cav_document_get_board_runner (fixture->document);

  /* Whatever the page was used for: what it shows in the end is a layout. */
  if (cav_board_runner_get_progress (runner) >= 1.0 && cav_board_runner_get_layout (runner) != NULL)
    assert_layout (get_lumber (fixture), cav_board_runner_get_layout (runner));
  g_object_ref (fixture->page);
  gtk_window_destroy (fixture->window);
  ui_test_settle ();
  ui_test_finalize (fixture->page);
  g_object_unref (fixture->document);
}

static guint
count_rows (GtkWidget *root)
{
  guint n = CAV_IS_BOARD_ROW (root) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

static void
test_rows (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);

  g_assert_cmpuint (count_rows (fixture->page), ==, 1);
  gtk_widget_activate_action (fixture->page, "lumber.add-board", NULL);
  g_assert_cmpuint (get_lumber (fixture)->boards->len, ==, 2);
  g_assert_cmpuint (count_rows (fixture->page), ==, 2);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (count_rows (fixture->page), ==, 1);
  g_assert_true (cav_project_redo (project));
  g_signal_emit_by_name (ui_test_find (fixture->page, CAV_TYPE_BOARD_ROW), "removed");
  g_assert_cmpuint (get_lumber (fixture)->boards->len, ==, 1);
}

/* A rail that is dragged along its strip, by the gesture's own signals. */
static void
test_drag (Fixture *fixture, gconstpointer data)
{
  GtkEventController *drag = ui_test_get_controller (fixture->canvas, GTK_TYPE_GESTURE_DRAG);
  CavProject *project = cav_document_get_project (fixture->document);
  const CavBoardPin *pin;

  /* The lowest strip of the first board, 12 pixels around and 3.6 for each mm of the drawing. */
  const double width = gtk_widget_get_width (fixture->canvas) - 24.0;
  const double scale = width / 2400.0;
  CavBoardRunner *runner = cav_document_get_board_runner (fixture->document);
  const CavPlan *plan = cav_plan_runner_get_plan (cav_document_get_runner (fixture->document));
  CavBoardLayout *layout = cav_board_runner_get_layout (runner);
  g_autoptr (CavBoardMap) map = cav_board_map_new (layout, width / 3.6, TRUE);
  const CavBox strip = cav_board_map_get_piece_box (map, layout, 0, 0, 25.0, 100.0);
  const double y = 12.0 + 3.6 * (strip.y0 + strip.y1) / 2.0;

  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
  /* Sheets are drawn with this layout for as long as it is that of the project. */
  ui_test_wait_for (cav_board_runner_get_layout_for (runner, plan) == layout);
  g_signal_emit_by_name (drag, "drag-begin", 60.0, y);
  g_signal_emit_by_name (drag, "drag-update", 200.0, 0.0);
  g_signal_emit_by_name (drag, "drag-end", 200.0, 0.0);
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 1);
  g_assert_null (cav_board_runner_get_layout_for (runner, plan));
  pin = &g_array_index (get_lumber (fixture)->pins, CavBoardPin, 0);
  g_assert_cmpint (pin->strip, ==, 0);
  /* The first rail began behind the trimmed end, 200 pixels further left. */
  g_assert_cmpfloat (pin->from, >, 25.0 + 200.0 / scale - 2.0);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
}

/* Where a face of the drawing stands on the canvas, at a place of its lowest strip. */
static CavPoint
find_on_canvas (Fixture *fixture, const CavBoardLayout *layout, guint face_index, double at)
{
  const double pixels = 3.6;
  g_autoptr (CavBoardMap) map
      = cav_board_map_new (layout, (gtk_widget_get_width (fixture->canvas) - 24) / pixels, TRUE);
  const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, face_index);
  const CavBox box = cav_board_map_get_piece_box (map, layout, face_index, 0, at, 0.0);

  g_assert_cmpuint (face_index, <, map->faces->len);
  g_assert_cmpint (face->layer, ==, 0);
  return CAV_POINT (12.0 + pixels * box.x0, 12.0 + pixels * 0.5 * (box.y0 + box.y1));
}

static CavBoardLayout *
get_layout (Fixture *fixture)
{
  return cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document));
}

/* A rail, and a whole run, onto a board that nothing lies on: it is opened for them. */
static void
test_drag_to_idle (Fixture *fixture, gconstpointer data)
{
  static const CavGrainOrder orders[] = { CAV_GRAIN_FREE, CAV_GRAIN_RUNNING };
  GtkEventController *drag = ui_test_get_controller (fixture->canvas, GTK_TYPE_GESTURE_DRAG);
  CavProject *project = cav_document_get_project (fixture->document);

  for (guint i = 0; i < G_N_ELEMENTS (orders); i++)
    {
      g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));
      const CavLaidBoard *first;
      const CavLaidBoard *idle;
      const CavPlacedPiece *piece;
      guint used;
      int idle_copy;
      int frame;
      int rail;
      CavPoint from;
      CavPoint to;
      CavBoardPin pin;
      gboolean bought;

      lumber->order = orders[i];
      lumber->frames = 1;
      lumber->test = 0.0;
      cav_project_set_lumber (project, lumber);
      ui_test_wait_for (get_layout (fixture)->totals.pieces == 4
                        && ((CavBoardJob *)g_ptr_array_index (get_layout (fixture)->jobs, 0))->order
                               == orders[i]);
      ui_test_settle ();
      used = get_layout (fixture)->boards->len;
      g_assert_cmpuint (get_layout (fixture)->idle->len, >, 0);
      first = g_ptr_array_index (get_layout (fixture)->boards, 0);
      idle = cav_board_layout_get_board (get_layout (fixture), used);
      idle_copy = idle->copy;
      piece
          = &g_array_index (((CavLane *)g_ptr_array_index (
                                 ((CavLaidStrip *)g_ptr_array_index (first->strips, 0))->lanes, 0))
                                ->pieces,
                            CavPlacedPiece, 0);
      frame = piece->frame;
      rail = piece->rail;
      from = find_on_canvas (fixture, get_layout (fixture), 0, piece->from + 60.0);
      to = find_on_canvas (fixture, get_layout (fixture), used, piece->from + 160.0);
      g_signal_emit_by_name (drag, "drag-begin", from.x, from.y);
      g_signal_emit_by_name (drag, "drag-update", to.x - from.x, to.y - from.y);
      g_signal_emit_by_name (drag, "drag-end", to.x - from.x, to.y - from.y);
      g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 1);
      ui_test_wait_for (cav_board_layout_find (get_layout (fixture), 0, frame, rail, &pin, &bought)
                        && pin.copy == idle_copy);
      g_assert_false (bought);
      g_assert_cmpint (pin.strip, ==, 0);
      g_assert_cmpfloat_with_epsilon (
          pin.from, g_array_index (get_lumber (fixture)->pins, CavBoardPin, 0).from, 1.0);
      g_assert_cmpint (get_layout (fixture)->totals.pieces, ==, 4);
      /* A run comes as a whole, so that the other board is free. */
      if (orders[i] == CAV_GRAIN_RUNNING)
        g_assert_cmpuint (get_layout (fixture)->boards->len, ==, 1);
      g_assert_true (cav_project_undo (project));
      ui_test_wait_for (cav_board_layout_find (get_layout (fixture), 0, frame, rail, &pin, &bought)
                        && pin.copy != idle_copy);
    }
}

static gboolean
press (Fixture *fixture, guint key, GdkModifierType state)
{
  GtkEventController *keys
      = ui_test_get_controller (fixture->canvas, GTK_TYPE_EVENT_CONTROLLER_KEY);
  gboolean taken = FALSE;

  g_signal_emit_by_name (keys, "key-pressed", key, 0, state, &taken);
  return taken;
}

/* Chosen, moved, set free, and all of it undone. */
static void
test_keys (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  const CavBoardPin *pin;
  double from;

  g_assert_false (press (fixture, GDK_KEY_Delete, 0));
  g_assert_false (press (fixture, GDK_KEY_Right, GDK_ALT_MASK));
  g_assert_true (press (fixture, GDK_KEY_Right, 0));
  g_assert_true (press (fixture, GDK_KEY_Right, GDK_ALT_MASK));
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 1);
  pin = &g_array_index (get_lumber (fixture)->pins, CavBoardPin, 0);
  from = pin->from;
  g_assert_cmpfloat (from, >=, 10.0);
  g_assert_true (press (fixture, GDK_KEY_Delete, 0));
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 1);
  gtk_widget_activate_action (fixture->page, "lumber.free-all", NULL);
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
  g_assert_true (press (fixture, GDK_KEY_Escape, 0));
  g_assert_false (press (fixture, GDK_KEY_Escape, 0));
  g_assert_false (press (fixture, GDK_KEY_a, 0));
}

/* (transfer none) The first widget below root of which is_wanted says so. */
static GtkWidget *
find_where (GtkWidget *root, gboolean (*is_wanted) (GtkWidget *, const char *), const char *text)
{
  GtkWidget *found = is_wanted (root, text) ? root : NULL;

  for (GtkWidget *child = gtk_widget_get_first_child (root); found == NULL && child != NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_where (child, is_wanted, text);
  return found;
}

static gboolean
is_row_called (GtkWidget *widget, const char *title)
{
  return ADW_IS_PREFERENCES_ROW (widget) && gtk_widget_get_visible (widget)
         && g_strcmp0 (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), title) == 0;
}

static gboolean
is_button_called (GtkWidget *widget, const char *label)
{
  return GTK_IS_BUTTON (widget)
         && (g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0
             || g_strcmp0 (gtk_widget_get_tooltip_text (widget), label) == 0);
}

static GtkWidget *
find_row (GtkWidget *root, const char *title)
{
  GtkWidget *row = find_where (root, is_row_called, title);

  g_test_message ("row “%s”", title);
  g_assert_nonnull (row);
  return row;
}

static void
click (GtkWidget *root, const char *label)
{
  GtkWidget *button = find_where (root, is_button_called, label);

  g_test_message ("button “%s”", label);
  g_assert_nonnull (button);
  g_signal_emit_by_name (button, "clicked");
}

static void
type (GtkWidget *root, const char *title, const char *text)
{
  CavFigureRow *row = CAV_FIGURE_ROW (find_row (root, title));

  gtk_editable_set_text (cav_figure_row_get_editable (row), text);
  g_assert_true (cav_figure_row_apply (row));
}

static const CavBoard *
get_board (Fixture *fixture, guint row)
{
  return g_ptr_array_index (get_lumber (fixture)->boards, row);
}

/* A knot is added, placed and taken off, each a step that can be undone. */
static void
test_defect (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  GtkWidget *row = ui_test_find (fixture->page, CAV_TYPE_BOARD_ROW);
  GtkWidget *span;
  const CavBoardSpan *knot;

  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  click (row, "Add a defect");
  g_assert_cmpuint (get_board (fixture, 0)->spans->len, ==, 1);
  span = ui_test_find (row, CAV_TYPE_SPAN_ROW);
  /* The wrong way round: exchanged. */
  type (span, "Begins at", "960");
  type (span, "Ends at", "900");
  type (span, "Lower edge at", "20");
  g_assert_cmpfloat_with_epsilon (
      g_array_index (get_board (fixture, 0)->spans, CavBoardSpan, 0).high, 150.0, 1e-9);
  type (span, "Upper edge at", "45");
  knot = &g_array_index (get_board (fixture, 0)->spans, CavBoardSpan, 0);
  g_assert_false (knot->clear);
  g_assert_cmpfloat_with_epsilon (knot->from, 900.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (knot->low, 20.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (knot->high, 45.0, 1e-9);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpfloat_with_epsilon (
      g_array_index (get_board (fixture, 0)->spans, CavBoardSpan, 0).high, 150.0, 1e-9);
  g_assert_true (cav_project_redo (project));
  click (ui_test_find (row, CAV_TYPE_SPAN_ROW), "Take this stretch off");
  g_assert_cmpuint (get_board (fixture, 0)->spans->len, ==, 0);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (get_board (fixture, 0)->spans->len, ==, 1);
  g_assert_nonnull (ui_test_find (row, CAV_TYPE_SPAN_ROW));
}

static void
test_clear_stretch (Fixture *fixture, gconstpointer data)
{
  GtkWidget *row = ui_test_find (fixture->page, CAV_TYPE_BOARD_ROW);

  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  click (row, "Add a clear stretch");
  g_assert_true (g_array_index (get_board (fixture, 0)->spans, CavBoardSpan, 0).clear);
  adw_combo_row_set_selected (ADW_COMBO_ROW (find_row (row, "The wood here is")), 0);
  g_assert_false (g_array_index (get_board (fixture, 0)->spans, CavBoardSpan, 0).clear);
}

/* What can be bought, with its price, and what is missing comes out of it. */
static void
test_stock (Fixture *fixture, gconstpointer data)
{
  GtkWidget *panel;
  GtkWidget *row;
  const CavBoard *board;

  gtk_widget_activate_action (fixture->page, "lumber.add-stock", NULL);
  g_assert_cmpuint (get_lumber (fixture)->stock->len, ==, 1);
  panel = gtk_widget_get_next_sibling (ui_test_find (fixture->page, CAV_TYPE_BOARDS_PANEL));
  g_assert_true (CAV_IS_BOARDS_PANEL (panel));
  row = ui_test_find (panel, CAV_TYPE_BOARD_ROW);
  adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
  type (row, "Length", "3000");
  adw_combo_row_set_selected (ADW_COMBO_ROW (find_row (row, "Price is")), CAV_PRICE_METRE);
  type (row, "Price", "4.50");
  board = g_ptr_array_index (get_lumber (fixture)->stock, 0);
  g_assert_cmpint (board->count, ==, 0);
  g_assert_cmpfloat_with_epsilon (board->length, 3000.0, 1e-9);
  g_assert_cmpint (board->basis, ==, CAV_PRICE_METRE);
  g_assert_cmpfloat_with_epsilon (board->price, 4.5, 1e-9);
  type (fixture->page, "Equal frames", "40");
  ui_test_wait_for (
      find_where (fixture->page, is_button_called, "nothing") == NULL
      && cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document))
                 ->purchases->len
             == 1);
}

/* Every figure of the sawing, and what means nothing is not shown. */
static void
test_sawing (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  static const struct
  {
    const char *title;
    gsize offset;
  } rows[] = {
    { "Length for trial cuts", G_STRUCT_OFFSET (CavLumber, test) },
    { "Spare length", G_STRUCT_OFFSET (CavLumber, spare) },
    { "Longer than the rail by", G_STRUCT_OFFSET (CavLumber, square_extra) },
    { "Kerf", G_STRUCT_OFFSET (CavLumber, kerf) },
    { "Off the edge", G_STRUCT_OFFSET (CavLumber, jointing) },
    { "Strips wider by", G_STRUCT_OFFSET (CavLumber, strip_extra) },
    { "Off the faces", G_STRUCT_OFFSET (CavLumber, planing) },
    { "Shortest piece", G_STRUCT_OFFSET (CavLumber, shortest) },
    { "Offcuts from", G_STRUCT_OFFSET (CavLumber, useful) },
    { "Kerf of resawing", G_STRUCT_OFFSET (CavLumber, resaw_kerf) },
    { "Off each sawn face", G_STRUCT_OFFSET (CavLumber, resaw_planing) },
  };
  GtkWidget *square = find_row (fixture->page, "Cut square first");
  GtkWidget *resaw = find_row (fixture->page, "Resaw thick boards");

  g_assert_null (find_where (fixture->page, is_row_called, "Longer than the rail by"));
  gtk_switch_set_active (
      GTK_SWITCH (adw_action_row_get_activatable_widget (ADW_ACTION_ROW (square))), TRUE);
  g_assert_true (get_lumber (fixture)->square_first);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = g_strdup_printf ("%u", 5 + i);

      type (fixture->page, rows[i].title, text);
      g_assert_cmpfloat_with_epsilon (
          G_STRUCT_MEMBER (double, get_lumber (fixture), rows[i].offset), 5.0 + i, 1e-9);
    }
  gtk_switch_set_active (
      GTK_SWITCH (adw_action_row_get_activatable_widget (ADW_ACTION_ROW (resaw))), FALSE);
  g_assert_null (find_where (fixture->page, is_row_called, "Kerf of resawing"));
  adw_combo_row_set_selected (ADW_COMBO_ROW (find_row (fixture->page, "Grain")), CAV_GRAIN_RUNNING);
  adw_combo_row_set_selected (
      ADW_COMBO_ROW (find_row (fixture->page, "Corner that does not match")), 1);
  g_assert_cmpint (get_lumber (fixture)->run_start, ==, 1);
  while (cav_project_undo (project))
    ;
  g_assert_false (get_lumber (fixture)->square_first);
}

/* Another project's file is copied in, kept through a save of it, and read again when asked. */
static void
test_join (Fixture *fixture, gconstpointer data)
{
  CavJoinedPanel *panel = CAV_JOINED_PANEL (ui_test_find (fixture->page, CAV_TYPE_JOINED_PANEL));
  g_autofree char *path
      = g_build_filename (g_getenv ("CAV_EXAMPLES"), "cove-and-bead.cavetto", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (path);
  const CavBoardJob *job;

  cav_joined_panel_join (panel, file);
  ui_test_wait_for (get_lumber (fixture)->joined->len == 1);
  job = g_ptr_array_index (get_lumber (fixture)->joined, 0);
  g_assert_cmpstr (job->file, ==, "cove-and-bead.cavetto");
  g_assert_cmpint (job->n_rails, ==, 4);
  g_assert_cmpfloat_with_epsilon (job->width, 50.0, 1e-6);
  type (GTK_WIDGET (panel), "Equal frames", "2");
  ui_test_wait_for (
      cav_board_runner_get_layout (cav_document_get_board_runner (fixture->document))->jobs->len
      == 2);
  cav_joined_panel_refresh (panel, 0);
  ui_test_wait_for (gtk_widget_get_sensitive (
      find_where (GTK_WIDGET (panel), is_button_called, "Join another project")));
  job = g_ptr_array_index (get_lumber (fixture)->joined, 0);
  g_assert_cmpint (job->frames, ==, 2);
  click (GTK_WIDGET (panel), "Take off the boards");
  g_assert_cmpuint (get_lumber (fixture)->joined->len, ==, 0);
  g_assert_true (cav_project_undo (cav_document_get_project (fixture->document)));
  g_assert_cmpuint (get_lumber (fixture)->joined->len, ==, 1);
}

/* A finding leads to the board that it speaks of. */
static void
test_finding_leads (Fixture *fixture, gconstpointer data)
{
  GtkWidget *row;
  GtkWidget *focus;

  gtk_widget_activate_action (fixture->page, "lumber.add-board", NULL);
  gtk_widget_activate_action (fixture->page, "lumber.show-finding", "(si)", "lumber-board-unfit",
                              1);
  focus = gtk_window_get_focus (fixture->window);
  row = gtk_widget_get_ancestor (focus, CAV_TYPE_BOARD_ROW);
  g_assert_nonnull (row);
  g_assert_true (adw_expander_row_get_expanded (ADW_EXPANDER_ROW (row)));
  g_assert_cmpstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row)), ==, "Board 2");
  gtk_widget_activate_action (fixture->page, "lumber.show-finding", "(si)", "lumber-order", -1);
  focus = gtk_window_get_focus (fixture->window);
  g_assert_nonnull (gtk_widget_get_ancestor (focus, ADW_TYPE_COMBO_ROW));
}

/* They stand in the list of the whole window, too. */
static void
test_findings_list (Fixture *fixture, gconstpointer data)
{
  CavFindings *findings
      = g_object_ref_sink (g_object_new (CAV_TYPE_FINDINGS, "document", fixture->document, NULL));
  g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));
  CavBoardRunner *runner = cav_document_get_board_runner (fixture->document);
  guint before;

  ui_test_wait_for (cav_board_runner_get_progress (runner) >= 1.0);
  before = cav_findings_get_count (findings);
  lumber->frames = 200;
  cav_project_set_lumber (cav_document_get_project (fixture->document), lumber);
  ui_test_wait_for (cav_board_runner_get_layout (runner)->missing->len > 0);
  g_assert_cmpuint (cav_findings_get_count (findings), >, before);
  g_object_unref (findings);
}

/* The worker: the newest state is what comes out; without anybody who looks it waits until the
 * document rests. */
static void
test_runner (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  g_autoptr (CavBoardRunner) runner
      = cav_board_runner_new (project, cav_document_get_runner (fixture->document));
  g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));

  g_assert_null (cav_board_runner_get_layout (runner));
  cav_board_runner_watch (runner);
  lumber->frames = 1;
  cav_project_set_lumber (project, lumber);
  ui_test_wait_for (cav_board_runner_get_layout (runner) != NULL
                    && cav_board_runner_get_layout (runner)->totals.rails == 4);
  cav_board_runner_unwatch (runner);
  ui_test_wait_for (cav_board_runner_get_progress (runner) >= 1.0);
  lumber->frames = 2;
  cav_project_set_lumber (project, lumber);
  g_assert_cmpint (cav_board_runner_get_layout (runner)->totals.rails, ==, 4);
  ui_test_wait_for (cav_board_runner_get_layout (runner)->totals.rails == 8);
  /* Without any lumber there is nothing to lay out. */
  g_ptr_array_set_size (lumber->boards, 0);
  cav_project_set_lumber (project, lumber);
  ui_test_wait_for (cav_board_runner_get_layout (runner) == NULL);
}

/* Numbers that look like chance and are the same every time. */
static int
draw (guint *state, int from, int to)
{
  *state = *state * 1664525u + 1013904223u;
  return from + (int)((*state >> 8) % (guint)(to - from));
}

/* Thousands of rails of hundreds of lengths, more than three hundred boards give: seconds of work.
 */
static CavLumber *
create_long_work (Fixture *fixture)
{
  CavLumber *lumber = cav_lumber_copy (get_lumber (fixture));
  guint state = 7;

  lumber->frames = 1;
  lumber->order = CAV_GRAIN_FREE;
  lumber->test = 0.0;
  g_ptr_array_set_size (lumber->boards, 0);
  for (int i = 0; i < 300; i++)
    {
      CavBoard *board = cav_board_new ();

      board->length = draw (&state, 1600, 3400);
      board->width = draw (&state, 90, 240);
      g_ptr_array_add (lumber->boards, board);
    }
  for (int i = 0; i < 10; i++)
    {
      CavBoardJob *job = cav_board_job_new (lumber, "Other", 44.0, 22.0, 40.0);

      job->frames = 16;
      job->order = CAV_GRAIN_FREE;
      job->n_rails = CAV_JOB_MAX_RAILS;
      for (int r = 0; r < job->n_rails; r++)
        job->long_points[r] = draw (&state, 220, 620) + 0.1 * draw (&state, 0, 10);
      g_ptr_array_add (lumber->joined, job);
    }
  return lumber;
}

/* After half a second there is a bar that moves on, and a way to stop: what was laid then stays. */
static void
test_stop (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  CavBoardRunner *runner = cav_document_get_board_runner (fixture->document);
  GtkWidget *bar = ui_test_find (fixture->page, GTK_TYPE_PROGRESS_BAR);
  g_autoptr (CavLumber) lumber = create_long_work (fixture);
  CavBoardLayout *before;

  ui_test_wait_for (cav_board_runner_get_progress (runner) >= 1.0);
  before = get_layout (fixture);
  g_assert_nonnull (before);
  g_assert_false (gtk_widget_get_mapped (bar));
  cav_project_set_lumber (project, lumber);
  ui_test_wait_for (gtk_widget_get_mapped (bar)
                    && gtk_progress_bar_get_fraction (GTK_PROGRESS_BAR (bar)) > 0.0);
  g_assert_cmpfloat (gtk_progress_bar_get_fraction (GTK_PROGRESS_BAR (bar)), <, 1.0);
  g_assert_true (get_layout (fixture) == before);
  click (gtk_widget_get_ancestor (bar, GTK_TYPE_REVEALER), "Stop");
  ui_test_wait_for (cav_board_runner_get_progress (runner) >= 1.0);
  g_assert_true (get_layout (fixture) == before);
  ui_test_wait_for (!gtk_widget_get_mapped (bar));
  /* The next change lays out again. */
  g_assert_true (cav_project_undo (project));
  ui_test_wait_for (get_layout (fixture) != before);
}

/* Of many boards the first rows are there at once, the others while there is time for them. */
static void
test_many_rows (Fixture *fixture, gconstpointer data)
{
  CavProject *project = cav_document_get_project (fixture->document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));

  for (int i = 1; i < 60; i++)
    g_ptr_array_add (lumber->boards, cav_board_new ());
  cav_project_set_lumber (project, lumber);
  g_assert_cmpuint (count_rows (fixture->page), <, 20);
  /* A finding does not wait for its row. */
  gtk_widget_activate_action (fixture->page, "lumber.show-finding", "(si)", "lumber-board-unfit",
                              30);
  g_assert_cmpuint (count_rows (fixture->page), >=, 31);
  g_assert_nonnull (
      gtk_widget_get_ancestor (gtk_window_get_focus (fixture->window), CAV_TYPE_BOARD_ROW));
  ui_test_wait_for (count_rows (fixture->page) == 60);
  g_assert_nonnull (find_row (fixture->page, "Board 60"));
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (count_rows (fixture->page), ==, 1);
  g_assert_true (cav_project_redo (project));
  gtk_widget_activate_action (fixture->page, "lumber.add-board", NULL);
  g_assert_cmpuint (count_rows (fixture->page), ==, 61);
}

static void
test_zoom (Fixture *fixture, gconstpointer data)
{
  CavBoardCanvas *canvas = CAV_BOARD_CANVAS (fixture->canvas);
  const int width = gtk_widget_get_width (fixture->canvas);

  gtk_widget_activate_action (fixture->page, "lumber.zoom", "d", 2.0);
  ui_test_wait_for (gtk_widget_get_width (fixture->canvas) > 1.8 * width);
  g_assert_cmpfloat_with_epsilon (cav_board_canvas_get_zoom (canvas), 2.0, 1e-9);
  gtk_widget_activate_action (fixture->page, "lumber.zoom", "d", 100.0);
  g_assert_cmpfloat_with_epsilon (cav_board_canvas_get_zoom (canvas), 8.0, 1e-9);
  gtk_widget_activate_action (fixture->page, "lumber.zoom", "d", 0.0);
  ui_test_wait_for (gtk_widget_get_width (fixture->canvas) <= width);
}

static void
test_board_row (void)
{
  CavBoardRow *row = g_object_ref_sink (cav_board_row_new (FALSE));
  g_autoptr (CavBoard) board = cav_board_new ();

  g_free (board->name);
  board->name = g_strdup ("Loft & attic");
  g_free (board->wood);
  board->wood = g_strdup ("of-another-time");
  board->count = 4;
  board->length = 1800.0;
  board->planed = TRUE;
  board->basis = CAV_PRICE_METRE;
  board->price = 7.5;
  cav_board_add_span (board, (CavBoardSpan){ TRUE, 100, 900, 0, 0 });
  cav_board_row_show (row, board, 1);
  for (int i = 0; i < 2; i++)
    {
      g_autoptr (CavBoard) other = cav_board_row_dup_board (row);

      g_assert_true (cav_board_equal (board, other));
      adw_expander_row_set_expanded (ADW_EXPANDER_ROW (row), TRUE);
    }
  g_assert_cmpstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (row)), ==, "Loft & attic");
  g_object_unref (row);
}

#define ADD(path, function)                                                                        \
  g_test_add ("/ui/lumber-page/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("rows", test_rows);
  ADD ("drag", test_drag);
  ADD ("drag-to-idle", test_drag_to_idle);
  ADD ("keys", test_keys);
  ADD ("many-rows", test_many_rows);
  ADD ("stop", test_stop);
  ADD ("defect", test_defect);
  ADD ("clear-stretch", test_clear_stretch);
  ADD ("stock", test_stock);
  ADD ("sawing", test_sawing);
  ADD ("join", test_join);
  ADD ("finding-leads", test_finding_leads);
  ADD ("findings-list", test_findings_list);
  ADD ("runner", test_runner);
  ADD ("zoom", test_zoom);
  g_test_add_func ("/ui/lumber-page/board-row", test_board_row);
  return g_test_run ();
}
