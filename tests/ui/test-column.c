/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-column.h"

#include "app/cav-cut-edit.h"
#include "app/cav-cut-panel.h"
#include "app/cav-figure-row.h"
#include "app/cav-findings.h"
#include "app/cav-pass-settings.h"
#include "app/cav-project-panel.h"
#include "app/cav-settings.h"
#include "app/cav-window.h"
#include "storage/cav-storage.h"
#include "ui-test.h"

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavSelection *selection;
  CavColumn *column;
  GtkWindow *window;
} Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  self->document = data != NULL ? ui_test_open_example (data) : cav_document_new ();
  self->project = cav_document_get_project (self->document);
  self->selection = cav_document_get_selection (self->document);
  self->column = cav_column_new ();
  g_object_set (self->column, "document", self->document, NULL);
  self->window = ui_test_show (GTK_WIDGET (self->column), 300, 800);
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  g_object_ref (self->column);
  gtk_window_destroy (self->window);
  ui_test_settle ();
  ui_test_finalize (self->column);
  ui_test_finalize (self->document);
}

/* Made when cuts are first chosen. */
static CavCutPanel *
get_cuts (Fixture *self)
{
  GtkWidget *panel = ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_CUT_PANEL);

  g_assert_nonnull (panel);
  return CAV_CUT_PANEL (panel);
}

static const char *
get_panel (Fixture *self)
{
  GtkWidget *stack = ui_test_find (GTK_WIDGET (self->column), GTK_TYPE_STACK);

  return gtk_stack_get_visible_child_name (GTK_STACK (stack));
}

static void
enter (CavFigureRow *row, const char *text)
{
  g_assert_nonnull (row);
  gtk_editable_set_text (cav_figure_row_get_editable (row), text);
  g_assert_true (cav_figure_row_apply (row));
}

/* (nullable) The row with that title in a panel. */
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

static CavFigureRow *
get_number_row (Fixture *self, CavCutNumber number)
{
  GtkWidget *row = cav_cut_panel_get_number_row (get_cuts (self), number);

  return row != NULL ? CAV_FIGURE_ROW (row) : NULL;
}

static void
add_cut (Fixture *self, CavCut *cut)
{
  cav_project_add_cut (self->project, cut);
  cav_cut_free (cut);
}

static void
test_shows_what_is_chosen (Fixture *self, gconstpointer data)
{
  g_assert_cmpstr (get_panel (self), ==, "project");
  cav_selection_choose_cut (self->selection, 0);
  g_assert_cmpstr (get_panel (self), ==, "cuts");
  cav_selection_set_pass (self->selection, 0);
  g_assert_cmpstr (get_panel (self), ==, "pass");
  cav_selection_set_pass (self->selection, CAV_NO_PASS);
  cav_selection_clear_cuts (self->selection);
  g_assert_cmpstr (get_panel (self), ==, "project");
}

static int
get_natural_width (GtkWidget *widget)
{
  int width;

  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, NULL, &width, NULL, NULL);
  return width;
}

/* Or the section would be drawn anew beside it, in another place, whenever something is chosen. */
static void
test_keeps_its_width (Fixture *self, gconstpointer data)
{
  int width = get_natural_width (GTK_WIDGET (self->column));

  cav_selection_choose_cut (self->selection, 0);
  g_assert_cmpint (get_natural_width (GTK_WIDGET (self->column)), ==, width);
  cav_selection_toggle_cut (self->selection, 1);
  g_assert_cmpuint (cav_selection_get_cut_count (self->selection), ==, 2);
  g_assert_cmpint (get_natural_width (GTK_WIDGET (self->column)), ==, width);
  cav_selection_set_pass (self->selection, 0);
  g_assert_cmpint (get_natural_width (GTK_WIDGET (self->column)), ==, width);
}

static void
test_edits_the_blank (Fixture *self, gconstpointer data)
{
  GtkWidget *panel = ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_PROJECT_PANEL);
  CavFigureRow *width = CAV_FIGURE_ROW (find_row (panel, "Width"));
  double before = cav_project_get_blank (self->project).width;

  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (width), before, 1e-9);
  enter (width, "2 1/2 in");
  g_assert_cmpfloat_with_epsilon (cav_project_get_blank (self->project).width, 63.5, 1e-9);
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "change width of blank");
  g_assert_true (cav_project_undo (self->project));
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (width), before, 1e-9);

  gtk_editable_set_text (cav_figure_row_get_editable (width), "9000");
  g_assert_false (cav_figure_row_apply (width));
  g_assert_cmpfloat_with_epsilon (cav_project_get_blank (self->project).width, before, 1e-9);
}

static guint
count_labels (GtkWidget *widget)
{
  guint count = GTK_IS_LABEL (widget) ? 1 : 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count += count_labels (child);
  return count;
}

static guint
count_children (GtkWidget *widget)
{
  guint count = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    count++;
  return count;
}

/* A list of woods nobody has opened is no widgets; opened, it is all of them, in its size. */
static void
test_lists_woods_when_asked (Fixture *self, gconstpointer data)
{
  GtkWidget *panel = ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_PROJECT_PANEL);
  AdwComboRow *wood = ADW_COMBO_ROW (find_row (panel, "Wood"));
  GtkWidget *popover = ui_test_find (GTK_WIDGET (wood), GTK_TYPE_POPOVER);
  int height;

  g_assert_nonnull (popover);
  g_assert_cmpuint (count_children (ui_test_find (popover, GTK_TYPE_LIST_VIEW)), ==, 0);
  g_assert_cmpuint (count_labels (GTK_WIDGET (wood)), >, 1);
  for (int i = 0; i < 2; i++)
    {
      adw_action_row_activate (ADW_ACTION_ROW (wood));
      g_assert_true (gtk_widget_get_mapped (popover));
      g_assert_cmpuint (count_labels (popover), ==, cav_wood_get_count () + 1);
      gtk_widget_measure (popover, GTK_ORIENTATION_VERTICAL, -1, NULL, &height, NULL, NULL);
      g_assert_cmpint (height, >, 200);
      gtk_popover_popdown (GTK_POPOVER (popover));
      ui_test_wait_for (!gtk_widget_get_mapped (popover));
    }
  adw_combo_row_set_selected (wood, 2);
  g_assert_true (cav_project_get_wood (self->project) == cav_wood_get (1));
}

static void
test_edits_the_project (Fixture *self, gconstpointer data)
{
  GtkWidget *panel = ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_PROJECT_PANEL);
  GtkEditable *title = GTK_EDITABLE (find_row (panel, "Title"));
  AdwComboRow *wood = ADW_COMBO_ROW (find_row (panel, "Wood"));
  CavFigureRow *rails;
  CavFigureRow *length;

  g_assert_cmpstr (gtk_editable_get_text (title), ==, cav_project_get_title (self->project));
  gtk_editable_set_text (title, "Ferns & <friends>");
  g_signal_emit_by_name (title, "entry-activated");
  g_assert_cmpstr (cav_project_get_title (self->project), ==, "Ferns & <friends>");
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "change title");

  adw_combo_row_set_selected (wood, 1);
  g_assert_true (cav_project_get_wood (self->project) == cav_wood_get (0));
  g_assert_nonnull (strstr (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (
                                gtk_widget_get_next_sibling (GTK_WIDGET (wood)))),
                            "kg/m³"));
  cav_project_undo (self->project);
  g_assert_true (cav_project_get_wood (self->project) != cav_wood_get (0));

  /* The frame of the example says what rails it takes: two of 290 and two of 377 mm. */
  rails = CAV_FIGURE_ROW (find_row (panel, "Number"));
  length = CAV_FIGURE_ROW (find_row (panel, "Total length"));
  g_assert_false (gtk_widget_get_sensitive (GTK_WIDGET (rails)));
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (length), 1334, 1e-9);
  cav_project_set_frame_settings (self->project, NULL);
  g_assert_true (gtk_widget_get_sensitive (GTK_WIDGET (rails)));
  enter (rails, "6");
  enter (length, "4800");
  g_assert_cmpint (cav_project_get_rails (self->project), ==, 6);
  g_assert_cmpfloat_with_epsilon (cav_project_get_length (self->project), 4800, 1e-9);
  enter (CAV_FIGURE_ROW (find_row (panel, "Widest carrier strip")), "0");
  g_assert_cmpfloat_with_epsilon (cav_project_get_shop (self->project)->limits.carrier, 0, 1e-9);
}

static void
test_shows_every_number_of_every_cut (Fixture *self, gconstpointer data)
{
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      CavCutKind kind = (CavCutKind)i;
      const CavCutInfo *info = cav_cut_kind_get_info (kind);
      CavPath *path = cav_path_new ();
      CavCut *cut;
      guint at = cav_project_get_cut_count (self->project);

      cav_path_move_to (path, CAV_POINT (1, 1));
      cav_path_line_to (path, CAV_POINT (5, 1));
      cav_path_line_to (path, CAV_POINT (5, 4));
      cav_path_close (path);
      cut = kind == CAV_CUT_DRAWN ? cav_cut_new_drawn (path) : cav_cut_new (kind);
      cav_path_free (path);
      add_cut (self, cut);
      cav_selection_choose_cut (self->selection, at);
      g_test_message ("%s", info->name);
      for (guint j = 0; j < info->n_numbers; j++)
        {
          CavFigureRow *row = get_number_row (self, info->numbers[j].number);
          const CavCut *shown = cav_project_get_cut (self->project, at);

          if (info->numbers[j].number == CAV_CUT_POSITION && shown->anchor != CAV_ANCHOR_SIDE)
            {
              g_assert_null (row);
              continue;
            }
          g_assert_nonnull (row);
          g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (row),
                                          shown->numbers[info->numbers[j].number], 1e-9);
        }
    }
}

static void
test_edits_a_cut (Fixture *self, gconstpointer data)
{
  add_cut (self, cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE));
  cav_selection_choose_cut (self->selection, 0);
  enter (get_number_row (self, CAV_CUT_WIDTH), "3/8 in + 1/16 in");
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 0)->numbers[CAV_CUT_WIDTH],
                                  11.1125, 1e-9);
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "change “Width” of cove");
  cav_project_undo (self->project);
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (get_number_row (self, CAV_CUT_WIDTH)),
                                  9.5, 1e-9);
}

static void
test_moves_a_cut_to_a_side (Fixture *self, gconstpointer data)
{
  AdwComboRow *place;
  const CavCut *cut;

  add_cut (self, cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE));
  cav_selection_choose_cut (self->selection, 0);
  place = ADW_COMBO_ROW (find_row (GTK_WIDGET (get_cuts (self)), "Place"));
  g_assert_cmpuint (adw_combo_row_get_selected (place), ==, CAV_CORNER_FACE_INSIDE);
  g_assert_null (get_number_row (self, CAV_CUT_POSITION));
  adw_combo_row_set_selected (place, CAV_N_CORNERS + CAV_SIDE_FACE);
  cut = cav_project_get_cut (self->project, 0);
  g_assert_cmpint (cut->anchor, ==, CAV_ANCHOR_SIDE);
  g_assert_cmpint (cut->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat (cut->numbers[CAV_CUT_POSITION], >, 0);
  g_assert_nonnull (get_number_row (self, CAV_CUT_POSITION));
  g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "change place of cove");
  g_assert_true (cav_project_undo (self->project));
  g_assert_cmpint (cav_project_get_cut (self->project, 0)->anchor, ==, CAV_ANCHOR_CORNER);
  g_assert_cmpuint (adw_combo_row_get_selected (place), ==, CAV_CORNER_FACE_INSIDE);
}

static void
test_edits_several (Fixture *self, gconstpointer data)
{
  const guint both[] = { 0, 1 };
  CavFigureRow *width;

  add_cut (self, cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE));
  add_cut (self, cav_cut_new_at_corner (CAV_CUT_STEPS, CAV_CORNER_FACE_OUTSIDE));
  cav_selection_set_cuts (self->selection, both, 2);
  g_assert_null (get_number_row (self, CAV_CUT_WIDTH));
  g_assert_null (get_number_row (self, CAV_CUT_RUN));
  g_assert_nonnull (get_number_row (self, CAV_CUT_SHIFT_X));

  add_cut (self, cav_cut_new_at_corner (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE));
  cav_selection_set_cuts (self->selection, (const guint[]){ 0, 2 }, 2);
  width = get_number_row (self, CAV_CUT_WIDTH);
  g_assert_true (cav_figure_row_is_mixed (width));
  enter (width, "8");
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 0)->numbers[CAV_CUT_WIDTH], 8,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 1)->numbers[CAV_CUT_WIDTH], 0,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 2)->numbers[CAV_CUT_WIDTH], 8,
                                  1e-9);
  g_assert_true (cav_project_undo (self->project));
  g_assert_true (cav_figure_row_is_mixed (width));

  gtk_widget_activate_action (GTK_WIDGET (get_cuts (self)), "cuts.mirror-across", NULL);
  g_assert_cmpint (cav_project_get_cut (self->project, 0)->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  g_assert_cmpint (cav_project_get_cut (self->project, 2)->corner, ==, CAV_CORNER_FACE_INSIDE);
  gtk_widget_activate_action (GTK_WIDGET (get_cuts (self)), "cuts.delete", NULL);
  g_assert_cmpuint (cav_project_get_cut_count (self->project), ==, 1);
  g_assert_cmpstr (get_panel (self), ==, "project");
  g_assert_true (cav_project_undo (self->project));
  g_assert_cmpuint (cav_project_get_cut_count (self->project), ==, 3);
}

static void
test_aligns (Fixture *self, gconstpointer data)
{
  static const char *const actions[]
      = { "cuts.align-inside", "cuts.align-outside",  "cuts.align-face",
          "cuts.align-back",   "cuts.align-middle-x", "cuts.align-middle-y" };
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  cut->numbers[CAV_CUT_SHIFT_X] = 5;
  cut->numbers[CAV_CUT_SHIFT_Y] = 4;
  add_cut (self, cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE));
  add_cut (self, cut);
  for (guint i = 0; i < G_N_ELEMENTS (actions); i++)
    {
      cav_selection_set_cuts (self->selection, (const guint[]){ 0, 1 }, 2);
      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (get_cuts (self)), actions[i], NULL));
      g_test_message ("%s", actions[i]);
      g_assert_cmpstr (cav_project_get_undo_name (self->project), ==, "align");
      g_assert_true (cav_project_undo (self->project));
    }
}

/* What is being typed is for the cut that is shown, whatever is chosen next. */
static void
test_choosing_another_cut_enters (Fixture *self, gconstpointer data)
{
  add_cut (self, cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE));
  add_cut (self, cav_cut_new_at_corner (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE));
  cav_selection_choose_cut (self->selection, 0);
  gtk_editable_set_text (cav_figure_row_get_editable (get_number_row (self, CAV_CUT_WIDTH)), "7");
  cav_selection_choose_cut (self->selection, 1);
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 0)->numbers[CAV_CUT_WIDTH], 7,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 1)->numbers[CAV_CUT_WIDTH],
                                  6.35, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (get_number_row (self, CAV_CUT_WIDTH)),
                                  6.35, 1e-9);

  /* A cut that has gone meanwhile takes nothing. */
  gtk_editable_set_text (cav_figure_row_get_editable (get_number_row (self, CAV_CUT_WIDTH)), "5");
  cav_project_remove_cut (self->project, 1);
  cav_selection_clear_cuts (self->selection);
  g_assert_cmpuint (cav_project_get_cut_count (self->project), ==, 1);
  g_assert_cmpfloat_with_epsilon (cav_project_get_cut (self->project, 0)->numbers[CAV_CUT_WIDTH], 7,
                                  1e-9);
}

static void
test_shows_a_pass (Fixture *self, gconstpointer data)
{
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  GtkWidget *panel;
  GtkWidget *row;

  cav_plan_runner_start (runner);
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  cav_selection_set_pass (self->selection, 0);
  panel = ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_PASS_SETTINGS);
  row = find_row (panel, "Machine");
  g_assert_nonnull (row);
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), "Table saw"));
  row = find_row (panel, "Height");
  g_assert_true (g_str_has_suffix (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), " mm"));
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "inch-64");
  ui_test_settle ();
  row = find_row (panel, "Height");
  g_assert_true (g_str_has_suffix (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), " in"));
  g_assert_nonnull (find_row (panel, "On the table"));
  g_assert_nonnull (find_row (panel, "At the fence"));
  g_assert_nonnull (find_row (panel, "Since the pass before"));
  /* A pass that is not there shows nothing, and breaks nothing. */
  cav_selection_set_pass (self->selection, 1000);
  g_assert_null (find_row (panel, "Machine"));
}

typedef struct
{
  int count;
  int cut;
} Shown;

static void
show_finding_cb (CavColumn *column, const CavFinding *finding, Shown *shown)
{
  shown->count++;
  shown->cut = finding->cut;
}

static void
test_findings_lead_to_their_cut (Fixture *self, gconstpointer data)
{
  CavFindings *findings
      = CAV_FINDINGS (ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_FINDINGS));
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  guint calm = cav_findings_get_count (findings);
  guint nth = 0;
  Shown shown = { 0, -1 };

  g_signal_connect (self->column, "show-finding", G_CALLBACK (show_finding_cb), &shown);
  /* A cut that is outside the wood altogether. */
  cut->numbers[CAV_CUT_SHIFT_X] = -400;
  add_cut (self, cut);
  g_assert_cmpuint (cav_findings_get_count (findings), >, calm);
  for (; nth < cav_findings_get_count (findings) && shown.cut != 0; nth++)
    cav_findings_activate (findings, nth);
  g_assert_cmpint (shown.cut, ==, 0);
  g_assert_true (cav_selection_has_cut (self->selection, 0));
  cav_project_remove_cut (self->project, 0);
  g_assert_cmpuint (cav_findings_get_count (findings), ==, calm);
  g_signal_handlers_disconnect_by_data (self->column, &shown);
}

/* (nullable) The label that says how old the list is. */
static GtkWidget *
get_age (CavFindings *findings)
{
  return GTK_WIDGET (
      gtk_widget_get_template_child (GTK_WIDGET (findings), CAV_TYPE_FINDINGS, "age"));
}

static gboolean
is_dim (CavFindings *findings)
{
  return gtk_widget_has_css_class (ui_test_find (GTK_WIDGET (findings), GTK_TYPE_STACK), "stale");
}

/* While the next plan is made the list is that of the last one, and says so. */
static void
test_findings_of_the_last_plan (Fixture *self, gconstpointer data)
{
  CavFindings *findings
      = CAV_FINDINGS (ui_test_find (GTK_WIDGET (self->column), CAV_TYPE_FINDINGS));
  CavPlanRunner *runner = cav_document_get_runner (self->document);
  GtkLabel *age = GTK_LABEL (get_age (findings));
  CavBlank blank = cav_project_get_blank (self->project);

  cav_plan_runner_start (runner);
  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  g_assert_cmpstr (gtk_label_get_label (age), ==, "Planning…");
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  g_assert_false (is_dim (findings));
  g_assert_cmpstr (gtk_label_get_label (age), ==, "");

  blank.width += 1.0;
  cav_project_set_blank (self->project, blank);
  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  g_assert_true (is_dim (findings));
  g_assert_cmpstr (gtk_label_get_label (age), ==, "of the last plan");
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  g_assert_false (is_dim (findings));
  g_assert_cmpstr (gtk_label_get_label (age), ==, "");
}

/* Ctrl+S in the middle of typing saves what was typed. */
static void
test_saving_enters_what_is_typed (void)
{
  g_autofree char *file_name = g_build_filename (g_get_user_cache_dir (), "typed.cavetto", NULL);
  g_autoptr (GFile) file = g_file_new_for_path (file_name);
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavProject) saved = NULL;
  g_autoptr (GError) error = NULL;
  CavDocument *document = cav_document_new_for_project (project, file);
  CavWindow *window = cav_window_new (ui_test_get_application (), document);
  GtkWidget *panel;
  CavFigureRow *width;

  g_mkdir_with_parents (g_get_user_cache_dir (), 0700);
  gtk_window_present (GTK_WINDOW (window));
  /* The column comes after the first frame. */
  ui_test_wait_for ((panel = ui_test_find (GTK_WIDGET (window), CAV_TYPE_PROJECT_PANEL)) != NULL);
  width = CAV_FIGURE_ROW (find_row (panel, "Width"));
  gtk_widget_grab_focus (GTK_WIDGET (cav_figure_row_get_editable (width)));
  gtk_editable_set_text (cav_figure_row_get_editable (width), "61,5");
  gtk_editable_set_text (GTK_EDITABLE (find_row (panel, "Title")), "");
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.save", NULL));
  ui_test_wait_for (!cav_document_is_saving (document));
  saved = cav_storage_load_project (file_name, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat_with_epsilon (cav_project_get_blank (saved).width, 61.5, 1e-9);
  /* And typing goes on where it was. */
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (window))
                 == GTK_WIDGET (gtk_editable_get_delegate (cav_figure_row_get_editable (width))));

  gtk_window_destroy (GTK_WINDOW (window));
  ui_test_settle ();
  ui_test_finalize (document);
}

static void
test_no_document (void)
{
  CavColumn *column = cav_column_new ();
  CavDocument *document = cav_document_new ();

  g_object_ref_sink (column);
  g_object_set (column, "document", document, NULL);
  g_object_set (column, "document", NULL, NULL);
  ui_test_finalize (document);
  ui_test_finalize (column);
}

#define ADD(path, data, function) g_test_add (path, Fixture, data, set_up, function, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/column/no-document", test_no_document);
  g_test_add_func ("/ui/column/saving-enters-what-is-typed", test_saving_enters_what_is_typed);
  ADD ("/ui/column/shows-what-is-chosen", "plain-steps.cavetto", test_shows_what_is_chosen);
  ADD ("/ui/column/keeps-its-width", "plain-steps.cavetto", test_keeps_its_width);
  ADD ("/ui/column/edits-the-blank", "plain-steps.cavetto", test_edits_the_blank);
  ADD ("/ui/column/edits-the-project", "plain-steps.cavetto", test_edits_the_project);
  ADD ("/ui/column/lists-woods-when-asked", NULL, test_lists_woods_when_asked);
  ADD ("/ui/column/every-number-of-every-cut", NULL, test_shows_every_number_of_every_cut);
  ADD ("/ui/column/edits-a-cut", NULL, test_edits_a_cut);
  ADD ("/ui/column/moves-a-cut-to-a-side", NULL, test_moves_a_cut_to_a_side);
  ADD ("/ui/column/edits-several", NULL, test_edits_several);
  ADD ("/ui/column/aligns", NULL, test_aligns);
  ADD ("/ui/column/choosing-another-cut-enters", NULL, test_choosing_another_cut_enters);
  ADD ("/ui/column/shows-a-pass", "plain-steps.cavetto", test_shows_a_pass);
  ADD ("/ui/column/findings-of-the-last-plan", "plain-steps.cavetto",
       test_findings_of_the_last_plan);
  ADD ("/ui/column/findings-lead-to-their-cut", NULL, test_findings_lead_to_their_cut);
  return g_test_run ();
}
