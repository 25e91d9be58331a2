/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>

#include "frame-rig.h"

/* 16 × 20 in, molding 2 × 3/4, rabbet 1/4 × 1/2, allowance 1/8: section 1.375 in², volume
 * 108.8 in³, in cherry 1.00 kg; glass of 2.5 mm 1.29 kg, acrylic 0.61 kg. Worked out by hand from
 * densities of the Wood Handbook (table 5-3), EN 572-1 and ISO 7823-1. */
static void
test_masses (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (16 * INCH, 20 * INCH, INCH / 8);
  g_autoptr (CavProfile) profile = rig_profile_new (2 * INCH, 0.75 * INCH, INCH / 4, INCH / 2);

  settings->glazing_thickness = 2.5;
  settings->backing = CAV_BACKING_NONE;
  settings->picture_thickness = 0;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("cherry-black"));
  const CavFrameWeights *weights = &frame->weights;

  assert_near (weights->wood_volume / (INCH * INCH * INCH), 108.8, 0.05);
  assert_near (weights->wood, 1.00, 0.005);
  assert_near (weights->wood * 2.20462, 2.20, 0.01);
  assert_near (weights->glazing, 1.29, 0.005);
  assert_near (weights->total, weights->wood + weights->glazing, 1e-9);

  settings->glazing = CAV_GLAZING_ACRYLIC;
  settings->glazing_density = 1190;
  g_autoptr (CavFrame) light = cav_frame_new (settings, profile, cav_wood_find ("cherry-black"));
  assert_near (light->weights.glazing, 0.61, 0.005);
}

/* The volume by another way: a plain rectangle's frame is a slab with a hole. */
static void
test_volume (void)
{
  g_autoptr (CavProfile) profile = rig_profile_new (40, 20, 0, 0);

  for (int sides = CAV_FRAME_SIDES_MIN; sides <= 8; sides++)
    {
      g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 300, 3);
      settings->sides = sides;
      g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
      double n = sides / 4.0 * tan (G_PI / sides);
      double outside = frame->sizes.outside.width;
      double sight = frame->sizes.sight.width;

      assert_near (frame->weights.wood_volume, n * (outside * outside - sight * sight) * 20, 1e-3);
      /* Its faces, and the walls outside and inside. */
      assert_near (frame->weights.finish_area,
                   2 * n * (outside * outside - sight * sight)
                       + 20 * sides * tan (G_PI / sides) * (outside + sight),
                   1e-3);
    }
}

/* A wire at 2, 15, 30 and 45 degrees pulls with 14.3, 1.93, 1.00 and 0.71 of the weight; a
 * conservators' page says "14 times" of the first. */
static void
test_wire (void)
{
  assert_near (cav_wire_get_tension (2), 14.3, 0.05);
  assert_near (cav_wire_get_tension (15), 1.93, 0.005);
  assert_near (cav_wire_get_tension (30), 1.00, 0.005);
  assert_near (cav_wire_get_tension (45), 0.71, 0.005);
}

static void
test_hanging (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);
  const CavWood *ash = cav_wood_find ("ash-white");

  settings->wire_angle = 15;
  g_autoptr (CavFrame) wire = cav_frame_new (settings, profile, ash);
  assert_near (wire->weights.wire_tension, 1.93 * wire->weights.total * CAV_GRAVITY,
               0.01 * wire->weights.wire_tension);
  assert_near (wire->weights.hanger_load, wire->weights.wire_tension, 1e-9);
  g_assert_cmpuint (rig_count_findings (wire, "frame-wire-flat"), ==, 0);
  settings->wire_angle = 5;
  g_autoptr (CavFrame) flat = cav_frame_new (settings, profile, ash);
  g_assert_cmpint (rig_get_severity (flat, "frame-wire-flat"), ==, CAV_FINDING_CAUTION);
  settings->wire_angle = 0;
  g_autoptr (CavFrame) level = cav_frame_new (settings, profile, ash);
  g_assert_cmpint (rig_get_severity (level, "frame-wire-level"), ==, CAV_FINDING_WRONG);
  assert_near (level->weights.wire_tension, 0, 1e-12);
  settings->hangers = 3;
  g_autoptr (CavFrame) three = cav_frame_new (settings, profile, ash);
  g_assert_cmpint (rig_get_severity (three, "frame-wire-hangers"), ==, CAV_FINDING_NOTE);
  settings->wire = FALSE;
  g_autoptr (CavFrame) hooks = cav_frame_new (settings, profile, ash);
  assert_near (hooks->weights.hanger_load * 3, hooks->weights.total * CAV_GRAVITY, 1e-9);
}

/* One near each corner, no more than 100 mm between two. */
static void
test_points (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (297, 397, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  /* Rabbet 300 × 400: three on the short sides, four on the long. */
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (frame->weights.points, ==, 2 * 3 + 2 * 4);
  assert_near (frame->weights.point_spacing, 100, 1e-9);
  settings->picture_width = settings->picture_height = 60;
  g_autoptr (CavFrame) tiny = cav_frame_new (settings, profile, NULL);
  g_assert_cmpint (tiny->weights.points, ==, 4);
}

/* A litre of oil covers 14 m² here, so a square metre takes 71 ml; wood that stays bare none. What
 * is seen is less than all of it by back and rabbet. */
static void
test_finish (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 0);
  g_autoptr (CavProfile) profile = rig_profile_new (40, 20, 10, 8);
  const double cover[] = { 0, 14, 20, 10, 10, 10, 0 };

  for (int i = 0; i < 7; i++)
    {
      settings->finish = (CavFinish)i;
      g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
      double litres = cover[i] > 0 ? frame->weights.finish_area * 1e-6 / cover[i] : 0;

      assert_near (frame->weights.finish_amount, litres * 1000, 1e-6);
    }
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  double sight = 2 * (280 + 380);
  double outside = 2 * (360 + 460);
  double face = 360 * 460 - 280 * 380;
  /* Face, sight edge of 12 mm, outer wall of 20. */
  assert_near (frame->weights.face_area, face + 12 * sight + 20 * outside, 1e-3);
  /* And the back, the ledge and the rabbet's wall. */
  assert_near (frame->weights.finish_area - frame->weights.face_area,
               (360 * 460 - 300 * 400) + (300 * 400 - 280 * 380) + 8 * 2 * (300 + 400), 1e-3);
}

/* A back that has been taken down by 2 mm is the back: the same wood from a thinner blank. */
static void
test_lowered_back (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 0);
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavProfile) thin = rig_profile_new (40, 18, 10, 3);
  const CavBlank blank = { 40, 20 };
  CavCut *rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  CavCut *bevel = cav_cut_new_on_side (CAV_CUT_BEVEL, CAV_SIDE_BACK);

  rabbet->numbers[CAV_CUT_WIDTH] = 10;
  rabbet->numbers[CAV_CUT_DEPTH] = 5;
  bevel->numbers[CAV_CUT_START_HEIGHT] = bevel->numbers[CAV_CUT_END_HEIGHT] = 2;
  g_ptr_array_add (cuts, rabbet);
  g_ptr_array_add (cuts, bevel);
  g_autoptr (CavProfile) lowered = cav_profile_new (&blank, cuts);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, lowered, NULL);
  g_autoptr (CavFrame) plain = cav_frame_new (settings, thin, NULL);

  assert_near (frame->sizes.rabbet_depth, 3, 1e-9);
  assert_near (frame->weights.finish_area, plain->weights.finish_area, 1e-3);
  assert_near (frame->weights.face_area, plain->weights.face_area, 1e-3);
}

/* A board of 4 plies weighs about 1 kg/m² (common figure, from memory). */
static void
test_mats (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, cav_wood_find ("apple"));

  assert_near (frame->weights.mats, (320 * 415 - 200 * 287) * 1e-6, 0.001);
  /* Hardboard 2.5 mm of 900 kg/m³ over the sheet. */
  assert_near (frame->weights.backing, 320 * 415 * 2.5 * 900e-9, 1e-6);
  /* Apple has no published density. */
  assert_near (frame->weights.wood, 0, 1e-12);
  g_assert_cmpint (rig_get_severity (frame, "frame-no-density"), ==, CAV_FINDING_NOTE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/weights/masses", test_masses);
  g_test_add_func ("/frame/weights/volume", test_volume);
  g_test_add_func ("/frame/weights/wire", test_wire);
  g_test_add_func ("/frame/weights/hanging", test_hanging);
  g_test_add_func ("/frame/weights/points", test_points);
  g_test_add_func ("/frame/weights/finish", test_finish);
  g_test_add_func ("/frame/weights/lowered-back", test_lowered_back);
  g_test_add_func ("/frame/weights/mats", test_mats);
  return g_test_run ();
}
