/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-point.h"

#include <math.h>

#include "geometry/cav-angle-private.h"

gboolean
cav_point_is_finite (CavPoint point)
{
  return isfinite (point.x) && isfinite (point.y);
}

/* Coordinates are far too small to overflow here, and hypot() is ten times as slow. */
static double
square_distance (CavPoint a, CavPoint b)
{
  return (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
}

double
cav_point_distance (CavPoint a, CavPoint b)
{
  return sqrt (square_distance (a, b));
}

/* Never true where a coordinate is not a number. */
gboolean
cav_point_near (CavPoint a, CavPoint b, double tolerance)
{
  return square_distance (a, b) <= tolerance * tolerance;
}

/* The angle is brought within 45 degrees of the nearest multiple of 90 first, so that quarter
 * turns are exact and the values at mirrored angles are the same to the last bit. */
void
cav_angle_sincos (double degrees, double *out_sin, double *out_cos)
{
  double turned = isfinite (degrees) ? fmod (degrees, 360.0) : 0.0;
  double quarter = nearbyint (turned / 90.0);
  double rest = (turned - 90.0 * quarter) * (G_PI / 180.0);
  double s = sin (rest);
  double c = cos (rest);

  switch ((int)quarter & 3)
    {
    case 0:
      *out_sin = s;
      *out_cos = c;
      break;
    case 1:
      *out_sin = c;
      *out_cos = -s;
      break;
    case 2:
      *out_sin = -s;
      *out_cos = -c;
      break;
    default:
      *out_sin = -c;
      *out_cos = s;
      break;
    }
}

CavTransform
cav_transform_identity (void)
{
  return (CavTransform){ .xx = 1.0, .yy = 1.0 };
}

CavTransform
cav_transform_translation (double dx, double dy)
{
  return (CavTransform){ .xx = 1.0, .x0 = dx, .yy = 1.0, .y0 = dy };
}

CavTransform
cav_transform_rotation (double degrees)
{
  double s, c;

  cav_angle_sincos (degrees, &s, &c);
  return (CavTransform){ .xx = c, .xy = -s, .yx = s, .yy = c };
}

CavTransform
cav_transform_scale (double sx, double sy)
{
  return (CavTransform){ .xx = sx, .yy = sy };
}

CavTransform
cav_transform_compose (CavTransform first, CavTransform second)
{
  return (CavTransform){
    .xx = second.xx * first.xx + second.xy * first.yx,
    .xy = second.xx * first.xy + second.xy * first.yy,
    .x0 = second.xx * first.x0 + second.xy * first.y0 + second.x0,
    .yx = second.yx * first.xx + second.yy * first.yx,
    .yy = second.yx * first.xy + second.yy * first.yy,
    .y0 = second.yx * first.x0 + second.yy * first.y0 + second.y0,
  };
}

CavPoint
cav_transform_point (CavTransform transform, CavPoint point)
{
  return CAV_POINT (transform.xx * point.x + transform.xy * point.y + transform.x0,
                    transform.yx * point.x + transform.yy * point.y + transform.y0);
}
