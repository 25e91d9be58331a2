/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include <math.h>

static const CavBlank blank = { 60.0, 25.0 };

static CavCut *
new_cut (CavCutKind kind, CavCorner corner, double width, double depth)
{
  CavCut *cut = cav_cut_new_at_corner (kind, corner);
  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  return cut;
}

/* Evaluates the cuts (transfer full, up to NULL) and checks the rabbet; width 0 where none. */
static void
assert_rabbet (CavCut *const *cuts, double width, double depth)
{
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  for (; *cuts != NULL; cuts++)
    g_ptr_array_add (list, *cuts);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, list);
  double found_width = -1.0;
  double found_depth = -1.0;

  g_assert_cmpint (cav_profile_get_rabbet (profile, &found_width, &found_depth), ==, width > 0.0);
  g_assert_cmpint (cav_profile_get_rabbet (profile, NULL, NULL), ==, width > 0.0);
  g_assert_cmpfloat_with_epsilon (found_width, width, 0.003);
  g_assert_cmpfloat_with_epsilon (found_depth, depth, 0.003);
}

static void
test_none (void)
{
  CavCut *nothing[] = { NULL };
  CavCut *elsewhere[] = { new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_OUTSIDE, 6, 10),
                          new_cut (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 9, 9), NULL };
  CavCut *hair[] = { new_cut (CAV_CUT_CHAMFER, CAV_CORNER_BACK_INSIDE, 0.1, 0.1), NULL };

  assert_rabbet (nothing, 0.0, 0.0);
  assert_rabbet (elsewhere, 0.0, 0.0);
  assert_rabbet (hair, 0.0, 0.0);
}

static void
test_plain (void)
{
  CavCut *cuts[] = { new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6.35, 9.525), NULL };
  assert_rabbet (cuts, 6.35, 9.525);
}

/* Of two steps the larger rectangle counts, whichever way it lies. */
static void
test_stepped (void)
{
  CavCut *wide[] = { new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10),
                     new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 20, 4), NULL };
  CavCut *deep[] = { new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10),
                     new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 12, 4), NULL };
  assert_rabbet (wide, 20.0, 4.0);
  assert_rabbet (deep, 6.0, 10.0);
}

/* A back that is lower all over is no rabbet by itself, but counts to the depth of one. */
static void
test_lowered_back (void)
{
  CavCut *slab = cav_cut_new_on_side (CAV_CUT_BEVEL, CAV_SIDE_BACK);
  slab->numbers[CAV_CUT_START_HEIGHT] = 3.0;
  slab->numbers[CAV_CUT_END_HEIGHT] = 3.0;
  CavCut *alone[] = { cav_cut_copy (slab), NULL };
  CavCut *both[] = { slab, new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10), NULL };

  assert_rabbet (alone, 0.0, 0.0);
  assert_rabbet (both, 6.0, 10.0);
}

/* Under a slope from (w, 0) to (0, d) the largest rectangle is w/2 by d/2. */
static void
test_chamfer (void)
{
  CavCut *cuts[] = { new_cut (CAV_CUT_CHAMFER, CAV_CORNER_BACK_INSIDE, 12, 8), NULL };
  assert_rabbet (cuts, 6.0, 4.0);
}

/* Under a quarter circle it is the square in it: r / sqrt 2. */
static void
test_cove (void)
{
  CavCut *cuts[] = { new_cut (CAV_CUT_COVE, CAV_CORNER_BACK_INSIDE, 10, 10), NULL };
  g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_ptr_array_add (list, cuts[0]);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, list);
  double width = 0.0;
  double depth = 0.0;

  g_assert_true (cav_profile_get_rabbet (profile, &width, &depth));
  g_assert_cmpfloat_with_epsilon (width * depth, 50.0, 0.05);
  g_assert_cmpfloat_with_epsilon (hypot (width, depth), 10.0, 0.005);
}

/* A groove in the ledge does not make the rabbet deeper, wood that hangs into it makes it less. */
static void
test_uneven (void)
{
  CavCut *groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_BACK);
  groove->numbers[CAV_CUT_POSITION] = 3.0;
  groove->numbers[CAV_CUT_WIDTH] = 2.0;
  groove->numbers[CAV_CUT_DEPTH] = 14.0;
  CavCut *cuts[] = { new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6, 10), groove, NULL };
  assert_rabbet (cuts, 6.0, 10.0);
}

/* The search by sweeping agrees with trying every pair of outline corners. */
static void
test_random (void)
{
  for (int round = 0; round < 60; round++)
    {
      g_autoptr (GPtrArray) list = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
      double corners[4][2];
      int n = g_test_rand_int_range (1, 5);
      for (int i = 0; i < n; i++)
        {
          corners[i][0] = g_test_rand_int_range (2, 100) * 0.25;
          corners[i][1] = g_test_rand_int_range (2, 60) * 0.25;
          g_ptr_array_add (
              list, new_cut (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, corners[i][0], corners[i][1]));
        }
      double best = 0.0;
      for (int i = 0; i < n; i++)
        best = fmax (best, corners[i][0] * corners[i][1]);

      g_autoptr (CavProfile) profile = cav_profile_new (&blank, list);
      double width = 0.0;
      double depth = 0.0;
      g_assert_true (cav_profile_get_rabbet (profile, &width, &depth));
      g_assert_cmpfloat_with_epsilon (width * depth, best, 0.01);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/rabbet/none", test_none);
  g_test_add_func ("/profile/rabbet/plain", test_plain);
  g_test_add_func ("/profile/rabbet/stepped", test_stepped);
  g_test_add_func ("/profile/rabbet/lowered-back", test_lowered_back);
  g_test_add_func ("/profile/rabbet/chamfer", test_chamfer);
  g_test_add_func ("/profile/rabbet/cove", test_cove);
  g_test_add_func ("/profile/rabbet/uneven", test_uneven);
  g_test_add_func ("/profile/rabbet/random", test_random);
  return g_test_run ();
}
