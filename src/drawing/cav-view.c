/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-view.h"

#include <math.h>

/* Less air than this is never left. */
#define LEAST_AIR 12.0

static double
limit_scale (double scale)
{
  return CLAMP (scale, CAV_VIEW_SCALE_MIN, CAV_VIEW_SCALE_MAX);
}

CavView
cav_view_fit (const CavBlank *blank, double width, double height, double air)
{
  CavView view = { 1, 0, 0 };
  double wood_width = fmax (blank->width, CAV_BLANK_MIN);
  double wood_height = fmax (blank->thickness, CAV_BLANK_MIN);
  double gap = CLAMP (air, LEAST_AIR, fmax (fmin (width, height) / 4, LEAST_AIR));

  view.scale
      = limit_scale (fmin ((width - 2 * gap) / wood_width, (height - 2 * gap) / wood_height));
  view.x = (width - wood_width * view.scale) / 2;
  view.y = (height + wood_height * view.scale) / 2;
  return view;
}

void
cav_view_zoom (CavView *self, double factor, CavPoint pixel)
{
  double scale;

  g_return_if_fail (isfinite (factor) && factor > 0);

  scale = limit_scale (self->scale * factor);
  self->x = pixel.x - (pixel.x - self->x) * scale / self->scale;
  self->y = pixel.y - (pixel.y - self->y) * scale / self->scale;
  self->scale = scale;
}

void
cav_view_pan (CavView *self, double dx, double dy)
{
  g_return_if_fail (isfinite (dx) && isfinite (dy));

  self->x += dx;
  self->y += dy;
}

/* By how much from .. to has to move to reach margin into 0 .. size. */
static double
get_shift (double from, double to, double size, double margin)
{
  double keep = fmin (margin, fmin (to - from, size));

  if (to < keep)
    return keep - to;
  if (from > size - keep)
    return size - keep - from;
  return 0;
}

void
cav_view_hold (CavView *self, const CavBlank *blank, double width, double height, double margin)
{
  CavBox box = cav_view_box_to_pixels (self, (CavBox){ 0, 0, blank->width, blank->thickness });

  self->x += get_shift (box.x0, box.x1, width, margin);
  self->y += get_shift (box.y0, box.y1, height, margin);
}

gboolean
cav_view_equal (const CavView *a, const CavView *b)
{
  /* Nearer than a hundredth of a pixel at the far end of a large screen. */
  return fabs (a->scale - b->scale) < 1e-9 * a->scale && fabs (a->x - b->x) < 1e-6
         && fabs (a->y - b->y) < 1e-6;
}

CavPoint
cav_view_to_pixel (const CavView *self, CavPoint wood)
{
  return CAV_POINT (self->x + wood.x * self->scale, self->y - wood.y * self->scale);
}

CavPoint
cav_view_to_wood (const CavView *self, CavPoint pixel)
{
  return CAV_POINT ((pixel.x - self->x) / self->scale, (self->y - pixel.y) / self->scale);
}

CavBox
cav_view_box_to_pixels (const CavView *self, CavBox wood)
{
  return (CavBox){ self->x + wood.x0 * self->scale, self->y - wood.y1 * self->scale,
                   self->x + wood.x1 * self->scale, self->y - wood.y0 * self->scale };
}

CavBox
cav_view_box_to_wood (const CavView *self, CavBox pixels)
{
  return (CavBox){ (pixels.x0 - self->x) / self->scale, (self->y - pixels.y1) / self->scale,
                   (pixels.x1 - self->x) / self->scale, (self->y - pixels.y0) / self->scale };
}

CavTransform
cav_view_get_transform (const CavView *self)
{
  return (CavTransform){ self->scale, 0, self->x, 0, -self->scale, self->y };
}
