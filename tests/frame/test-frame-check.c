/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>
#include <string.h>

#include "frame-rig.h"

/* The usual settings and a usual molding have nothing against them but a wood that is missing. */
static void
test_fine (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  g_autoptr (CavFrame) wooden = NULL;

  g_assert_cmpuint (frame->findings->len, ==, 1);
  g_assert_cmpint (rig_get_severity (frame, "frame-no-wood"), ==, CAV_FINDING_NOTE);
  settings->sawn = CAV_SAWN_QUARTER;
  wooden = cav_frame_new (settings, profile, cav_wood_find ("cherry-black"));
  for (guint i = 0; i < wooden->findings->len; i++)
    g_test_message ("%s", ((CavFinding *)g_ptr_array_index (wooden->findings, i))->message);
  g_assert_cmpuint (wooden->findings->len, ==, 0);
}

/* One bad number at a time, every one of them, and many at once: findings, no crash. */
static void
test_numbers (void)
{
  const double bad[] = { 0, -1, 1e-300, 1e300, NAN, INFINITY, -INFINITY };
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);

  for (guint i = 0; i < n_numbers; i++)
    for (guint k = 0; k < G_N_ELEMENTS (bad); k++)
      {
        g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
        gboolean legal
            = isfinite (bad[k]) && bad[k] >= numbers[i].minimum && bad[k] <= numbers[i].maximum;

        cav_frame_settings_set_number (settings, &numbers[i], bad[k]);
        g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_get (k));
        g_test_message ("%s is %g", numbers[i].name, bad[k]);
        g_assert_cmpuint (rig_count_findings (frame, "frame-range"), ==, legal ? 0 : 1);
        g_assert_true (legal || !frame->possible);
      }
}

/* Whatever is inside the ranges gives finite sizes; seed printed by the framework. */
static void
test_random (void)
{
  guint n_numbers = 0;
  const CavFrameNumberInfo *numbers = cav_frame_settings_get_numbers (&n_numbers);
  guint n_possible = 0;

  for (int round = 0; round < 2000; round++)
    {
      g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
      double width = g_test_rand_double_range (2, 150);
      double thickness = g_test_rand_double_range (2, 80);
      g_autoptr (CavProfile) profile
          = rig_profile_new (width, thickness, g_test_rand_double_range (0, width * 1.2),
                             g_test_rand_double_range (0.1, thickness));

      for (guint i = 0; i < n_numbers; i++)
        if (g_test_rand_int_range (0, 8) == 0)
          cav_frame_settings_set_number (
              settings, &numbers[i],
              g_test_rand_double_range (numbers[i].minimum, numbers[i].maximum));
      settings->sides = g_test_rand_int_range (3, 13);
      settings->n_mats = g_test_rand_int_range (0, 4);
      settings->start = (CavFrameStart)g_test_rand_int_range (0, 4);
      settings->floated = g_test_rand_bit ();
      settings->dry_fit.has_gaps = settings->dry_fit.has_diagonals = g_test_rand_bit ();
      settings->dry_fit.has_corner = g_test_rand_bit ();
      g_autoptr (CavFrame) frame
          = cav_frame_new (settings, profile, cav_wood_get ((guint)round % cav_wood_get_count ()));

      g_assert_true (isfinite (frame->sizes.outside.width));
      if (!frame->possible)
        {
          g_assert_true (cav_finding_list_has_wrong (frame->findings));
          continue;
        }
      n_possible++;
      g_assert_true (isfinite (frame->weights.total));
      g_assert_cmpfloat (frame->weights.total, >=, 0);
      g_assert_true (isfinite (frame->mitres.season_gap));
      g_assert_cmpfloat (frame->rails.groups[0].short_point, >, 0);
      g_assert_cmpfloat (frame->rails.molding, >, 0);
      for (guint i = 0; i < frame->findings->len; i++)
        {
          const CavFinding *finding = g_ptr_array_index (frame->findings, i);

          /* Ten metres are "10000", not "1e+04". */
          g_assert_false (g_regex_match_simple ("[0-9]e[+-]?[0-9]", finding->message, 0, 0));
        }
      for (guint i = 0; i < frame->corrections->len; i++)
        g_assert_true (isfinite (g_array_index (frame->corrections, CavCorrection, i).turn));
    }
  g_assert_cmpuint (n_possible, >, 500);
}

static void
test_molding (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (200, 300, 3);
  g_autoptr (CavProfile) none = rig_profile_new (0, 0, 0, 0);
  g_autoptr (CavProfile) plain = rig_profile_new (45, 22, 0, 0);
  g_autoptr (CavProfile) whole_lip = rig_profile_new (45, 22, 60, 12);
  g_autoptr (CavProfile) thin = rig_profile_new (45, 22, 42, 12);
  g_autoptr (CavProfile) shy = rig_profile_new (45, 22, 2.5, 12);
  g_autoptr (CavProfile) scant = rig_profile_new (45, 22, 4, 12);

  g_autoptr (CavFrame) first = cav_frame_new (settings, none, NULL);
  g_assert_cmpint (rig_get_severity (first, "frame-no-molding"), ==, CAV_FINDING_WRONG);
  g_assert_false (first->possible);
  g_autoptr (CavFrame) second = cav_frame_new (settings, plain, NULL);
  g_assert_cmpint (rig_get_severity (second, "frame-no-lip"), ==, CAV_FINDING_CAUTION);
  /* A rabbet wider than the molding leaves a lower blank and no lip. */
  g_autoptr (CavFrame) third = cav_frame_new (settings, whole_lip, NULL);
  g_assert_cmpuint (rig_count_findings (third, "frame-no-lip"), ==, 1);
  g_autoptr (CavFrame) fourth = cav_frame_new (settings, thin, NULL);
  g_assert_cmpint (rig_get_severity (fourth, "frame-thin-wall"), ==, CAV_FINDING_CAUTION);
  g_autoptr (CavFrame) fifth = cav_frame_new (settings, shy, NULL);
  g_assert_cmpint (rig_get_severity (fifth, "frame-no-cover"), ==, CAV_FINDING_WRONG);
  assert_near (fifth->sizes.least_cover, -0.5, 1e-6);
  g_autoptr (CavFrame) sixth = cav_frame_new (settings, scant, NULL);
  g_assert_cmpint (rig_get_severity (sixth, "frame-little-cover"), ==, CAV_FINDING_CAUTION);
}

static void
test_openings (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (200, 300, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->picture_width = 10;
  g_autoptr (CavFrame) shut = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (shut, "frame-no-opening"), ==, CAV_FINDING_WRONG);
  g_assert_false (shut->possible);
  settings->start = CAV_FRAME_START_OUTSIDE;
  settings->width = settings->height = 60;
  g_autoptr (CavFrame) outside = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (outside, "frame-no-opening"), ==, 1);
}

static void
test_mats (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->overlap = 100;
  settings->picture_width = 150;
  g_autoptr (CavFrame) blind = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (blind, "frame-no-window"), ==, CAV_FINDING_WRONG);

  settings->overlap = 5;
  settings->start = CAV_FRAME_START_GLASS;
  settings->width = 140;
  settings->height = 400;
  g_autoptr (CavFrame) wide = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (wide, "frame-window-too-large"), ==, CAV_FINDING_WRONG);
  g_assert_cmpint (rig_get_severity (wide, "frame-picture-too-large"), ==, CAV_FINDING_WRONG);
  settings->width = 145;
  settings->picture_width = 145;
  g_autoptr (CavFrame) covered = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (covered, "frame-window-covered"), ==, CAV_FINDING_CAUTION);

  settings->start = CAV_FRAME_START_PICTURE;
  settings->picture_width = settings->picture_height = 1500;
  g_autoptr (CavFrame) vast = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (vast, "frame-mat-not-sold"), ==, CAV_FINDING_CAUTION);
  g_assert_cmpint (rig_get_severity (vast, "frame-glass-large"), ==, CAV_FINDING_CAUTION);
}

static void
test_picture (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (200, 300, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->start = CAV_FRAME_START_RABBET;
  g_autoptr (CavFrame) small = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (rig_get_severity (small, "frame-picture-small"), ==, CAV_FINDING_CAUTION);
  settings->floated = TRUE;
  settings->spacer = 3;
  g_autoptr (CavFrame) floated = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (floated, "frame-picture-small"), ==, 0);
}

static void
test_air (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (200, 300, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->dry.humidity = 1;
  settings->damp.humidity = 100;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("oak-red"));
  g_assert_cmpuint (rig_count_findings (frame, "frame-air-beyond-table"), ==, 1);
  g_assert_cmpint (rig_get_severity (frame, "frame-season-gap"), ==, CAV_FINDING_CAUTION);
}

/* Sentences carry a point in every locale and end as sentences do. */
static void
test_sentences (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (200, 300, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45.5, 22, 4, 5.25);

  settings->wire_angle = 5.5;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("oak-red"));
  g_assert_cmpuint (frame->findings->len, >=, 3);
  for (guint i = 0; i < frame->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (frame->findings, i);

      g_test_message ("%s", finding->message);
      g_assert_true (g_str_has_suffix (finding->message, "."));
      g_assert_true (g_str_has_prefix (finding->code, "frame-"));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/check/fine", test_fine);
  g_test_add_func ("/frame/check/numbers", test_numbers);
  g_test_add_func ("/frame/check/random", test_random);
  g_test_add_func ("/frame/check/molding", test_molding);
  g_test_add_func ("/frame/check/openings", test_openings);
  g_test_add_func ("/frame/check/mats", test_mats);
  g_test_add_func ("/frame/check/picture", test_picture);
  g_test_add_func ("/frame/check/air", test_air);
  g_test_add_func ("/frame/check/sentences", test_sentences);
  return g_test_run ();
}
