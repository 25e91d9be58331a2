/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-profile.h"

#include "profile-rig.h"

static const CavBlank blank = { 60.0, 25.0 };

static void
add_groove (GPtrArray *cuts, CavSide side, double position, double width, double depth)
{
  CavCut *cut = cav_cut_new_on_side (CAV_CUT_GROOVE, side);
  cut->numbers[CAV_CUT_POSITION] = position;
  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  g_ptr_array_add (cuts, cut);
}

/* A lip of some thickness over a rabbet. */
static void
test_lip (void)
{
  static const struct
  {
    double thickness;
    gboolean thin;
  } rows[] = { { 0.5, TRUE }, { 1.5, TRUE }, { 1.9, TRUE }, { 2.1, FALSE }, { 5.0, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
      rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 6,
                          25.0 - rows[i].thickness);
      g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
      const CavFinding *finding = rig_find (profile, "profile-thin");
      g_test_message ("lip of %g", rows[i].thickness);
      g_assert_true (cav_profile_is_sound (profile));
      g_assert_cmpint (finding != NULL, ==, rows[i].thin);
      if (finding == NULL)
        continue;
      g_assert_cmpint (finding->severity, ==, CAV_FINDING_CAUTION);
      g_assert_true (finding->has_place);
      g_assert_cmpfloat (finding->place.x, <, 7.0);
      g_assert_cmpfloat (finding->place.y, >, 25.0 - rows[i].thickness);
    }
}

/* A web between grooves from both sides holds two parts together. */
static void
test_web (void)
{
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  add_groove (cuts, CAV_SIDE_FACE, 30, 1, 12);
  add_groove (cuts, CAV_SIDE_BACK, 30, 1, 12);
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
  const CavFinding *finding = rig_expect (profile, "profile-thin");
  g_assert_cmpfloat_with_epsilon (finding->place.x, 30.0, 0.5);
  g_assert_cmpfloat_with_epsilon (finding->place.y, 12.5, 0.5);
}

/* Sharp corners are no thin walls, but a feather edge is. */
static void
test_corners (void)
{
  static const struct
  {
    const char *desc;
    double width, depth;
    gboolean thin;
  } rows[] = {
    { "45 degrees", 20, 20, FALSE },
    { "35 degrees", 14, 20, FALSE },
    { "10 degrees", 4, 24.9, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
      /* The rabbet leaves the chamfer's slope alone: an acute edge at the inside. */
      rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, rows[i].width, 0.1);
      rig_add_corner_cut (cuts, CAV_CUT_CHAMFER, CAV_CORNER_BACK_INSIDE, rows[i].width,
                          rows[i].depth);
      rig_add_corner_cut (cuts, CAV_CUT_RABBET, CAV_CORNER_FACE_INSIDE, 0.1, 25.0 - rows[i].depth);
      CavCut *wall = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_BACK);
      wall->numbers[CAV_CUT_POSITION] = rows[i].width + 5.0;
      wall->numbers[CAV_CUT_WIDTH] = 10.0;
      wall->numbers[CAV_CUT_DEPTH] = 24.0 - 4.0;
      g_ptr_array_add (cuts, wall);
      g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
      g_test_message ("%s", rows[i].desc);
      g_assert_cmpint (rig_find (profile, "profile-thin") != NULL, ==, rows[i].thin);
    }
}

/* All of it too thin. */
static void
test_all_thin (void)
{
  const CavBlank sliver = { 60.0, 1.5 };
  g_autoptr (CavProfile) profile = cav_profile_new (&sliver, NULL);
  const CavFinding *finding = rig_expect (profile, "profile-thin");
  g_assert_cmpfloat_with_epsilon (finding->place.y, 0.75, 0.01);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/check/lip", test_lip);
  g_test_add_func ("/profile/check/web", test_web);
  g_test_add_func ("/profile/check/corners", test_corners);
  g_test_add_func ("/profile/check/all-thin", test_all_thin);
  return g_test_run ();
}
