/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview.h"

#include <math.h>

#include "drawing-samples.h"
#include "drawing-tools.h"
#include "drawing/cav-scene.h"

#define WIDTH 400
#define HEIGHT 480

typedef struct
{
  CavProject *project;
  CavFrameSettings *settings;
  CavFrame *frame;
} Rig;

static const CavProfile *
get_profile (const Rig *rig)
{
  return cav_project_get_profile (rig->project);
}

static void
rig_update (Rig *rig)
{
  g_clear_pointer (&rig->frame, cav_frame_free);
  rig->frame = cav_frame_new (rig->settings, get_profile (rig), cav_wood_find ("ash-white"));
}

static void
rig_init (Rig *rig)
{
  rig->project = sample_project_new_plain (60, 22);
  rig->settings = cav_frame_settings_new ();
  rig->frame = NULL;
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  cut->numbers[CAV_CUT_WIDTH] = 8;
  cut->numbers[CAV_CUT_DEPTH] = 12;
  cav_project_add_cut (rig->project, cut);
  cav_cut_free (cut);
  rig->settings->finish = CAV_FINISH_BARE;
  rig_update (rig);
}

static void
rig_clear (Rig *rig)
{
  cav_frame_free (rig->frame);
  cav_frame_settings_free (rig->settings);
  g_object_unref (rig->project);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Rig, rig_clear)

static CavPreview *
preview_new (const Rig *rig)
{
  return cav_preview_new (rig->frame, get_profile (rig), NULL, NULL, WIDTH, HEIGHT);
}

static double
get_light (cairo_surface_t *surface, const CavPreview *preview, double x, double y)
{
  double scale = cav_preview_get_scale (preview);
  guint32 colour
      = tool_get_colour (surface, (int)(WIDTH / 2.0 + x * scale), (int)(HEIGHT / 2.0 + y * scale));

  return ((colour >> 16 & 255) + (colour >> 8 & 255) + (colour & 255)) / 3.0;
}

/* Mean light over a stretch of wall or wood, mm from the middle. */
static double
get_mean (cairo_surface_t *surface, const CavPreview *preview, double x, double y, double size)
{
  double sum = 0;

  for (int i = 0; i < 25; i++)
    sum += get_light (surface, preview, x + (i % 5 - 2) * size / 5, y + (i / 5 - 2) * size / 5);
  return sum / 25;
}

/* Light from the top left: shadow on the wall at the right and below, none at the left and above;
 * the mat the other way round. */
static void
test_shadows (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  g_autoptr (CavPreview) preview = preview_new (&rig);
  cairo_surface_t *surface = cav_preview_shade (preview, -45, 35);
  double right = rig.frame->sizes.outside.width / 2;
  double low = rig.frame->sizes.outside.height / 2;
  double inner = rig.frame->sizes.sight.width / 2;
  double wall = get_mean (surface, preview, -right - 30, -low + 40, 3);

  g_assert_cmpfloat (get_mean (surface, preview, right + 6, 0, 2), <, 0.75 * wall);
  g_assert_cmpfloat (get_mean (surface, preview, 0, low + 6, 2), <, 0.75 * wall);
  g_assert_cmpfloat (get_mean (surface, preview, -right - 6, 0, 2), >, 0.85 * wall);
  g_assert_cmpfloat (get_mean (surface, preview, 0, -low - 6, 2), >, 0.85 * wall);
  double mat = get_mean (surface, preview, inner - 20, 0, 3);
  g_assert_cmpfloat (get_mean (surface, preview, -inner + 4, 0, 2), <, 0.85 * mat);
  g_assert_cmpfloat (get_mean (surface, preview, inner - 4, 0, 2), >, 0.85 * mat);
  /* The shadow is as long as the frame is thick over the light's rise: 22 / tan 35, 45 degrees to
   * the right: 22.2 mm; beyond there is wall. */
  g_assert_cmpfloat (get_mean (surface, preview, right + 14, 0, 2), <, 0.75 * wall);
  g_assert_cmpfloat (get_mean (surface, preview, right + 30, 0, 2), >, 0.97 * wall);
}

/* The light turns and everything turns with it; from straight ahead there is no shadow. */
static void
test_light_turns (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  g_autoptr (CavPreview) preview = preview_new (&rig);
  double right = rig.frame->sizes.outside.width / 2;
  double wall = get_mean (cav_preview_shade (preview, 90, 35), preview, right + 8, 0, 2);

  g_assert_cmpfloat (get_mean (cav_preview_shade (preview, -90, 35), preview, right + 8, 0, 2), <,
                     0.75 * wall);
  g_assert_cmpfloat (get_mean (cav_preview_shade (preview, 0, 90), preview, right + 8, 0, 2), >,
                     0.95 * wall);
  /* The same light again makes the same picture. */
  g_autofree guint8 *first = NULL;
  cairo_surface_t *surface = cav_preview_shade (preview, 20, 40);
  gsize size = (gsize)cairo_image_surface_get_stride (surface) * HEIGHT;
  first = g_memdup2 (cairo_image_surface_get_data (surface), size);
  cav_preview_shade (preview, 200, 20);
  cav_preview_shade (preview, 20, 40);
  g_assert_cmpmem (first, size, cairo_image_surface_get_data (surface), size);
}

/* Bevels toward the light are bright and those away from it dark, so each rail has its own tone and
 * mitres show. */
static void
test_rails_differ (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  CavCut *cut = cav_cut_new_at_corner (CAV_CUT_CHAMFER, CAV_CORNER_FACE_OUTSIDE);
  cut->numbers[CAV_CUT_WIDTH] = 40;
  cut->numbers[CAV_CUT_DEPTH] = 16;
  cav_project_add_cut (rig.project, cut);
  cav_cut_free (cut);
  rig_update (&rig);
  g_autoptr (CavPreview) preview = preview_new (&rig);
  cairo_surface_t *surface = cav_preview_shade (preview, 0, 40);
  double x = rig.frame->sizes.outside.width / 2 - 25;
  double y = rig.frame->sizes.outside.height / 2 - 25;
  double top = get_mean (surface, preview, 0, -y, 16);
  double bottom = get_mean (surface, preview, 0, y, 16);
  double left = get_mean (surface, preview, -x, 0, 16);
  double right = get_mean (surface, preview, x, 0, 16);

  g_assert_cmpfloat (top, >, left * 1.08);
  g_assert_cmpfloat (left, >, bottom * 1.08);
  g_assert_cmpfloat_with_epsilon (left, right, 12);
}

/* Layers from the middle outward: picture, mat, wood, wall; all colours as they were chosen. */
static void
test_layers (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  rig.settings->mats[0].colour = 0x4060a0;
  rig.settings->wall_colour = 0xa04040;
  rig_update (&rig);
  cairo_surface_t *picture = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 30, 20);
  cairo_t *cr = cairo_create (picture);
  cairo_set_source_rgb (cr, 0x19 / 255.0, 0xcc / 255.0, 0x19 / 255.0);
  cairo_paint (cr);
  cairo_destroy (cr);
  g_autoptr (CavPreview) preview
      = cav_preview_new (rig.frame, get_profile (&rig), NULL, picture, WIDTH, HEIGHT);
  cairo_surface_t *surface = cav_preview_shade (preview, -45, 50);

  g_assert_cmphex (tool_get_colour (surface, WIDTH / 2, HEIGHT / 2), ==, 0x19cc19);
  double scale = cav_preview_get_scale (preview);
  int x = (int)(WIDTH / 2.0 + (rig.frame->sizes.sight.width / 2 - 18) * scale);
  guint32 mat = tool_get_colour (surface, x, HEIGHT / 2);
  g_assert_cmpint (ABS ((int)(mat & 255) - 0xa0), <, 8);
  g_assert_cmpint (ABS ((int)(mat >> 16) - 0x40), <, 8);
  guint32 wall = tool_get_colour (surface, 3, 3);
  g_assert_cmpint (ABS ((int)(wall >> 16) - 0xa0), <, 8);
  cairo_surface_destroy (picture);
}

/* Everything that a frame may be gives a picture: sides, mats, floats, finishes, sizes. */
static void
test_kinds (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  for (int i = 0; i < 40; i++)
    {
      rig.settings->sides = 3 + i % 10;
      rig.settings->n_mats = i % 4;
      rig.settings->floated = i % 5 == 4;
      rig.settings->bevelled = i % 3 != 0;
      rig.settings->reflection = i % 2;
      rig.settings->finish = (CavFinish)(i % 7);
      rig.settings->sawn = (CavSawn)(i % 2);
      rig_update (&rig);
      g_assert_true (rig.frame->possible);
      g_autoptr (CavPreview) preview
          = cav_preview_new (rig.frame, get_profile (&rig), NULL, NULL, 40 + 7 * i, 90);
      g_assert_nonnull (preview);
      g_assert_cmpint (cairo_surface_status (cav_preview_shade (preview, i * 36, 5 + 2 * i)), ==,
                       CAIRO_STATUS_SUCCESS);
    }
}

static void
test_impossible (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  g_autoptr (GError) error = NULL;

  g_assert_null (cav_preview_new (rig.frame, get_profile (&rig), NULL, NULL, 0, 10));
  g_assert_null (
      cav_preview_new (rig.frame, get_profile (&rig), NULL, NULL, 10, CAV_PREVIEW_MAX + 1));
  g_assert_null (
      cav_preview_create_png (rig.frame, get_profile (&rig), NULL, NULL, -5, 10, &error));
  g_assert_error (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED);
  rig.settings->picture_width = NAN;
  rig_update (&rig);
  g_assert_null (preview_new (&rig));
  cav_preview_free (NULL);
}

static void
test_png (void)
{
  g_auto (Rig) rig = { 0 };
  rig_init (&rig);
  g_autoptr (GBytes) first
      = cav_preview_create_png (rig.frame, get_profile (&rig), NULL, NULL, 300, 200, NULL);
  g_autoptr (GBytes) second
      = cav_preview_create_png (rig.frame, get_profile (&rig), NULL, NULL, 300, 200, NULL);
  cairo_surface_t *surface = tool_load_png (first);

  g_assert_true (g_bytes_equal (first, second));
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 300);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 200);
  cairo_surface_destroy (surface);
}

/* Corners of a face, against figures that everybody knows. */
static void
test_face (void)
{
  CavFrameFace face;
  double second;
  int side;

  cav_frame_face_init (&face, 4, (CavSize){ 300, 400 });
  CavPoint corner = cav_frame_face_get_corner (&face, 0, 10);
  g_assert_true (cav_point_near (corner, CAV_POINT (140, -190), 1e-9));
  g_assert_cmpfloat_with_epsilon (
      cav_frame_face_get_depth (&face, CAV_POINT (0, 195), &side, &second), 5, 1e-9);
  g_assert_cmpint (side, ==, 2);
  g_assert_cmpfloat_with_epsilon (second, 145, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_frame_face_get_distance (&face, CAV_POINT (153, 204)), 5,
                                  1e-9);
  g_assert_cmpfloat_with_epsilon (cav_frame_face_get_distance (&face, CAV_POINT (0, 0)), 0, 1e-9);
  cav_frame_face_shift (&face, 20, -10);
  g_assert_true (
      cav_point_near (cav_frame_face_get_corner (&face, 2, 0), CAV_POINT (-130, 190), 1e-9));
  /* A triangle stands on its side; a hexagon of 100 across is 115.47 from corner to corner. */
  cav_frame_face_init (&face, 3, (CavSize){ 100, 1 });
  CavBox box = cav_frame_face_get_bounds (&face);
  g_assert_cmpfloat_with_epsilon (box.y1, 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0, -100, 1e-9);
  cav_frame_face_init (&face, 6, (CavSize){ 100, 1 });
  box = cav_frame_face_get_bounds (&face);
  g_assert_cmpfloat_with_epsilon (box.x1 - box.x0, 115.470, 0.001);
  g_assert_cmpfloat_with_epsilon (box.y1 - box.y0, 100, 1e-9);
}

/* What keeps a missing picture's place is neither paper alone nor the fern. */
static void
test_missing (void)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 300, 400);
  cairo_t *cr = cairo_create (surface);

  cav_draw_missing_picture (cr, 300, 400);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  g_assert_cmpint (tool_get_grey (surface, 150, 200), <, 160);
  g_assert_cmpint (tool_get_grey (surface, 75, 100), <, 160);
  g_assert_cmpint (tool_get_grey (surface, 150, 40), >, 200);
  cairo_surface_destroy (surface);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/preview/shadows", test_shadows);
  g_test_add_func ("/drawing/preview/light-turns", test_light_turns);
  g_test_add_func ("/drawing/preview/rails-differ", test_rails_differ);
  g_test_add_func ("/drawing/preview/layers", test_layers);
  g_test_add_func ("/drawing/preview/kinds", test_kinds);
  g_test_add_func ("/drawing/preview/impossible", test_impossible);
  g_test_add_func ("/drawing/preview/png", test_png);
  g_test_add_func ("/drawing/preview/face", test_face);
  g_test_add_func ("/drawing/preview/missing", test_missing);
  return g_test_run ();
}
