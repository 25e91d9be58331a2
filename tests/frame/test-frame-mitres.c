/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>
#include <string.h>

#include "frame-rig.h"

static gboolean
has_advice (const CavFrame *frame, const char *words)
{
  for (guint i = 0; i < frame->advice->len; i++)
    if (strstr (g_ptr_array_index (frame->advice, i), words) != NULL)
      return TRUE;
  return FALSE;
}

/* Red oak 2 in wide, air chosen so that the moisture changes by 4 %: 8.0 to 12.0 at 70 F (the
 * table's 65 %), so the gap is that of the corner example, 0.041 in. */
static void
test_seasons (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (2 * INCH, 22, 7, 12);

  settings->shop = (CavClimate){ 21.1, 42.3 };
  settings->damp = (CavClimate){ 21.1, 65 };
  settings->dry = (CavClimate){ 21.1, 42.3 };
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("oak-red"));
  const CavFrameMitres *mitres = &frame->mitres;

  g_assert_true (mitres->has_seasons);
  assert_near (mitres->damp.moisture, 12.0, 0.06);
  assert_near (mitres->damp.moisture - mitres->dry.moisture, 4.0, 0.1);
  assert_near (mitres->damp.degrees, 0.84, 0.03);
  assert_near (mitres->damp.gap, 0.041 * INCH, 0.03);
  assert_near (mitres->dry.gap, 0, 1e-9);
  assert_near (mitres->season_gap, mitres->damp.gap, 1e-12);
  g_assert_cmpint (rig_get_severity (frame, "frame-season-gap"), ==, CAV_FINDING_CAUTION);
  g_assert_true (has_advice (frame, "outside"));
  g_assert_true (has_advice (frame, "stay closed"));
  g_assert_true (has_advice (frame, "Quarter sawn"));
  g_assert_true (has_advice (frame, "halve"));

  settings->sawn = CAV_SAWN_QUARTER;
  g_autoptr (CavFrame) quarter = cav_frame_new (settings, profile, cav_wood_find ("oak-red"));
  assert_near (quarter->mitres.damp.gap, 0.018 * INCH, 0.02);
  g_assert_false (has_advice (quarter, "Quarter sawn"));
}

/* The plot's points rise with humidity, and cross nothing where shop and room agree. */
static void
test_points (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (60, 22, 7, 12);

  settings->shop = (CavClimate){ 20, 50 };
  settings->dry = (CavClimate){ 18, 30 };
  settings->damp = (CavClimate){ 22, 60 };
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("cherry-black"));
  const CavGapPoint *points = frame->mitres.points;

  assert_near (points[0].humidity, 10, 1e-9);
  assert_near (points[CAV_GAP_POINTS - 1].humidity, 90, 1e-9);
  for (int i = 1; i < CAV_GAP_POINTS; i++)
    {
      g_assert_cmpfloat (points[i].gap, >, points[i - 1].gap);
      g_assert_cmpfloat (points[i].moisture, >, points[i - 1].moisture);
    }
  assert_near (points[8].humidity, 50, 1e-9);
  assert_near (points[8].gap, 0, 1e-9);
}

/* Saw and rails. */
static void
test_errors (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (2 * INCH, 22, 7, 12);

  settings->saw_error = 0.25;
  settings->pair_error = 1;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  assert_near (frame->mitres.last_degrees, 2.0, 1e-9);
  assert_near (frame->mitres.last_gap, 0.099 * INCH, 0.02);
  assert_near (frame->mitres.joint_gap, 0.025 * INCH, 0.02);
  assert_near (frame->mitres.pair_degrees, asin (0.5 / frame->sizes.outside.width) * 180 / G_PI,
               1e-9);
  assert_near (frame->mitres.length, 2 * INCH * G_SQRT2, 1e-9);
  g_assert_true (has_advice (frame, "0.25 degrees off"));
  g_assert_true (has_advice (frame, "one stop"));
  g_assert_false (frame->mitres.has_seasons);

  settings->saw_error = settings->pair_error = 0;
  settings->sides = 6;
  g_autoptr (CavFrame) exact = cav_frame_new (settings, profile, NULL);
  assert_near (exact->mitres.last_gap, 0, 1e-12);
  assert_near (exact->mitres.pair_gap, 0, 1e-12);
  g_assert_cmpuint (exact->advice->len, ==, 0);
}

static void
test_advice (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (900, 900, 3);
  g_autoptr (CavProfile) wide = rig_profile_new (120, 30, 7, 12);
  g_autoptr (CavProfile) narrow = rig_profile_new (12, 20, 5, 12);

  settings->shop = (CavClimate){ 15, 75 };
  g_autoptr (CavFrame) frame = cav_frame_new (settings, wide, cav_wood_find ("beech-american"));
  g_assert_true (has_advice (frame, "let it rest"));
  g_assert_true (has_advice (frame, "built up"));
  g_assert_true (has_advice (frame, "sight edge"));
  g_assert_true (has_advice (frame, "spline"));
  g_assert_true (has_advice (frame, "kg, reinforce"));
  settings->shop = (CavClimate){ 21, 46 };
  g_autoptr (CavFrame) small = cav_frame_new (settings, narrow, cav_wood_find ("cherry-black"));
  g_assert_true (has_advice (small, "glue holds it"));
  g_assert_false (has_advice (small, "let it rest"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/mitres/seasons", test_seasons);
  g_test_add_func ("/frame/mitres/points", test_points);
  g_test_add_func ("/frame/mitres/errors", test_errors);
  g_test_add_func ("/frame/mitres/advice", test_advice);
  return g_test_run ();
}
