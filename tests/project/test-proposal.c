/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-proposal.h"

#include <math.h>

#define REACH 10.0

static CavProject *
create_plain (void)
{
  CavProject *project = cav_project_new ();

  cav_project_set_blank (project, (CavBlank){ .width = 60.0, .thickness = 30.0 });
  return project;
}

/* With a rabbet of 8 x 12 at the back and inside: ledges at x = 8 and y = 12. */
static CavProject *
create_rabbeted (void)
{
  CavProject *project = create_plain ();
  g_autoptr (CavCut) rabbet = cav_cut_new (CAV_CUT_RABBET);

  rabbet->numbers[CAV_CUT_WIDTH] = 8.0;
  rabbet->numbers[CAV_CUT_DEPTH] = 12.0;
  cav_project_add_cut (project, rabbet);
  return project;
}

static void
assert_shift (const CavCut *cut, double x, double y)
{
  g_assert_cmpfloat_with_epsilon (cut->numbers[CAV_CUT_SHIFT_X], x, 1e-9);
  g_assert_cmpfloat_with_epsilon (cut->numbers[CAV_CUT_SHIFT_Y], y, 1e-9);
}

static void
test_nearest_corner (void)
{
  static const struct
  {
    double x, y;
    CavCorner corner;
  } rows[] = { { 5.0, 5.0, CAV_CORNER_BACK_INSIDE },
               { 50.0, 4.0, CAV_CORNER_BACK_OUTSIDE },
               { 20.0, 28.0, CAV_CORNER_FACE_INSIDE },
               { 63.0, 33.0, CAV_CORNER_FACE_OUTSIDE } };
  g_autoptr (CavProject) project = create_plain ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavCut) cut
          = cav_proposal_at (project, CAV_CUT_RABBET, CAV_POINT (rows[i].x, rows[i].y), REACH);

      g_assert_nonnull (cut);
      g_assert_cmpint (cut->corner, ==, rows[i].corner);
      assert_shift (cut, 0.0, 0.0);
      g_assert_cmpfloat_with_epsilon (cut->numbers[CAV_CUT_WIDTH], 6.0, 1e-12);
    }
}

static void
test_out_of_reach (void)
{
  g_autoptr (CavProject) project = create_plain ();

  g_assert_null (cav_proposal_at (project, CAV_CUT_COVE, CAV_POINT (75.0, 15.0), REACH));
  g_assert_null (cav_proposal_at (project, CAV_CUT_DRAWN, CAV_POINT (5.0, 15.0), REACH));
  g_assert_null (
      cav_proposal_from_drag (project, CAV_CUT_DRAWN, CAV_POINT (5.0, 5.0), CAV_POINT (9.0, 9.0)));
  g_assert_null (
      cav_proposal_from_drag (project, CAV_CUT_COVE, CAV_POINT (5.0, 5.0), CAV_POINT (5.0, 5.1)));
}

/* A blank that is none gives no proposals and no crash. */
static void
test_no_blank (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_blank (project, (CavBlank){ .width = 0.0, .thickness = 30.0 });
  g_assert_null (cav_proposal_at (project, CAV_CUT_COVE, CAV_POINT (5.0, 15.0), REACH));
}

static void
test_sits_on_a_ledge (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (CavCut) at_back
      = cav_proposal_at (project, CAV_CUT_CHAMFER, CAV_POINT (9.0, 1.0), REACH);
  g_autoptr (CavCut) at_inside
      = cav_proposal_at (project, CAV_CUT_CHAMFER, CAV_POINT (0.5, 13.0), REACH);
  g_autoptr (CavCut) on_ledge
      = cav_proposal_at (project, CAV_CUT_GROOVE, CAV_POINT (4.0, 11.0), REACH);
  g_autoptr (CavCut) in_wall
      = cav_proposal_at (project, CAV_CUT_GROOVE, CAV_POINT (8.5, 6.0), REACH);

  g_assert_cmpint (at_back->corner, ==, CAV_CORNER_BACK_INSIDE);
  assert_shift (at_back, 8.0, 0.0);
  g_assert_cmpint (at_inside->corner, ==, CAV_CORNER_BACK_INSIDE);
  assert_shift (at_inside, 0.0, 12.0);
  g_assert_cmpint (on_ledge->side, ==, CAV_SIDE_BACK);
  assert_shift (on_ledge, 0.0, 12.0);
  g_assert_cmpfloat_with_epsilon (on_ledge->numbers[CAV_CUT_POSITION], 4.0, 1e-9);
  g_assert_cmpint (in_wall->side, ==, CAV_SIDE_INSIDE);
  assert_shift (in_wall, 8.0, 0.0);
}

static void
test_corner_or_side (void)
{
  g_autoptr (CavProject) project = create_plain ();
  g_autoptr (CavCut) corner = cav_proposal_at (project, CAV_CUT_COVE, CAV_POINT (3.0, 27.0), REACH);
  g_autoptr (CavCut) side = cav_proposal_at (project, CAV_CUT_COVE, CAV_POINT (32.0, 27.0), REACH);
  g_autoptr (CavCut) groove
      = cav_proposal_at (project, CAV_CUT_GROOVE, CAV_POINT (1.0, 29.5), REACH);

  g_assert_cmpint (corner->anchor, ==, CAV_ANCHOR_CORNER);
  g_assert_cmpint (corner->corner, ==, CAV_CORNER_FACE_INSIDE);
  g_assert_cmpint (side->anchor, ==, CAV_ANCHOR_SIDE);
  g_assert_cmpint (side->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat_with_epsilon (side->numbers[CAV_CUT_POSITION], 32.0, 1e-9);
  /* A groove of 6 keeps inside the edge. */
  g_assert_cmpint (groove->anchor, ==, CAV_ANCHOR_SIDE);
  g_assert_cmpfloat_with_epsilon (groove->numbers[CAV_CUT_POSITION], 3.0, 1e-9);
}

static void
test_bevel_takes_the_side (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (CavCut) low = cav_proposal_at (project, CAV_CUT_BEVEL, CAV_POINT (10.0, 29.0), REACH);
  g_autoptr (CavCut) high = cav_proposal_at (project, CAV_CUT_BEVEL, CAV_POINT (50.0, 29.0), REACH);
  g_autoptr (CavCut) ledge = cav_proposal_at (project, CAV_CUT_BEVEL, CAV_POINT (4.0, 11.0), REACH);

  g_assert_cmpint (low->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat (low->numbers[CAV_CUT_START_HEIGHT], >, 1.0);
  g_assert_cmpfloat_with_epsilon (low->numbers[CAV_CUT_END_HEIGHT], 0.0, 1e-12);
  g_assert_cmpfloat_with_epsilon (high->numbers[CAV_CUT_START_HEIGHT], 0.0, 1e-12);
  g_assert_cmpfloat (high->numbers[CAV_CUT_END_HEIGHT], >, 1.0);
  g_assert_cmpint (ledge->side, ==, CAV_SIDE_INSIDE);
  assert_shift (ledge, 0.0, 0.0);
}

/* In a small piece of wood a usual cut is cut down, and every proposal leaves a sound profile. */
static void
test_small_blanks (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  cav_project_set_blank (project, (CavBlank){ .width = 12.0, .thickness = 7.0 });
  for (int kind = 0; kind < CAV_CUT_DRAWN; kind++)
    for (int i = 0; i < 40; i++)
      {
        CavPoint point
            = CAV_POINT (g_test_rand_double_range (-1, 13), g_test_rand_double_range (-1, 8));
        g_autoptr (CavCut) cut = cav_proposal_at (project, (CavCutKind)kind, point, REACH);

        g_assert_nonnull (cut);
        cav_project_add_cut (project, cut);
        if (!cav_profile_is_sound (cav_project_get_profile (project)))
          g_test_message ("%s at %.3f, %.3f", cav_cut_kind_get_info (cut->kind)->name, point.x,
                          point.y);
        g_assert_true (cav_profile_is_sound (cav_project_get_profile (project)));
        cav_project_undo (project);
      }
}

/* What the ghost is drawn out to is what it takes: its far corner is at the pointer. */
static void
test_drag_corner (void)
{
  static const CavCutKind kinds[] = { CAV_CUT_RABBET,  CAV_CUT_COVE,  CAV_CUT_ROUND,
                                      CAV_CUT_CHAMFER, CAV_CUT_STEPS, CAV_CUT_OGEE };
  g_autoptr (CavProject) project = create_plain ();
  CavBlank blank = cav_project_get_blank (project);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (CavCut) cut = cav_proposal_from_drag (project, kinds[i], CAV_POINT (59.0, 29.5),
                                                       CAV_POINT (45.0, 21.0));
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, NULL);
      CavBox box = cav_region_get_bounds (region);

      g_assert_cmpint (cut->anchor, ==, CAV_ANCHOR_CORNER);
      g_assert_cmpint (cut->corner, ==, CAV_CORNER_FACE_OUTSIDE);
      g_assert_cmpfloat_with_epsilon (box.x0, 45.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.y0, 21.0, 1e-9);
    }
}

static void
test_drag_side (void)
{
  static const CavCutKind kinds[] = { CAV_CUT_GROOVE, CAV_CUT_COVE };
  g_autoptr (CavProject) project = create_plain ();
  CavBlank blank = cav_project_get_blank (project);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (CavCut) cut = cav_proposal_from_drag (project, kinds[i], CAV_POINT (34.0, 30.0),
                                                       CAV_POINT (20.0, 26.0));
      g_autoptr (CavRegion) region = cav_cut_create_region (cut, &blank, NULL);
      CavBox box = cav_region_get_bounds (region);

      g_assert_cmpint (cut->side, ==, CAV_SIDE_FACE);
      g_assert_cmpfloat_with_epsilon (box.x0, 20.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.x1, 34.0, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.y0, 26.0, 1e-9);
    }
}

static void
test_drag_bevel_and_bead (void)
{
  g_autoptr (CavProject) project = create_plain ();
  g_autoptr (CavCut) bevel = cav_proposal_from_drag (project, CAV_CUT_BEVEL, CAV_POINT (30.0, 29.0),
                                                     CAV_POINT (4.0, 18.0));
  g_autoptr (CavCut) bead = cav_proposal_from_drag (project, CAV_CUT_BEAD, CAV_POINT (25.0, 30.0),
                                                    CAV_POINT (33.0, 29.0));

  g_assert_cmpint (bevel->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat_with_epsilon (bevel->numbers[CAV_CUT_START_HEIGHT], 12.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (bevel->numbers[CAV_CUT_END_HEIGHT], 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (bead->numbers[CAV_CUT_WIDTH], 8.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (bead->numbers[CAV_CUT_POSITION], 29.0, 1e-9);
}

/* Drawn out anywhere, in a section with ledges: numbers keep to the range of their kind. */
static void
test_drags_keep_in_range (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  CavBlank blank = cav_project_get_blank (project);

  for (int kind = 0; kind < CAV_CUT_DRAWN; kind++)
    for (int i = 0; i < 60; i++)
      {
        CavPoint from
            = CAV_POINT (g_test_rand_double_range (-9, 69), g_test_rand_double_range (-9, 39));
        CavPoint to
            = CAV_POINT (g_test_rand_double_range (-90, 99), g_test_rand_double_range (-90, 99));
        g_autoptr (CavCut) cut = cav_proposal_from_drag (project, (CavCutKind)kind, from, to);
        g_autoptr (GError) error = NULL;
        g_autoptr (CavRegion) region
            = cut != NULL ? cav_cut_create_region (cut, &blank, &error) : NULL;

        g_assert_no_error (error);
        g_assert_true (cut == NULL || region != NULL);
      }
}

static void
test_place (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  CavBlank blank = cav_project_get_blank (project);
  g_autoptr (CavCut) corner = cav_proposal_at (project, CAV_CUT_ROUND, CAV_POINT (9.0, 1.0), REACH);
  g_autoptr (CavCut) side
      = cav_proposal_at (project, CAV_CUT_GROOVE, CAV_POINT (30.0, 29.0), REACH);
  CavPoint from, to;

  cav_proposal_get_place (corner, &blank, &from, &to);
  g_assert_true (cav_point_near (from, CAV_POINT (8.0, 0.0), 1e-9));
  g_assert_true (cav_point_near (to, CAV_POINT (8.0, 0.0), 1e-9));
  cav_proposal_get_place (side, &blank, &from, &to);
  g_assert_true (cav_point_near (from, CAV_POINT (0.0, 30.0), 1e-9));
  g_assert_true (cav_point_near (to, CAV_POINT (60.0, 30.0), 1e-9));
}

/* Where every corner has been rounded over, the blank's own are proposed. */
static void
test_no_corner_left (void)
{
  g_autoptr (CavProject) project = create_plain ();

  for (int i = 0; i < 4; i++)
    {
      g_autoptr (CavCut) round = cav_cut_new_at_corner (CAV_CUT_ROUND, (CavCorner)i);

      cav_project_add_cut (project, round);
    }
  g_autoptr (CavCut) cut = cav_proposal_at (project, CAV_CUT_RABBET, CAV_POINT (55.0, 28.0), REACH);
  g_assert_cmpint (cut->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  assert_shift (cut, 0.0, 0.0);
}

static void
assert_free_place (CavProject *project, CavCutKind kind, const CavPoint *near, CavCorner corner)
{
  g_autoptr (CavCut) cut = cav_proposal_at_free_place (project, kind, near);

  g_assert_nonnull (cut);
  g_assert_cmpint (cut->anchor, ==, CAV_ANCHOR_CORNER);
  g_assert_cmpint (cut->corner, ==, corner);
}

/* A rabbet comes where it holds the package, whatever is near; where that is taken, and for all
 * else, the nearest free corner is the one, or the sight edge where nothing is chosen. */
static void
test_free_place (void)
{
  g_autoptr (CavProject) plain = create_plain ();
  g_autoptr (CavProject) rabbeted = create_rabbeted ();
  CavPoint right = CAV_POINT (57.0, 28.0);
  CavPoint rabbet = CAV_POINT (4.0, 6.0);

  assert_free_place (plain, CAV_CUT_RABBET, NULL, CAV_CORNER_BACK_INSIDE);
  assert_free_place (plain, CAV_CUT_RABBET, &right, CAV_CORNER_BACK_INSIDE);
  assert_free_place (plain, CAV_CUT_STEPS, NULL, CAV_CORNER_FACE_INSIDE);
  assert_free_place (plain, CAV_CUT_STEPS, &right, CAV_CORNER_FACE_OUTSIDE);
  assert_free_place (plain, CAV_CUT_COVE, &rabbet, CAV_CORNER_BACK_INSIDE);
  assert_free_place (rabbeted, CAV_CUT_COVE, &rabbet, CAV_CORNER_FACE_INSIDE);
  assert_free_place (rabbeted, CAV_CUT_RABBET, NULL, CAV_CORNER_FACE_INSIDE);
  assert_free_place (rabbeted, CAV_CUT_RABBET, &right, CAV_CORNER_FACE_OUTSIDE);
  g_assert_null (cav_proposal_at_free_place (plain, CAV_CUT_DRAWN, NULL));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define ADD(name, function) g_test_add_func ("/project/proposal/" name, function)
  ADD ("nearest-corner", test_nearest_corner);
  ADD ("out-of-reach", test_out_of_reach);
  ADD ("no-blank", test_no_blank);
  ADD ("sits-on-a-ledge", test_sits_on_a_ledge);
  ADD ("corner-or-side", test_corner_or_side);
  ADD ("bevel-takes-the-side", test_bevel_takes_the_side);
  ADD ("small-blanks", test_small_blanks);
  ADD ("drag-corner", test_drag_corner);
  ADD ("drag-side", test_drag_side);
  ADD ("drag-bevel-and-bead", test_drag_bevel_and_bead);
  ADD ("drags-keep-in-range", test_drags_keep_in_range);
  ADD ("place", test_place);
  ADD ("no-corner-left", test_no_corner_left);
  ADD ("free-place", test_free_place);
#undef ADD
  return g_test_run ();
}
