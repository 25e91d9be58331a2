/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-arrange.h"

#include <math.h>

static const CavBlank blank = { .width = 60.0, .thickness = 40.0 };

static void
add_drawn (GPtrArray *cuts)
{
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (30.0, 10.0));
  cav_path_line_to (path, CAV_POINT (42.0, 11.0));
  cav_path_line_to (path, CAV_POINT (42.0, 20.0));
  cav_path_arc (path, CAV_POINT (38.0, 20.0), 4.0, 4.0, 0.0, 180.0);
  cav_path_close (path);
  g_ptr_array_add (cuts, cav_cut_new_drawn (path));
}

/* One of each kind, anchor and form. */
static GPtrArray *
create_all (void)
{
  GPtrArray *cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  for (int kind = 0; kind < CAV_CUT_DRAWN; kind++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)kind);

      for (guint form = 0; form < info->n_forms; form++)
        for (int i = 0; i < 4; i++)
          for (int anchor = 0; anchor < CAV_ANCHOR_FREE; anchor++)
            {
              if (!(info->anchors & (1u << anchor)))
                continue;
              CavCut *cut = anchor == CAV_ANCHOR_CORNER
                                ? cav_cut_new_at_corner ((CavCutKind)kind, (CavCorner)i)
                                : cav_cut_new_on_side ((CavCutKind)kind, (CavSide)i);
              cut->form = info->forms[form];
              if (anchor == CAV_ANCHOR_SIDE && kind != CAV_CUT_BEVEL)
                cut->numbers[CAV_CUT_POSITION] = 17.0;
              g_ptr_array_add (cuts, cut);
            }
    }
  add_drawn (cuts);
  return cuts;
}

static CavRegion *
create_region (const CavCut *cut)
{
  g_autoptr (GError) error = NULL;
  CavRegion *region = cav_cut_create_region (cut, &blank, &error);

  g_assert_no_error (error);
  return region;
}

/* One cut takes what the other takes, after a map. */
static void
assert_same_after (const CavCut *cut, CavTransform transform, const CavCut *other)
{
  g_autoptr (CavRegion) region = create_region (cut);
  g_autoptr (CavRegion) expected = cav_region_transformed (region, transform);
  g_autoptr (CavRegion) found = create_region (other);
  g_autoptr (CavRegion) more = cav_region_difference (found, expected, NULL);
  g_autoptr (CavRegion) less = cav_region_difference (expected, found, NULL);
  double error = cav_region_get_area (more) + cav_region_get_area (less);

  if (error > 0.01)
    g_test_message ("%s: %.4f", cav_cut_kind_get_info (cut->kind)->name, error);
  g_assert_cmpfloat (error, <, 0.01);
}

static void
test_mirror (void)
{
  static const CavTransform maps[] = { [CAV_MIRROR_ACROSS] = { -1.0, 0.0, 60.0, 0.0, 1.0, 0.0 },
                                       [CAV_MIRROR_THROUGH] = { 1.0, 0.0, 0.0, 0.0, -1.0, 40.0 } };
  g_autoptr (GPtrArray) cuts = create_all ();

  for (int mirror = 0; mirror < 2; mirror++)
    {
      g_autoptr (GPtrArray) once = cav_arrange_mirror (cuts, &blank, (CavMirror)mirror);
      g_autoptr (GPtrArray) twice = cav_arrange_mirror (once, &blank, (CavMirror)mirror);

      g_assert_cmpuint (once->len, ==, cuts->len);
      for (guint i = 0; i < cuts->len; i++)
        {
          const CavCut *cut = g_ptr_array_index (cuts, i);

          assert_same_after (cut, maps[mirror], g_ptr_array_index (once, i));
          assert_same_after (cut, cav_transform_identity (), g_ptr_array_index (twice, i));
        }
    }
}

/* A shift along the side, before its low end, and past its high end. */
static void
test_mirror_shifted (void)
{
  static const double rows[][2] = { { 10.0, 5.0 }, { 3.0, -9.0 }, { 58.0, 4.0 }, { 0.0, 30.0 } };
  const CavTransform map = { -1.0, 0.0, 60.0, 0.0, 1.0, 0.0 };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
      CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_BACK);

      groove->numbers[CAV_CUT_POSITION] = rows[i][0];
      groove->numbers[CAV_CUT_SHIFT_X] = rows[i][1];
      g_ptr_array_add (cuts, groove);
      g_autoptr (GPtrArray) mirrored = cav_arrange_mirror (cuts, &blank, CAV_MIRROR_ACROSS);
      assert_same_after (groove, map, g_ptr_array_index (mirrored, 0));
      g_assert_cmpfloat (
          ((const CavCut *)g_ptr_array_index (mirrored, 0))->numbers[CAV_CUT_POSITION], >=, 0.0);
    }
}

static void
test_move (void)
{
  static const CavPoint ways[] = { { 3.0, 0.0 }, { 0.0, -2.0 }, { -1.5, 2.5 }, { -20.0, 0.0 } };
  g_autoptr (GPtrArray) cuts = create_all ();

  for (guint w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      g_autoptr (GPtrArray) moved = cav_arrange_move (cuts, &blank, ways[w].x, ways[w].y);

      for (guint i = 0; i < cuts->len; i++)
        {
          const CavCut *cut = g_ptr_array_index (cuts, i);

          /* Bevels and the ledge of a proud bead reach to the ends of their side. */
          if (cut->kind == CAV_CUT_BEVEL || cut->form == CAV_FORM_PROUD)
            continue;
          assert_same_after (cut, cav_transform_translation (ways[w].x, ways[w].y),
                             g_ptr_array_index (moved, i));
        }
    }
}

static CavCut *
move_bevel (double start, double end, double dy)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (GPtrArray) moved = NULL;
  CavCut *bevel = cav_cut_new_on_side (CAV_CUT_BEVEL, CAV_SIDE_FACE);

  bevel->numbers[CAV_CUT_START_HEIGHT] = start;
  bevel->numbers[CAV_CUT_END_HEIGHT] = end;
  g_ptr_array_add (cuts, bevel);
  moved = cav_arrange_move (cuts, &blank, 5.0, dy);
  return cav_cut_copy (g_ptr_array_index (moved, 0));
}

static void
test_move_bevel (void)
{
  static const struct
  {
    double start, end, dy, to_start, to_end;
  } rows[] = {
    { 6.0, 2.0, -1.5, 7.5, 3.5 }, /* into the wood */
    { 6.0, 2.0, 1.5, 4.5, 0.5 },  /* out of it */
    { 6.0, 2.0, 9.0, 4.0, 0.0 },  /* not above the face */
    { 3.0, 3.0, 9.0, 3.0, 3.0 },  /* nor away altogether */
    { 6.0, 2.0, 0.0, 6.0, 2.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavCut) moved = move_bevel (rows[i].start, rows[i].end, rows[i].dy);

      g_assert_cmpfloat_with_epsilon (moved->numbers[CAV_CUT_START_HEIGHT], rows[i].to_start, 1e-9);
      g_assert_cmpfloat_with_epsilon (moved->numbers[CAV_CUT_END_HEIGHT], rows[i].to_end, 1e-9);
    }
}

static void
test_bounds (void)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavCut *rabbet = cav_cut_new (CAV_CUT_RABBET);
  CavCut *broken = cav_cut_new (CAV_CUT_RABBET);
  CavBox box;

  g_assert_false (cav_arrange_get_bounds (cuts, &blank, &box));
  broken->numbers[CAV_CUT_WIDTH] = -1.0;
  g_ptr_array_add (cuts, broken);
  g_assert_false (cav_arrange_get_bounds (cuts, &blank, &box));
  g_ptr_array_add (cuts, rabbet);
  add_drawn (cuts);
  g_assert_true (cav_arrange_get_bounds (cuts, &blank, &box));
  g_assert_cmpfloat_with_epsilon (box.x0, 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0, 0.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.x1, 42.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1, 24.0, 1e-9);
}

/* Copies keep their places to each other, and are not under what they copy. */
static void
test_duplicate (void)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  CavBox before, after;

  g_ptr_array_add (cuts, cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_OUTSIDE));
  add_drawn (cuts);
  g_autoptr (GPtrArray) copies = cav_arrange_duplicate (cuts, &blank, 2.0);
  g_assert_true (cav_arrange_get_bounds (cuts, &blank, &before));
  g_assert_true (cav_arrange_get_bounds (copies, &blank, &after));
  g_assert_cmpfloat_with_epsilon (after.x0, before.x0 - 2.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.x1, before.x1 - 2.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (after.y1, before.y1 - 2.0, 1e-9);

  /* A groove goes along its side and not below it. */
  groove->numbers[CAV_CUT_POSITION] = 10.0;
  g_ptr_array_set_size (cuts, 0);
  g_ptr_array_add (cuts, groove);
  g_autoptr (GPtrArray) beside = cav_arrange_duplicate (cuts, &blank, 2.0);
  const CavCut *copy = g_ptr_array_index (beside, 0);
  g_assert_cmpfloat_with_epsilon (copy->numbers[CAV_CUT_POSITION], 12.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (copy->numbers[CAV_CUT_SHIFT_Y], 0.0, 1e-9);
}

static double
get_edge (CavBox box, CavAlignment align)
{
  switch (align)
    {
    case CAV_ALIGN_INSIDE:
      return box.x0;
    case CAV_ALIGN_OUTSIDE:
      return box.x1;
    case CAV_ALIGN_BACK:
      return box.y0;
    case CAV_ALIGN_FACE:
      return box.y1;
    case CAV_ALIGN_MIDDLE_X:
      return box.x0 + box.x1;
    case CAV_ALIGN_MIDDLE_Y:
      return box.y0 + box.y1;
    }
  g_assert_not_reached ();
}

static void
test_align (void)
{
  for (int align = CAV_ALIGN_INSIDE; align <= CAV_ALIGN_MIDDLE_Y; align++)
    for (int n = 1; n <= 3; n++)
      {
        g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
        CavBox to = { 0.0, 0.0, blank.width, blank.thickness };

        add_drawn (cuts);
        if (n > 1)
          g_ptr_array_add (cuts, cav_cut_new_at_corner (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE));
        if (n > 2)
          g_ptr_array_add (cuts, cav_cut_new_at_corner (CAV_CUT_STEPS, CAV_CORNER_BACK_INSIDE));
        if (n > 1)
          g_assert_true (cav_arrange_get_bounds (cuts, &blank, &to));
        g_autoptr (GPtrArray) aligned = cav_arrange_align (cuts, &blank, (CavAlignment)align);
        for (guint i = 0; i < aligned->len; i++)
          {
            g_autoptr (CavRegion) region = create_region (g_ptr_array_index (aligned, i));

            g_assert_cmpfloat_with_epsilon (
                get_edge (cav_region_get_bounds (region), (CavAlignment)align),
                get_edge (to, (CavAlignment)align), 1e-9);
          }
      }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/arrange/mirror", test_mirror);
  g_test_add_func ("/project/arrange/mirror-shifted", test_mirror_shifted);
  g_test_add_func ("/project/arrange/move", test_move);
  g_test_add_func ("/project/arrange/move-bevel", test_move_bevel);
  g_test_add_func ("/project/arrange/bounds", test_bounds);
  g_test_add_func ("/project/arrange/duplicate", test_duplicate);
  g_test_add_func ("/project/arrange/align", test_align);
  return g_test_run ();
}
