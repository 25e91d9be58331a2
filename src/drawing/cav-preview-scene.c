/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview-scene-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Wall around the frame, as a share of its longer side: the same as of a picture in pixels. */
#define WALL 0.125
/* Sharpness of the picture in the file, pixels for each mm, and its most pixels on a side. */
#define IMAGE_SHARPNESS 8.0
#define IMAGE_MAX 1600.0
#define IMAGE_SHARPNESS_PAGE 12.0 /* for each mm on a page that shows the frame small */
/* The same of the wood's figure, whose pixels are counted along the frame's longer side. */
#define FIGURE_SHARPNESS 2.5
#define FIGURE_SHARPNESS_PAGE 6.0 /* for each mm on a page that shows the frame small */
#define FIGURE_MAX 1600.0

CavPoint
cav_scene_painter_map (const CavScenePainter *painter, CavPoint point)
{
  return CAV_POINT (painter->middle.x + point.x * painter->scale,
                    painter->middle.y + point.y * painter->scale);
}

static CavColour
get_colour (guint32 packed, double by)
{
  return (CavColour){ (guint8)CLAMP ((packed >> 16 & 255) * by, 0.0, 255.0),
                      (guint8)CLAMP ((packed >> 8 & 255) * by, 0.0, 255.0),
                      (guint8)CLAMP ((packed & 255) * by, 0.0, 255.0) };
}

void
cav_scene_painter_get_side (
    const CavFrameFace *face, int side, double outer, double inner, CavPoint *points)
{
  int last = (side + face->sides - 1) % face->sides;

  points[0] = cav_frame_face_get_corner (face, last, outer);
  points[1] = cav_frame_face_get_corner (face, side, outer);
  points[2] = cav_frame_face_get_corner (face, side, inner);
  points[3] = cav_frame_face_get_corner (face, last, inner);
}

static void
fill_polygon (const CavScenePainter *painter,
              const CavPoint *points,
              guint n_points,
              CavColour colour)
{
  CavPoint mapped[CAV_FRAME_SIDES_MAX];
  const CavStop stop = { .colour = colour };

  for (guint i = 0; i < n_points; i++)
    mapped[i] = cav_scene_painter_map (painter, points[i]);
  cav_scene_add_gradient (painter->scene, mapped, n_points, mapped[0], mapped[1], &stop, 1);
}

static void
fill_face (const CavScenePainter *painter, const CavFrameFace *face, double inset, CavColour colour)
{
  CavPoint points[CAV_FRAME_SIDES_MAX];

  for (int i = 0; i < face->sides; i++)
    points[i] = cav_frame_face_get_corner (face, i, inset);
  fill_polygon (painter, points, (guint)face->sides, colour);
}

void
cav_scene_painter_fill_across (const CavScenePainter *painter,
                               const CavPoint *points,
                               CavPoint across,
                               double way,
                               const CavStop *stops,
                               guint n_stops)
{
  CavPoint mapped[4];
  CavPoint end = CAV_POINT (points[0].x + across.x * way, points[0].y + across.y * way);

  for (int i = 0; i < 4; i++)
    mapped[i] = cav_scene_painter_map (painter, points[i]);
  cav_scene_add_gradient (painter->scene, mapped, 4, mapped[0],
                          cav_scene_painter_map (painter, end), stops, n_stops);
}

static void
draw_rail (const CavScenePainter *painter, int side, const CavRailTones *tones)
{
  CavPoint points[4];
  CavStop stops[CAV_RAIL_TONES];

  for (int i = 0; i < CAV_RAIL_TONES; i++)
    stops[i] = (CavStop){ .share = (i + 0.5) / CAV_RAIL_TONES, .colour = tones->colours[i] };
  cav_scene_painter_get_side (&painter->face, side, 0.0, painter->relief->width, points);
  cav_scene_painter_fill_across (painter, points, painter->face.across[side],
                                 -painter->relief->width, stops, CAV_RAIL_TONES);
}

static void
draw_image (const CavScenePainter *painter,
            const CavFrameFace *window,
            const CavFrameFace *image,
            cairo_surface_t *picture)
{
  CavBox box = cav_frame_face_get_bounds (image);
  double width = box.x1 - box.x0;
  double height = box.y1 - box.y0;
  double sharpness = fmin (fmin (IMAGE_SHARPNESS, IMAGE_SHARPNESS_PAGE * painter->scale),
                           IMAGE_MAX / fmax (width, height));
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, MAX (1, (int)ceil (width * sharpness)),
                                    MAX (1, (int)ceil (height * sharpness)));
  cairo_t *cr = cairo_create (surface);
  CavPoint corners[CAV_FRAME_SIDES_MAX];
  CavPoint first = cav_scene_painter_map (painter, CAV_POINT (box.x0, box.y0));
  CavPoint last = cav_scene_painter_map (painter, CAV_POINT (box.x1, box.y1));

  cav_draw_picture (cr, picture, cairo_image_surface_get_width (surface),
                    cairo_image_surface_get_height (surface));
  cairo_destroy (cr);
  for (int i = 0; i < window->sides; i++)
    corners[i] = cav_scene_painter_map (painter, cav_frame_face_get_corner (window, i, 0.0));
  g_autoptr (CavRegion) clip = cav_region_new_polygon (corners, (guint)window->sides, NULL);
  if (clip != NULL)
    {
      cav_scene_begin_clip (painter->scene, clip, cav_transform_identity ());
      cav_scene_add_image (painter->scene, surface, cav_box (first.x, first.y, last.x, last.y));
      cav_scene_end_clip (painter->scene);
    }
  cairo_surface_destroy (surface);
}

static void
draw_bevels (const CavScenePainter *painter, const CavFrameFace *window, double bevel)
{
  for (int i = 0; i < window->sides; i++)
    {
      CavShade shade = cav_preview_get_bevel_shade (window->across[i], painter->lamp);
      CavPoint points[4];

      cav_scene_painter_get_side (window, i, -bevel, 0.0, points);
      fill_polygon (painter, points, 4, get_colour (CAV_MAT_CORE, shade.scale / 256.0));
    }
}

static void
draw_window_contact (const CavScenePainter *painter, const CavFrameFace *window, int mat)
{
  double measure = cav_preview_get_window_contact (&painter->frame->settings.mats[mat]);

  cav_scene_painter_draw_contact (painter, window, 0.0, measure, CAV_CONTACT);
}

/* Shadow of the frame on what it surrounds, which is height above the wall, and the glass. */
static void
draw_light (const CavScenePainter *painter, double height)
{
  CavPoint corners[CAV_FRAME_SIDES_MAX];

  for (int i = 0; i < painter->face.sides; i++)
    corners[i] = cav_scene_painter_map (
        painter, cav_frame_face_get_corner (&painter->face, i, painter->relief->width));
  g_autoptr (CavRegion) clip = cav_region_new_polygon (corners, (guint)painter->face.sides, NULL);
  if (clip == NULL)
    return;
  cav_scene_begin_clip (painter->scene, clip, cav_transform_identity ());
  cav_scene_painter_draw_mat_shadow (painter, height);
  cav_scene_end_clip (painter->scene);
  if (painter->frame->settings.reflection && painter->frame->settings.glazing != CAV_GLAZING_NONE)
    cav_scene_painter_draw_reflection (painter);
}

/* Front to back: each sheet is painted whole, and the next one into its window. */
static void
draw_package (const CavScenePainter *painter, cairo_surface_t *picture)
{
  const CavFrameSettings *settings = &painter->frame->settings;
  const CavFrameSizes *sizes = &painter->frame->sizes;
  double x = (sizes->borders.left - sizes->borders.right) / 2.0;
  double y = (sizes->borders.top - sizes->borders.bottom) / 2.0;
  int n_mats = settings->floated ? 0 : settings->n_mats;
  guint32 front = n_mats > 0          ? settings->mats[0].colour
                  : settings->floated ? settings->float_colour
                                      : 0xf4f0e4;
  CavFrameFace image;
  CavFrameFace window;
  double height = sizes->rabbet_depth - settings->spacer
                  - (settings->glazing != CAV_GLAZING_NONE ? settings->glazing_thickness : 0.0);

  cav_frame_face_init (&image, settings->sides, sizes->picture);
  if (n_mats > 0)
    cav_frame_face_shift (&image, x, y);
  cav_frame_face_init (&window, settings->sides, sizes->sight);
  if (n_mats > 0 || settings->floated)
    fill_face (painter, &window, -0.2, get_colour (front, 1.0));
  for (int i = 0; i < n_mats; i++)
    {
      double bevel = settings->bevelled ? settings->mats[i].thickness : 0.0;

      cav_frame_face_init (&window, settings->sides, sizes->windows[i]);
      cav_frame_face_shift (&window, x, y);
      draw_bevels (painter, &window, bevel);
      if (i + 1 == n_mats)
        break;
      fill_face (painter, &window, 0.0, get_colour (settings->mats[i + 1].colour, 1.0));
      draw_window_contact (painter, &window, i);
    }
  if (settings->floated)
    cav_scene_painter_draw_contact (painter, &image, 0.0, -CAV_CONTACT_FLOAT, CAV_CONTACT_SHEET);
  draw_image (painter, settings->floated ? &image : &window, &image, picture);
  if (n_mats > 0)
    draw_window_contact (painter, &window, n_mats - 1);
  draw_light (painter, fmax (height, 0.0));
}

static gboolean
painter_init (CavScenePainter *painter,
              CavScene *scene,
              const CavFrame *frame,
              const CavProfile *profile,
              const CavFrameGrain *grain)
{
  *painter = (CavScenePainter){ .scene = scene, .frame = frame, .profile = profile };
  cav_frame_grain_init (&painter->grain, frame);
  if (grain != NULL)
    painter->grain = *grain;
  if (!frame->possible)
    return FALSE;
  painter->relief = cav_relief_new (profile, CAV_RAIL_TONES);
  painter->lamp = cav_lamp_get (frame->settings.light_angle, frame->settings.light_height);
  cav_frame_face_init (&painter->face, frame->settings.sides, frame->sizes.outside);
  return painter->relief != NULL;
}

/* A strip of the wood's colour under each mitre, so that no hair of what lies below shows between
 * two rails where both only half cover a pixel. */
static void
draw_joint (const CavScenePainter *painter, int side, const CavRailTones *tones)
{
  CavPoint outer = cav_frame_face_get_corner (&painter->face, side, 0.15);
  CavPoint inner = cav_frame_face_get_corner (&painter->face, side, painter->relief->width - 0.15);
  double length = cav_point_distance (outer, inner);
  double x = 0.15 * (inner.y - outer.y) / length;
  double y = -0.15 * (inner.x - outer.x) / length;
  CavPoint points[] = { { outer.x - x, outer.y - y },
                        { outer.x + x, outer.y + y },
                        { inner.x + x, inner.y + y },
                        { inner.x - x, inner.y - y } };

  fill_polygon (painter, points, 4, tones->colours[CAV_RAIL_TONES / 3]);
}

/* fineness: of the figure, pixels for each mm of wood. */
static void
draw_frame (const CavScenePainter *painter, double fineness)
{
  CavBox box = cav_frame_face_get_bounds (&painter->face);
  CavPoint first = cav_scene_painter_map (painter, CAV_POINT (box.x0, box.y0));
  CavPoint last = cav_scene_painter_map (painter, CAV_POINT (box.x1, box.y1));
  g_autofree CavRailTones *tones = g_new (CavRailTones, painter->face.sides);
  cairo_surface_t *figure;

  for (int i = 0; i < painter->face.sides; i++)
    cav_scene_painter_fill_tones (painter, i, &tones[i]);
  for (int i = 0; i < painter->face.sides; i++)
    draw_joint (painter, i, &tones[i]);
  for (int i = 0; i < painter->face.sides; i++)
    draw_rail (painter, i, &tones[i]);
  fineness = fmin (fineness, FIGURE_MAX / fmax (box.x1 - box.x0, box.y1 - box.y0));
  figure = cav_scene_painter_create_figure (painter, tones, fineness);
  if (figure == NULL)
    return;
  cav_scene_add_image (painter->scene, figure, cav_box (first.x, first.y, last.x, last.y));
  cairo_surface_destroy (figure);
}

CavScene *
cav_preview_create_scene (const CavFrame *frame,
                          const CavProfile *profile,
                          const CavFrameGrain *grain,
                          cairo_surface_t *picture,
                          const char *title)
{
  g_return_val_if_fail (frame != NULL && profile != NULL && title != NULL, NULL);

  CavScenePainter painter;
  if (!painter_init (&painter, NULL, frame, profile, grain))
    return NULL;
  CavBox box = cav_frame_face_get_bounds (&painter.face);
  double air = WALL * fmax (box.x1 - box.x0, box.y1 - box.y0);
  CavScene *scene = cav_scene_new (box.x1 - box.x0 + 2.0 * air, box.y1 - box.y0 + 2.0 * air);
  painter.scene = scene;
  painter.scale = 1.0;
  painter.middle = CAV_POINT (air - box.x0, air - box.y0);
  CavPoint wall[] = { { box.x0 - air, box.y0 - air },
                      { box.x1 + air, box.y0 - air },
                      { box.x1 + air, box.y1 + air },
                      { box.x0 - air, box.y1 + air } };

  cav_scene_set_title (scene, title,
                       _ ("The frame as it would hang, at full size, in millimetres."));
  cav_scene_begin_titled_layer (scene, "wall", _ ("Wall"),
                                _ ("The wall and the frame's shadow on it."));
  fill_polygon (&painter, wall, 4, get_colour (frame->settings.wall_colour, 1.0));
  cav_scene_painter_draw_wall_shadow (&painter);
  cav_scene_end_layer (scene);
  cav_scene_begin_titled_layer (scene, "package", _ ("Package"), _ ("Mats and picture."));
  draw_package (&painter, picture);
  cav_scene_end_layer (scene);
  cav_scene_begin_titled_layer (scene, "rails", _ ("Rails"),
                                _ ("The molding, each rail in its own light."));
  draw_frame (&painter, FIGURE_SHARPNESS);
  cav_scene_end_layer (scene);
  cav_relief_free (painter.relief);
  return scene;
}

gboolean
cav_preview_add_to_scene (CavScene *scene,
                          const char *id,
                          const CavFrame *frame,
                          const CavProfile *profile,
                          const CavFrameGrain *grain,
                          cairo_surface_t *picture,
                          CavBox box)
{
  g_return_val_if_fail (scene != NULL && id != NULL && frame != NULL && profile != NULL, FALSE);

  CavScenePainter painter;
  if (!painter_init (&painter, scene, frame, profile, grain))
    return FALSE;
  CavBox bounds = cav_frame_face_get_bounds (&painter.face);
  painter.scale = fmin ((box.x1 - box.x0) / (bounds.x1 - bounds.x0),
                        (box.y1 - box.y0) / (bounds.y1 - bounds.y0));
  painter.middle
      = CAV_POINT ((box.x0 + box.x1) / 2.0 - painter.scale * (bounds.x0 + bounds.x1) / 2.0,
                   (box.y0 + box.y1) / 2.0 - painter.scale * (bounds.y0 + bounds.y1) / 2.0);
  cav_scene_begin_titled_layer (scene, id, _ ("Preview"), _ ("The frame in its wood and finish."));
  draw_package (&painter, picture);
  draw_frame (&painter, FIGURE_SHARPNESS_PAGE * painter.scale);
  cav_scene_end_layer (scene);
  cav_relief_free (painter.relief);
  return TRUE;
}
