/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-snap.h"

#include <math.h>

#include "project/cav-snap-private.h"

static const CavBlank blank = { .width = 60.0, .thickness = 45.0 };

/* What the cutter takes where it stands, both halves of it. */
static CavRegion *
create_cutter_region (const CavCutter *cutter, CavTransform place)
{
  g_autoptr (CavPath) path = cav_path_new ();
  CavTransform mirror = { -1.0, 0.0, 0.0, 0.0, 1.0, 0.0 };

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  for (guint i = 0; i < cav_path_get_segment_count (cutter->outline); i++)
    cav_path_append (path, cav_path_get_segment (cutter->outline, i));
  cav_path_line_to (path, CAV_POINT (0.0, -cutter->length));
  cav_path_close (path);

  g_autoptr (CavPath) other = cav_path_transformed (path, mirror);
  g_autoptr (CavRegion) right = cav_region_new_from_path (path, NULL);
  g_autoptr (CavRegion) left = cav_region_new_from_path (other, NULL);
  g_autoptr (CavRegion) whole = cav_region_union (left, right, NULL);

  g_assert_nonnull (whole);
  return cav_region_transformed (whole, place);
}

/* The cutter takes from the blank what the cut says, no more and no less. */
static void
assert_makes (const CavCutter *cutter, CavTransform place, const CavCut *cut)
{
  g_autoptr (CavRegion) tool = create_cutter_region (cutter, place);
  g_autoptr (CavRegion) wood = cav_blank_create_region (&blank);
  g_autoptr (CavRegion) wanted = cav_cut_create_region (cut, &blank, NULL);
  g_autoptr (CavRegion) taken = cav_region_intersection (tool, wood, NULL);
  g_autoptr (CavRegion) waste = cav_region_intersection (wanted, wood, NULL);
  g_autoptr (CavRegion) more = cav_region_difference (taken, waste, NULL);
  g_autoptr (CavRegion) less = cav_region_difference (waste, taken, NULL);

  if (cav_region_get_area (more) + cav_region_get_area (less) > 0.02)
    g_test_message ("%s, %s: %.4f more and %.4f less", cutter->id,
                    cav_cut_kind_get_info (cut->kind)->name, cav_region_get_area (more),
                    cav_region_get_area (less));
  g_assert_cmpfloat (cav_region_get_area (more), <, 0.02);
  g_assert_cmpfloat (cav_region_get_area (less), <, 0.02);
  g_assert_cmpfloat (cav_region_get_area (waste), >, 1.0);
}

typedef struct
{
  const char *tool;
  CavCutKind kind;
  CavAnchorKind anchor;
  CavCutForm form;
  double width;
  double depth;
  double quirk;
} Row;

static const Row rows[] = {
  { "straight-6.35", CAV_CUT_GROOVE, CAV_ANCHOR_SIDE, CAV_FORM_FLAT, 6.35, 5.0, 0.0 },
  { "round-nose-3.2", CAV_CUT_GROOVE, CAV_ANCHOR_SIDE, CAV_FORM_ROUND, 6.4, 5.0, 0.0 },
  { "round-nose-6.35", CAV_CUT_COVE, CAV_ANCHOR_SIDE, CAV_FORM_PLAIN, 12.7, 6.35, 0.0 },
  { "round-nose-9.5", CAV_CUT_COVE, CAV_ANCHOR_SIDE, CAV_FORM_PLAIN, 18.0, 6.4586, 0.0 },
  { "cove-12.7", CAV_CUT_COVE, CAV_ANCHOR_CORNER, CAV_FORM_PLAIN, 12.7, 12.7, 0.0 },
  { "round-nose-3.2", CAV_CUT_COVE, CAV_ANCHOR_CORNER, CAV_FORM_PLAIN, 3.2, 3.2, 0.0 },
  { "round-over-9.5", CAV_CUT_ROUND, CAV_ANCHOR_CORNER, CAV_FORM_PLAIN, 9.5, 9.5, 0.0 },
  { "chamfer-45", CAV_CUT_CHAMFER, CAV_ANCHOR_CORNER, CAV_FORM_PLAIN, 5.0, 5.0, 0.0 },
  { "ogee-4", CAV_CUT_OGEE, CAV_ANCHOR_CORNER, CAV_FORM_RECTA, 8.0, 8.0, 0.0 },
  { "ogee-4", CAV_CUT_OGEE, CAV_ANCHOR_CORNER, CAV_FORM_REVERSA, 8.0, 8.0, 0.0 },
  { "bead-3.2", CAV_CUT_BEAD, CAV_ANCHOR_CORNER, CAV_FORM_FLUSH, 6.4, 0.0, 1.6 },
  { "bead-3.2", CAV_CUT_BEAD, CAV_ANCHOR_SIDE, CAV_FORM_FLUSH, 6.4, 0.0, 1.6 },
};

static CavCut *
create_cut (const Row *row, int place)
{
  CavCut *cut = row->anchor == CAV_ANCHOR_CORNER
                    ? cav_cut_new_at_corner (row->kind, (CavCorner)place)
                    : cav_cut_new_on_side (row->kind, (CavSide)place);

  cut->form = row->form;
  cut->numbers[CAV_CUT_WIDTH] = row->width;
  if (row->depth > 0.0)
    cut->numbers[CAV_CUT_DEPTH] = row->depth;
  if (row->kind == CAV_CUT_BEAD)
    cut->numbers[CAV_CUT_QUIRK_WIDTH] = row->quirk;
  if (row->anchor == CAV_ANCHOR_SIDE)
    cut->numbers[CAV_CUT_POSITION] = 21.0;
  return cut;
}

/* A shop with one cutter of another and then of its own. */
static CavProject *
create_project_with (const char *tool)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (CavShop) stock = cav_shop_new_default ();

  if (tool != NULL)
    g_assert_true (
        cav_shop_add_cutter (shop, cav_cutter_copy (cav_shop_find_cutter (stock, tool)), NULL));
  cav_project_set_shop (project, shop);
  cav_project_set_blank (project, blank);
  return project;
}

/* (nullable) A cutter of the shop that makes the cut exactly in one stand, and where it stands. */
static const CavCutter *
find_cutter (const CavSnapper *snapper, const CavCut *cut, CavTransform *out_place)
{
  for (guint i = 0; i < snapper->cutters->len; i++)
    {
      const CavCutter *cutter = g_ptr_array_index (snapper->cutters, i);
      CavTransform place;

      if (!cav_cutter_makes_cut (cutter, cut, &place))
        continue;
      if (out_place != NULL)
        *out_place = cav_transform_compose (place, cav_cut_get_frame (cut, &snapper->blank));
      return cutter;
    }
  return NULL;
}

/* At every corner or on every side. */
static void
test_stands_where_it_cuts (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int place = 0; place < 4; place++)
      {
        g_autoptr (CavProject) project = create_project_with (rows[i].tool);
        g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
        g_autoptr (CavCut) cut = create_cut (&rows[i], place);
        CavTransform stand;
        const CavCutter *cutter = find_cutter (snapper, cut, &stand);

        if (cutter == NULL)
          g_test_message ("%s makes no row %u", rows[i].tool, i);
        g_assert_nonnull (cutter);
        g_assert_cmpstr (cutter->id, ==, rows[i].tool);
        assert_makes (cutter, stand, cut);
      }
}

/* A twentieth of a millimetre off, and it does not. */
static void
test_not_nearly (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavProject) project = create_project_with (rows[i].tool);
      g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
      g_autoptr (CavCut) cut = create_cut (&rows[i], 1);

      cut->numbers[CAV_CUT_WIDTH] += 0.05;
      g_assert_null (find_cutter (snapper, cut, NULL));
    }
}

static void
test_no_cutter_for_these (void)
{
  static const CavCutKind kinds[] = { CAV_CUT_RABBET, CAV_CUT_STEPS, CAV_CUT_BEVEL };
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (CavCut) cut = cav_cut_new (kinds[i]);

      g_assert_null (find_cutter (snapper, cut, NULL));
    }
}

/* Width dragged to half a millimetre from what the row's cutter makes settles there; with the
 * cutter gone it does not. */
static void
test_width_settles (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int with = 0; with < 2; with++)
      {
        g_autoptr (CavProject) project = create_project_with (with ? rows[i].tool : NULL);
        g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
        g_autoptr (CavCut) cut = create_cut (&rows[i], 1);
        g_autoptr (GArray) handles = NULL;
        g_autoptr (CavCut) settled = NULL;
        const CavHandle *handle = NULL;
        CavPoint point;
        CavSnap snap;

        cut->numbers[CAV_CUT_WIDTH] = rows[i].width + 3.0;
        handles = cav_handle_list_new (cut, &blank);
        for (guint k = 0; k < handles->len && handle == NULL; k++)
          if (g_array_index (handles, CavHandle, k).kind == CAV_HANDLE_NUMBER
              && g_array_index (handles, CavHandle, k).numbers[0] == CAV_CUT_WIDTH)
            handle = &g_array_index (handles, CavHandle, k);
        if (handle == NULL)
          g_assert_not_reached ();
        double way = -2.6 / handle->rate[0];
        point = CAV_POINT (handle->point.x + way * handle->direction.x,
                           handle->point.y + way * handle->direction.y);
        settled = cav_snapper_drag (snapper, cut, handle, point, 0.7, &snap);
        g_assert_cmpfloat_with_epsilon (settled->numbers[CAV_CUT_WIDTH],
                                        rows[i].width + (with ? 0.0 : 0.4), 1e-3);
        g_assert_cmpint (snap.size.kind, ==, with ? CAV_SNAP_CUTTER : CAV_SNAP_NONE);
        if (!with)
          continue;
        if (snap.tool == NULL)
          g_assert_not_reached ();
        g_assert_cmpstr (snap.tool->id, ==, rows[i].tool);
        g_assert_cmpstr (snap.size.label, ==, snap.tool->name);
        assert_makes (snap.tool, snap.place, settled);
      }
}

/* Both radii at once. */
static void
test_both_settle (void)
{
  g_autoptr (CavProject) project = create_project_with ("round-over-9.5");
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE);
  g_autoptr (GArray) handles = cav_handle_list_new (cut, &blank);
  g_autoptr (CavCut) settled = NULL;
  g_autoptr (CavCut) freely = NULL;
  CavSnap snap;

  settled = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 0),
                              CAV_POINT (60.0 - 9.3, 45.0 - 9.8), 0.5, &snap);
  g_assert_true (settled->numbers[CAV_CUT_WIDTH] <= 9.5);
  g_assert_true (settled->numbers[CAV_CUT_WIDTH] >= 9.5);
  g_assert_true (settled->numbers[CAV_CUT_DEPTH] <= 9.5);
  g_assert_true (settled->numbers[CAV_CUT_DEPTH] >= 9.5);
  g_assert_nonnull (snap.tool);
  assert_makes (snap.tool, snap.place, settled);
  freely = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 0),
                             CAV_POINT (60.0 - 9.3, 45.0 - 9.8), 0.0, &snap);
  g_assert_cmpfloat_with_epsilon (freely->numbers[CAV_CUT_WIDTH], 9.3, 1e-9);
  g_assert_null (snap.tool);
}

static void
test_bulge_settles (void)
{
  g_autoptr (CavProject) project = create_project_with ("cove-12.7");
  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavCut) cut = NULL;
  g_autoptr (GArray) handles = NULL;
  g_autoptr (CavCut) bent = NULL;
  CavSnap snap;

  cav_path_move_to (path, CAV_POINT (10.0, 10.0));
  cav_path_line_to (path, CAV_POINT (30.0, 10.0));
  cav_path_line_to (path, CAV_POINT (30.0, 30.0));
  cav_path_close (path);
  cut = cav_cut_new_drawn (path);
  handles = cav_handle_list_new (cut, &blank);
  /* A chord of 20 on a circle of 12.7 has the sagitta 12.7 - sqrt (12.7² - 10²) = 4.871. */
  bent = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 3),
                           CAV_POINT (20.0, 4.9), 0.4, &snap);
  g_assert_cmpint (snap.size.kind, ==, CAV_SNAP_CUTTER);
  g_assert_cmpfloat_with_epsilon (snap.size.value, 12.7, 1e-6);
  g_assert_cmpfloat_with_epsilon (cav_path_get_segment (bent->path, 0)->rx, 12.7, 1e-6);
  /* And next to the chord it is straight again. */
  g_clear_pointer (&bent, cav_cut_free);
  bent = cav_snapper_drag (snapper, cut, &g_array_index (handles, CavHandle, 3),
                           CAV_POINT (20.0, 9.8), 0.4, &snap);
  g_assert_cmpint (cav_path_get_segment (bent->path, 0)->kind, ==, CAV_SEGMENT_LINE);
}

/* What the shop cannot use is no size to settle at. */
static void
test_useless_cutters_do_not_count (void)
{
  g_autoptr (CavProject) project = create_project_with ("round-over-9.5");
  g_autoptr (CavShop) shop = cav_shop_copy (cav_project_get_shop (project));
  g_autoptr (CavCut) cut = create_cut (&rows[6], 0);
  g_autoptr (CavSnapper) snapper = NULL;

  shop->has_router = FALSE;
  cav_project_set_shop (project, shop);
  snapper = cav_snapper_new (project, NULL, 0, 0.0);
  g_assert_null (find_cutter (snapper, cut, NULL));
}

static void
test_large_cove (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_COVE, CAV_SIDE_FACE);
  const double numbers[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_DIAMETER] = 38.0, [CAV_CUTTER_WIDTH] = 38.0, [CAV_CUTTER_DEPTH] = 5.0 };
  CavTransform stand;

  g_assert_true (cav_shop_add_cutter (
      shop, cav_cutter_new ("large", CAV_CUTTER_LARGE_COVE, numbers, NULL), NULL));
  cav_project_set_blank (project, blank);
  cav_project_set_shop (project, shop);
  cut->numbers[CAV_CUT_POSITION] = 30.0;
  cut->numbers[CAV_CUT_WIDTH] = 38.0;
  cut->numbers[CAV_CUT_DEPTH] = 5.0;

  g_autoptr (CavSnapper) snapper = cav_snapper_new (project, NULL, 0, 0.0);
  const CavCutter *cutter = find_cutter (snapper, cut, &stand);
  g_assert_nonnull (cutter);
  assert_makes (cutter, stand, cut);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/project/snap-cutter/" name, function)
  ADD ("stands-where-it-cuts", test_stands_where_it_cuts);
  ADD ("not-nearly", test_not_nearly);
  ADD ("no-cutter-for-these", test_no_cutter_for_these);
  ADD ("width-settles", test_width_settles);
  ADD ("both-settle", test_both_settle);
  ADD ("bulge-settles", test_bulge_settles);
  ADD ("useless-cutters-do-not-count", test_useless_cutters_do_not_count);
  ADD ("large-cove", test_large_cove);
#undef ADD
  return g_test_run ();
}
