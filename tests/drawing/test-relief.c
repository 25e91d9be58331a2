/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-relief.h"

#include <math.h>

#define N 600

static CavProfile *
profile_new (double width, double thickness, CavCut *cut)
{
  CavBlank blank = { width, thickness };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  if (cut != NULL)
    g_ptr_array_add (cuts, cut);
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

/* Places count from the outside, so a step at the sight edge lies at the end. */
static void
test_step (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (60, 20, corner_cut_new (CAV_CUT_RABBET, CAV_CORNER_FACE_INSIDE, 15, 8));
  g_autoptr (CavRelief) relief = cav_relief_new (profile, N);

  g_assert_cmpfloat_with_epsilon (relief->width, 60, 1e-9);
  g_assert_cmpfloat_with_epsilon (relief->top, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (relief->heights[10], 20, 1e-4);
  g_assert_cmpfloat_with_epsilon (relief->heights[449], 20, 1e-4);
  g_assert_cmpfloat_with_epsilon (relief->heights[451], 12, 1e-4);
  for (int i = 0; i < N; i++)
    g_assert_cmpfloat_with_epsilon (relief->slopes[i], 0, 1e-4);
  /* At the foot of the wall half of the sky is hidden on one side. */
  g_assert_cmpfloat_with_epsilon (relief->open_sky[450], 0.5, 0.02);
  g_assert_cmpfloat_with_epsilon (relief->open_sky[0], 1, 1e-6);
  g_assert_cmpfloat (relief->open_sky[599], >, 0.7);
}

/* A quarter round: heights and slopes of the circle at every place. */
static void
test_round (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (40, 20, corner_cut_new (CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 10, 10));
  g_autoptr (CavRelief) relief = cav_relief_new (profile, N);

  for (int i = 0; i < 145; i++)
    {
      double from_centre = 10 - (i + 0.5) * 40 / N;
      double up = sqrt (100 - from_centre * from_centre);

      g_assert_cmpfloat_with_epsilon (relief->heights[i], 10 + up, 0.001);
      if (i > 10)
        g_assert_cmpfloat_with_epsilon (relief->slopes[i], from_centre / up, 0.03);
    }
}

static void
test_slices (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (60, 20, corner_cut_new (CAV_CUT_CHAMFER, CAV_CORNER_FACE_OUTSIDE, 20, 20));
  g_autoptr (CavRelief) relief = cav_relief_new (profile, N);

  for (int k = 0; k < CAV_RELIEF_SLICES; k++)
    {
      g_assert_cmpfloat_with_epsilon (relief->slices[k].outer, relief->slices[k].height, 0.11);
      g_assert_cmpfloat_with_epsilon (relief->slices[k].inner, 60, 0.11);
    }
  g_assert_cmpfloat_with_epsilon (relief->slices[CAV_RELIEF_SLICES - 1].height, 20, 0.01);
}

/* A wall of 8 mm throws a shadow of 8 / rise, on the side away from the lamp alone. */
static void
test_shadow (void)
{
  g_autoptr (CavProfile) profile
      = profile_new (60, 20, corner_cut_new (CAV_CUT_RABBET, CAV_CORNER_FACE_INSIDE, 25, 8));
  g_autoptr (CavRelief) relief = cav_relief_new (profile, N);
  float light[N];

  cav_relief_fill_shadow (relief, 1.0, FALSE, 0.0, light);
  g_assert_cmpfloat_with_epsilon (light[349], 1, 1e-6);
  g_assert_cmpfloat_with_epsilon (light[352], 0, 1e-6);
  g_assert_cmpfloat_with_epsilon (light[428], 0, 1e-6);
  g_assert_cmpfloat_with_epsilon (light[432], 1, 1e-6);
  cav_relief_fill_shadow (relief, 1.0, TRUE, 0.0, light);
  for (int i = 0; i < N; i++)
    g_assert_cmpfloat_with_epsilon (light[i], 1, 1e-6);
  /* A large lamp makes the shadow's end soft. */
  cav_relief_fill_shadow (relief, 1.0, FALSE, 0.3, light);
  g_assert_cmpfloat (light[425], >, 0.05);
  g_assert_cmpfloat (light[425], <, 0.95);
}

static void
test_nothing (void)
{
  CavBlank blank = { 0, 0 };
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, NULL);

  g_assert_null (cav_relief_new (profile, N));
  cav_relief_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/relief/step", test_step);
  g_test_add_func ("/drawing/relief/round", test_round);
  g_test_add_func ("/drawing/relief/slices", test_slices);
  g_test_add_func ("/drawing/relief/shadow", test_shadow);
  g_test_add_func ("/drawing/relief/nothing", test_nothing);
  return g_test_run ();
}
