/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-frame-page.h"

#include "app/cav-dry-fit-panel.h"
#include "app/cav-figure-row.h"
#include "app/cav-frame-canvas.h"
#include "app/cav-frame-detail.h"
#include "app/cav-frame-edit.h"
#include "app/cav-frame-panel.h"
#include "app/cav-frame-results.h"
#include "app/cav-settings.h"
#include "ui-test.h"

#include <math.h>
#include <string.h>

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavFramePage *page;
  GtkWindow *window;
  CavFrameCanvas *canvas;
} Fixture;

static void
set_up (Fixture *self, gconstpointer data)
{
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  self->document = ui_test_open_example ("cove-and-bead.cavetto");
  self->project = cav_document_get_project (self->document);
  self->page = g_object_new (CAV_TYPE_FRAME_PAGE, "document", self->document, NULL);
  self->window = ui_test_show (GTK_WIDGET (self->page), 900, 600);
  self->canvas = CAV_FRAME_CANVAS (ui_test_find (GTK_WIDGET (self->page), CAV_TYPE_FRAME_CANVAS));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

static void
tear_down (Fixture *self, gconstpointer data)
{
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
  g_object_ref (self->page);
  gtk_window_destroy (self->window);
  ui_test_settle ();
  ui_test_finalize (self->page);
  ui_test_finalize (self->document);
}

/* (nullable) The row with that title. */
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

static GtkWidget *
get_row (Fixture *self, const char *title)
{
  GtkWidget *row = find_row (GTK_WIDGET (self->page), title);

  g_test_message ("row “%s”", title);
  g_assert_nonnull (row);
  return row;
}

/* Whether some label of the results says it. */
static gboolean
says (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && strstr (gtk_label_get_text (GTK_LABEL (root)), text) != NULL)
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (says (child, text))
      return TRUE;
  return FALSE;
}

static const CavFrameSettings *
get_settings (Fixture *self)
{
  return cav_project_get_frame_settings (self->project);
}

/* A number that is entered is one step, and the results follow it both ways. */
static void
test_numbers (Fixture *self, gconstpointer data)
{
  CavFigureRow *row = CAV_FIGURE_ROW (get_row (self, "Picture width"));
  GtkWidget *results = ui_test_find (GTK_WIDGET (self->page), CAV_TYPE_FRAME_RESULTS);
  double before = get_settings (self)->picture_width;
  g_autofree char *wide = NULL;

  gtk_editable_set_text (cav_figure_row_get_editable (row), "333");
  g_assert_true (cav_figure_row_apply (row));
  g_assert_cmpfloat_with_epsilon (get_settings (self)->picture_width, 333, 1e-9);
  wide = g_strdup_printf ("%g ×", cav_project_get_frame (self->project)->sizes.outside.width);
  g_assert_true (says (results, wide));
  cav_project_undo (self->project);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->picture_width, before, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_figure_row_get_value (row), before, 1e-9);
  g_assert_false (says (results, wide));
}

/* What a choice makes meaningless is not shown. */
static void
test_choices (Fixture *self, gconstpointer data)
{
  GtkWidget *at_hand = get_row (self, "Width at hand");

  g_assert_false (gtk_widget_get_visible (at_hand));
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Work from")), CAV_FRAME_START_OUTSIDE);
  g_assert_cmpint (get_settings (self)->start, ==, CAV_FRAME_START_OUTSIDE);
  g_assert_true (gtk_widget_get_visible (at_hand));
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Backing")), CAV_BACKING_FOAM);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->backing_thickness, 5, 1e-9);
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Finish")), CAV_FINISH_BLACK);
  g_assert_cmpint (get_settings (self)->finish, ==, CAV_FINISH_BLACK);
  for (int i = 0; i < 3; i++)
    cav_project_undo (self->project);
  g_assert_cmpint (get_settings (self)->start, ==, CAV_FRAME_START_PICTURE);
  g_assert_false (gtk_widget_get_visible (at_hand));
}

static void
type_number (Fixture *self, const char *title, const char *text)
{
  CavFigureRow *row = CAV_FIGURE_ROW (get_row (self, title));

  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (row)));
  gtk_editable_set_text (cav_figure_row_get_editable (row), text);
  g_assert_true (cav_figure_row_apply (row));
}

static void
assert_borders (Fixture *self, double left, double right, double top, double bottom)
{
  const CavFrameSettings *settings = get_settings (self);

  g_assert_cmpfloat_with_epsilon (settings->border_left, left, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_right, right, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_top, top, 1e-9);
  g_assert_cmpfloat_with_epsilon (settings->border_bottom, bottom, 1e-9);
}

/* One number for all borders, one more for the lower one, or four; each choice is one step. */
static void
test_borders (Fixture *self, gconstpointer data)
{
  AdwComboRow *borders = ADW_COMBO_ROW (get_row (self, "Borders"));
  GtkWidget *bottom = get_row (self, "Border bottom");
  GtkWidget *top = get_row (self, "Border top");

  adw_combo_row_set_selected (borders, 0);
  type_number (self, "All borders", "60");
  assert_borders (self, 60, 60, 60, 60);
  g_assert_false (gtk_widget_get_visible (bottom));
  adw_combo_row_set_selected (borders, 1);
  assert_borders (self, 60, 60, 60, 68);
  g_assert_true (gtk_widget_get_visible (bottom));
  g_assert_false (gtk_widget_get_visible (top));
  type_number (self, "Left, right and top", "50");
  assert_borders (self, 50, 50, 50, 58);
  adw_combo_row_set_selected (borders, 2);
  assert_borders (self, 50, 50, 50, 58);
  g_assert_true (gtk_widget_get_visible (top));
  type_number (self, "Border left", "40");
  assert_borders (self, 40, 50, 50, 58);
  g_assert_cmpuint (adw_combo_row_get_selected (borders), ==, 2);
  adw_combo_row_set_selected (borders, 0);
  assert_borders (self, 40, 40, 40, 40);
  cav_project_undo (self->project);
  assert_borders (self, 40, 50, 50, 58);
  g_assert_cmpuint (adw_combo_row_get_selected (borders), ==, 2);
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* A lower border that goes with the others ends where theirs do. */
static void
test_widest_borders (Fixture *self, gconstpointer data)
{
  AdwComboRow *borders = ADW_COMBO_ROW (get_row (self, "Borders"));

  adw_combo_row_set_selected (borders, 1);
  type_number (self, "Left, right and top", "2000");
  assert_borders (self, 2000, 2000, 2000, 2000);
  adw_combo_row_set_selected (borders, 0);
  type_number (self, "All borders", "1999");
  adw_combo_row_set_selected (borders, 1);
  assert_borders (self, 1999, 1999, 1999, 2000);
}

/* A board by its plies is a thickness; another thickness is no board. */
static void
test_plies (Fixture *self, gconstpointer data)
{
  AdwComboRow *board = ADW_COMBO_ROW (get_row (self, "Board of the first"));

  g_assert_cmpuint (adw_combo_row_get_selected (board), ==, 2);
  adw_combo_row_set_selected (board, 4);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->mats[0].thickness, 3.0, 1e-9);
  type_number (self, "Thickness of the first", "1.9");
  g_assert_cmpuint (adw_combo_row_get_selected (board), ==, 0);
  cav_project_undo (self->project);
  cav_project_undo (self->project);
  g_assert_cmpuint (adw_combo_row_get_selected (board), ==, 2);
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* The picture is turned, and a square one says that it has no long side. */
static void
test_landscape (Fixture *self, gconstpointer data)
{
  GtkSwitch *button = GTK_SWITCH (ui_test_find (get_row (self, "Landscape"), GTK_TYPE_SWITCH));
  const double width = get_settings (self)->picture_width;
  const double height = get_settings (self)->picture_height;

  g_assert_false (gtk_switch_get_active (button));
  gtk_switch_set_active (button, TRUE);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->picture_width, height, 1e-9);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->picture_height, width, 1e-9);
  cav_project_undo (self->project);
  g_assert_false (gtk_switch_get_active (button));
  type_number (self, "Picture width", "200");
  type_number (self, "Picture height", "200");
  gtk_switch_set_active (button, TRUE);
  g_assert_false (gtk_switch_get_active (button));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* Figures behind headings, in the unit of the settings, and they follow the project. */
static void
test_notes (Fixture *self, gconstpointer data)
{
  static const char *const words[]
      = { "Mitre both ends", "Each mat is cut from a sheet", "kg.", "In the dry season", "radius" };
  GtkWidget *results = ui_test_find (GTK_WIDGET (self->page), CAV_TYPE_FRAME_RESULTS);
  guint n_expanders = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (results); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_EXPANDER (child))
      {
        gtk_expander_set_expanded (GTK_EXPANDER (child), TRUE);
        g_assert_cmpuint (n_expanders, <, G_N_ELEMENTS (words));
        g_assert_true (says (child, words[n_expanders++]));
      }
  g_assert_cmpuint (n_expanders, ==, G_N_ELEMENTS (words));
  g_assert_true (says (results, "\302\240mm"));
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "inch-32");
  g_assert_true (says (results, "in at the long point"));
  g_assert_false (says (results, " mm"));
  g_assert_false (says (results, "\302\240mm"));
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Finish")), CAV_FINISH_BARE);
  g_assert_false (says (results, " ml."));
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Finish")), CAV_FINISH_OIL);
  g_assert_true (says (results, " ml."));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* Numbers of the boards come when somebody asks for them. */
static void
test_order (Fixture *self, gconstpointer data)
{
  gboolean shown = TRUE;

  g_object_get (self->canvas, "order", &shown, NULL);
  g_assert_false (shown);
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (self->page), "frame.order", NULL));
  g_object_get (self->canvas, "order", &shown, NULL);
  g_assert_true (shown);
}

/* Keys move the light, a step each, without new paint. */
static void
test_light (Fixture *self, gconstpointer data)
{
  GtkEventController *keys
      = ui_test_get_controller (GTK_WIDGET (self->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY);
  double angle = get_settings (self)->light_angle;
  double height = get_settings (self)->light_height;
  gboolean taken = FALSE;

  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_Right, 0, 0, &taken);
  g_assert_true (taken);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->light_angle, angle + 5, 1e-9);
  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_Down, 0, 0, &taken);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->light_height, height - 5, 1e-9);
  g_signal_emit_by_name (keys, "key-pressed", GDK_KEY_a, 0, 0, &taken);
  g_assert_false (taken);
  cav_project_undo (self->project);
  cav_project_undo (self->project);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->light_angle, angle, 1e-9);
}

/* A picture that is dropped is the project's, also when it is none: then the page says so. */
static void
test_drop (Fixture *self, gconstpointer data)
{
  GtkEventController *drop
      = ui_test_get_controller (GTK_WIDGET (self->canvas), GTK_TYPE_DROP_TARGET);
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/fern.png");
  g_auto (GValue) value = G_VALUE_INIT;
  gboolean taken = FALSE;

  g_value_init (&value, G_TYPE_FILE);
  g_value_set_object (&value, file);
  g_signal_emit_by_name (drop, "drop", &value, 10.0, 10.0, &taken);
  g_assert_true (taken);
  g_assert_cmpstr (get_settings (self)->picture_file, ==, "/nowhere/fern.png");
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
  cav_project_undo (self->project);
  g_assert_null (get_settings (self)->picture_file);
}

/* Each colour that is set is one step; mats that are not there have no row. */
static void
test_colours (Fixture *self, gconstpointer data)
{
  GtkWidget *wall = get_row (self, "Wall");
  GtkWidget *button = ui_test_find (wall, GTK_TYPE_COLOR_BUTTON);
  guint32 before = get_settings (self)->wall_colour;
  GdkRGBA rgba = { 0.2F, 0.4F, 0.6F, 1.0F };

  gtk_color_chooser_set_rgba (GTK_COLOR_CHOOSER (button), &rgba);
  g_signal_emit_by_name (button, "color-set");
  g_assert_cmphex (get_settings (self)->wall_colour, ==, 0x336699);
  g_assert_cmpstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (wall)), ==, "#336699");
  cav_project_undo (self->project);
  g_assert_cmphex (get_settings (self)->wall_colour, ==, before);
  g_assert_true (gtk_widget_get_visible (get_row (self, "First mat")));
  g_assert_false (gtk_widget_get_visible (get_row (self, "Third mat")));
  gtk_editable_set_text (
      cav_figure_row_get_editable (CAV_FIGURE_ROW (get_row (self, "Number of mats"))), "3");
  g_assert_true (cav_figure_row_apply (CAV_FIGURE_ROW (get_row (self, "Number of mats"))));
  g_assert_true (gtk_widget_get_visible (get_row (self, "Third mat")));
  g_assert_true (gtk_widget_get_visible (get_row (self, "Thickness of the third")));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* A picture can be taken out again, and one that is gone is called so. */
static void
test_remove_picture (Fixture *self, gconstpointer data)
{
  GtkWidget *row = get_row (self, "Picture");
  g_autoptr (GFile) file = g_file_new_for_path ("/nowhere/fern.png");

  g_assert_true (cav_frame_edit_set_picture (self->document, file));
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), "fern.png"));
  g_assert_nonnull (strstr (adw_action_row_get_subtitle (ADW_ACTION_ROW (row)), "Missing"));
  g_assert_true (gtk_widget_activate_action (row, "looks.remove-picture", NULL));
  g_assert_null (get_settings (self)->picture_file);
  cav_project_undo (self->project);
  g_assert_cmpstr (get_settings (self)->picture_file, ==, "/nowhere/fern.png");
  cav_project_undo (self->project);
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

static void
turn_on (Fixture *self, const char *title)
{
  gtk_switch_set_active (GTK_SWITCH (ui_test_find (get_row (self, title), GTK_TYPE_SWITCH)), TRUE);
}

/* What is measured is one step a number, and what to correct stands below it. */
static void
test_dry_fit (Fixture *self, gconstpointer data)
{
  GtkWidget *panel = ui_test_find (GTK_WIDGET (self->page), CAV_TYPE_DRY_FIT_PANEL);
  CavFigureRow *left = CAV_FIGURE_ROW (get_row (self, "Gap left"));
  const CavFrame *frame;

  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (left)));
  g_assert_true (says (panel, "Nothing measured yet"));
  turn_on (self, "Gaps around the glass");
  g_assert_true (gtk_widget_get_visible (GTK_WIDGET (left)));
  gtk_editable_set_text (cav_figure_row_get_editable (left), "6.5");
  g_assert_true (cav_figure_row_apply (left));
  frame = cav_project_get_frame (self->project);
  g_assert_cmpuint (frame->corrections->len, ==, 1);
  g_assert_cmpfloat_with_epsilon (g_array_index (frame->corrections, CavCorrection, 0).take_off, 5,
                                  1e-9);
  g_assert_true (says (panel, g_array_index (frame->corrections, CavCorrection, 0).sentence));
  g_assert_true (says (panel, "1 thing to correct"));
  type_number (self, "The same all round", "2.5");
  g_assert_cmpfloat_with_epsilon (get_settings (self)->dry_fit.gap_bottom, 2.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->dry_fit.gap_left, 2.5, 1e-9);
  g_assert_true (says (panel, "2 things to correct"));
  cav_project_undo (self->project);
  cav_project_undo (self->project);
  g_assert_true (says (panel, "Nothing to correct"));
  turn_on (self, "Diagonals of the outside");
  frame = cav_project_get_frame (self->project);
  g_assert_cmpfloat_with_epsilon (get_settings (self)->dry_fit.diagonal_rising,
                                  hypot (frame->sizes.outside.width, frame->sizes.outside.height),
                                  0.06);
  g_assert_cmpuint (frame->corrections->len, ==, 0);
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

static CavFrameDetail *
get_detail (Fixture *self, const char *view)
{
  GtkWidget *stack = ui_test_find (GTK_WIDGET (self->page), GTK_TYPE_STACK);

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (self->page), "frame.view", "s", view));
  ui_test_settle ();
  g_assert_cmpstr (gtk_stack_get_visible_child_name (GTK_STACK (stack)), ==, view);
  return CAV_FRAME_DETAIL (
      ui_test_find (gtk_stack_get_visible_child (GTK_STACK (stack)), CAV_TYPE_FRAME_DETAIL));
}

/* TRUE where some text of the drawing holds it. */
static gboolean
is_drawn (CavFrameDetail *detail, const char *part)
{
  CavScene *scene = cav_frame_detail_get_scene (detail);

  for (guint i = 0; scene != NULL && i < cav_scene_get_text_count (scene); i++)
    {
      const char *text = NULL;
      const CavTextStyle *style = NULL;

      cav_scene_get_text (scene, i, &text, &style);
      if (strstr (text, part) != NULL)
        return TRUE;
    }
  return FALSE;
}

/* A line of the list puts the focus on the row that it speaks of. */
static void
test_finding (Fixture *self, gconstpointer data)
{
  CavFigureRow *room = CAV_FIGURE_ROW (get_row (self, "Allowance"));
  const CavFinding *finding;
  g_autofree char *message = NULL;
  GtkWidget *focus;

  gtk_editable_set_text (cav_figure_row_get_editable (room), "12");
  g_assert_true (cav_figure_row_apply (room));
  finding = g_ptr_array_index (cav_project_get_frame (self->project)->findings, 0);
  g_assert_true (g_str_has_suffix (finding->code, "-cover"));
  message = g_strdup (finding->message);
  gtk_window_set_focus (self->window, NULL);
  g_assert_true (gtk_widget_activate (get_row (self, message)));
  focus = gtk_window_get_focus (self->window);
  g_assert_nonnull (focus);
  g_assert_true (gtk_widget_is_ancestor (focus, GTK_WIDGET (room)));
  cav_project_undo (self->project);
  g_assert_null (find_row (GTK_WIDGET (self->page), message));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* The views are drawn from the project and follow it; the slider moves the air alone. */
static void
test_views (Fixture *self, gconstpointer data)
{
  CavFrameDetail *section = get_detail (self, "through");
  CavFrameDetail *mitre;
  GtkWidget *scale;

  ui_test_wait_for (is_drawn (section, "hardboard"));
  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Backing")), CAV_BACKING_FOAM);
  g_assert_false (is_drawn (section, "hardboard"));
  ui_test_wait_for (is_drawn (section, "foam"));
  mitre = get_detail (self, "mitre");
  ui_test_wait_for (is_drawn (mitre, "season, at 30 %"));
  scale = ui_test_find (gtk_widget_get_ancestor (GTK_WIDGET (mitre), GTK_TYPE_BOX), GTK_TYPE_SCALE);
  gtk_range_set_value (GTK_RANGE (scale), 80);
  ui_test_wait_for (is_drawn (mitre, "season, at 80 %"));
  cav_project_undo (self->project);
  section = get_detail (self, "through");
  ui_test_wait_for (is_drawn (section, "hardboard"));
  get_detail (self, "mitre");
  gtk_widget_activate_action (GTK_WIDGET (self->page), "frame.view", "s", "nowhere");
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (mitre)));
  gtk_widget_activate_action (GTK_WIDGET (self->page), "frame.view", "s", "wall");
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

/* A frame without a size has a sentence in place of the picture. */
static void
test_impossible (Fixture *self, gconstpointer data)
{
  CavFigureRow *row = CAV_FIGURE_ROW (get_row (self, "Picture width"));
  GtkWidget *results = ui_test_find (GTK_WIDGET (self->page), CAV_TYPE_FRAME_RESULTS);

  adw_combo_row_set_selected (ADW_COMBO_ROW (get_row (self, "Work from")), CAV_FRAME_START_OUTSIDE);
  row = CAV_FIGURE_ROW (get_row (self, "Width at hand"));
  gtk_editable_set_text (cav_figure_row_get_editable (row), "20");
  g_assert_true (cav_figure_row_apply (row));
  g_assert_false (cav_project_get_frame (self->project)->possible);
  g_assert_true (says (results, "Wrong"));
  ui_test_wait_for (cav_frame_canvas_is_settled (self->canvas));
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
#define ADD(name, function)                                                                        \
  g_test_add ("/ui/frame-page/" name, Fixture, NULL, set_up, function, tear_down)
  ADD ("numbers", test_numbers);
  ADD ("choices", test_choices);
  ADD ("borders", test_borders);
  ADD ("widest-borders", test_widest_borders);
  ADD ("plies", test_plies);
  ADD ("landscape", test_landscape);
  ADD ("notes", test_notes);
  ADD ("order", test_order);
  ADD ("light", test_light);
  ADD ("drop", test_drop);
  ADD ("colours", test_colours);
  ADD ("remove-picture", test_remove_picture);
  ADD ("dry-fit", test_dry_fit);
  ADD ("views", test_views);
  ADD ("finding", test_finding);
  ADD ("impossible", test_impossible);
  return g_test_run ();
}
