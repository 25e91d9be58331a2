/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-view.h"

#include <math.h>

static const CavBlank blank = { 50, 26 };

static void
test_fit (void)
{
  static const struct
  {
    const char *desc;
    CavBlank blank;
    double width, height, air;
  } rows[] = {
    { "usual window", { 50, 26 }, 1200, 700, 60 },  { "wide strip", { 200, 12 }, 1600, 300, 40 },
    { "upright board", { 12, 200 }, 800, 900, 40 }, { "small window", { 50, 26 }, 220, 160, 60 },
    { "large air", { 50, 26 }, 300, 300, 1000 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavView view = cav_view_fit (&rows[i].blank, rows[i].width, rows[i].height, rows[i].air);
      CavBox box = cav_view_box_to_pixels (
          &view, (CavBox){ 0, 0, rows[i].blank.width, rows[i].blank.thickness });

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpfloat_with_epsilon (box.x0 + box.x1, rows[i].width, 1e-9);
      g_assert_cmpfloat_with_epsilon (box.y0 + box.y1, rows[i].height, 1e-9);
      g_assert_cmpfloat (box.x0, >=, 11.999);
      g_assert_cmpfloat (box.y0, >=, 11.999);
      /* One way or the other there is no more air than asked for or than is due. */
      g_assert_cmpfloat (fmin (box.x0, box.y0), <=,
                         fmax (12, fmin (rows[i].air, fmin (rows[i].width, rows[i].height) / 4))
                             + 1e-9);
    }
}

static void
test_no_window (void)
{
  CavView view = cav_view_fit (&blank, 0, 0, 40);

  g_assert_cmpfloat_with_epsilon (view.scale, CAV_VIEW_SCALE_MIN, 1e-12);
  g_assert_true (isfinite (view.x) && isfinite (view.y));
}

static void
test_zoom_keeps_the_place (void)
{
  CavView view = cav_view_fit (&blank, 1000, 600, 40);

  for (int i = 0; i < 60; i++)
    {
      CavPoint pixel = CAV_POINT (17.0 * i, 611 - 10.0 * i);
      CavPoint before = cav_view_to_wood (&view, pixel);
      CavPoint after;

      cav_view_zoom (&view, i % 3 == 0 ? 0.7 : 1.21, pixel);
      after = cav_view_to_wood (&view, pixel);
      g_assert_true (
          cav_point_near (before, after, 1e-9 * (1 + fabs (before.x) + fabs (before.y))));
    }
}

static void
test_zoom_has_ends (void)
{
  CavView view = cav_view_fit (&blank, 1000, 600, 40);

  cav_view_zoom (&view, 1e9, CAV_POINT (500, 300));
  g_assert_cmpfloat_with_epsilon (view.scale, CAV_VIEW_SCALE_MAX, 1e-12);
  cav_view_zoom (&view, 1e-9, CAV_POINT (500, 300));
  g_assert_cmpfloat_with_epsilon (view.scale, CAV_VIEW_SCALE_MIN, 1e-12);
}

static void
test_there_and_back (void)
{
  CavView view = { 17.25, 311.5, 402.25 };
  CavPoint wood = CAV_POINT (12.7, 9.525);
  CavPoint pixel = cav_view_to_pixel (&view, wood);
  CavPoint mapped = cav_transform_point (cav_view_get_transform (&view), wood);
  CavBox box = { 1, 2, 3, 5 };
  CavBox back;

  g_assert_cmpfloat_with_epsilon (pixel.x, 311.5 + 12.7 * 17.25, 1e-9);
  g_assert_cmpfloat_with_epsilon (pixel.y, 402.25 - 9.525 * 17.25, 1e-9);
  g_assert_true (cav_point_near (pixel, mapped, 1e-9));
  g_assert_true (cav_point_near (cav_view_to_wood (&view, pixel), wood, 1e-9));
  back = cav_view_box_to_wood (&view, cav_view_box_to_pixels (&view, box));
  g_assert_cmpfloat_with_epsilon (back.x0, 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (back.y0, 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (back.x1, 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (back.y1, 5, 1e-9);
}

static void
test_pan_and_hold (void)
{
  CavView view = cav_view_fit (&blank, 1000, 600, 40);
  CavView before = view;
  CavBox box;

  cav_view_hold (&view, &blank, 1000, 600, 48);
  g_assert_true (cav_view_equal (&view, &before));
  cav_view_pan (&view, 5000, -7000);
  g_assert_false (cav_view_equal (&view, &before));
  cav_view_hold (&view, &blank, 1000, 600, 48);
  box = cav_view_box_to_pixels (&view, (CavBox){ 0, 0, blank.width, blank.thickness });
  g_assert_cmpfloat_with_epsilon (box.x0, 1000 - 48, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1, 48, 1e-9);
  cav_view_pan (&view, -1e5, 1e5);
  cav_view_hold (&view, &blank, 1000, 600, 48);
  box = cav_view_box_to_pixels (&view, (CavBox){ 0, 0, blank.width, blank.thickness });
  g_assert_cmpfloat_with_epsilon (box.x1, 48, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0, 600 - 48, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/view/fit", test_fit);
  g_test_add_func ("/drawing/view/no-window", test_no_window);
  g_test_add_func ("/drawing/view/zoom-keeps-the-place", test_zoom_keeps_the_place);
  g_test_add_func ("/drawing/view/zoom-has-ends", test_zoom_has_ends);
  g_test_add_func ("/drawing/view/there-and-back", test_there_and_back);
  g_test_add_func ("/drawing/view/pan-and-hold", test_pan_and_hold);
  return g_test_run ();
}
