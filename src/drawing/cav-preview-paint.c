/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-noise.h"
#include "drawing/cav-preview-private.h"
#include "drawing/cav-wood-texture.h"

static guint32
blend (guint32 a, guint32 b, double share)
{
  guint32 result = 0;

  for (int shift = 0; shift <= 16; shift += 8)
    {
      double first = (a >> shift) & 255;
      double second = (b >> shift) & 255;

      result |= (guint32)(first + (second - first) * CLAMP (share, 0.0, 1.0) + 0.5) << shift;
    }
  return result;
}

static guint32
scale_colour (guint32 colour, double by)
{
  return blend (0, colour, by);
}

typedef struct
{
  const CavPreview *self;
  CavWoodTexture texture;
  CavFinish finish;
  CavFrameGrain grain;
} WoodPainter;

static guint32
get_wood (const WoodPainter *painter, int rail, CavPoint point, double depth, int sample)
{
  const CavPreview *self = painter->self;
  CavPoint across = self->face.across[rail];
  /* Clockwise along the rail. */
  double along = -across.y * point.x + across.x * point.y;
  double place = self->relief->outer - depth;
  double height = self->relief->heights[sample];

  cav_rail_grain_map (&painter->grain.rails[rail], &along, &place, &height);
  CavTint tint
      = cav_wood_texture_get (&painter->texture, (float)along, (float)place, (float)height);
  tint = cav_finish_get_tint (painter->finish, tint, (float)along, (float)place);
  return cav_pack_colour (tint.red, tint.green, tint.blue);
}

static int
get_sample (const CavPreview *self, double depth)
{
  int sample = (int)(depth / self->relief->width * self->relief->n_samples);

  return CLAMP (sample, 0, self->relief->n_samples - 1);
}

static guint16
get_rail_shade (const CavPreview *self, int rail, int sample)
{
  return (guint16)(1 + self->face.sides + rail * self->relief->n_samples + sample);
}

static void
add_seam (CavPreview *self, int at, guint16 shade, guint32 colour, double share)
{
  CavSeam seam = {
    .at = at, .shade = shade, .share = (guint16)(256.0 * CLAMP (share, 0.0, 1.0)), .colour = colour
  };

  if (seam.share > 0)
    g_array_append_val (self->seams, seam);
}

static double
get_side_depth (const CavFrameFace *face, int side, CavPoint point)
{
  return face->reach[side] - face->across[side].x * point.x - face->across[side].y * point.y;
}

/* Half of the neighbour's light on a pixel that the mitre cuts; a hair of shadow lies in the joint
 * itself. second: how much deeper the point lies from the neighbour's side, 0 on the mitre. */
static void
add_mitre (CavPreview *self, int at, int rail, int sample, CavPoint point, double second)
{
  double pixel = 1.0 / self->scale;
  int next = (rail + 1) % self->face.sides;
  int last = (rail + self->face.sides - 1) % self->face.sides;

  if (second > pixel)
    return;
  int other = get_side_depth (&self->face, next, point) < get_side_depth (&self->face, last, point)
                  ? next
                  : last;
  double dark = second < 0.5 * pixel ? 0.9 : 1.0;
  add_seam (self, at, get_rail_shade (self, other, sample), scale_colour (self->colours[at], dark),
            0.5 * (1.0 - second / pixel));
}

/* A pixel with wood in it. Those that are only partly wood are a seam over what lies beside it. */
static gboolean
paint_wood_pixel (CavPreview *self, const WoodPainter *painter, int x, int y)
{
  double pixel = 1.0 / self->scale;
  CavPoint point = cav_preview_get_point (self, x + 0.5, y + 0.5);
  double second = 0.0;
  int rail = 0;
  double depth = cav_frame_face_get_depth (&self->face, point, &rail, &second);
  double share = 0.5 + fmin (depth, self->relief->width - depth) / pixel;

  if (share <= 0.0)
    return FALSE;

  int at = y * self->width + x;
  int sample = get_sample (self, depth);
  guint32 colour = get_wood (painter, rail, point, depth, sample);
  guint16 shade = get_rail_shade (self, rail, sample);
  if (share < 1.0)
    {
      add_seam (self, at, shade, colour, share);
      return FALSE;
    }
  self->colours[at] = colour;
  self->shades[at] = shade;
  add_mitre (self, at, rail, sample, point, second);
  return TRUE;
}

static void
end_span (CavSpan *span, int x, GArray *spans)
{
  if (span->first < 0)
    return;
  span->last = x;
  g_array_append_vals (spans, span, 1);
  span->first = -1;
}

static void
paint_row (CavPreview *self, const WoodPainter *painter, int y)
{
  CavSpan span = { .row = y, .first = -1 };

  for (int x = 0; x < self->width; x++)
    if (!paint_wood_pixel (self, painter, x, y))
      end_span (&span, x, self->spans);
    else if (span.first < 0)
      span.first = x;
  end_span (&span, self->width, self->spans);
}

void
cav_preview_paint_frame (CavPreview *self,
                         const CavFrame *frame,
                         const CavProfile *profile,
                         const CavFrameGrain *grain)
{
  WoodPainter painter = { .self = self, .finish = frame->settings.finish };

  cav_wood_texture_init (&painter.texture, frame->wood, frame->settings.sawn, profile->blank.width,
                         profile->blank.thickness, 1.0 / self->scale);
  cav_frame_grain_init (&painter.grain, frame);
  if (grain != NULL)
    painter.grain = *grain;
  for (int y = 0; y < self->height; y++)
    paint_row (self, &painter, y);
}

/* Stretches of rows whose depth lies between two limits. */
static void
collect_spans (const CavPreview *self, double from, double to, GArray *spans)
{
  g_array_set_size (spans, 0);
  for (int y = 0; y < self->height; y++)
    {
      CavSpan span = { .row = y, .first = -1 };

      for (int x = 0; x < self->width; x++)
        {
          CavPoint point = cav_preview_get_point (self, x + 0.5, y + 0.5);
          double depth = cav_frame_face_get_depth (&self->face, point, NULL, NULL);

          if (!(depth > from && depth < to))
            end_span (&span, x, spans);
          else if (span.first < 0)
            span.first = x;
        }
      end_span (&span, self->width, spans);
    }
}

/* The picture in its own pixels, where the window shows it. */
static cairo_surface_t *
create_image (const CavPreview *self, cairo_surface_t *picture, CavBox *out_box)
{
  CavBox box = cav_frame_face_get_bounds (&self->image);
  double width = (box.x1 - box.x0) * self->scale;
  double height = (box.y1 - box.y0) * self->scale;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, MAX (1, (int)ceil (width)), MAX (1, (int)ceil (height)));
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 0.955, 0.94, 0.895);
  cairo_paint (cr);
  cav_draw_picture (cr, picture, width, height);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  *out_box = box;
  return surface;
}

typedef struct
{
  CavPreview *self;
  cairo_surface_t *image;
  CavBox box;
} FlatPainter;

static guint32
get_image_pixel (const FlatPainter *painter, CavPoint point)
{
  int x = (int)((point.x - painter->box.x0) * painter->self->scale);
  int y = (int)((point.y - painter->box.y0) * painter->self->scale);
  int width = cairo_image_surface_get_width (painter->image);
  int height = cairo_image_surface_get_height (painter->image);
  const guint32 *row
      = (const guint32 *)(const void *)(cairo_image_surface_get_data (painter->image)
                                        + (gsize)CLAMP (y, 0, height - 1)
                                              * (gsize)cairo_image_surface_get_stride (
                                                  painter->image));

  return row[CLAMP (x, 0, width - 1)] & 0xffffff;
}

static guint32
get_mat_colour (guint32 colour, int x, int y)
{
  return scale_colour (colour, 0.985 + 0.015 * cav_noise_hash (x, y, 2));
}

/* From the front mat to the picture: each layer where the ones before it are open. */
static guint32
get_package_pixel (const FlatPainter *painter, CavPoint point, int x, int y, guint16 *out_shade)
{
  CavPreview *self = painter->self;
  const CavFrameSettings *settings = &self->settings;
  double pixel = 1.0 / self->scale;
  int n_mats = settings->floated ? 0 : settings->n_mats;
  guint32 colour = settings->floated ? get_mat_colour (settings->float_colour, x, y) : 0xffffff;
  double shown = cav_frame_face_get_depth (&self->image, point, NULL, NULL);

  colour = blend (colour, get_image_pixel (painter, point), 0.5 + shown / pixel);
  if (settings->floated && shown < 0.0)
    colour = scale_colour (colour, 1.0 - CAV_CONTACT_SHEET * exp (shown / CAV_CONTACT_FLOAT));
  for (int i = n_mats - 1; i >= 0; i--)
    {
      double bevel = settings->bevelled ? settings->mats[i].thickness : 0.0;
      int side = 0;
      double within = cav_frame_face_get_depth (&self->windows[i], point, &side, NULL);
      double mat = -within - bevel;

      if (within > 0.0)
        colour = scale_colour (
            colour,
            1.0
                - CAV_CONTACT
                      * exp (-within / cav_preview_get_window_contact (&settings->mats[i])));
      if (bevel > 0.0 && within < 0.5 * pixel)
        {
          colour = blend (colour, CAV_MAT_CORE, 0.5 - within / pixel);
          *out_shade = within <= 0.0 ? (guint16)(1 + side) : *out_shade;
        }
      if (mat > -0.5 * pixel)
        {
          colour
              = blend (colour, get_mat_colour (settings->mats[i].colour, x, y), 0.5 + mat / pixel);
          *out_shade = mat > 0.0 ? 0 : *out_shade;
        }
    }
  return colour;
}

/* A window somewhere behind the viewer, as two slanting stripes of pale light. */
static guint32
add_reflection (const CavPreview *self, guint32 colour, CavPoint point)
{
  double span = self->sizes.sight.width + self->sizes.sight.height;
  double t = (point.x + 0.55 * point.y) / span;
  double first = 1.0 - fmin (fabs (t + 0.12) / 0.07, 1.0);
  double second = 1.0 - fmin (fabs (t - 0.02) / 0.025, 1.0);

  return blend (colour, 0xf4f8fc,
                0.05 + 0.16 * fmin (1.0, 3.0 * first) + 0.10 * fmin (1.0, 3.0 * second));
}

static guint32
get_wall_pixel (const CavPreview *self, double distance, int x, int y)
{
  double plaster = cav_noise_hash (x / 2, y / 2, 1) * 0.6 + cav_noise_hash (x, y, 3) * 0.4;
  double contact = CAV_CONTACT * exp (-distance / CAV_CONTACT_WALL);

  return scale_colour (self->settings.wall_colour, (0.985 + 0.015 * plaster) * (1.0 - contact));
}

static void
paint_flat_pixel (const FlatPainter *painter, int x, int y)
{
  CavPreview *self = painter->self;
  CavPoint point = cav_preview_get_point (self, x + 0.5, y + 0.5);
  double depth = cav_frame_face_get_depth (&self->face, point, NULL, NULL);
  double pixel = 1.0 / self->scale;
  double within = depth - self->relief->width;
  int at = y * self->width + x;
  guint32 colour;
  guint16 shade = 0;

  if (depth >= 0.5 * pixel && within <= -0.5 * pixel)
    return;
  if (depth < 0.5 * pixel)
    colour = get_wall_pixel (self, cav_frame_face_get_distance (&self->face, point), x, y);
  else
    {
      colour = get_package_pixel (painter, point, x, y, &shade);
      colour
          = scale_colour (colour, 1.0 - CAV_CONTACT * exp (-fmax (within, 0.0) / CAV_CONTACT_MAT));
      if (self->settings.reflection && self->settings.glazing != CAV_GLAZING_NONE)
        colour = add_reflection (self, colour, point);
    }
  self->colours[at] = colour;
  self->shades[at] = shade;
}

/* Bevels take the light like rails do, so their pixels join the spans that are shaded. */
static void
collect_bevel_spans (CavPreview *self)
{
  for (int y = 0; y < self->height; y++)
    for (int x = 0; x < self->width; x++)
      {
        CavSpan span = { .row = y, .first = x };

        while (x < self->width && self->shades[y * self->width + x] >= 1
               && self->shades[y * self->width + x] <= self->face.sides)
          x++;
        span.last = x;
        if (span.last > span.first)
          g_array_append_val (self->spans, span);
      }
}

void
cav_preview_paint_flat (CavPreview *self, cairo_surface_t *picture)
{
  FlatPainter painter = { .self = self };

  painter.image = create_image (self, picture, &painter.box);
  for (int y = 0; y < self->height; y++)
    for (int x = 0; x < self->width; x++)
      paint_flat_pixel (&painter, x, y);
  cairo_surface_destroy (painter.image);
  collect_bevel_spans (self);
  collect_spans (self, -INFINITY, 0.5 / self->scale, self->wall_spans);
  collect_spans (self, self->relief->width - 0.5 / self->scale, INFINITY, self->mat_spans);
}
