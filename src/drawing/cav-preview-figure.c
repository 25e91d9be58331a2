/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview-scene-private.h"

#include <math.h>

#include "drawing/cav-wood-texture.h"

/* Places along a rail that a tone is the mean of. */
#define N_ALONG 48

static void
init_texture (const CavScenePainter *painter, CavWoodTexture *texture, double detail)
{
  cav_wood_texture_init (texture, painter->frame->wood, painter->frame->settings.sawn,
                         painter->profile->blank.width, painter->profile->blank.thickness, detail);
}

static CavTint
get_tint (const CavScenePainter *painter,
          const CavWoodTexture *texture,
          int rail,
          double along,
          double depth,
          int sample)
{
  double place = painter->relief->outer - depth;
  double height = painter->relief->heights[sample];

  cav_rail_grain_map (&painter->grain.rails[rail], &along, &place, &height);
  CavTint bare = cav_wood_texture_get (texture, (float)along, (float)place, (float)height);
  return cav_finish_get_tint (painter->frame->settings.finish, bare, (float)along, (float)place);
}

static float
light_channel (float tint, CavShade shade, int channel)
{
  return CLAMP (tint * (float)shade.scale * 255.0f / 256.0f + (float)shade.add[channel], 0.0f,
                255.0f);
}

/* Half of a side's long point. */
static double
get_half_length (const CavFrameFace *face, int side)
{
  return 0.5
         * cav_point_distance (
             cav_frame_face_get_corner (face, side, 0.0),
             cav_frame_face_get_corner (face, (side + face->sides - 1) % face->sides, 0.0));
}

void
cav_scene_painter_fill_tones (const CavScenePainter *painter, int side, CavRailTones *tones)
{
  CavGloss gloss = cav_finish_get_gloss (painter->frame->settings.finish);
  double half = get_half_length (&painter->face, side);
  CavWoodTexture texture;

  init_texture (painter, &texture, 0.8);
  cav_preview_fill_rail_shades (painter->relief, &gloss, painter->face.across[side], painter->lamp,
                                tones->shades);
  for (int i = 0; i < CAV_RAIL_TONES; i++)
    {
      double depth = (i + 0.5) * painter->relief->width / CAV_RAIL_TONES;
      CavTint sum = { 0 };

      for (int k = 0; k < N_ALONG; k++)
        {
          double along = half * ((2 * k + 1.0) / N_ALONG - 1.0);
          CavTint tint = get_tint (painter, &texture, side, along, depth, i);

          sum.red += tint.red / N_ALONG;
          sum.green += tint.green / N_ALONG;
          sum.blue += tint.blue / N_ALONG;
        }
      tones->tints[i] = sum;
      tones->colours[i] = (CavColour){ (guint8)light_channel (sum.red, tones->shades[i], 0),
                                       (guint8)light_channel (sum.green, tones->shades[i], 1),
                                       (guint8)light_channel (sum.blue, tones->shades[i], 2) };
    }
}

/* The faintest colour that makes the one out of the other when it is laid over it, as a pixel with
 * its channels already multiplied by its opacity. */
static guint32
find_veil (const float *from, const float *to)
{
  float opacity = 0.0f;
  guint32 pixel;

  for (int i = 0; i < 3; i++)
    {
      float way = to[i] - from[i];

      opacity = MAX (opacity, way < 0.0f ? -way / from[i] : way / MAX (255.0f - from[i], 1.0f));
    }
  /* Steps that no eye sees, and the file is smaller. */
  opacity = MIN (ceilf (opacity * 48.0f) / 48.0f, 1.0f);
  pixel = (guint32)(opacity * 255.0f + 0.5f) << 24;
  for (int i = 0; i < 3; i++)
    {
      float value = CLAMP (to[i] - (1.0f - opacity) * from[i], 0.0f, opacity * 255.0f);

      pixel |= (guint32)(value + 0.5f) << (16 - 8 * i);
    }
  return pixel;
}

/* The colour of the gradient at a place between two tones. */
static void
fill_tone (const CavRailTones *tones, double share, float *out_colour)
{
  double place = CLAMP (share * CAV_RAIL_TONES - 0.5, 0.0, CAV_RAIL_TONES - 1.0);
  int first = MIN ((int)place, CAV_RAIL_TONES - 2);
  float between = (float)(place - first);
  const CavColour *a = &tones->colours[first];
  const CavColour *b = &tones->colours[first + 1];

  out_colour[0] = (float)a->red + ((float)b->red - (float)a->red) * between;
  out_colour[1] = (float)a->green + ((float)b->green - (float)a->green) * between;
  out_colour[2] = (float)a->blue + ((float)b->blue - (float)a->blue) * between;
}

static guint32
get_figure (const CavScenePainter *painter,
            const CavRailTones *tones,
            const CavWoodTexture *texture,
            CavPoint point)
{
  double width = painter->relief->width;
  int rail = 0;
  double depth = cav_frame_face_get_depth (&painter->face, point, &rail, NULL);

  if (!(depth > 0.0 && depth < width))
    return 0;
  CavPoint across = painter->face.across[rail];
  double along = -across.y * point.x + across.x * point.y;
  int sample = CLAMP ((int)(depth / width * CAV_RAIL_TONES), 0, CAV_RAIL_TONES - 1);
  CavShade shade = tones[rail].shades[sample];
  CavTint tint = get_tint (painter, texture, rail, along, depth, sample);
  const float to[] = { light_channel (tint.red, shade, 0), light_channel (tint.green, shade, 1),
                       light_channel (tint.blue, shade, 2) };
  const float mean[] = { light_channel (tones[rail].tints[sample].red, shade, 0),
                         light_channel (tones[rail].tints[sample].green, shade, 1),
                         light_channel (tones[rail].tints[sample].blue, shade, 2) };
  float from[3];
  float aim[3];

  /* The figure is what the place differs by from its own tone: where the light changes within the
   * width of a pixel, the gradient below knows better. */
  fill_tone (&tones[rail], depth / width, from);
  for (int i = 0; i < 3; i++)
    aim[i] = CLAMP (from[i] + to[i] - mean[i], 0.0f, 255.0f);
  return find_veil (from, aim);
}

cairo_surface_t *
cav_scene_painter_create_figure (const CavScenePainter *painter,
                                 const CavRailTones *tones,
                                 double fineness)
{
  CavBox box = cav_frame_face_get_bounds (&painter->face);
  int width = MAX (1, (int)ceil ((box.x1 - box.x0) * fineness));
  int height = MAX (1, (int)ceil ((box.y1 - box.y0) * fineness));
  double step_x = (box.x1 - box.x0) / width;
  double step_y = (box.y1 - box.y0) / height;
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  guint8 *data = cairo_image_surface_get_data (surface);
  gsize stride = (gsize)cairo_image_surface_get_stride (surface);
  CavWoodTexture texture;

  if (data == NULL)
    {
      cairo_surface_destroy (surface);
      return NULL;
    }
  init_texture (painter, &texture, 1.0 / fineness);
  for (int y = 0; y < height; y++)
    {
      guint32 *row = (guint32 *)(void *)(data + (gsize)y * stride);

      for (int x = 0; x < width; x++)
        row[x] = get_figure (painter, tones, &texture,
                             CAV_POINT (box.x0 + (x + 0.5) * step_x, box.y0 + (y + 0.5) * step_y));
    }
  cairo_surface_mark_dirty (surface);
  return surface;
}
