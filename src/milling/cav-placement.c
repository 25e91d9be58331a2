/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-placement.h"

gboolean
cav_side_is_flat (CavSide side)
{
  return side == CAV_SIDE_BACK || side == CAV_SIDE_FACE;
}

CavSide
cav_side_get_opposite (CavSide side)
{
  switch (side)
    {
    case CAV_SIDE_BACK:
      return CAV_SIDE_FACE;
    case CAV_SIDE_FACE:
      return CAV_SIDE_BACK;
    case CAV_SIDE_INSIDE:
      return CAV_SIDE_OUTSIDE;
    case CAV_SIDE_OUTSIDE:
    default:
      return CAV_SIDE_INSIDE;
    }
}

gboolean
cav_placement_is_possible (CavSide down, CavSide against)
{
  return cav_side_is_flat (down) != cav_side_is_flat (against);
}

double
cav_placement_get_reach (const CavBlank *blank, CavSide down)
{
  return cav_side_is_flat (down) ? blank->width : blank->thickness;
}

double
cav_placement_get_height (const CavBlank *blank, CavSide down)
{
  return cav_side_is_flat (down) ? blank->thickness : blank->width;
}

/* Distance from a side, as the row of an affine map. */
static void
get_distance_row (const CavBlank *blank, CavSide side, double *x, double *y, double *constant)
{
  *x = side == CAV_SIDE_INSIDE ? 1 : side == CAV_SIDE_OUTSIDE ? -1 : 0;
  *y = side == CAV_SIDE_BACK ? 1 : side == CAV_SIDE_FACE ? -1 : 0;
  *constant = side == CAV_SIDE_OUTSIDE ? blank->width
              : side == CAV_SIDE_FACE  ? blank->thickness
                                       : 0;
}

CavTransform
cav_placement_get_transform (const CavBlank *blank, CavSide down, CavSide against)
{
  CavTransform map;

  get_distance_row (blank, against, &map.xx, &map.xy, &map.x0);
  get_distance_row (blank, down, &map.yx, &map.yy, &map.y0);
  return map;
}

CavTransform
cav_placement_get_inverse (const CavBlank *blank, CavSide down, CavSide against)
{
  CavTransform map = cav_placement_get_transform (blank, down, against);
  double determinant = map.xx * map.yy - map.xy * map.yx;
  CavTransform inverse;

  /* The linear part only swaps and flips axes, so the determinant is 1 or -1. */
  g_assert (determinant > 0.5 || determinant < -0.5);
  inverse.xx = map.yy / determinant;
  inverse.xy = -map.xy / determinant;
  inverse.yx = -map.yx / determinant;
  inverse.yy = map.xx / determinant;
  inverse.x0 = -(inverse.xx * map.x0 + inverse.xy * map.y0);
  inverse.y0 = -(inverse.yx * map.x0 + inverse.yy * map.y0);
  return inverse;
}
