/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-cut.h"

static CavPath *
new_square (double size, gboolean round)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0.0, 0.0));
  cav_path_line_to (path, CAV_POINT (size, 0.0));
  if (round)
    cav_path_arc (path, CAV_POINT (0.0, 0.0), size, size, 0.0, 90.0);
  else
    cav_path_line_to (path, CAV_POINT (size, size));
  cav_path_line_to (path, CAV_POINT (0.0, size));
  cav_path_close (path);
  return path;
}

static void
test_new (void)
{
  for (int i = 0; i < CAV_N_CUT_KINDS; i++)
    {
      const CavCutInfo *info = cav_cut_kind_get_info ((CavCutKind)i);
      g_autoptr (CavCut) cut = cav_cut_new ((CavCutKind)i);
      g_assert_cmpint (cut->kind, ==, i);
      g_assert_true (info->anchors & (1u << cut->anchor));
      g_assert_cmpint (cut->form, ==, info->forms[0]);
      g_assert_null (cut->path);
      for (guint k = 0; k < info->n_numbers; k++)
        g_assert_cmpfloat_with_epsilon (cut->numbers[info->numbers[k].number],
                                        info->numbers[k].usual, 1e-12);
    }

  g_autoptr (CavCut) corner = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_OUTSIDE);
  g_assert_cmpint (corner->anchor, ==, CAV_ANCHOR_CORNER);
  g_assert_cmpint (corner->corner, ==, CAV_CORNER_FACE_OUTSIDE);
  g_autoptr (CavCut) side = cav_cut_new_on_side (CAV_CUT_COVE, CAV_SIDE_INSIDE);
  g_assert_cmpint (side->anchor, ==, CAV_ANCHOR_SIDE);
  g_assert_cmpint (side->side, ==, CAV_SIDE_INSIDE);
}

static void
test_drawn (void)
{
  g_autoptr (CavPath) path = new_square (5.0, FALSE);
  g_autoptr (CavCut) cut = cav_cut_new_drawn (path);

  g_assert_cmpint (cut->kind, ==, CAV_CUT_DRAWN);
  g_assert_cmpint (cut->anchor, ==, CAV_ANCHOR_FREE);
  g_assert_true (cut->path != path);
  g_assert_cmpfloat_with_epsilon (cav_path_get_length (cut->path), 20.0, 1e-9);
}

static void
test_copy (void)
{
  g_autoptr (CavPath) path = new_square (5.0, TRUE);
  g_autoptr (CavCut) cut = cav_cut_new_drawn (path);
  g_autoptr (CavCut) copy = cav_cut_copy (cut);
  g_assert_true (copy->path != cut->path);
  g_assert_true (cav_cut_equal (cut, copy));

  g_autoptr (CavCut) rabbet = cav_cut_new (CAV_CUT_RABBET);
  g_autoptr (CavCut) other = cav_cut_copy (rabbet);
  g_assert_true (cav_cut_equal (rabbet, other));
  other->numbers[CAV_CUT_WIDTH] += 1e-9;
  g_assert_false (cav_cut_equal (rabbet, other));
  cav_cut_free (NULL);
}

static void
test_equal (void)
{
  g_autoptr (CavCut) a = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE);
  g_autoptr (CavCut) b = cav_cut_copy (a);

  b->side = CAV_SIDE_OUTSIDE; /* says nothing at a corner */
  g_assert_true (cav_cut_equal (a, b));
  b->corner = CAV_CORNER_BACK_INSIDE;
  g_assert_false (cav_cut_equal (a, b));

  b->anchor = CAV_ANCHOR_SIDE;
  g_assert_false (cav_cut_equal (a, b));
  a->anchor = CAV_ANCHOR_SIDE;
  g_assert_false (cav_cut_equal (a, b));
  a->side = CAV_SIDE_OUTSIDE;
  g_assert_true (cav_cut_equal (a, b)); /* corners differ, and say nothing on a side */

  a->form = CAV_FORM_FLAT;
  g_assert_false (cav_cut_equal (a, b));
  b->form = CAV_FORM_FLAT;
  b->kind = CAV_CUT_GROOVE;
  g_assert_false (cav_cut_equal (a, b));
}

static void
test_equal_paths (void)
{
  g_autoptr (CavPath) square = new_square (5.0, FALSE);
  g_autoptr (CavPath) larger = new_square (6.0, FALSE);
  g_autoptr (CavPath) round = new_square (5.0, TRUE);
  g_autoptr (CavPath) open = cav_path_new ();
  cav_path_move_to (open, CAV_POINT (0.0, 0.0));
  cav_path_line_to (open, CAV_POINT (5.0, 0.0));
  cav_path_line_to (open, CAV_POINT (5.0, 5.0));
  cav_path_line_to (open, CAV_POINT (0.0, 5.0));
  cav_path_line_to (open, CAV_POINT (0.0, 1.0));
  const CavPath *const paths[] = { square, larger, round, open };

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    for (guint k = 0; k < G_N_ELEMENTS (paths); k++)
      {
        g_autoptr (CavCut) a = cav_cut_new_drawn (paths[i]);
        g_autoptr (CavCut) b = cav_cut_new_drawn (paths[k]);
        g_assert_cmpint (cav_cut_equal (a, b), ==, i == k);
      }

  g_autoptr (CavCut) without = cav_cut_new (CAV_CUT_DRAWN);
  g_autoptr (CavCut) with = cav_cut_new_drawn (square);
  g_assert_false (cav_cut_equal (without, with));
  g_assert_true (cav_cut_equal (without, without));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/cut/new", test_new);
  g_test_add_func ("/profile/cut/drawn", test_drawn);
  g_test_add_func ("/profile/cut/copy", test_copy);
  g_test_add_func ("/profile/cut/equal", test_equal);
  g_test_add_func ("/profile/cut/equal-paths", test_equal_paths);
  return g_test_run ();
}
