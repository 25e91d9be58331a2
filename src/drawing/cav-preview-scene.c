/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-preview-private.h"
#include "drawing/cav-wood-texture.h"

/* Wall around the frame, as a share of its longer side. */
#define WALL 0.14
/* Colours across a rail, and places along it that each is the mean of. */
#define N_PLACES 120
#define N_ALONG 24
/* Sharpness of the picture in the file, pixels for each mm, and its most pixels on a side. */
#define IMAGE_SHARPNESS 8.0
#define IMAGE_MAX 1600.0
#define CORE 0xfbfaf6

/* What the parts of the drawing share. */
typedef struct
{
  CavScene *scene;
  const CavFrame *frame;
  const CavProfile *profile;
  CavRelief *relief;
  CavFrameFace face;
  CavLamp lamp;
  double scale; /* of the drawing */
  CavPoint middle;
} Painter;

static CavPoint
map_point (const Painter *painter, CavPoint point)
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

/* The stretch of one side between two insets: a trapezium with mitred ends. */
static void
get_side (const CavFrameFace *face, int side, double outer, double inner, CavPoint *points)
{
  int last = (side + face->sides - 1) % face->sides;

  points[0] = cav_frame_face_get_corner (face, last, outer);
  points[1] = cav_frame_face_get_corner (face, side, outer);
  points[2] = cav_frame_face_get_corner (face, side, inner);
  points[3] = cav_frame_face_get_corner (face, last, inner);
}

static void
fill_polygon (const Painter *painter, const CavPoint *points, guint n_points, CavColour colour)
{
  CavPoint mapped[CAV_FRAME_SIDES_MAX];
  const CavStop stop = { 0.0, colour };

  for (guint i = 0; i < n_points; i++)
    mapped[i] = map_point (painter, points[i]);
  cav_scene_add_gradient (painter->scene, mapped, n_points, mapped[0], mapped[1], &stop, 1);
}

static void
fill_face (const Painter *painter, const CavFrameFace *face, double inset, CavColour colour)
{
  CavPoint points[CAV_FRAME_SIDES_MAX];

  for (int i = 0; i < face->sides; i++)
    points[i] = cav_frame_face_get_corner (face, i, inset);
  fill_polygon (painter, points, (guint)face->sides, colour);
}

/* A trapezium whose colours change square to its side. */
static void
fill_across (const Painter *painter,
             const CavPoint *points,
             CavPoint across,
             double way,
             const CavStop *stops,
             guint n_stops)
{
  CavPoint mapped[4];
  CavPoint end = CAV_POINT (points[0].x + across.x * way, points[0].y + across.y * way);

  for (int i = 0; i < 4; i++)
    mapped[i] = map_point (painter, points[i]);
  cav_scene_add_gradient (painter->scene, mapped, 4, mapped[0], map_point (painter, end), stops,
                          n_stops);
}

/* The wood's mean colour across the rail, as the finish leaves it. */
static void
fill_tints (const Painter *painter, int side, CavTint *tints)
{
  CavWoodTexture texture;
  const CavFrameSettings *settings = &painter->frame->settings;

  cav_wood_texture_init (&texture, painter->frame->wood, settings->sawn,
                         painter->profile->blank.width, painter->profile->blank.thickness, 0.8);
  for (int i = 0; i < N_PLACES; i++)
    {
      float place = (float)(painter->relief->outer - (i + 0.5) * painter->relief->width / N_PLACES);
      CavTint sum = { 0 };

      for (int k = 0; k < N_ALONG; k++)
        {
          float along = (float)(side * 430 + k * 13);
          CavTint tint = cav_wood_texture_get (&texture, along, place, painter->relief->heights[i]);

          tint = cav_finish_get_tint (settings->finish, tint, along, place);
          sum.red += tint.red / N_ALONG;
          sum.green += tint.green / N_ALONG;
          sum.blue += tint.blue / N_ALONG;
        }
      tints[i] = sum;
    }
}

static guint8
light_channel (float tint, CavShade shade, int channel)
{
  return (guint8)CLAMP (tint * (float)shade.scale * 255.0f / 256.0f + (float)shade.add[channel],
                        0.0f, 255.0f);
}

static void
draw_rail (const Painter *painter, int side)
{
  CavGloss gloss = cav_finish_get_gloss (painter->frame->settings.finish);
  CavPoint across = painter->face.across[side];
  CavPoint points[4];
  CavShade shades[N_PLACES];
  CavTint tints[N_PLACES];
  CavStop stops[N_PLACES];

  fill_tints (painter, side, tints);
  cav_preview_fill_rail_shades (painter->relief, &gloss, across, painter->lamp, shades);
  for (int i = 0; i < N_PLACES; i++)
    stops[i] = (CavStop){ (i + 0.5) / N_PLACES,
                          { light_channel (tints[i].red, shades[i], 0),
                            light_channel (tints[i].green, shades[i], 1),
                            light_channel (tints[i].blue, shades[i], 2) } };
  get_side (&painter->face, side, 0.0, painter->relief->width, points);
  fill_across (painter, points, across, -painter->relief->width, stops, N_PLACES);
}

/* Light passes the top of a side at a slope and leaves the ground behind it dark for this far. */
static double
get_dark_way (const Painter *painter, int side, double height)
{
  double toward = painter->face.across[side].x * painter->lamp.x
                  + painter->face.across[side].y * painter->lamp.y;

  return toward * fmax (painter->relief->top - height, 0.0) * painter->lamp.cosine
         / painter->lamp.sine;
}

static const CavStop *
get_shadow_stops (guint32 ground)
{
  static CavStop stops[3];

  stops[0] = (CavStop){ 0.0, get_colour (ground, CAV_AMBIENT) };
  stops[1] = (CavStop){ 0.7, get_colour (ground, CAV_AMBIENT + 0.06) };
  stops[2] = (CavStop){ 1.0, get_colour (ground, 1.0) };
  return stops;
}

/* Shadow of the sides that face away from the lamp: each as long as its own way, and pushed along
 * the light, so that neighbours meet in one corner. */
static void
draw_wall_shadow (const Painter *painter)
{
  double reach = painter->relief->top * painter->lamp.cosine / painter->lamp.sine;
  CavPoint shift = CAV_POINT (-painter->lamp.x * reach, -painter->lamp.y * reach);

  for (int i = 0; i < painter->face.sides; i++)
    {
      double way = -get_dark_way (painter, i, 0.0);
      CavPoint points[4];

      if (way <= 0.0)
        continue;
      get_side (&painter->face, i, 0.0, 0.0, points);
      points[2] = CAV_POINT (points[1].x + shift.x, points[1].y + shift.y);
      points[3] = CAV_POINT (points[0].x + shift.x, points[0].y + shift.y);
      fill_across (painter, points, painter->face.across[i], way,
                   get_shadow_stops (painter->frame->settings.wall_colour), 3);
    }
}

static void
draw_mat_shadow (const Painter *painter, guint32 ground, double height)
{
  double width = painter->relief->width;

  for (int i = 0; i < painter->face.sides; i++)
    {
      double way = get_dark_way (painter, i, height);
      CavPoint points[4];

      if (way <= 0.0)
        continue;
      get_side (&painter->face, i, width, width + way, points);
      fill_across (painter, points, painter->face.across[i], -way, get_shadow_stops (ground), 3);
    }
}

static void
draw_image (const Painter *painter,
            const CavFrameFace *window,
            const CavFrameFace *image,
            cairo_surface_t *picture)
{
  CavBox box = cav_frame_face_get_bounds (image);
  double width = box.x1 - box.x0;
  double height = box.y1 - box.y0;
  double sharpness = fmin (IMAGE_SHARPNESS, IMAGE_MAX / fmax (width, height));
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, MAX (1, (int)ceil (width * sharpness)),
                                    MAX (1, (int)ceil (height * sharpness)));
  cairo_t *cr = cairo_create (surface);
  CavPoint corners[CAV_FRAME_SIDES_MAX];
  CavPoint first = map_point (painter, CAV_POINT (box.x0, box.y0));
  CavPoint last = map_point (painter, CAV_POINT (box.x1, box.y1));

  cav_draw_picture (cr, picture, cairo_image_surface_get_width (surface),
                    cairo_image_surface_get_height (surface));
  cairo_destroy (cr);
  for (int i = 0; i < window->sides; i++)
    corners[i] = map_point (painter, cav_frame_face_get_corner (window, i, 0.0));
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
draw_bevels (const Painter *painter, const CavFrameFace *window, double bevel)
{
  for (int i = 0; i < window->sides; i++)
    {
      CavShade shade = cav_preview_get_bevel_shade (window->across[i], painter->lamp);
      CavPoint points[4];

      get_side (window, i, -bevel, 0.0, points);
      fill_polygon (painter, points, 4, get_colour (CORE, shade.scale / 256.0));
    }
}

/* Front to back: each sheet is painted whole, and the next one into its window. */
static void
draw_package (const Painter *painter, cairo_surface_t *picture)
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
      if (i + 1 < n_mats)
        fill_face (painter, &window, 0.0, get_colour (settings->mats[i + 1].colour, 1.0));
    }
  draw_image (painter, settings->floated ? &image : &window, &image, picture);
  if (n_mats > 0 || settings->floated)
    draw_mat_shadow (painter, front, fmax (height, 0.0));
}

static gboolean
painter_init (Painter *painter, CavScene *scene, const CavFrame *frame, const CavProfile *profile)
{
  *painter = (Painter){ .scene = scene, .frame = frame, .profile = profile };
  if (!frame->possible)
    return FALSE;
  painter->relief = cav_relief_new (profile, N_PLACES);
  painter->lamp = cav_lamp_get (frame->settings.light_angle, frame->settings.light_height);
  cav_frame_face_init (&painter->face, frame->settings.sides, frame->sizes.outside);
  return painter->relief != NULL;
}

/* A strip of the wood's colour under each mitre, so that no hair of what lies below shows between
 * two rails where both only half cover a pixel. */
static void
draw_joint (const Painter *painter, int side)
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
  CavTint tints[N_PLACES];
  CavTint tint;

  fill_tints (painter, side, tints);
  tint = tints[N_PLACES / 3];
  fill_polygon (painter, points, 4,
                get_colour (cav_pack_colour (tint.red, tint.green, tint.blue), 0.85));
}

static void
draw_frame (const Painter *painter)
{
  for (int i = 0; i < painter->face.sides; i++)
    draw_joint (painter, i);
  for (int i = 0; i < painter->face.sides; i++)
    draw_rail (painter, i);
}

CavScene *
cav_preview_create_scene (const CavFrame *frame,
                          const CavProfile *profile,
                          cairo_surface_t *picture,
                          const char *title)
{
  g_return_val_if_fail (frame != NULL && profile != NULL && title != NULL, NULL);

  Painter painter;
  if (!painter_init (&painter, NULL, frame, profile))
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

  cav_scene_set_title (scene, title, "The frame as it would hang, at full size, in millimetres.");
  cav_scene_begin_titled_layer (scene, "wall", "Wall", "The wall and the frame's shadow on it.");
  fill_polygon (&painter, wall, 4, get_colour (frame->settings.wall_colour, 1.0));
  draw_wall_shadow (&painter);
  cav_scene_end_layer (scene);
  cav_scene_begin_titled_layer (scene, "package", "Package", "Mats and picture.");
  draw_package (&painter, picture);
  cav_scene_end_layer (scene);
  cav_scene_begin_titled_layer (scene, "rails", "Rails",
                                "The molding, each rail in its own light.");
  draw_frame (&painter);
  cav_scene_end_layer (scene);
  cav_relief_free (painter.relief);
  return scene;
}

gboolean
cav_preview_add_to_scene (CavScene *scene,
                          const char *id,
                          const CavFrame *frame,
                          const CavProfile *profile,
                          cairo_surface_t *picture,
                          CavBox box)
{
  g_return_val_if_fail (scene != NULL && id != NULL && frame != NULL && profile != NULL, FALSE);

  Painter painter;
  if (!painter_init (&painter, scene, frame, profile))
    return FALSE;
  CavBox bounds = cav_frame_face_get_bounds (&painter.face);
  painter.scale = fmin ((box.x1 - box.x0) / (bounds.x1 - bounds.x0),
                        (box.y1 - box.y0) / (bounds.y1 - bounds.y0));
  painter.middle
      = CAV_POINT ((box.x0 + box.x1) / 2.0 - painter.scale * (bounds.x0 + bounds.x1) / 2.0,
                   (box.y0 + box.y1) / 2.0 - painter.scale * (bounds.y0 + bounds.y1) / 2.0);
  cav_scene_begin_titled_layer (scene, id, "Preview", "The frame in its wood and finish.");
  draw_package (&painter, picture);
  draw_frame (&painter);
  cav_scene_end_layer (scene);
  cav_relief_free (painter.relief);
  return TRUE;
}
