/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rest of a profile without a few cuts, which is completed as often as they change. */
#include "profile/cav-profile.h"

#include "profile-rig.h"

static const CavBlank blank = { 60.0, 25.0 };

/* The same finding of the same cut; figures in sentences may differ in the last place. */
static void
assert_same_findings (const GPtrArray *a, const GPtrArray *b)
{
  g_assert_cmpuint (a->len, ==, b->len);
  for (guint i = 0; i < a->len; i++)
    {
      const CavFinding *one = g_ptr_array_index (a, i);
      const CavFinding *other = g_ptr_array_index (b, i);

      g_assert_cmpstr (one->code, ==, other->code);
      g_assert_cmpint (one->cut, ==, other->cut);
    }
}

static CavCut *
create_random_cut (void)
{
  CavCut *cut = cav_cut_new ((CavCutKind)g_test_rand_int_range (0, CAV_CUT_DRAWN));

  if (cut->anchor == CAV_ANCHOR_CORNER)
    cut->corner = (CavCorner)g_test_rand_int_range (0, CAV_N_CORNERS);
  else
    cut->side = (CavSide)g_test_rand_int_range (0, CAV_N_SIDES);
  cut->numbers[CAV_CUT_DEPTH] *= g_test_rand_double_range (0.2, 2.0);
  if (cut->numbers[CAV_CUT_POSITION] > 0.0)
    cut->numbers[CAV_CUT_POSITION] = g_test_rand_double_range (-5.0, 65.0);
  return cut;
}

static void
change_at (GPtrArray *cuts, guint index)
{
  cav_cut_free (g_ptr_array_index (cuts, index));
  g_ptr_array_index (cuts, index) = create_random_cut ();
}

/* Completed, it is what all cuts together give, also where the wood falls in pieces and where a cut
 * cannot be. */
static void
test_completed (void)
{
  for (int round = 0; round < 60; round++)
    {
      g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
      guint few[3];
      guint n_few = 0;

      for (int i = g_test_rand_int_range (1, 8); i > 0; i--)
        g_ptr_array_add (cuts, create_random_cut ());
      few[n_few++] = (guint)g_test_rand_int_range (0, (gint32)cuts->len);
      while (n_few < G_N_ELEMENTS (few) && few[n_few - 1] + 1 < cuts->len && round % 3 > 0)
        {
          few[n_few] = (guint)g_test_rand_int_range ((gint32)few[n_few - 1] + 1, (gint32)cuts->len);
          n_few++;
        }

      g_autoptr (CavProfileRest) rest = cav_profile_rest_new (&blank, cuts, few, n_few);
      for (int i = 0; i < 5; i++)
        {
          for (guint j = 0; j < n_few; j++)
            change_at (cuts, few[j]);
          g_autoptr (CavProfile) whole = cav_profile_new (&blank, cuts);
          g_autoptr (CavProfile) quick = cav_profile_rest_complete (rest, cuts);
          g_assert_cmpfloat (rig_get_difference (whole->region, quick->region), <, 1e-3);
          g_assert_cmpfloat (
              rig_get_difference (cav_profile_get_waste (whole), cav_profile_get_waste (quick)), <,
              1e-3);
          assert_same_findings (whole->findings, quick->findings);
        }
    }
}

static void
test_no_blank (void)
{
  const CavBlank none = { .width = 0.0, .thickness = 25.0 };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  g_ptr_array_add (cuts, cav_cut_new (CAV_CUT_RABBET));
  g_assert_null (cav_profile_rest_new (&none, cuts, &(guint){ 0 }, 1));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/profile-rest/is-completed", test_completed);
  g_test_add_func ("/profile/profile-rest/of-no-blank", test_no_blank);
  return g_test_run ();
}
