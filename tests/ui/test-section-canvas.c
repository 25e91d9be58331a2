/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-section-canvas.h"

#include <adwaita.h>
#include <math.h>

#include "app/cav-settings.h"
#include "project/cav-handle.h"
#include "ui-test.h"

#define WIDTH 1000
#define HEIGHT 640

typedef struct
{
  CavDocument *document;
  CavProject *project;
  CavSelection *selection;
  CavSectionCanvas *canvas;
  GtkWindow *window;
  GtkEventController *draw;
} Rig;

static GtkEventController *
find_controller (GtkWidget *widget, const char *name)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (g_strcmp0 (gtk_event_controller_get_name (controller), name) == 0)
        return controller;
    }
  g_error ("There is no controller “%s”.", name);
}

/* A blank of 50 by 26 without cuts, or an example. */
static void
set_up (Rig *rig, gconstpointer example)
{
  if (example != NULL)
    rig->document = ui_test_open_example (example);
  else
    {
      rig->document = cav_document_new ();
      cav_project_set_blank (cav_document_get_project (rig->document), (CavBlank){ 50, 26 });
    }
  rig->project = cav_document_get_project (rig->document);
  rig->selection = cav_document_get_selection (rig->document);
  rig->canvas = CAV_SECTION_CANVAS (cav_section_canvas_new (rig->document));
  g_object_add_weak_pointer (G_OBJECT (rig->canvas), (gpointer *)&rig->canvas);
  rig->window = ui_test_show (GTK_WIDGET (rig->canvas), WIDTH, HEIGHT);
  rig->draw = find_controller (GTK_WIDGET (rig->canvas), "draw");
  g_settings_set_string (cav_settings_get (), CAV_SETTING_UNIT, "mm");
  g_settings_set_boolean (cav_settings_get (), CAV_SETTING_SNAP, FALSE);
}

static void
tear_down (Rig *rig, gconstpointer example)
{
  gtk_window_destroy (rig->window);
  ui_test_settle ();
  g_assert_null (rig->canvas);
  g_assert_finalize_object (rig->document);
}

static CavPoint
to_pixel (Rig *rig, double x, double y)
{
  CavView view = cav_section_canvas_get_view (rig->canvas);

  return cav_view_to_pixel (&view, CAV_POINT (x, y));
}

/* Millimetres of the blank. */
static void
press (Rig *rig, double x, double y)
{
  CavPoint pixel = to_pixel (rig, x, y);

  g_signal_emit_by_name (rig->draw, "drag-begin", pixel.x, pixel.y);
}

static void
move (Rig *rig, double dx, double dy)
{
  CavView view = cav_section_canvas_get_view (rig->canvas);

  g_signal_emit_by_name (rig->draw, "drag-update", dx * view.scale, -dy * view.scale);
}

static void
release (Rig *rig)
{
  g_signal_emit_by_name (rig->draw, "drag-end", 0.0, 0.0);
}

static void
drag (Rig *rig, double x0, double y0, double x1, double y1)
{
  press (rig, x0, y0);
  for (int i = 1; i <= 5; i++)
    {
      move (rig, (x1 - x0) * i / 5, (y1 - y0) * i / 5);
      ui_test_settle ();
    }
  release (rig);
}

static void
hover (Rig *rig, double x, double y)
{
  CavPoint pixel = to_pixel (rig, x, y);

  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_MOTION), "motion",
      pixel.x, pixel.y);
}

static gboolean
type_key (Rig *rig, guint keyval, GdkModifierType state)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_KEY),
      "key-pressed", keyval, 0, state, &handled);
  return handled;
}

static void
take_picture (Rig *rig, const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_BUILT, name, NULL);

  ui_test_settle ();
  ui_test_take_picture (GTK_WIDGET (rig->canvas), path);
}

static const CavCut *
get_cut (Rig *rig, guint index)
{
  g_assert_cmpuint (index, <, cav_project_get_cut_count (rig->project));
  return cav_project_get_cut (rig->project, index);
}

static gboolean
activate (Rig *rig, const char *action)
{
  return gtk_widget_activate_action (GTK_WIDGET (rig->canvas), action, NULL);
}

typedef struct
{
  CavCutKind kind;
  CavAnchorKind anchor;
  double x0, y0, x1, y1;
} Stroke;

static const Stroke strokes[] = {
  { CAV_CUT_RABBET, CAV_ANCHOR_CORNER, 0, 0, 6, 10 },
  { CAV_CUT_STEPS, CAV_ANCHOR_CORNER, 0, 26, 12, 17 },
  { CAV_CUT_GROOVE, CAV_ANCHOR_SIDE, 20, 26, 26, 20 },
  { CAV_CUT_COVE, CAV_ANCHOR_CORNER, 50, 26, 41, 17 },
  { CAV_CUT_ROUND, CAV_ANCHOR_CORNER, 50, 26, 44, 20 },
  { CAV_CUT_CHAMFER, CAV_ANCHOR_CORNER, 50, 0, 46, 4 },
  { CAV_CUT_BEVEL, CAV_ANCHOR_SIDE, 10, 26, 40, 20 },
  { CAV_CUT_BEAD, CAV_ANCHOR_SIDE, 20, 26, 28, 22 },
  { CAV_CUT_OGEE, CAV_ANCHOR_CORNER, 0, 26, 12, 14 },
};

/* A stroke over the blank makes a cut of the chosen kind; it is chosen, the pointer is free again,
 * and one undo takes it away. */
static void
test_draw (Rig *rig, gconstpointer data)
{
  for (guint i = 0; i < G_N_ELEMENTS (strokes); i++)
    {
      const Stroke *stroke = &strokes[i];
      const char *name = cav_cut_kind_get_info (stroke->kind)->name;
      g_autofree char *step = g_strdup_printf ("draw %s", name);
      guint index;

      g_test_message ("%s", name);
      cav_selection_set_kind (rig->selection, (int)stroke->kind);
      drag (rig, stroke->x0, stroke->y0, stroke->x1, stroke->y1);
      g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
      g_assert_cmpint (get_cut (rig, 0)->kind, ==, stroke->kind);
      g_assert_cmpint (get_cut (rig, 0)->anchor, ==, stroke->anchor);
      g_assert_true (cav_selection_get_single_cut (rig->selection, &index));
      g_assert_cmpuint (index, ==, 0);
      g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, CAV_NO_KIND);
      g_assert_false (cav_project_is_in_step (rig->project));
      g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, step);
      g_assert_true (cav_project_undo (rig->project));
      g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
    }
}

/* What the stroke covers is what the numbers say. */
static void
test_draw_exactly (Rig *rig, gconstpointer data)
{
  cav_selection_set_kind (rig->selection, CAV_CUT_RABBET);
  drag (rig, 0, 0, 6, 10);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 6, 0.05);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 10, 0.05);
  g_assert_cmpint (get_cut (rig, 0)->corner, ==, CAV_CORNER_BACK_INSIDE);
}

/* With snapping on, a shaky hand still gives whole millimetres. */
static void
test_snap (Rig *rig, gconstpointer data)
{
  g_settings_set_boolean (cav_settings_get (), CAV_SETTING_SNAP, TRUE);
  cav_selection_set_kind (rig->selection, CAV_CUT_RABBET);
  drag (rig, 0.1, 0.12, 6.13, 9.88);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 6, 1e-6);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 10, 1e-6);
}

/* A click with a kind makes the cut that proposes itself there. */
static void
test_click_draws (Rig *rig, gconstpointer data)
{
  cav_selection_set_kind (rig->selection, CAV_CUT_COVE);
  hover (rig, 49, 25);
  press (rig, 49, 25);
  release (rig);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
  g_assert_cmpint (get_cut (rig, 0)->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, CAV_NO_KIND);
}

static void
test_drawn_path (Rig *rig, gconstpointer data)
{
  static const double corners[][2] = { { 20, 26 }, { 30, 26 }, { 30, 18 }, { 20, 18 } };

  cav_selection_set_kind (rig->selection, CAV_CUT_DRAWN);
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      hover (rig, corners[i][0], corners[i][1]);
      press (rig, corners[i][0], corners[i][1]);
      /* The third is drawn out to an arc. */
      if (i == 2)
        move (rig, 3, 4);
      release (rig);
    }
  /* One point too many is taken back. */
  hover (rig, 10, 10);
  press (rig, 10, 10);
  release (rig);
  g_assert_true (type_key (rig, GDK_KEY_BackSpace, 0));
  hover (rig, 20.1, 26);
  press (rig, 20.1, 26);
  release (rig);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
  g_assert_cmpint (get_cut (rig, 0)->kind, ==, CAV_CUT_DRAWN);
  g_assert_cmpuint (cav_path_get_segment_count (get_cut (rig, 0)->path), ==, 4);
  g_assert_cmpint (cav_path_get_segment (get_cut (rig, 0)->path, 1)->kind, ==, CAV_SEGMENT_ARC);
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
}

/* An outline that crosses itself says so and can be put right. */
static void
test_drawn_path_refused (Rig *rig, gconstpointer data)
{
  static const double corners[][2] = { { 20, 26 }, { 30, 18 }, { 30, 26 }, { 20, 18 } };

  cav_selection_set_kind (rig->selection, CAV_CUT_DRAWN);
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      hover (rig, corners[i][0], corners[i][1]);
      press (rig, corners[i][0], corners[i][1]);
      release (rig);
    }
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  g_assert_nonnull (cav_section_canvas_get_figure (rig->canvas));
  g_assert_true (type_key (rig, GDK_KEY_Escape, 0));
  g_assert_null (cav_section_canvas_get_figure (rig->canvas));
}

static void
test_edit_path (Rig *rig, gconstpointer data)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavCut) cut = NULL;

  cav_path_move_to (path, CAV_POINT (10, 12));
  cav_path_line_to (path, CAV_POINT (30, 12));
  cav_path_line_to (path, CAV_POINT (30, 26));
  cav_path_line_to (path, CAV_POINT (10, 26));
  cav_path_close (path);
  cut = cav_cut_new_drawn (path);
  cav_project_add_cut (rig->project, cut);
  cav_selection_choose_cut (rig->selection, 0);

  hover (rig, 17, 12);
  g_assert_true (activate (rig, "canvas.insert-point"));
  g_assert_cmpuint (cav_path_get_segment_count (get_cut (rig, 0)->path), ==, 5);
  hover (rig, 17, 12);
  g_assert_true (activate (rig, "canvas.remove-point"));
  g_assert_cmpuint (cav_path_get_segment_count (get_cut (rig, 0)->path), ==, 4);
  hover (rig, 26, 12);
  g_assert_true (activate (rig, "canvas.toggle-arc"));
  g_assert_cmpint (cav_path_get_segment (get_cut (rig, 0)->path, 0)->kind, ==, CAV_SEGMENT_ARC);
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpint (cav_path_get_segment (get_cut (rig, 0)->path, 0)->kind, ==, CAV_SEGMENT_LINE);
}

static void
add_rabbet (Rig *rig, CavCorner corner, double width, double depth)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, corner);

  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  cav_project_add_cut (rig->project, cut);
}

/* (transfer none) The handle that changes a number. */
static CavHandle
find_handle (Rig *rig, CavCutNumber number)
{
  CavBlank blank = cav_project_get_blank (rig->project);
  g_autoptr (GArray) handles = cav_handle_list_new (get_cut (rig, 0), &blank);

  for (guint i = 0; i < handles->len; i++)
    {
      CavHandle handle = g_array_index (handles, CavHandle, i);

      if (handle.kind == CAV_HANDLE_NUMBER && handle.n_numbers > 0 && handle.numbers[0] == number)
        return handle;
    }
  g_assert_not_reached ();
}

/* Many movements, one step. */
static void
test_handle (Rig *rig, gconstpointer data)
{
  CavHandle handle;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  handle = find_handle (rig, CAV_CUT_WIDTH);
  press (rig, handle.point.x, handle.point.y);
  for (int i = 0; i <= 40; i++)
    move (rig, i * 0.1, 0);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 12, 0.01);
  g_assert_nonnull (cav_section_canvas_get_figure (rig->canvas));
  release (rig);
  g_assert_null (cav_section_canvas_get_figure (rig->canvas));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 9, 1e-9);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "resize rabbet");
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 8, 1e-9);
}

static void
test_escape_abandons (Rig *rig, gconstpointer data)
{
  CavHandle handle;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  handle = find_handle (rig, CAV_CUT_DEPTH);
  press (rig, handle.point.x, handle.point.y);
  move (rig, 0, -4);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 13, 0.01);
  g_assert_true (type_key (rig, GDK_KEY_Escape, 0));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 9, 1e-9);
  move (rig, 0, -6);
  release (rig);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 9, 1e-9);
  g_assert_false (cav_project_is_in_step (rig->project));
  cav_selection_set_kind (rig->selection, CAV_CUT_COVE);
  press (rig, 50, 26);
  move (rig, -5, -5);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 2);
  g_assert_true (type_key (rig, GDK_KEY_Escape, 0));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
  release (rig);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
}

/* In the middle of a drag the number is typed, and the drag ends with it. */
static void
test_typed_number (Rig *rig, gconstpointer data)
{
  CavHandle handle;
  GtkWidget *entry;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  handle = find_handle (rig, CAV_CUT_WIDTH);
  press (rig, handle.point.x, handle.point.y);
  move (rig, 3, 0);
  g_assert_true (type_key (rig, GDK_KEY_1, 0));
  entry = ui_test_find (GTK_WIDGET (rig->canvas), GTK_TYPE_ENTRY);
  g_assert_nonnull (entry);
  g_assert_true (gtk_widget_get_mapped (entry));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "1");
  take_picture (rig, "canvas-typed.png");
  gtk_editable_set_text (GTK_EDITABLE (entry), "3/8 in + nonsense");
  g_signal_emit_by_name (entry, "activate");
  g_assert_nonnull (cav_section_canvas_get_figure (rig->canvas));
  gtk_editable_set_text (GTK_EDITABLE (entry), "1/2 in");
  g_signal_emit_by_name (entry, "activate");
  g_assert_false (gtk_widget_get_mapped (entry));
  release (rig);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 12.7, 1e-9);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "resize rabbet");
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 8, 1e-9);
}

/* Page Down and Up, arrows and Return do all that a pointer does. */
static void
test_keyboard (Rig *rig, gconstpointer data)
{
  GtkWidget *entry = ui_test_find (GTK_WIDGET (rig->canvas), GTK_TYPE_ENTRY);
  guint index;
  int n_stops = 0;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  add_rabbet (rig, CAV_CORNER_BACK_INSIDE, 6, 10);
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (cav_selection_get_single_cut (rig->selection, &index));
  g_assert_cmpuint (index, ==, 0);
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  g_assert_true (gtk_widget_get_mapped (entry));
  gtk_editable_set_text (GTK_EDITABLE (entry), "7.5");
  g_signal_emit_by_name (entry, "activate");
  g_assert_true (fabs (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH] - 7.5) < 1e-9
                 || fabs (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH] - 7.5) < 1e-9);
  /* Tab leads out at once, and the way has an end. */
  g_assert_false (type_key (rig, GDK_KEY_Tab, 0));
  while (type_key (rig, GDK_KEY_Page_Down, 0))
    n_stops++;
  g_assert_cmpint (n_stops, >, 4);
  g_assert_cmpint (n_stops, <, 40);
  g_assert_true (cav_selection_get_single_cut (rig->selection, &index));
  g_assert_cmpuint (index, ==, 1);
  while (type_key (rig, GDK_KEY_Page_Up, 0))
    n_stops--;
  g_assert_true (cav_selection_get_single_cut (rig->selection, &index));
  g_assert_cmpuint (index, ==, 0);
}

/* Without a pointer a cut goes to a place that is free, and the next one to another. */
static void
test_draw_by_key (Rig *rig, gconstpointer data)
{
  cav_selection_set_kind (rig->selection, CAV_CUT_RABBET);
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  cav_selection_set_kind (rig->selection, CAV_CUT_COVE);
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 2);
  g_assert_cmpint (get_cut (rig, 0)->kind, ==, CAV_CUT_RABBET);
  g_assert_cmpint (get_cut (rig, 1)->kind, ==, CAV_CUT_COVE);
  g_assert_cmpint (get_cut (rig, 0)->corner, !=, get_cut (rig, 1)->corner);
  g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, CAV_NO_KIND);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "draw cove");
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
}

static void
nudge (Rig *rig, int x, int y)
{
  g_assert_true (
      gtk_widget_activate_action (GTK_WIDGET (rig->canvas), "canvas.nudge", "(ii)", x, y));
}

static void
test_nudge (Rig *rig, gconstpointer data)
{
  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  nudge (rig, 10, 0);
  nudge (rig, 1, 0);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_SHIFT_X], 1.1, 1e-6);
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_SHIFT_X], 1, 1e-6);
}

static void
test_band_and_groups (Rig *rig, gconstpointer data)
{
  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  add_rabbet (rig, CAV_CORNER_BACK_INSIDE, 6, 10);
  add_rabbet (rig, CAV_CORNER_FACE_OUTSIDE, 5, 5);
  drag (rig, -3, 29, 10, -3);
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 2);
  g_assert_true (cav_selection_has_cut (rig->selection, 0));
  g_assert_true (cav_selection_has_cut (rig->selection, 1));
  g_assert_false (cav_selection_has_cut (rig->selection, 2));
  /* Moved together by one of them, one step. */
  drag (rig, 4, 22, 6, 22);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_SHIFT_X], 2, 0.01);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 1)->numbers[CAV_CUT_SHIFT_X], 2, 0.01);
  g_assert_true (cav_project_undo (rig->project));
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_SHIFT_X], 0, 1e-9);
  g_assert_true (activate (rig, "canvas.choose-all"));
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 3);
  g_assert_true (activate (rig, "canvas.duplicate"));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 6);
  g_assert_true (cav_selection_has_cut (rig->selection, 5));
  g_assert_true (activate (rig, "canvas.delete"));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 3);
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 0);
  /* A click on nothing chooses nothing, one on a cut that cut. */
  press (rig, 48, 24);
  release (rig);
  g_assert_true (cav_selection_has_cut (rig->selection, 2));
  press (rig, 30, 10);
  release (rig);
  g_assert_cmpuint (cav_selection_get_cut_count (rig->selection), ==, 0);
}

static void
test_mirror (Rig *rig, gconstpointer data)
{
  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  g_assert_true (activate (rig, "canvas.mirror-across"));
  g_assert_cmpint (get_cut (rig, 0)->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  g_assert_true (activate (rig, "canvas.mirror-through"));
  g_assert_cmpint (get_cut (rig, 0)->corner, ==, CAV_CORNER_BACK_OUTSIDE);
}

static void
test_clipboard (Rig *rig, gconstpointer data)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (GTK_WIDGET (rig->canvas));

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  g_assert_true (activate (rig, "canvas.cut"));
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  g_assert_true (activate (rig, "canvas.paste"));
  ui_test_wait_for (cav_project_get_cut_count (rig->project) == 1);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH], 8, 1e-9);
  g_assert_true (cav_selection_has_cut (rig->selection, 0));
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "paste");
  gdk_clipboard_set_text (clipboard, "a shopping list");
  g_assert_true (activate (rig, "canvas.paste"));
  ui_test_wait_for (cav_section_canvas_get_figure (rig->canvas) != NULL);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
}

/* Nothing that a wild hand does breaks anything, and it is told what is wrong. */
static void
test_far_outside (Rig *rig, gconstpointer data)
{
  static const double wild[][2]
      = { { 1e4, 1e4 }, { -1e4, 3 }, { 0, -1e6 }, { 1e9, -1e9 }, { 25, 13 }, { -3, 1e3 } };

  for (guint kind = 0; kind < CAV_CUT_DRAWN; kind++)
    {
      cav_selection_set_kind (rig->selection, (int)kind);
      press (rig, 0, 26);
      for (guint i = 0; i < G_N_ELEMENTS (wild); i++)
        {
          move (rig, wild[i][0], wild[i][1]);
          ui_test_settle ();
        }
      release (rig);
      cav_selection_set_kind (rig->selection, CAV_NO_KIND);
    }
  g_assert_false (cav_project_is_in_step (rig->project));
  /* From far outside to farther outside: no cut, a sentence. */
  {
    g_autoptr (GPtrArray) none = g_ptr_array_new ();

    cav_project_replace_cuts (rig->project, none);
  }
  cav_selection_set_kind (rig->selection, CAV_CUT_RABBET);
  press (rig, -400, 300);
  move (rig, -100, 100);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  g_assert_nonnull (cav_section_canvas_get_figure (rig->canvas));
  release (rig);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  /* A handle that is dragged away stays in its range. */
  cav_selection_set_kind (rig->selection, CAV_NO_KIND);
  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  press (rig, find_handle (rig, CAV_CUT_WIDTH).point.x, find_handle (rig, CAV_CUT_WIDTH).point.y);
  move (rig, 1e7, -1e7);
  g_assert_true (isfinite (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH]));
  g_assert_nonnull (cav_section_canvas_get_figure (rig->canvas));
  release (rig);
  g_assert_true (cav_project_undo (rig->project));
}

static void
test_zoom (Rig *rig, gconstpointer data)
{
  CavView before = cav_section_canvas_get_view (rig->canvas);
  CavView after;
  CavPoint place = CAV_POINT (12, 20);
  CavPoint pixel = cav_view_to_pixel (&before, place);
  gboolean handled = FALSE;
  GtkEventController *pan = find_controller (GTK_WIDGET (rig->canvas), "pan");

  hover (rig, 12, 20);
  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_SCROLL), "scroll",
      0.0, -2.0, &handled);
  g_assert_true (handled);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat (after.scale, >, before.scale * 1.2);
  g_assert_true (cav_point_near (cav_view_to_pixel (&after, place), pixel, 1e-6));
  before = after;
  g_signal_emit_by_name (pan, "drag-begin", 300.0, 300.0);
  g_signal_emit_by_name (pan, "drag-update", 40.0, -25.0);
  g_signal_emit_by_name (pan, "drag-update", 50.0, -35.0);
  g_signal_emit_by_name (pan, "drag-end", 50.0, -35.0);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat_with_epsilon (after.x - before.x, 50, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y - before.y, -35, 1e-6);
  g_assert_true (activate (rig, "canvas.zoom-fit"));
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat (after.scale, <, before.scale);
  /* The wood can not be lost. */
  for (int i = 0; i < 50; i++)
    {
      g_signal_emit_by_name (pan, "drag-begin", 300.0, 300.0);
      g_signal_emit_by_name (pan, "drag-update", 400.0, 400.0);
    }
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat (after.x, <, WIDTH);
}

/* What is chosen, and its numbers, are there for those who do not see the picture. */
static void
test_accessible (Rig *rig, gconstpointer data)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (rig->canvas);

  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       "Section of the molding");
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                       "Blank 50 mm by 26 mm, 0 cuts, none chosen");
  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  cav_selection_choose_cut (rig->selection, 0);
  gtk_test_accessible_assert_property (accessible, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                       "Rabbet, Face and inside, Width 8 mm, Depth 9 mm");
}

/* Pictures to look at; the states are asserted above. */
static void
test_pictures (Rig *rig, gconstpointer data)
{
  CavPlanRunner *runner = cav_document_get_runner (rig->document);

  cav_plan_runner_start (runner);
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  cav_selection_choose_cut (rig->selection, 3);
  hover (rig, 12, 20);
  take_picture (rig, "canvas-chosen.png");
  cav_selection_set_kind (rig->selection, CAV_CUT_ROUND);
  hover (rig, 49, 1);
  take_picture (rig, "canvas-proposal.png");
  g_settings_set_boolean (cav_settings_get (), CAV_SETTING_SNAP, TRUE);
  press (rig, 50, 0);
  move (rig, -6.2, 6.25);
  hover (rig, 43.7, 6.3);
  take_picture (rig, "canvas-drawing.png");
  g_assert_true (type_key (rig, GDK_KEY_Escape, 0));
  release (rig);
  cav_selection_set_kind (rig->selection, CAV_NO_KIND);
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT);
  for (int pass = 0; pass < (int)cav_plan_get_pass_count (cav_plan_runner_get_plan (runner));
       pass++)
    {
      g_autofree char *name = g_strdup_printf ("canvas-pass-%d.png", pass);

      cav_selection_set_pass (rig->selection, pass);
      take_picture (rig, name);
    }
  cav_selection_set_pass (rig->selection, 1);
  cav_selection_set_progress (rig->selection, 0.5);
  take_picture (rig, "canvas-playing.png");
  cav_selection_set_pass (rig->selection, CAV_NO_PASS);
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (),
                                      ADW_COLOR_SCHEME_FORCE_DARK);
  cav_selection_choose_cut (rig->selection, 2);
  hover (rig, 30, 12);
  take_picture (rig, "canvas-night.png");
  cav_selection_set_pass (rig->selection, 2);
  take_picture (rig, "canvas-night-pass.png");
  adw_style_manager_set_color_scheme (adw_style_manager_get_default (), ADW_COLOR_SCHEME_DEFAULT);
}

#define ADD(name, data, test)                                                                      \
  g_test_add ("/ui/section-canvas/" name, Rig, data, set_up, test, tear_down)

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("draw", NULL, test_draw);
  ADD ("draw-exactly", NULL, test_draw_exactly);
  ADD ("snap", NULL, test_snap);
  ADD ("click-draws", NULL, test_click_draws);
  ADD ("drawn-path", NULL, test_drawn_path);
  ADD ("drawn-path-refused", NULL, test_drawn_path_refused);
  ADD ("edit-path", NULL, test_edit_path);
  ADD ("handle", NULL, test_handle);
  ADD ("escape-abandons", NULL, test_escape_abandons);
  ADD ("typed-number", NULL, test_typed_number);
  ADD ("keyboard", NULL, test_keyboard);
  ADD ("draw-by-key", NULL, test_draw_by_key);
  ADD ("nudge", NULL, test_nudge);
  ADD ("band-and-groups", NULL, test_band_and_groups);
  ADD ("mirror", NULL, test_mirror);
  ADD ("clipboard", NULL, test_clipboard);
  ADD ("far-outside", NULL, test_far_outside);
  ADD ("zoom", NULL, test_zoom);
  ADD ("accessible", NULL, test_accessible);
  ADD ("pictures", "cove-and-bead.cavetto", test_pictures);
  return g_test_run ();
}
