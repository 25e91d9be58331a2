/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* A point or a vector in the plane, millimetres. */
typedef struct
{
  double x;
  double y;
} CavPoint;

#define CAV_POINT(x_, y_) ((CavPoint){ (x_), (y_) })

/* An affine map: x' = xx x + xy y + x0, y' = yx x + yy y + y0. */
typedef struct
{
  double xx, xy, x0;
  double yx, yy, y0;
} CavTransform;

/* A box; empty when x1 < x0. */
typedef struct
{
  double x0, y0;
  double x1, y1;
} CavBox;

gboolean cav_point_is_finite (CavPoint point);
double cav_point_distance (CavPoint a, CavPoint b);
gboolean cav_point_near (CavPoint a, CavPoint b, double tolerance);

CavTransform cav_transform_identity (void);
CavTransform cav_transform_translation (double dx, double dy);
/* Turns counter-clockwise by an angle in degrees about the origin; exact for multiples of 90. */
CavTransform cav_transform_rotation (double degrees);
CavTransform cav_transform_scale (double sx, double sy);
/* The map that does first, then second. */
CavTransform cav_transform_compose (CavTransform first, CavTransform second);
CavPoint cav_transform_point (CavTransform transform, CavPoint point);

G_END_DECLS
