/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-snap.h"

#include <math.h>
#include <string.h>

#define TOLERANCE 0.5

/* 60 x 30 with a rabbet of 6 x 10 at the back and inside, and no tools. */
static CavProject *
create_project (void)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavCut) rabbet = cav_cut_new (CAV_CUT_RABBET);
  g_autoptr (CavShop) shop = cav_shop_new ();

  cav_project_set_blank (project, (CavBlank){ .width = 60.0, .thickness = 30.0 });
  cav_project_set_shop (project, shop);
  cav_project_add_cut (project, rabbet);
  return project;
}

static void
test_point (void)
{
  static const struct
  {
    const char *desc;
    double x, y;
    double to_x, to_y;
    CavSnapKind x_kind, y_kind;
    const char *label; /* of x, or else of y */
  } rows[] = {
    { "edges of the blank", 0.3, 29.7, 0.0, 30.0, CAV_SNAP_BLANK_EDGE, CAV_SNAP_BLANK_EDGE,
      "edge of blank" },
    { "middle", 30.2, 15.1, 30.0, 15.0, CAV_SNAP_BLANK_MIDDLE, CAV_SNAP_BLANK_MIDDLE,
      "middle of blank" },
    { "thirds", 19.9, 20.3, 20.0, 20.0, CAV_SNAP_BLANK_THIRD, CAV_SNAP_BLANK_THIRD,
      "third of blank" },
    { "edges of a cut", 6.2, 10.4, 6.0, 10.0, CAV_SNAP_CUT_EDGE, CAV_SNAP_BLANK_THIRD,
      "edge of rabbet" },
    { "middle of a cut", 3.1, 4.8, 3.0, 5.0, CAV_SNAP_CUT_CENTRE, CAV_SNAP_CUT_CENTRE,
      "middle of rabbet" },
    { "grid", 25.2, 12.3, 25.0, 12.0, CAV_SNAP_GRID, CAV_SNAP_GRID, "grid" },
    { "grid, farther off", 25.2, 7.46, 25.0, 7.0, CAV_SNAP_GRID, CAV_SNAP_GRID, "grid" },
  };
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 1.0);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSnap snap;
      CavPoint point
          = cav_snapper_point (snapper, CAV_POINT (rows[i].x, rows[i].y), TOLERANCE, &snap);

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpfloat_with_epsilon (point.x, rows[i].to_x, 1e-9);
      g_assert_cmpfloat_with_epsilon (point.y, rows[i].to_y, 1e-9);
      g_assert_cmpint (snap.x.kind, ==, rows[i].x_kind);
      g_assert_cmpint (snap.y.kind, ==, rows[i].y_kind);
      g_assert_cmpstr (snap.x.label, ==, rows[i].label);
      g_assert_cmpfloat_with_epsilon (snap.x.from.x, rows[i].to_x, 1e-9);
      g_assert_cmpfloat_with_epsilon (snap.x.to.x, rows[i].to_x, 1e-9);
      g_assert_cmpfloat_with_epsilon (snap.y.from.y, rows[i].to_y, 1e-9);
    }
}

static void
test_off (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 1.0);
  CavSnap snap;
  CavPoint point = cav_snapper_point (snapper, CAV_POINT (0.3, 29.7), 0.0, &snap);

  g_assert_cmpfloat_with_epsilon (point.x, 0.3, 1e-12);
  g_assert_cmpfloat_with_epsilon (point.y, 29.7, 1e-12);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_NONE);
  g_assert_cmpint (snap.y.kind, ==, CAV_SNAP_NONE);
}

/* Where the grid is coarser than the tolerance there is room between its lines. */
static void
test_between (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 5.0);
  CavSnap snap;
  CavPoint point = cav_snapper_point (snapper, CAV_POINT (42.3, 24.8), TOLERANCE, &snap);

  g_assert_cmpfloat_with_epsilon (point.x, 42.3, 1e-12);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_NONE);
  g_assert_cmpfloat_with_epsilon (point.y, 25.0, 1e-12);
}

static void
test_skips_what_is_dragged (void)
{
  static const guint skip[] = { 0 };
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, skip, 1, 0.0);
  CavPoint point = cav_snapper_point (snapper, CAV_POINT (6.2, 5.2), TOLERANCE, NULL);

  g_assert_cmpfloat_with_epsilon (point.x, 6.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (point.y, 5.2, 1e-12);
}

/* Later edits do not reach it, and it outlives the project. */
static void
test_takes_stock_once (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  CavPoint point;

  cav_project_remove_cut (project, 0);
  g_clear_object (&project);
  point = cav_snapper_point (snapper, CAV_POINT (6.2, 5.2), TOLERANCE, NULL);
  g_assert_cmpfloat_with_epsilon (point.x, 6.0, 1e-12);
}

static const CavHandle *
get_move (GArray *handles)
{
  return &g_array_index (handles, CavHandle, handles->len - 1);
}

static void
test_move_by_any_edge (void)
{
  static const struct
  {
    double x, y;
    double shift_x, shift_y;
  } rows[] = {
    /* A rabbet of 4 x 3 at the face and outside; the handle is its middle. */
    { 57.8, 28.6, 0.0, 0.0 },  /* to the corner */
    { 30.2, 28.6, 28.0, 0.0 }, /* its middle to the middle of the blank */
    { 32.3, 28.6, 26.0, 0.0 }, /* its inside edge to the middle */
    { 57.8, 11.4, 0.0, 17.0 }, /* its back to the top of the rabbet */
  };
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_FACE_OUTSIDE);
  CavBlank blank = cav_project_get_blank (project);

  cut->numbers[CAV_CUT_WIDTH] = 4.0;
  cut->numbers[CAV_CUT_DEPTH] = 3.0;
  cut->numbers[CAV_CUT_SHIFT_X] = 10.3;
  cut->numbers[CAV_CUT_SHIFT_Y] = 2.2;

  g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSnap snap;
      g_autoptr (CavCut) moved = cav_snapper_drag (
          snapper, cut, get_move (handles), CAV_POINT (rows[i].x, rows[i].y), TOLERANCE, &snap);
      gboolean jumped = moved->corner == CAV_CORNER_BACK_OUTSIDE;
      double shift_y = moved->numbers[CAV_CUT_SHIFT_Y];

      g_test_message ("row %u", i);
      g_assert_cmpfloat_with_epsilon (moved->numbers[CAV_CUT_SHIFT_X], rows[i].shift_x, 1e-9);
      g_assert_cmpfloat_with_epsilon (jumped ? 27.0 - shift_y : shift_y, rows[i].shift_y, 1e-9);
      g_assert_cmpint (snap.x.kind, !=, CAV_SNAP_NONE);
      g_assert_cmpint (snap.y.kind, !=, CAV_SNAP_NONE);
    }
}

static void
test_side_moves_along_only (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (GArray) handles = cav_handle_list_new (groove, &blank);
  g_autoptr (CavCut) moved = NULL;
  CavSnap snap;

  moved = cav_snapper_drag (snapper, groove, get_move (handles), CAV_POINT (30.3, 15.2), TOLERANCE,
                            &snap);
  g_assert_cmpfloat_with_epsilon (moved->numbers[CAV_CUT_POSITION], 30.0, 1e-9);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_BLANK_MIDDLE);
  g_assert_cmpint (snap.y.kind, ==, CAV_SNAP_NONE);
  g_assert_cmpfloat_with_epsilon (moved->numbers[CAV_CUT_SHIFT_Y], 0.0, 1e-12);
}

/* A number settles where its edge meets something, and else at whole steps of the grid, counted
 * in the number and not from the blank's corner. */
static void
test_number (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = NULL;
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_FACE_OUTSIDE);
  CavBlank blank = { .width = 60.4, .thickness = 30.0 };
  g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);
  g_autoptr (CavCut) edge = NULL;
  g_autoptr (CavCut) grid = NULL;
  g_autoptr (CavCut) both = NULL;
  CavSnap snap;

  cav_project_set_blank (project, blank);
  snapper = cav_snapper_new (project, NULL, 0, 2.0);
  /* Depth, handle 2, down to the top of the other rabbet at y = 10. */
  edge = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 2),
                           CAV_POINT (57.4, 10.3), TOLERANCE, &snap);
  g_assert_cmpfloat_with_epsilon (edge->numbers[CAV_CUT_DEPTH], 20.0, 1e-9);
  g_assert_cmpint (snap.y.kind, !=, CAV_SNAP_NONE);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_NONE);
  grid = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 1),
                           CAV_POINT (60.4 - 8.3, 25.0), TOLERANCE, &snap);
  g_assert_cmpfloat_with_epsilon (grid->numbers[CAV_CUT_WIDTH], 8.0, 1e-12);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_GRID);
  g_assert_cmpfloat_with_epsilon (snap.x.value, 52.4, 1e-9);
  both = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 0),
                           CAV_POINT (60.4 - 12.3, 20.2), TOLERANCE, &snap);
  g_assert_cmpfloat_with_epsilon (both->numbers[CAV_CUT_WIDTH], 12.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (both->numbers[CAV_CUT_DEPTH], 10.0, 1e-12);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_GRID);
  g_assert_cmpint (snap.y.kind, ==, CAV_SNAP_BLANK_THIRD);
}

static void
test_path_point_levels_with_neighbours (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavPath) path = cav_path_new ();
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (CavCut) cut = NULL;
  g_autoptr (GArray) handles = NULL;
  g_autoptr (CavCut) moved = NULL;
  CavSnap snap;

  cav_path_move_to (path, CAV_POINT (41.3, 12.2));
  cav_path_line_to (path, CAV_POINT (51.7, 12.2));
  cav_path_line_to (path, CAV_POINT (51.7, 25.4));
  cav_path_close (path);
  cut = cav_cut_new_drawn (path);
  handles = cav_handle_list_new (cut, &blank);
  moved = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 2),
                            CAV_POINT (41.6, 23.0), TOLERANCE, &snap);
  g_assert_cmpfloat_with_epsilon (cav_path_get_segment (moved->path, 2)->from.x, 41.3, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_path_get_segment (moved->path, 2)->from.y, 23.0, 1e-12);
  g_assert_cmpint (snap.x.kind, ==, CAV_SNAP_CUT_EDGE);
}

static void
test_groove_takes_a_kerf (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavShop) shop = cav_shop_new ();
  CavBlade *blade = cav_blade_new ("ripping", 254.0, 3.2);
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (GArray) handles = cav_handle_list_new (groove, &blank);
  g_autoptr (CavSnapper) snapper = NULL;
  g_autoptr (CavCut) settled = NULL;
  CavSnap snap;

  blade->grind = CAV_GRIND_FLAT;
  g_assert_true (cav_shop_add_blade (shop, blade, NULL));
  cav_project_set_shop (project, shop);
  snapper = cav_snapper_new (project, NULL, 0, 0.0);
  /* 6 wide at 25: the high edge from 28 to 25.4, so that it is 3.4 wide. */
  settled = cav_snapper_drag (snapper, groove, &g_array_index (handles, CavHandle, 1),
                              CAV_POINT (25.4, 28.0), TOLERANCE, &snap);
  g_assert_cmpfloat_with_epsilon (settled->numbers[CAV_CUT_WIDTH], 3.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (settled->numbers[CAV_CUT_POSITION], 23.6, 1e-9);
  g_assert_cmpint (snap.size.kind, ==, CAV_SNAP_CUTTER);
  g_assert_null (snap.tool);
  g_assert_cmpuint (strlen (snap.size.label), >, 0);
}

/* Labels are cut between characters. */
static void
test_long_names (void)
{
  g_autoptr (CavProject) project = create_project ();
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (CavShop) stock = cav_shop_new_default ();
  CavCutter *cutter = cav_cutter_copy (cav_shop_find_cutter (stock, "straight-6.35"));
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (GArray) handles = cav_handle_list_new (groove, &blank);
  CavSnap snap;

  g_free (cutter->name);
  cutter->name = g_strnfill (200, 'x');
  memcpy (cutter->name + 62, "äää", strlen ("äää"));
  g_assert_true (cav_shop_add_cutter (shop, cutter, NULL));
  cav_project_set_shop (project, shop);

  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavCut) settled = cav_snapper_drag (
      snapper, groove, &g_array_index (handles, CavHandle, 1), CAV_POINT (28.2, 28.0), 0.5, &snap);
  g_assert_cmpfloat_with_epsilon (settled->numbers[CAV_CUT_WIDTH], 6.35, 1e-12);
  g_assert_true (g_utf8_validate (snap.size.label, -1, NULL));
  g_assert_cmpuint (strlen (snap.size.label), ==, 62);
}

/* Taking stock of 300 cuts is done once a drag, a drag sixty times a second. */
static void
test_many_cuts (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE);
  CavBlank blank = { .width = 400.0, .thickness = 40.0 };
  g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);
  const guint n = 1000;
  gint64 begin, middle, end;

  cav_project_set_blank (project, blank);
  for (guint i = 0; i < 300; i++)
    {
      CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

      groove->numbers[CAV_CUT_POSITION] = 1.0 + 1.3 * i;
      groove->numbers[CAV_CUT_WIDTH] = 0.7;
      g_ptr_array_add (cuts, groove);
    }
  cav_project_add_cuts (project, cuts);
  begin = g_get_monotonic_time ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.5);
  middle = g_get_monotonic_time ();
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (CavCut) dragged
          = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, i % handles->len),
                              CAV_POINT (0.3 * i, 0.03 * i), 0.4, NULL);

      g_assert_nonnull (dragged);
    }
  end = g_get_monotonic_time ();
  g_test_message ("stock of 300 cuts %.2f ms, a drag %.4f ms", (double)(middle - begin) / 1e3,
                  (double)(end - middle) / 1e3 / n);
  /* Generous, for machines that are busy: half of a frame. */
  g_assert_cmpint ((end - middle) / n, <, 8000);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/project/snap/" name, function)
  ADD ("point", test_point);
  ADD ("off", test_off);
  ADD ("between", test_between);
  ADD ("skips-what-is-dragged", test_skips_what_is_dragged);
  ADD ("takes-stock-once", test_takes_stock_once);
  ADD ("move-by-any-edge", test_move_by_any_edge);
  ADD ("side-moves-along-only", test_side_moves_along_only);
  ADD ("number", test_number);
  ADD ("path-point-levels-with-neighbours", test_path_point_levels_with_neighbours);
  ADD ("groove-takes-a-kerf", test_groove_takes_a_kerf);
  ADD ("long-names", test_long_names);
  ADD ("many-cuts", test_many_cuts);
#undef ADD
  return g_test_run ();
}
