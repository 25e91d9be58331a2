/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include "frame-rig.h"

/* A molding guide: glass 1/8, a 4-ply mat 1/16 and a backing of 1/16 make 1/4 in; with two mats and
 * 1/8 of backing 3/8 in. */
static void
test_guide (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->glazing_thickness = INCH / 8;
  settings->picture_thickness = 0;
  settings->backing_thickness = INCH / 16;
  for (int i = 0; i < CAV_MATS_MAX; i++)
    settings->mats[i].thickness = INCH / 16;
  g_autoptr (CavFrame) single = cav_frame_new (settings, profile, NULL);
  assert_near (single->package.depth, INCH / 4, 1e-9);

  settings->n_mats = 2;
  settings->backing_thickness = INCH / 8;
  g_autoptr (CavFrame) twofold = cav_frame_new (settings, profile, NULL);
  assert_near (twofold->package.depth, INCH * 3 / 8, 1e-9);
  assert_near (twofold->package.needed, INCH * 3 / 8 + 2, 1e-9);
  assert_near (twofold->package.spare, 12 - INCH * 3 / 8 - 2, 1e-9);
  assert_near (twofold->package.stands_out, 0, 1e-9);
}

/* Layers follow each other without a gap, front to back. */
static void
test_layers (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 5);
  const char *const names[] = { "acrylic", "spacer", "mat", "mat", "mat", "picture", "plywood" };
  const CavLayerKind kinds[]
      = { CAV_LAYER_GLAZING, CAV_LAYER_SPACER,  CAV_LAYER_MAT,    CAV_LAYER_MAT,
          CAV_LAYER_MAT,     CAV_LAYER_PICTURE, CAV_LAYER_BACKING };

  settings->glazing = CAV_GLAZING_ACRYLIC;
  settings->spacer = 3;
  settings->n_mats = 3;
  settings->backing = CAV_BACKING_PLYWOOD;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  double at = 0;

  g_assert_cmpint (frame->package.n_layers, ==, G_N_ELEMENTS (names));
  for (int i = 0; i < frame->package.n_layers; i++)
    {
      g_assert_cmpstr (frame->package.layers[i].name, ==, names[i]);
      g_assert_cmpint (frame->package.layers[i].kind, ==, kinds[i]);
      assert_near (frame->package.layers[i].from, at, 1e-9);
      at += frame->package.layers[i].thickness;
    }
  assert_near (frame->package.depth, at, 1e-9);
  assert_near (frame->package.stands_out, at - 5, 1e-9);
}

static void
test_findings (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) shallow = rig_profile_new (45, 22, 7, 5);
  g_autoptr (CavProfile) close = rig_profile_new (45, 22, 7, 7);
  g_autoptr (CavProfile) deep = rig_profile_new (45, 30, 7, 20);

  g_autoptr (CavFrame) first = cav_frame_new (settings, shallow, NULL);
  g_assert_cmpint (rig_get_severity (first, "frame-package-deep"), ==, CAV_FINDING_WRONG);
  settings->stands_out = TRUE;
  g_autoptr (CavFrame) second = cav_frame_new (settings, shallow, NULL);
  g_assert_cmpint (rig_get_severity (second, "frame-package-deep"), ==, CAV_FINDING_NOTE);
  assert_near (second->package.stands_out, 1.3, 1e-9);
  g_autoptr (CavFrame) third = cav_frame_new (settings, close, NULL);
  g_assert_cmpint (rig_get_severity (third, "frame-no-room-for-points"), ==, CAV_FINDING_CAUTION);
  g_autoptr (CavFrame) fourth = cav_frame_new (settings, deep, NULL);
  g_assert_cmpint (rig_get_severity (fourth, "frame-package-shallow"), ==, CAV_FINDING_NOTE);
  g_assert_cmpuint (rig_count_findings (fourth, "frame-package-deep"), ==, 0);
}

/* Guide to preservation matting and framing, Library of Congress: the picture must not touch the
 * glass. */
static void
test_glass_touches (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (210, 297, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  g_autoptr (CavFrame) bare = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (bare, "frame-glass-touches"), ==, 1);
  settings->spacer = 3;
  g_autoptr (CavFrame) spaced = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (spaced, "frame-glass-touches"), ==, 0);
  settings->spacer = 0;
  settings->n_mats = 1;
  g_autoptr (CavFrame) matted = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (matted, "frame-glass-touches"), ==, 0);
  settings->floated = TRUE;
  g_autoptr (CavFrame) floated = cav_frame_new (settings, profile, NULL);
  g_assert_cmpuint (rig_count_findings (floated, "frame-glass-touches"), ==, 1);
}

static void
test_nothing (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (210, 297, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->glazing = CAV_GLAZING_NONE;
  settings->backing = CAV_BACKING_NONE;
  settings->picture_thickness = 0;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (frame->package.n_layers, ==, 0);
  g_assert_cmpuint (rig_count_findings (frame, "frame-no-package"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/package/guide", test_guide);
  g_test_add_func ("/frame/package/layers", test_layers);
  g_test_add_func ("/frame/package/findings", test_findings);
  g_test_add_func ("/frame/package/glass-touches", test_glass_touches);
  g_test_add_func ("/frame/package/nothing", test_nothing);
  return g_test_run ();
}
