/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-board-canvas.h"
#include "app/cav-board-row.h"
#include "app/cav-board-runner.h"
#include "app/cav-lumber-page.h"
#include "ui-test.h"

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
  ui_test_wait_for (gtk_widget_get_height (fixture->canvas) > 75);
}

static void
tear_down (Fixture *fixture, gconstpointer data)
{
  g_object_ref (fixture->page);
  gtk_window_destroy (fixture->window);
  ui_test_settle ();
  g_assert_finalize_object (fixture->page);
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

  /* The lowest strip of the first board. */
  const double y = gtk_widget_get_height (fixture->canvas) - 12.0 - 5.0 * 3.6 - 6.0;

  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
  g_signal_emit_by_name (drag, "drag-begin", 60.0, y);
  g_signal_emit_by_name (drag, "drag-update", 200.0, 0.0);
  g_signal_emit_by_name (drag, "drag-end", 200.0, 0.0);
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 1);
  pin = &g_array_index (get_lumber (fixture)->pins, CavBoardPin, 0);
  g_assert_cmpint (pin->strip, ==, 0);
  /* The first rail began behind the trimmed end, 200 pixels further left. */
  g_assert_cmpfloat (pin->from, >, 25.0 + 200.0 / 3.6 / 0.25 - 1.0);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (get_lumber (fixture)->pins->len, ==, 0);
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

/* The worker: the newest state is what comes out, and stopping gives up. */
static void
test_runner (Fixture *fixture, gconstpointer data)
{
  g_autoptr (CavBoardRunner) runner = cav_board_runner_new (fixture->document);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (get_lumber (fixture));
  CavProject *project = cav_document_get_project (fixture->document);

  g_assert_null (cav_board_runner_get_layout (runner));
  cav_board_runner_start (runner);
  lumber->frames = 1;
  cav_project_set_lumber (project, lumber);
  ui_test_wait_for (cav_board_runner_get_layout (runner) != NULL
                    && cav_board_runner_get_layout (runner)->totals.rails == 4);
  cav_board_runner_stop (runner);
  lumber->frames = 2;
  cav_project_set_lumber (project, lumber);
  ui_test_settle ();
  g_assert_cmpint (cav_board_runner_get_layout (runner)->totals.rails, ==, 4);
  cav_board_runner_start (runner);
  ui_test_wait_for (cav_board_runner_get_layout (runner)->totals.rails == 8);
  ui_test_wait_for (cav_board_runner_get_progress (runner) >= 1.0);
}

static void
test_board_row (void)
{
  CavBoardRow *row = g_object_ref_sink (cav_board_row_new ());
  g_autoptr (CavBoard) board = cav_board_new ();
  g_autoptr (CavBoard) other = cav_board_new ();

  g_free (board->name);
  board->name = g_strdup ("Loft & attic");
  board->count = 4;
  board->length = 1800.0;
  board->planed = TRUE;
  board->basis = CAV_PRICE_METRE;
  board->price = 7.5;
  cav_board_row_show (row, board, 1);
  cav_board_row_apply (row, other);
  g_assert_true (cav_board_equal (board, other));
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
  ADD ("keys", test_keys);
  ADD ("runner", test_runner);
  g_test_add_func ("/ui/lumber-page/board-row", test_board_row);
  return g_test_run ();
}
