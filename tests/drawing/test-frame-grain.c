/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-grain.h"

#include "layout-checker.h"

#include "project/cav-project-boards.h"

#include <math.h>

/* A frame with boards for it. */
static CavProject *
create_project (CavGrainOrder order)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  CavBoard *board = cav_board_new ();

  rabbet->numbers[CAV_CUT_WIDTH] = 6.0;
  rabbet->numbers[CAV_CUT_DEPTH] = 14.0;
  cav_project_add_cut (project, rabbet);
  cav_project_set_frame_settings (project, settings);
  board->length = 4000.0;
  board->width = 180.0;
  board->thickness = order == CAV_GRAIN_BOOK ? 64.0 : 32.0;
  g_ptr_array_add (lumber->boards, board);
  lumber->order = order;
  lumber->test = 0.0;
  cav_project_set_lumber (project, lumber);
  g_assert_true (cav_project_get_frame (project)->possible);
  return project;
}

static double
get_length (const CavFrame *frame, int rail)
{
  return frame->rails.groups[frame->rails.n_groups == 2 ? rail % 2 : 0].long_point;
}

static void
test_without_boards (void)
{
  g_autoptr (CavProject) project = create_project (CAV_GRAIN_RUNNING);
  const CavFrame *frame = cav_project_get_frame (project);
  CavFrameGrain grain;

  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, NULL, 0);
  g_assert_false (grain.has_boards);
  for (int i = 1; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (grain.rails[i].start - grain.rails[i - 1].start,
                                    get_length (frame, i - 1), 1e-9);
  g_assert_cmpint (grain.rails[0].number, ==, 0);
}

/* Running on from the left rail: each begins a kerf behind the one before it. */
static void
test_running (void)
{
  g_autoptr (CavProject) project = create_project (CAV_GRAIN_RUNNING);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  CavFrameGrain grain;

  assert_layout (cav_project_get_lumber (project), layout);
  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, layout, 0);
  g_assert_true (grain.has_boards);
  for (int k = 1; k < 4; k++)
    {
      const int before = (3 + k - 1) % 4;
      const int rail = (3 + k) % 4;
      const double gap = grain.rails[rail].start - 0.5 * get_length (frame, rail)
                         - grain.rails[before].start - 0.5 * get_length (frame, before);

      g_assert_cmpfloat_with_epsilon (gap, 3.2 * sqrt (2.0), 1e-6);
      g_assert_cmpint (grain.rails[rail].number, ==, grain.rails[before].number + 1);
      g_assert_cmpfloat_with_epsilon (grain.rails[rail].low, grain.rails[before].low, 1e-9);
    }
  /* Of a frame that is not made nothing lies anywhere. */
  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, layout, 7);
  g_assert_false (grain.has_boards);
}

/* The leaves of a book: at their faces both show the same wood, but for the kerf, and in the two
 * corners where one meets the other they are at the same place along the tree. */
static void
test_book (void)
{
  g_autoptr (CavProject) project = create_project (CAV_GRAIN_BOOK);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  const double face = cav_project_get_blank (project).thickness;
  CavFrameGrain grain;
  int reversed = 0;

  assert_layout (cav_project_get_lumber (project), layout);
  g_assert_cmpuint (layout->missing->len, ==, 0);
  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, layout, 0);
  for (int rail = 0; rail < 4; rail++)
    {
      double along = 0.0;
      double across = 0.0;
      double height = face;

      reversed += grain.rails[rail].reversed;
      g_assert_true (grain.rails[rail].turned != grain.rails[rail].reversed);
      cav_rail_grain_map (&grain.rails[rail], &along, &across, &height);
      g_assert_cmpfloat (fabs (height), <, 4.0);
    }
  g_assert_cmpint (reversed, ==, 2);
  /* The run begins with the left rail and ends with the bottom one: their corner. */
  double end = -0.5 * get_length (frame, 3), nothing = 0.0, height = 0.0;
  double start = 0.5 * get_length (frame, 2), also = 0.0, other = 0.0;

  cav_rail_grain_map (&grain.rails[3], &end, &nothing, &height);
  cav_rail_grain_map (&grain.rails[2], &start, &also, &other);
  g_assert_cmpfloat_with_epsilon (end, start, 1e-6);
}

/* Opposite rails lie beside each other, at the same place along the tree. */
static void
test_pairs (void)
{
  g_autoptr (CavProject) project = create_project (CAV_GRAIN_PAIRS);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  CavFrameGrain grain;

  assert_layout (cav_project_get_lumber (project), layout);
  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, layout, 0);
  for (int rail = 0; rail < 2; rail++)
    {
      g_assert_cmpfloat_with_epsilon (grain.rails[rail].start, grain.rails[rail + 2].start, 1e-9);
      g_assert_cmpfloat (fabs (grain.rails[rail].low - grain.rails[rail + 2].low), >, 40.0);
    }
}

/* A disc of the rail's colour stands where the rail is, and nowhere else. */
static void
test_numbers (void)
{
  g_autoptr (CavProject) project = create_project (CAV_GRAIN_RUNNING);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  const int width = (int)frame->sizes.outside.width + 20;
  const int height = (int)frame->sizes.outside.height + 20;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  cairo_t *cr = cairo_create (surface);
  const int stride = cairo_image_surface_get_stride (surface) / 4;
  const guint32 *pixels;
  CavFrameGrain grain;
  int found[4] = { 0 };

  assert_layout (cav_project_get_lumber (project), layout);
  cav_frame_grain_init (&grain, frame);
  cav_frame_grain_place (&grain, layout, 0);
  cairo_translate (cr, width / 2.0, height / 2.0);
  cav_frame_grain_draw_numbers (&grain, frame, cr, 1.0);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  pixels = (const guint32 *)(const void *)cairo_image_surface_get_data (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      for (int rail = 0; rail < 4; rail++)
        {
          const CavColour colour = grain.rails[rail].colour;
          const guint32 wanted
              = (guint32)colour.red << 16 | (guint32)colour.green << 8 | colour.blue;

          if ((pixels[y * stride + x] & 0xffffff) != wanted)
            continue;
          found[rail]++;
          g_assert_true (rail == 0   ? y < height / 3
                         : rail == 1 ? x > 2 * width / 3
                         : rail == 2 ? y > 2 * height / 3
                                     : x < width / 3);
        }
  for (int rail = 0; rail < 4; rail++)
    g_assert_cmpint (found[rail], >, 100);
  /* Nothing is drawn from one to the next. */
  for (int y = height / 4; y < 3 * height / 4; y++)
    for (int x = width / 4; x < 3 * width / 4; x++)
      g_assert_cmpuint (pixels[y * stride + x] & 0xffffff, ==, 0);
  cairo_surface_destroy (surface);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/frame-grain/without-boards", test_without_boards);
  g_test_add_func ("/drawing/frame-grain/running", test_running);
  g_test_add_func ("/drawing/frame-grain/book", test_book);
  g_test_add_func ("/drawing/frame-grain/pairs", test_pairs);
  g_test_add_func ("/drawing/frame-grain/numbers", test_numbers);
  return g_test_run ();
}
