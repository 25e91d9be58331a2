/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame.h"

#include <math.h>

#include "frame-rig.h"

/* Woodshop tip sheet 65, 2003: 8 × 10 in, stock 1 1/2 wide, rabbet 1/2: outside 10 × 12. */
static void
test_tip_sheet (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (10 * INCH, 8 * INCH, 0);
  g_autoptr (CavProfile) profile = rig_profile_new (1.5 * INCH, INCH, INCH / 2, INCH / 2);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);

  g_assert_true (frame->possible);
  assert_near (frame->sizes.outside.width, 12 * INCH, 1e-6);
  assert_near (frame->sizes.outside.height, 10 * INCH, 1e-6);
}

/* A retailer's magazine, a frame with piping: stock 1 1/4 wide, rabbet 1/4, 1/16 to spare: cut the
 * members 2 1/16 longer than what they hold. */
static void
test_piping (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (11 * INCH, 14 * INCH, INCH / 16);
  g_autoptr (CavProfile) profile = rig_profile_new (1.25 * INCH, INCH, INCH / 4, INCH / 2);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);

  assert_near (frame->rails.groups[0].long_point, (11 + 2 + 1.0 / 16) * INCH, 1e-6);
  assert_near (frame->rails.groups[1].long_point, (14 + 2 + 1.0 / 16) * INCH, 1e-6);
}

/* A frame shop's notes: "8 x 10" with 1/16 a side has a back opening of 8 1/8 × 10 1/8; its lip of
 * nominally 1/4 shows 7 1/2 × 9 1/2, so that the lip is 5/16 in truth. */
static void
test_shop_notes (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (8 * INCH, 10 * INCH, INCH / 8);
  g_autoptr (CavProfile) profile = rig_profile_new (1.5 * INCH, INCH, INCH * 5 / 16, INCH / 2);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);

  assert_near (frame->sizes.rabbet.width, 8.125 * INCH, 1e-6);
  assert_near (frame->sizes.rabbet.height, 10.125 * INCH, 1e-6);
  assert_near (frame->sizes.sight.width, 7.5 * INCH, 1e-6);
  assert_near (frame->sizes.sight.height, 9.5 * INCH, 1e-6);
}

/* The board of either mat is the glass; what its window leaves of it are the borders to cut. */
static void
test_mat_borders (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->n_mats = 2;
  settings->mats[1].reveal = 5;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  for (int i = 0; i < 2; i++)
    {
      CavBorders borders = cav_frame_get_mat_borders (frame, i);
      CavSize window = frame->sizes.windows[i];

      assert_near (borders.left + window.width + borders.right, frame->sizes.glass.width, 1e-9);
      assert_near (borders.top + window.height + borders.bottom, frame->sizes.glass.height, 1e-9);
      assert_near (borders.bottom - borders.top, 8, 1e-9);
      assert_near (borders.left, 60 + 5 * i, 1e-9);
    }
}

/* From any starting point the same frame comes back. */
static void
test_starts (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);
  g_autoptr (CavFrame) first = cav_frame_new (settings, profile, NULL);
  const CavSize given[] = { first->sizes.glass, first->sizes.rabbet, first->sizes.outside };

  /* A4 with 5 mm overlap: window 200 × 287, borders 60, 60, 60, 68. */
  assert_near (first->sizes.windows[0].width, 200, 1e-9);
  assert_near (first->sizes.windows[0].height, 287, 1e-9);
  assert_near (first->sizes.glass.width, 320, 1e-9);
  assert_near (first->sizes.glass.height, 415, 1e-9);
  assert_near (first->sizes.sight.width, 320 + 3 - 14, 1e-9);
  assert_near (first->sizes.outside.width, 320 + 3 + 2 * 38, 1e-9);
  assert_near (first->sizes.visible.width, 200, 1e-9);
  for (int i = 0; i < 3; i++)
    {
      settings->start = (CavFrameStart)(CAV_FRAME_START_GLASS + i);
      settings->width = given[i].width;
      settings->height = given[i].height;
      g_autoptr (CavFrame) again = cav_frame_new (settings, profile, NULL);

      g_test_message ("%s", cav_frame_start_to_string (settings->start));
      assert_near (again->sizes.glass.width, first->sizes.glass.width, 1e-9);
      assert_near (again->sizes.glass.height, first->sizes.glass.height, 1e-9);
      assert_near (again->sizes.outside.height, first->sizes.outside.height, 1e-9);
      assert_near (again->sizes.borders.bottom, 68, 1e-9);
      assert_near (again->sizes.borders.left, 60, 1e-9);
      assert_near (again->sizes.shown.left, 60 - 7 + 1.5, 1e-9);
    }
}

/* A framing guide: 16 × 20 art behind a mat that overlaps 1/4 in has a window of 15 1/2 × 19 1/2; a
 * window of 16 × 20 with borders of 2 in a mat of 20 × 24; glass 14 × 11 with a window of
 * 9 3/4 × 7 3/4 leaves 2 1/8 and 1 5/8. */
static void
test_mats (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->picture_width = 16 * INCH;
  settings->picture_height = 20 * INCH;
  settings->overlap = INCH / 4;
  g_autoptr (CavFrame) art = cav_frame_new (settings, profile, NULL);
  assert_near (art->sizes.windows[0].width, 15.5 * INCH, 1e-9);
  assert_near (art->sizes.windows[0].height, 19.5 * INCH, 1e-9);

  settings->overlap = 0;
  settings->border_left = settings->border_right = 2 * INCH;
  settings->border_top = settings->border_bottom = 2 * INCH;
  g_autoptr (CavFrame) window = cav_frame_new (settings, profile, NULL);
  assert_near (window->sizes.glass.width, 20 * INCH, 1e-9);
  assert_near (window->sizes.glass.height, 24 * INCH, 1e-9);

  settings->start = CAV_FRAME_START_GLASS;
  settings->width = 14 * INCH;
  settings->height = 11 * INCH;
  settings->picture_width = 9.75 * INCH;
  settings->picture_height = 7.75 * INCH;
  g_autoptr (CavFrame) glass = cav_frame_new (settings, profile, NULL);
  assert_near (glass->sizes.borders.left, 2.125 * INCH, 1e-9);
  assert_near (glass->sizes.borders.top, 1.625 * INCH, 1e-9);

  /* Borders of nothing share what is left. */
  settings->border_left = settings->border_right = 0;
  g_autoptr (CavFrame) even = cav_frame_new (settings, profile, NULL);
  assert_near (even->sizes.borders.right, 2.125 * INCH, 1e-9);
}

/* Each mat before another has a window larger by its reveal on every side. */
static void
test_reveals (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 16);

  settings->n_mats = 3;
  settings->mats[1].reveal = 6;
  settings->mats[2].reveal = 4;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  assert_near (frame->sizes.windows[2].width, 200, 1e-9);
  assert_near (frame->sizes.windows[1].width, 208, 1e-9);
  assert_near (frame->sizes.windows[0].width, 220, 1e-9);
  assert_near (frame->sizes.glass.width, 340, 1e-9);
  assert_near (frame->sizes.visible.height, 287, 1e-9);
}

static void
test_floated (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 16);

  settings->floated = TRUE;
  settings->float_margin = 20;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  assert_near (frame->sizes.glass.width, 250, 1e-9);
  assert_near (frame->sizes.visible.width, 210, 1e-9);
  /* Board seen around the picture: 20 - 7 + 1.5. */
  assert_near (frame->sizes.shown.left, 14.5, 1e-9);
  assert_near (frame->weights.mats, 0, 1e-12);
}

/* A blank whose inner edge is cut away: width and lip are those of the wood that is left. */
static void
test_lost_edge (void)
{
  CavBlank blank = { 50, 20 };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavFrameSettings) settings = rig_settings_new (300, 400, 3);
  const CavCorner corners[]
      = { CAV_CORNER_BACK_INSIDE, CAV_CORNER_FACE_INSIDE, CAV_CORNER_FACE_OUTSIDE };
  const double sizes[][2] = { { 10, 12 }, { 4, 9 }, { 5, 3 } };

  for (int i = 0; i < 3; i++)
    {
      CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, corners[i]);

      cut->numbers[CAV_CUT_WIDTH] = sizes[i][0];
      cut->numbers[CAV_CUT_DEPTH] = sizes[i][1];
      g_ptr_array_add (cuts, cut);
    }
  g_autoptr (CavProfile) profile = cav_profile_new (&blank, cuts);
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  assert_near (frame->sizes.molding, 46, 1e-6);
  assert_near (frame->sizes.lip, 6, 1e-6);
  assert_near (frame->sizes.rabbet_depth, 12, 1e-6);
  assert_near (frame->sizes.outside.width, 303 + 2 * 40, 1e-6);
}

/* Equal sides: everything hangs on the inner circle. An octagon of 400 across the flats has sides
 * of 165.7 mm (400 tan 22.5). */
static void
test_octagon (void)
{
  g_autoptr (CavFrameSettings) settings = rig_settings_new (400 - 2 * 38 - 3, 1, 3);
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  settings->sides = 8;
  settings->picture_height = 9999;
  g_autoptr (CavFrame) frame = cav_frame_new (settings, profile, NULL);
  g_assert_true (frame->possible);
  assert_near (frame->sizes.outside.width, 400, 1e-9);
  assert_near (frame->sizes.outside.height, 400, 1e-9);
  g_assert_cmpint (frame->rails.n_groups, ==, 1);
  g_assert_cmpint (frame->rails.groups[0].count, ==, 8);
  assert_near (frame->rails.groups[0].long_point, 165.685, 0.001);
  /* long point = short point + 2 W tan (180 / n) */
  assert_near (frame->rails.groups[0].long_point - frame->rails.groups[0].short_point,
               2 * 45 * tan (G_PI / 8), 1e-9);
  settings->n_mats = 1;
  settings->border_left = 50;
  g_autoptr (CavFrame) matted = cav_frame_new (settings, profile, NULL);
  assert_near (matted->sizes.glass.width, 321 - 10 + 100, 1e-9);
  assert_near (matted->sizes.borders.top, 50, 1e-9);
}

static void
test_copy_of_settings (void)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavProfile) profile = rig_profile_new (45, 22, 7, 12);

  cav_frame_settings_set_picture_file (settings, "fern.jpg");
  CavFrame *frame = cav_frame_new (settings, profile, cav_wood_find ("ash-white"));
  cav_frame_settings_set_picture_file (settings, NULL);
  g_assert_cmpstr (frame->settings.picture_file, ==, "fern.jpg");
  cav_frame_free (frame);
  cav_frame_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/frame/mat-borders", test_mat_borders);
  g_test_add_func ("/frame/frame/tip-sheet", test_tip_sheet);
  g_test_add_func ("/frame/frame/piping", test_piping);
  g_test_add_func ("/frame/frame/shop-notes", test_shop_notes);
  g_test_add_func ("/frame/frame/starts", test_starts);
  g_test_add_func ("/frame/frame/mats", test_mats);
  g_test_add_func ("/frame/frame/reveals", test_reveals);
  g_test_add_func ("/frame/frame/floated", test_floated);
  g_test_add_func ("/frame/frame/lost-edge", test_lost_edge);
  g_test_add_func ("/frame/frame/octagon", test_octagon);
  g_test_add_func ("/frame/frame/copy-of-settings", test_copy_of_settings);
  return g_test_run ();
}
