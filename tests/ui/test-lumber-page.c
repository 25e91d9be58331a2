/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards and what is laid on them: rows, rails on the canvas, findings, the worker. */
#include "lumber-rig.h"

#include "app/cav-findings.h"
#include "drawing/cav-board-map.h"

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

/* A drag that is broken off puts no rail anywhere. */
static void
test_drag_is_broken_off (Fixture *fixture, gconstpointer data)
{
  GtkEventController *drag = ui_test_get_controller (fixture->canvas, GTK_TYPE_GESTURE_DRAG);
  const CavPoint rail = find_on_canvas (fixture, get_layout (fixture), 0, 100.0);

  for (int cancelled = 1; cancelled >= 0; cancelled--)
    {
      g_signal_emit_by_name (drag, "drag-begin", rail.x + 30.0, rail.y);
      g_signal_emit_by_name (drag, "drag-update", 200.0, 0.0);
      if (cancelled)
        g_signal_emit_by_name (drag, "cancel", NULL);
      g_signal_emit_by_name (drag, "drag-end", 200.0, 0.0);
      g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, cancelled ? 0 : 1);
    }
}

/* A wheel alone is for the page, which scrolls. */
static void
test_wheel (Fixture *fixture, gconstpointer data)
{
  gboolean taken = TRUE;

  g_signal_emit_by_name (ui_test_get_controller (fixture->canvas, GTK_TYPE_EVENT_CONTROLLER_SCROLL),
                         "scroll", 0.0, -1.0, &taken);
  g_assert_false (taken);
  g_assert_cmpfloat_with_epsilon (cav_board_canvas_get_zoom (CAV_BOARD_CANVAS (fixture->canvas)),
                                  1.0, 1e-9);
}

static guint
count_icons (GtkWidget *root, const char *name)
{
  guint count = GTK_IS_IMAGE (root) && gtk_widget_get_mapped (root)
                && g_strcmp0 (gtk_image_get_icon_name (GTK_IMAGE (root)), name) == 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count += count_icons (child, name);
  return count;
}

/* Before there are boards nothing is wrong. */
static void
test_no_boards (Fixture *fixture, gconstpointer data)
{
  g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));

  g_ptr_array_set_size (lumber->boards, 0);
  cav_project_set_lumber (cav_document_get_project (fixture->document), lumber);
  ui_test_wait_for (get_layout (fixture) != NULL
                    && cav_board_layout_get_board_count (get_layout (fixture)) == 0
                    && count_icons (fixture->page, "dialog-information-symbolic") == 1);
  g_assert_cmpuint (count_icons (fixture->page, "dialog-error-symbolic"), ==, 0);
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
  ADD ("finding-leads", test_finding_leads);
  ADD ("findings-list", test_findings_list);
  ADD ("runner", test_runner);
  ADD ("zoom", test_zoom);
  ADD ("drag-is-broken-off", test_drag_is_broken_off);
  ADD ("wheel", test_wheel);
  ADD ("no-boards", test_no_boards);
  return g_test_run ();
}
