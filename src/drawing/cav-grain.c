/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-grain.h"

#include <math.h>

#include "drawing/cav-end-grain.h"
#include "drawing/cav-pen-private.h"

/* Mean width of a year, mm; that of a slow ash or walnut. */
#define YEAR 2.1
/* Years closer than this, pixels, are drawn every other one, and so on. */
#define LEAST_GAP 5.0
/* Chords of a year's line. */
#define N_CHORDS 48
/* From so many pixels a millimetre on pores and rays are seen. */
#define PORES_FROM 9.0
#define MOST_PORES 9000

typedef struct
{
  CavPen pen;
  const CavPane *pane;
  CavPoint heart;
  CavBox seen;  /* what the pane shows of the blank, mm */
  double left;  /* angles under which that is seen from the heart, radians */
  double right; /* */
  double near;  /* least and greatest distance of it from the heart, mm */
  double far;   /* */
} Grain;

gboolean
cav_pane_equal (const CavPane *a, const CavPane *b)
{
  return cav_view_equal (&a->view, &b->view) && fabs (a->width - b->width) < 1e-6
         && fabs (a->height - b->height) < 1e-6 && fabs (a->device - b->device) < 1e-6
         && fabs (cav_pane_get_letters (a) - cav_pane_get_letters (b)) < 1e-6
         && a->light == b->light;
}

double
cav_pane_get_letters (const CavPane *pane)
{
  return pane->letters > 0 ? pane->letters : 1.0;
}

cairo_surface_t *
cav_pane_create_surface (const CavPane *pane)
{
  double device = fmax (pane->device, 1);
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, MAX ((int)ceil (pane->width * device), 1),
                                    MAX ((int)ceil (pane->height * device), 1));

  cairo_surface_set_device_scale (surface, device, device);
  return surface;
}

/* 0 to 1, the same for the same number; after the integer mix of MurmurHash3 (public domain). */
static double
get_chance (guint32 number)
{
  number ^= number >> 16;
  number *= 0x85ebca6bu;
  number ^= number >> 13;
  number *= 0xc2b2ae35u;
  number ^= number >> 16;
  return number / 4294967296.0;
}

static void
look_around (Grain *grain)
{
  const CavPoint corners[] = { { grain->seen.x0, grain->seen.y0 },
                               { grain->seen.x1, grain->seen.y0 },
                               { grain->seen.x0, grain->seen.y1 },
                               { grain->seen.x1, grain->seen.y1 } };

  grain->left = 0;
  grain->right = G_PI;
  grain->near = grain->seen.y0 - grain->heart.y;
  grain->far = 0;
  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    {
      double dx = corners[i].x - grain->heart.x;
      double dy = corners[i].y - grain->heart.y;

      grain->left = fmax (grain->left, atan2 (dy, dx));
      grain->right = fmin (grain->right, atan2 (dy, dx));
      grain->far = fmax (grain->far, hypot (dx, dy));
    }
  if (grain->seen.x0 > grain->heart.x || grain->seen.x1 < grain->heart.x)
    grain->near = fmin (hypot (grain->seen.x0 - grain->heart.x, grain->near),
                        hypot (grain->seen.x1 - grain->heart.x, grain->near));
}

/* How far a year's line is from the heart in a direction: trees are not compasses. */
static double
get_radius (double radius, double angle)
{
  return radius
         * (1 + 0.018 * sin (2.3 * angle + 0.4) + 0.006 * sin (7 * angle + radius * 0.11)
            + 0.0016 * sin (23 * angle + radius * 0.7));
}

static CavPoint
get_place (const Grain *grain, double radius, double angle)
{
  double reach = get_radius (radius, angle);

  return cav_view_to_pixel (&grain->pane->view, CAV_POINT (grain->heart.x + reach * cos (angle),
                                                           grain->heart.y + reach * sin (angle)));
}

static void
draw_year (Grain *grain, double radius, double width, double alpha)
{
  cairo_t *cr = grain->pen.cr;

  for (int i = 0; i <= N_CHORDS; i++)
    {
      CavPoint place = get_place (
          grain, radius, grain->right + (grain->left - grain->right) * i / (double)N_CHORDS);

      if (i == 0)
        cairo_move_to (cr, place.x, place.y);
      else
        cairo_line_to (cr, place.x, place.y);
    }
  cav_pen_set_tone (&grain->pen, CAV_TONE_RING, alpha);
  cairo_set_line_width (cr, width);
  cairo_stroke (cr);
}

/* Late wood darkens toward the end of a year: a wide soft line within, a thin one at its edge. */
static void
draw_years (Grain *grain)
{
  double scale = grain->pane->view.scale;
  double radius = YEAR / 2;
  int every = 1;

  while (YEAR * scale * every < LEAST_GAP)
    every *= 2;
  for (guint32 year = 0; radius < grain->far * 1.03; year++)
    {
      double gap = YEAR * (0.55 + 0.9 * get_chance (year * 7 + 3));

      radius += gap;
      if (radius < grain->near * 0.97 - gap || year % (guint32)every != 0)
        continue;
      draw_year (grain, radius - 0.13 * gap, fmin (0.34 * gap * scale, 26), 0.16);
      draw_year (grain, radius - 0.05 * gap, fmin (0.16 * gap * scale, 12), 0.18);
      draw_year (grain, radius, CLAMP (0.045 * gap * scale, 0.7, 4),
                 0.4 + 0.35 * get_chance (year + 91));
    }
}

static void
draw_rays (Grain *grain)
{
  cairo_t *cr = grain->pen.cr;
  double step = 0.9 / fmax (grain->far, 1);

  cav_pen_set_tone (&grain->pen, CAV_TONE_PALE, 0.5);
  cairo_set_line_width (cr, CLAMP (0.03 * grain->pane->view.scale, 0.5, 3));
  for (double angle = grain->right; angle < grain->left; angle += step)
    {
      guint32 seed = (guint32)lround (angle * 4096);
      double from = grain->near + (grain->far - grain->near) * get_chance (seed);
      double to = from + 2 + 9 * get_chance (seed + 17);
      CavPoint a = get_place (grain, from, angle + 0.3 * step * get_chance (seed + 5));
      CavPoint b = get_place (grain, to, angle + 0.3 * step * get_chance (seed + 5));

      cairo_move_to (cr, a.x, a.y);
      cairo_line_to (cr, b.x, b.y);
    }
  cairo_stroke (cr);
}

/* Pores are widest in the early wood of a year. They are seen where a square of wood is large. */
static void
draw_pores (Grain *grain)
{
  cairo_t *cr = grain->pen.cr;
  double scale = grain->pane->view.scale;
  double step = fmax (0.42, sqrt ((grain->seen.x1 - grain->seen.x0)
                                  * (grain->seen.y1 - grain->seen.y0) / MOST_PORES));
  int i0 = (int)floor (grain->seen.x0 / step);
  int j0 = (int)floor (grain->seen.y0 / step);

  cav_pen_set_tone (&grain->pen, CAV_TONE_RING, 0.42);
  for (int j = j0; j * step < grain->seen.y1; j++)
    for (int i = i0; i * step < grain->seen.x1; i++)
      {
        guint32 seed = (guint32)(i * 7919 + j * 104729);
        CavPoint place = cav_view_to_pixel (
            &grain->pane->view,
            CAV_POINT ((i + get_chance (seed)) * step, (j + get_chance (seed + 11)) * step));
        double size = scale * (0.018 + 0.05 * get_chance (seed + 23));

        if (get_chance (seed + 31) < 0.45)
          continue;
        cairo_rectangle (cr, place.x - size / 2, place.y - size / 2, size, size);
      }
  cairo_fill (cr);
}

static void
draw_grain (Grain *grain)
{
  cairo_t *cr = grain->pen.cr;
  CavBox box = cav_view_box_to_pixels (&grain->pane->view, grain->seen);

  cairo_rectangle (cr, box.x0 - 1, box.y0 - 1, box.x1 - box.x0 + 2, box.y1 - box.y0 + 2);
  cairo_clip (cr);
  cav_pen_set_tone (&grain->pen, CAV_TONE_WOOD, 1);
  cairo_paint (cr);
  if (grain->pane->view.scale >= PORES_FROM)
    draw_rays (grain);
  draw_years (grain);
  if (grain->pane->view.scale >= PORES_FROM)
    draw_pores (grain);
}

/* (transfer full) As large as what is seen of the blank, and standing where that is. */
static cairo_surface_t *
create_surface (const Grain *grain)
{
  const CavPane *pane = grain->pane;
  CavBox box = cav_view_box_to_pixels (&pane->view, grain->seen);
  double x0 = fmax (floor (box.x0) - 1, 0);
  double y0 = fmax (floor (box.y0) - 1, 0);
  CavPane part = { .width = fmin (ceil (box.x1) + 1, pane->width) - x0,
                   .height = fmin (ceil (box.y1) + 1, pane->height) - y0,
                   .device = pane->device };
  cairo_surface_t *surface = cav_pane_create_surface (&part);

  cairo_surface_set_device_offset (surface, -x0 * fmax (pane->device, 1),
                                   -y0 * fmax (pane->device, 1));
  return surface;
}

cairo_surface_t *
cav_grain_create_surface (const CavBlank *blank, const CavPane *pane)
{
  CavBox shown = cav_view_box_to_wood (&pane->view, (CavBox){ 0, 0, pane->width, pane->height });
  Grain grain = { .pane = pane, .heart = cav_end_grain_get_heart (blank) };
  cairo_surface_t *surface;
  cairo_t *cr;

  grain.seen = (CavBox){ fmax (shown.x0, 0), fmax (shown.y0, 0), fmin (shown.x1, blank->width),
                         fmin (shown.y1, blank->thickness) };
  if (grain.seen.x1 <= grain.seen.x0 || grain.seen.y1 <= grain.seen.y0)
    return cav_pane_create_surface (&(CavPane){ .device = 1 });
  surface = create_surface (&grain);
  cr = cairo_create (surface);
  look_around (&grain);
  cav_pen_begin (&grain.pen, cr, pane);
  draw_grain (&grain);
  cav_pen_end (&grain.pen);
  cairo_destroy (cr);
  return surface;
}
