/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-byte-stream-private.h"
#include "drawing/cav-preview-private.h"
#include "drawing/cav-scene.h"

/* Part of the picture that the frame fills, by its longer side; the rest is wall. */
#define FILL 0.80
/* Places across a rail that are shaded apart: no more than fit in 16 bits for twelve rails. */
#define SAMPLES_MIN 64
#define SAMPLES_MAX 2048

static int
get_sample_count (double molding, double scale)
{
  return CLAMP ((int)(molding * scale * 2.0), SAMPLES_MIN, SAMPLES_MAX);
}

static double
get_scale (const CavFrameFace *face, int width, int height)
{
  CavBox box = cav_frame_face_get_bounds (face);

  return fmin (width * FILL / (box.x1 - box.x0), height * FILL / (box.y1 - box.y0));
}

static void
fill_faces (CavPreview *self)
{
  const CavFrameSizes *sizes = &self->sizes;
  double x = (sizes->borders.left - sizes->borders.right) / 2.0;
  double y = (sizes->borders.top - sizes->borders.bottom) / 2.0;
  CavSize image = sizes->picture;

  for (int i = 0; i < self->settings.n_mats; i++)
    {
      cav_frame_face_init (&self->windows[i], self->face.sides, sizes->windows[i]);
      cav_frame_face_shift (&self->windows[i], x, y);
    }
  cav_frame_face_init (&self->image, self->face.sides, image);
  if (self->settings.n_mats > 0 && !self->settings.floated)
    cav_frame_face_shift (&self->image, x, y);
}

/* The front of what lies behind the glass. */
static double
get_mat_height (const CavFrame *frame)
{
  double behind = frame->settings.spacer;

  if (frame->settings.glazing != CAV_GLAZING_NONE)
    behind += frame->settings.glazing_thickness;
  return fmax (frame->sizes.rabbet_depth - behind, 0.0);
}

CavPreview *
cav_preview_new (const CavFrame *frame,
                 const CavProfile *profile,
                 const CavFrameGrain *grain,
                 cairo_surface_t *picture,
                 int width,
                 int height)
{
  g_return_val_if_fail (frame != NULL && profile != NULL, NULL);

  CavFrameFace face;
  if (!frame->possible || width < 1 || height < 1 || width > CAV_PREVIEW_MAX
      || height > CAV_PREVIEW_MAX)
    return NULL;
  cav_frame_face_init (&face, frame->settings.sides, frame->sizes.outside);
  double scale = get_scale (&face, width, height);
  CavRelief *relief = cav_relief_new (profile, get_sample_count (frame->sizes.molding, scale));
  if (relief == NULL)
    return NULL;

  CavPreview *self = g_new0 (CavPreview, 1);
  self->width = width;
  self->height = height;
  self->scale = scale;
  self->face = face;
  self->relief = relief;
  self->settings = frame->settings;
  self->settings.picture_file = NULL;
  self->sizes = frame->sizes;
  self->mat_height = get_mat_height (frame);
  self->gloss = cav_finish_get_gloss (frame->settings.finish);
  self->colours = g_new0 (guint32, (gsize)width * (gsize)height);
  self->shades = g_new0 (guint16, (gsize)width * (gsize)height);
  self->spans = g_array_new (FALSE, FALSE, sizeof (CavSpan));
  self->wall_spans = g_array_new (FALSE, FALSE, sizeof (CavSpan));
  self->mat_spans = g_array_new (FALSE, FALSE, sizeof (CavSpan));
  self->seams = g_array_new (FALSE, FALSE, sizeof (CavSeam));
  self->n_table = 1 + face.sides * (1 + relief->n_samples);
  self->table = g_new0 (CavShade, self->n_table);
  self->surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);
  fill_faces (self);
  cav_preview_paint_frame (self, frame, profile, grain);
  cav_preview_paint_flat (self, picture);
  return self;
}

void
cav_preview_free (CavPreview *self)
{
  if (self == NULL)
    return;
  cav_relief_free (self->relief);
  cairo_surface_destroy (self->surface);
  g_array_unref (self->spans);
  g_array_unref (self->wall_spans);
  g_array_unref (self->mat_spans);
  g_array_unref (self->seams);
  g_free (self->colours);
  g_free (self->shades);
  g_free (self->table);
  g_free (self);
}

double
cav_preview_get_scale (const CavPreview *self)
{
  g_return_val_if_fail (self != NULL, 0.0);
  return self->scale;
}

static void
fill_table (CavPreview *self, CavLamp lamp)
{
  self->table[0] = (CavShade){ .scale = 256 };
  for (int i = 0; i < self->face.sides; i++)
    {
      self->table[1 + i] = cav_preview_get_bevel_shade (self->face.across[i], lamp);
      cav_preview_fill_rail_shades (self->relief, &self->gloss, self->face.across[i], lamp,
                                    self->table + 1 + self->face.sides
                                        + i * self->relief->n_samples);
    }
}

static inline guint32
shade_colour (guint32 colour, CavShade shade)
{
  guint red = (((colour >> 16) & 255) * shade.scale >> 8) + shade.add[0];
  guint green = (((colour >> 8) & 255) * shade.scale >> 8) + shade.add[1];
  guint blue = ((colour & 255) * shade.scale >> 8) + shade.add[2];

  return MIN (red, 255u) << 16 | MIN (green, 255u) << 8 | MIN (blue, 255u);
}

static void
shade_span (const CavPreview *self, const CavSpan *span, guint32 *row)
{
  const guint32 *colours = self->colours + (gsize)span->row * (gsize)self->width;
  const guint16 *shades = self->shades + (gsize)span->row * (gsize)self->width;

  for (int x = span->first; x < span->last; x++)
    row[x] = shade_colour (colours[x], self->table[shades[x]]);
}

static guint32
blend_whole (guint32 a, guint32 b, guint share)
{
  guint32 odd = ((a & 0xff00ff) * (256 - share) + (b & 0xff00ff) * share) >> 8;
  guint32 even = ((a & 0x00ff00) * (256 - share) + (b & 0x00ff00) * share) >> 8;

  return (odd & 0xff00ff) | (even & 0x00ff00);
}

static void
paint_seams (const CavPreview *self, guint32 *pixels, int stride)
{
  for (guint i = 0; i < self->seams->len; i++)
    {
      const CavSeam *seam = &g_array_index (self->seams, CavSeam, i);
      guint32 *pixel = pixels + (gsize)(seam->at / self->width) * (gsize)stride
                       + (gsize)(seam->at % self->width);

      *pixel = blend_whole (*pixel, shade_colour (seam->colour, self->table[seam->shade]),
                            seam->share);
    }
}

cairo_surface_t *
cav_preview_shade (CavPreview *self, double light_angle, double light_height)
{
  g_return_val_if_fail (self != NULL, NULL);

  CavLamp lamp = cav_lamp_get (light_angle, light_height);
  cairo_surface_flush (self->surface);
  guint32 *pixels = (guint32 *)(void *)cairo_image_surface_get_data (self->surface);
  int stride = cairo_image_surface_get_stride (self->surface) / 4;
  if (pixels == NULL)
    return self->surface;

  fill_table (self, lamp);
  for (int y = 0; y < self->height; y++)
    memcpy (pixels + (gsize)y * (gsize)stride, self->colours + (gsize)y * (gsize)self->width,
            (gsize)self->width * 4);
  for (guint i = 0; i < self->spans->len; i++)
    {
      const CavSpan *span = &g_array_index (self->spans, CavSpan, i);

      shade_span (self, span, pixels + (gsize)span->row * (gsize)stride);
    }
  cav_preview_paint_shadows (self, lamp, pixels, stride);
  paint_seams (self, pixels, stride);
  cairo_surface_mark_dirty (self->surface);
  return self->surface;
}

GBytes *
cav_preview_create_png (const CavFrame *frame,
                        const CavProfile *profile,
                        const CavFrameGrain *grain,
                        cairo_surface_t *picture,
                        int width,
                        int height,
                        GError **error)
{
  g_return_val_if_fail (frame != NULL && profile != NULL, NULL);

  g_autoptr (CavPreview) preview = cav_preview_new (frame, profile, grain, picture, width, height);
  if (preview == NULL)
    {
      g_set_error (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
                   _ ("the frame cannot be drawn in %d × %d pixels; see what is wrong with it, and "
                      "keep each side between 1 and %d"),
                   width, height, CAV_PREVIEW_MAX);
      return NULL;
    }
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface
      = cav_preview_shade (preview, frame->settings.light_angle, frame->settings.light_height);
  cairo_status_t status
      = cairo_surface_write_to_png_stream (surface, cav_byte_stream_append_cb, bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
                   _ ("the preview could not be written (%s); try again with less else running"),
                   cairo_status_to_string (status));
      return NULL;
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}
