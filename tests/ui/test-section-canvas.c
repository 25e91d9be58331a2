/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "canvas-rig.h"

#include <adwaita.h>

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

/* Who goes on with the pointer has entered the number, and needs no Return. */
static void
test_typed_and_left (Rig *rig, gconstpointer data)
{
  GtkWidget *entry;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  entry = ui_test_find (GTK_WIDGET (rig->canvas), GTK_TYPE_ENTRY);
  g_assert_nonnull (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), "11");
  press (rig, 30, 20);
  release (rig);
  g_assert_false (gtk_widget_get_mapped (entry));
  g_assert_true (fabs (get_cut (rig, 0)->numbers[CAV_CUT_WIDTH] - 11) < 1e-9
                 || fabs (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH] - 11) < 1e-9);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "resize rabbet");
  g_assert_false (cav_project_is_in_step (rig->project));
}

/* Page Down and Up, arrows and Return do all that a pointer does. */
static void
test_keyboard (Rig *rig, gconstpointer data)
{
  GtkWidget *entry;
  guint index;
  int n_stops = 0;

  add_rabbet (rig, CAV_CORNER_FACE_INSIDE, 8, 9);
  add_rabbet (rig, CAV_CORNER_BACK_INSIDE, 6, 10);
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (cav_selection_get_single_cut (rig->selection, &index));
  g_assert_cmpuint (index, ==, 0);
  g_assert_true (type_key (rig, GDK_KEY_Page_Down, 0));
  g_assert_true (type_key (rig, GDK_KEY_Return, 0));
  entry = ui_test_find (GTK_WIDGET (rig->canvas), GTK_TYPE_ENTRY);
  g_assert_nonnull (entry);
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

static void
test_zoom (Rig *rig, gconstpointer data)
{
  CavView before = cav_section_canvas_get_view (rig->canvas);
  CavView after;
  CavPoint place = CAV_POINT (12, 20);
  CavPoint pixel = cav_view_to_pixel (&before, place);
  gboolean handled = FALSE;
  GtkEventController *pan = find_controller (GTK_WIDGET (rig->canvas), "pan");
  GtkEventController *pinch
      = ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_GESTURE_ZOOM);

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
  /* Two fingers: from what it was at their begin, however many movements there are. */
  before = after;
  g_signal_emit_by_name (pinch, "begin", NULL);
  g_signal_emit_by_name (pinch, "scale-changed", 1.2);
  g_signal_emit_by_name (pinch, "scale-changed", 1.5);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat_with_epsilon (after.scale, 1.5 * before.scale, 1e-6);
  /* The wood can not be lost. */
  for (int i = 0; i < 50; i++)
    {
      g_signal_emit_by_name (pan, "drag-begin", 300.0, 300.0);
      g_signal_emit_by_name (pan, "drag-update", 400.0, 400.0);
    }
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat (after.x, <, WIDTH);
}

/* A second finger ends a stroke: what was drawn so far goes. */
static void
test_drag_is_broken_off (Rig *rig, gconstpointer data)
{
  GtkEventController *pan = find_controller (GTK_WIDGET (rig->canvas), "pan");
  g_autofree char *step = g_strdup (cav_project_get_undo_name (rig->project));

  cav_selection_set_kind (rig->selection, CAV_CUT_RABBET);
  press (rig, 1, 1);
  move (rig, 8, 8);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 1);
  g_signal_emit_by_name (rig->draw, "cancel", NULL);
  g_assert_cmpuint (cav_project_get_cut_count (rig->project), ==, 0);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, step);

  g_signal_emit_by_name (pan, "drag-begin", 300.0, 300.0);
  g_assert_nonnull (gtk_widget_get_cursor (GTK_WIDGET (rig->canvas)));
  g_signal_emit_by_name (pan, "cancel", NULL);
  g_assert_null (gtk_widget_get_cursor (GTK_WIDGET (rig->canvas)));
}

static void
scroll (Rig *rig, double dx, double dy)
{
  gboolean handled = FALSE;

  g_signal_emit_by_name (
      ui_test_get_controller (GTK_WIDGET (rig->canvas), GTK_TYPE_EVENT_CONTROLLER_SCROLL), "scroll",
      dx, dy, &handled);
  g_assert_true (handled);
}

/* Two fingers on a touchpad carry the section with them, as the same display server tells of it
 * that has one pointer for all devices: in parts of a click. */
static void
test_two_fingers (Rig *rig, gconstpointer data)
{
  CavView before = cav_section_canvas_get_view (rig->canvas);
  CavView after;

  hover (rig, 12, 20);
  for (int i = 0; i < 10; i++)
    scroll (rig, 0.11, -0.23);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat_with_epsilon (after.scale, before.scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.x - before.x, -33, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y - before.y, 69, 1e-6);
}

/* A wheel that is tilted carries the section aside, and does not zoom. */
static void
test_tilted_wheel (Rig *rig, gconstpointer data)
{
  CavView before = cav_section_canvas_get_view (rig->canvas);
  CavView after;

  scroll (rig, 1, 0);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat_with_epsilon (after.scale, before.scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.x - before.x, -30, 1e-6);
  g_assert_cmpfloat_with_epsilon (after.y, before.y, 1e-9);
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

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("handle", NULL, test_handle);
  ADD ("escape-abandons", NULL, test_escape_abandons);
  ADD ("typed-number", NULL, test_typed_number);
  ADD ("typed-and-left", NULL, test_typed_and_left);
  ADD ("keyboard", NULL, test_keyboard);
  ADD ("nudge", NULL, test_nudge);
  ADD ("band-and-groups", NULL, test_band_and_groups);
  ADD ("mirror", NULL, test_mirror);
  ADD ("clipboard", NULL, test_clipboard);
  ADD ("zoom", NULL, test_zoom);
  ADD ("two-fingers", NULL, test_two_fingers);
  ADD ("drag-is-broken-off", NULL, test_drag_is_broken_off);
  ADD ("tilted-wheel", NULL, test_tilted_wheel);
  ADD ("accessible", NULL, test_accessible);
  ADD ("pictures", "cove-and-bead.cavetto", test_pictures);
  return g_test_run ();
}
