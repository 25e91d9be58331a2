/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview.h"

#include <math.h>

#include "drawing/cav-noise.h"

/* Everything in shares of the paper's width, upright; a wide box gets the fern in its middle. */
#define STEM_LENGTH 0.98
#define N_PINNAE 17
#define N_LEAFLETS 15

static void
set_colour (cairo_t *cr, double tone)
{
  cairo_set_source_rgb (cr, 0.27 + 0.16 * tone, 0.36 + 0.13 * tone, 0.20 + 0.07 * tone);
}

/* Where the stem is at a share of its length, and which way it runs: a slow curve to the right. */
static CavPoint
get_stem (double t, double *out_angle)
{
  double bend = 0.10 * t * t;

  *out_angle = -G_PI / 2 + 0.32 * t * t;
  return CAV_POINT (-0.04 + bend, 0.5 - t);
}

/* A leaflet as two curves from its foot to its tip. */
static void
draw_leaflet (cairo_t *cr, double length, double width)
{
  cairo_move_to (cr, 0, 0);
  cairo_curve_to (cr, length * 0.2, -width, length * 0.8, -width * 0.8, length, 0);
  cairo_curve_to (cr, length * 0.75, width * 0.55, length * 0.2, width * 0.6, 0, 0);
  cairo_fill (cr);
}

/* One pinna along the x axis: leaflets on both sides that get smaller toward the tip. */
static void
draw_pinna (cairo_t *cr, double length, int seed)
{
  for (int i = 0; i < N_LEAFLETS; i++)
    {
      double t = (i + 0.6) / N_LEAFLETS;
      double size = length * 0.105 * (1.0 - 0.72 * t) * (0.94 + 0.12 * cav_noise_hash (seed, i, 1));

      for (int way = -1; way <= 1; way += 2)
        {
          set_colour (cr, cav_noise_hash (seed, i, way + 5));
          cairo_save (cr);
          cairo_translate (cr, t * length, way * 0.012 * length * t * t);
          cairo_rotate (cr, way * (1.2 - 0.85 * t));
          cairo_scale (cr, 1, way);
          draw_leaflet (cr, size, size * 0.42);
          cairo_restore (cr);
        }
    }
  set_colour (cr, 0.1);
  cairo_set_line_width (cr, length * 0.022);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, length * 0.98, 0);
  cairo_stroke (cr);
}

static void
draw_frond (cairo_t *cr)
{
  double angle;

  for (int i = N_PINNAE - 1; i >= 0; i--)
    {
      double t = 0.16 + 0.80 * pow ((i + 0.5) / N_PINNAE, 0.92);
      double widest = t < 0.3 ? 0.72 + 0.28 * (t - 0.16) / 0.14 : pow (1.0 - (t - 0.3) / 0.72, 0.9);
      CavPoint foot = get_stem (t * STEM_LENGTH, &angle);

      for (int way = -1; way <= 1; way += 2)
        {
          int seed = 2 * i + (way > 0);
          double swing = 0.06 * (cav_noise_hash (seed, 3, 9) - 0.5);

          cairo_save (cr);
          cairo_translate (cr, foot.x, foot.y);
          cairo_rotate (cr, angle + way * (1.22 - 0.42 * t + swing));
          draw_pinna (cr, 0.31 * widest, seed);
          cairo_restore (cr);
        }
    }
  set_colour (cr, 0.0);
  for (int i = 0; i < 60; i++)
    {
      CavPoint from = get_stem (STEM_LENGTH * i / 60.0, &angle);
      CavPoint to = get_stem (STEM_LENGTH * (i + 1.15) / 60.0, &angle);

      cairo_set_line_width (cr, 0.012 * (1.1 - i / 60.0));
      cairo_move_to (cr, from.x, from.y);
      cairo_line_to (cr, to.x, to.y);
      cairo_stroke (cr);
    }
}

void
cav_draw_fern (cairo_t *cr, double width, double height)
{
  g_return_if_fail (cr != NULL);

  if (!(width > 0.0) || !(height > 0.0))
    return;
  double size = fmin (height / 1.18, width * 1.32);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  cairo_set_source_rgb (cr, 0.955, 0.94, 0.895);
  cairo_paint (cr);
  cairo_translate (cr, width / 2, height / 2);
  cairo_scale (cr, size, size);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  draw_frond (cr);
  cairo_restore (cr);
}

void
cav_draw_picture (cairo_t *cr, cairo_surface_t *picture, double width, double height)
{
  g_return_if_fail (cr != NULL);

  double image_width = picture != NULL ? cairo_image_surface_get_width (picture) : 0;
  double image_height = picture != NULL ? cairo_image_surface_get_height (picture) : 0;
  if (!(image_width > 0) || !(image_height > 0))
    {
      cav_draw_fern (cr, width, height);
      return;
    }
  double scale = fmax (width / image_width, height / image_height);
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  cairo_translate (cr, (width - image_width * scale) / 2, (height - image_height * scale) / 2);
  cairo_scale (cr, scale, scale);
  cairo_set_source_surface (cr, picture, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_paint (cr);
  cairo_restore (cr);
}

void
cav_draw_missing_picture (cairo_t *cr, double width, double height)
{
  cairo_save (cr);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_set_source_rgb (cr, 0.90, 0.89, 0.87);
  cairo_fill_preserve (cr);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, width, height);
  cairo_move_to (cr, width, 0);
  cairo_line_to (cr, 0, height);
  cairo_set_source_rgb (cr, 0.45, 0.44, 0.42);
  cairo_set_line_width (cr, (width + height) / 600.0);
  cairo_stroke (cr);
  cairo_restore (cr);
}
