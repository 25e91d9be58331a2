/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>

#include "frame-rig.h"

/* 16 × 20 in, molding 2 in wide, lip 1/4, allowance 1/8: 86 1/2 in exactly, and 88 in by the rule
 * "around the picture and eight widths". */
static void
test_molding (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (16 * INCH, 20 * INCH, INCH / 8);
  g_autoptr (CavProfile) profile = rig_profile_new (2 * INCH, 0.75 * INCH, INCH / 4, INCH / 2);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  const CavFrameRails *rails = &frame->rails;

  assert_near (rails->molding, 86.5 * INCH, 1e-6);
  assert_near (rails->molding_rule, 88 * INCH, 1e-6);
  assert_near (rails->mitre, 45, 1e-12);
  /* Five cuts at 45 degrees and an inch at both ends. */
  assert_near (rails->molding_cut, rails->molding + 5 * CAV_KERF_USUAL * G_SQRT2 + 50, 1e-6);
  assert_near (rails->groups[0].rabbet_line, 16.125 * INCH, 1e-6);
  assert_near (rails->groups[0].short_point, (16.125 - 0.5) * INCH, 1e-6);
  g_assert_cmpint (rails->together, ==, 1);
  g_assert_cmpint (rails->n_places, ==, 4);
  for (int i = 0; i < 4; i++)
    {
      g_assert_cmpint (rails->places[i].strip, ==, i);
      assert_near (rails->places[i].to - rails->places[i].from, rails->groups[i % 2].long_point,
                   1e-9);
    }
}

/* Each rail of a small frame is too short alone; in the strip they follow each other, a kerf
 * apart. */
static void
test_short_rails (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (100, 150, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (30, 20, 6, 10);

  g_autoptr (CavFrame) pairs = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (pairs->rails.together, ==, 2);
  g_assert_cmpuint (rig_count_findings (pairs, "frame-short-rail"), ==, 1);
  g_assert_cmpuint (rig_count_findings (pairs, "frame-short-strip"), ==, 0);
  g_assert_cmpint (pairs->rails.places[1].strip, ==, 0);
  g_assert_cmpint (pairs->rails.places[2].strip, ==, 1);
  assert_near (pairs->rails.places[1].from - pairs->rails.places[0].to, CAV_KERF_USUAL * G_SQRT2,
               1e-9);
  g_assert_cmpfloat (pairs->rails.strip, >=, settings->safe_length);

  settings->safe_length = 600;
  g_autoptr (CavFrame) all = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (all->rails.together, ==, 4);
  g_assert_cmpuint (rig_count_findings (all, "frame-short-strip"), ==, 0);
  settings->safe_length = 2000;
  g_autoptr (CavFrame) never = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (never->rails.together, ==, 4);
  g_assert_cmpuint (rig_count_findings (never, "frame-short-strip"), ==, 1);
}

/* Every number of sides: corners meet, and around the outside there are 360 degrees. */
static void
test_sides (void)
{
  g_autoptr (CavProfile) profile = rig_profile_new (40, 20, 6, 12);

  for (int sides = CAV_FRAME_SIDES_MIN; sides <= CAV_FRAME_SIDES_MAX; sides++)
    {
      g_autoptr (CavFrameSettings) settings = rig_settings_new (500, 500, 3);
      settings->sides = sides;
      g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
      const CavFrameRails *rails = &frame->rails;

      g_test_message ("%d sides", sides);
      assert_near (2 * sides * rails->mitre, 360, 1e-9);
      assert_near (rails->groups[0].long_point - rails->groups[0].short_point,
                   2 * frame->mitres.run, 1e-9);
      /* The area of the ring, by the polygons outside and inside. */
      double ring = sides / 4.0
                    * (frame->sizes.outside.width * rails->groups[0].long_point
                       - frame->sizes.sight.width * rails->groups[0].short_point);
      assert_near (ring,
                   sides * 40 * (rails->groups[0].long_point + rails->groups[0].short_point) / 2,
                   1e-6);
      g_assert_cmpfloat (rails->molding_rule, >, 0);
      g_assert_cmpint (rails->n_places, ==, sides);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/rails/molding", test_molding);
  g_test_add_func ("/frame/rails/short-rails", test_short_rails);
  g_test_add_func ("/frame/rails/sides", test_sides);
  return g_test_run ();
}
