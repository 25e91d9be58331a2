/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-sanding.h"

#include <math.h>

#include "frame-rig.h"

static CavProfile *
profile_new (CavCut *first, CavCut *second)
{
  CavBlank blank = { 60, 22 };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  g_ptr_array_add (cuts, first);
  if (second != NULL)
    g_ptr_array_add (cuts, second);
  return cav_profile_new (&blank, cuts);
}

static CavCut *
corner_cut_new (CavCutKind kind, CavCorner corner, double width, double depth)
{
  CavCut *cut = cav_cut_new_at_corner (kind, corner);

  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  return cut;
}

/* A hollow of 9 mm takes what is at most 17 mm thick, with paper around it: a dowel of 16. */
static void
test_hollow (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (corner_cut_new (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 9, 9), NULL);
  g_autoptr (GArray) blocks = cav_sanding_find (profile);

  g_assert_cmpuint (blocks->len, ==, 1);
  const CavSandingBlock *block = &g_array_index (blocks, CavSandingBlock, 0);
  g_assert_true (block->hollow);
  g_assert_true (block->circular);
  assert_near (block->radius, 9, 1e-6);
  assert_near (block->diameter, 16, 1e-9);
  g_assert_cmpstr (block->thing, ==, "dowel");
  g_assert_cmpint (block->count, ==, 1);
  /* The middle of a quarter circle around the blank's corner. */
  assert_near (block->place.x, 9 * G_SQRT2 / 2, 0.01);
  assert_near (block->place.y, 22 - 9 * G_SQRT2 / 2, 0.01);
}

/* Two rounds alike are one block; a round is no hollow. A block that is rubbed hollow on paper
 * around 12 mm and then lined with paper has a hollow of just 12 mm across: it fits a round of 6
 * mm. */
static void
test_rounds (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (corner_cut_new (CAV_CUT_ROUND, CAV_CORNER_FACE_INSIDE, 6, 6),
                     corner_cut_new (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 6, 6));
  g_autoptr (GArray) blocks = cav_sanding_find (profile);

  g_assert_cmpuint (blocks->len, ==, 1);
  g_assert_false (g_array_index (blocks, CavSandingBlock, 0).hollow);
  g_assert_cmpint (g_array_index (blocks, CavSandingBlock, 0).count, ==, 2);
  assert_near (g_array_index (blocks, CavSandingBlock, 0).diameter, 12, 1e-9);
}

/* An ellipse of half axes a = 20, b = 5: at 45 degrees of its parameter the radius is
 * ((a² + b²) / 2)^(3/2) / (a b). */
static void
test_ellipse (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (corner_cut_new (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 20, 5),
                     corner_cut_new (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 0.5, 0.5));
  g_autoptr (GArray) blocks = cav_sanding_find (profile);

  g_assert_cmpuint (blocks->len, ==, 1);
  g_assert_false (g_array_index (blocks, CavSandingBlock, 0).circular);
  assert_near (g_array_index (blocks, CavSandingBlock, 0).radius, pow (212.5, 1.5) / 100, 1e-6);
}

/* Between tins and plates there is nothing that is round enough. */
static void
test_nothing_near (void)
{
  CavBlank blank = { 300, 150 };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavProfile) profile = NULL;
  g_autoptr (GArray) blocks = NULL;

  g_ptr_array_add (cuts, corner_cut_new (CAV_CUT_COVE, CAV_CORNER_FACE_INSIDE, 110, 110));
  profile = cav_profile_new (&blank, cuts);
  blocks = cav_sanding_find (profile);
  g_assert_cmpuint (blocks->len, ==, 1);
  g_assert_null (g_array_index (blocks, CavSandingBlock, 0).thing);
}

static void
test_square (void)
{
  g_autoptr (CavProfile) profile = rig_profile_new (40, 20, 6, 10);
  g_autoptr (GArray) blocks = cav_sanding_find (profile);

  g_assert_cmpuint (blocks->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/sanding/hollow", test_hollow);
  g_test_add_func ("/frame/sanding/rounds", test_rounds);
  g_test_add_func ("/frame/sanding/ellipse", test_ellipse);
  g_test_add_func ("/frame/sanding/nothing-near", test_nothing_near);
  g_test_add_func ("/frame/sanding/square", test_square);
  return g_test_run ();
}
