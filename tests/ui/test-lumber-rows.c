/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is entered beside the boards: figures of boards and of the sawing, defects, other projects.
 */
#include "lumber-rig.h"

#include "app/cav-boards-panel.h"
#include "app/cav-figure-row.h"
#include "app/cav-joined-panel.h"
#include "app/cav-span-row.h"

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
  g_test_add ("/ui/lumber-rows/" path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("defect", test_defect);
  ADD ("clear-stretch", test_clear_stretch);
  ADD ("stock", test_stock);
  ADD ("sawing", test_sawing);
  ADD ("join", test_join);
  g_test_add_func ("/ui/lumber-rows/board-row", test_board_row);
  return g_test_run ();
}
