/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "canvas-rig.h"

/* Drawing cuts on the section. */

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
      /* The third is drawn out to an arc. A pointer that drags is one that moves, too. */
      if (i == 2)
        {
          move (rig, 3, 4);
          hover (rig, corners[i][0] + 3, corners[i][1] + 4);
        }
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

/* The strip below grows with the first pass: the section stays under the hand until it lets go. */
static void
test_stays_under_the_hand (Rig *rig, gconstpointer data)
{
  GtkWidget *canvas = GTK_WIDGET (rig->canvas);
  CavView before = cav_section_canvas_get_view (rig->canvas);
  CavView during;
  CavView after;

  cav_selection_set_kind (rig->selection, CAV_CUT_COVE);
  press (rig, 50, 26);
  move (rig, -5, -6);
  gtk_widget_allocate (canvas, WIDTH, HEIGHT - 120, -1, NULL);
  during = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat_with_epsilon (during.scale, before.scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (during.y, before.y, 1e-9);
  move (rig, -5, -6);
  g_assert_cmpfloat_with_epsilon (get_cut (rig, 0)->numbers[CAV_CUT_DEPTH], 6, 0.01);
  release (rig);
  gtk_widget_allocate (canvas, WIDTH, HEIGHT - 120, -1, NULL);
  after = cav_section_canvas_get_view (rig->canvas);
  g_assert_cmpfloat (after.y, <, before.y);
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

/* The words of the menu's entries, section by section. */
static void
collect_labels (GMenuModel *menu, GString *labels)
{
  for (int i = 0; i < g_menu_model_get_n_items (menu); i++)
    {
      g_autoptr (GMenuModel) section = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SECTION);
      g_autofree char *label = NULL;

      if (g_menu_model_get_item_attribute (menu, i, G_MENU_ATTRIBUTE_LABEL, "s", &label))
        g_string_append_printf (labels, "%s\n", label);
      if (section != NULL)
        collect_labels (section, labels);
    }
}

/* A press of the other button at a place, and the pointer goes over to the menu. */
static char *
open_menu (Rig *rig, double x, double y)
{
  GtkWidget *canvas = GTK_WIDGET (rig->canvas);
  CavPoint pixel = to_pixel (rig, x, y);
  GString *labels = g_string_new (NULL);

  g_signal_emit_by_name (find_controller (canvas, "menu"), "pressed", 1, pixel.x, pixel.y);
  for (GtkWidget *child = gtk_widget_get_first_child (canvas); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER_MENU (child))
      collect_labels (gtk_popover_menu_get_menu_model (GTK_POPOVER_MENU (child)), labels);
  g_signal_emit_by_name (ui_test_get_controller (canvas, GTK_TYPE_EVENT_CONTROLLER_MOTION),
                         "leave");
  return g_string_free (labels, FALSE);
}

static void
close_menu (Rig *rig)
{
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (rig->canvas)); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER_MENU (child))
      gtk_popover_popdown (GTK_POPOVER (child));
  ui_test_settle ();
}

/* The menu offers what can be done where it was opened, and does it there. */
static void
test_path_menu (Rig *rig, gconstpointer data)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavCut) cut = NULL;
  g_autofree char *on_piece = NULL;
  g_autofree char *on_point = NULL;
  g_autofree char *on_blank = NULL;

  cav_path_move_to (path, CAV_POINT (10, 12));
  cav_path_line_to (path, CAV_POINT (30, 12));
  cav_path_line_to (path, CAV_POINT (30, 26));
  cav_path_line_to (path, CAV_POINT (10, 26));
  cav_path_close (path);
  cut = cav_cut_new_drawn (path);
  cav_project_add_cut (rig->project, cut);
  cav_selection_choose_cut (rig->selection, 0);

  on_piece = open_menu (rig, 17, 12);
  g_assert_nonnull (strstr (on_piece, "Insert a point here\nBend or straighten"));
  g_assert_null (strstr (on_piece, "Remove this point"));
  g_assert_true (activate (rig, "canvas.insert-point"));
  g_assert_cmpuint (cav_path_get_segment_count (get_cut (rig, 0)->path), ==, 5);
  close_menu (rig);

  on_point = open_menu (rig, 17, 12);
  g_assert_nonnull (strstr (on_point, "Remove this point"));
  g_assert_null (strstr (on_point, "Insert a point here"));
  g_assert_true (activate (rig, "canvas.remove-point"));
  g_assert_cmpuint (cav_path_get_segment_count (get_cut (rig, 0)->path), ==, 4);
  close_menu (rig);

  on_blank = open_menu (rig, 42, 6);
  g_assert_nonnull (strstr (on_blank, "Choose all"));
  g_assert_null (strstr (on_blank, "point"));
  g_assert_null (strstr (on_blank, "Bend"));
  close_menu (rig);
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
  g_assert_cmpint (get_cut (rig, 0)->corner, ==, CAV_CORNER_BACK_INSIDE);
  /* Next to the rabbet, which is chosen. */
  g_assert_cmpint (get_cut (rig, 1)->corner, ==, CAV_CORNER_FACE_INSIDE);
  g_assert_cmpint (cav_selection_get_kind (rig->selection), ==, CAV_NO_KIND);
  g_assert_cmpstr (cav_project_get_undo_name (rig->project), ==, "draw cove");
  g_assert_true (cav_project_undo (rig->project));
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

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  ADD ("draw", NULL, test_draw);
  ADD ("draw-exactly", NULL, test_draw_exactly);
  ADD ("snap", NULL, test_snap);
  ADD ("click-draws", NULL, test_click_draws);
  ADD ("drawn-path", NULL, test_drawn_path);
  ADD ("stays-under-the-hand", NULL, test_stays_under_the_hand);
  ADD ("drawn-path-refused", NULL, test_drawn_path_refused);
  ADD ("edit-path", NULL, test_edit_path);
  ADD ("path-menu", NULL, test_path_menu);
  ADD ("draw-by-key", NULL, test_draw_by_key);
  ADD ("far-outside", NULL, test_far_outside);
  return g_test_run ();
}
