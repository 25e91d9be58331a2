/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rail.h"

#include "milling/cav-placement.h"

/* What the model asks for, with a hair more, so that a checker with other rounding agrees. */
#define TABLE_LANDS 5.02
#define FENCE_LANDS 3.02
#define OVERHANG 4.98
#define OVERHANG_FENCE 25.02
#define CENTROID_MARGIN 0.01

/* Rules 2 and 3 of the model. The rail stands in the coordinates of the low fence; for the high one
 * the axis is turned round. */
gboolean
cav_standing_is_supported (const CavStanding *standing,
                           const CavBlank *blank,
                           CavSide down,
                           CavFence fence)
{
  gboolean flat = cav_side_is_flat (down);
  CavSide against = cav_fence_get_side (down, fence);
  const CavLands *table = &standing->lands[down], *at_fence = &standing->lands[against];
  double reach = cav_placement_get_reach (blank, down);
  double height = cav_placement_get_height (blank, down);
  double u = flat ? standing->centroid.x : standing->centroid.y;
  double v = flat ? standing->centroid.y : standing->centroid.x;
  double first = table->first, last = table->last, top, fence_span, rail_height;

  if (table->total < TABLE_LANDS || at_fence->total < FENCE_LANDS)
    return FALSE;
  if (fence == CAV_FENCE_HIGH)
    {
      u = reach - u;
      first = reach - table->last;
      last = reach - table->first;
    }
  top = at_fence->last;
  rail_height = flat ? standing->box.y1 : standing->box.x1;
  if (down == CAV_SIDE_FACE || down == CAV_SIDE_OUTSIDE)
    {
      v = height - v;
      top = height - at_fence->first;
      rail_height = height - (flat ? standing->box.y0 : standing->box.x0);
    }
  fence_span = at_fence->last - at_fence->first;
  if (u < first + CENTROID_MARGIN && top < v + CENTROID_MARGIN)
    return FALSE;
  if (u > last - CENTROID_MARGIN && (u > last + OVERHANG || fence_span < OVERHANG_FENCE))
    return FALSE;
  return last - first >= rail_height / 2 + CENTROID_MARGIN || top >= v + CENTROID_MARGIN;
}
