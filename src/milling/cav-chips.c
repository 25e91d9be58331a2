/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-chips.h"

#include "milling/cav-placement.h"
#include "milling/cav-rising.h"

#include <math.h>

/* Chips narrower than this are rounding, mm. */
#define FIN 1e-4
/* Farther than any blank reaches. */
#define FAR_OFF 2000.0

/* Area of what lies on the fence's side of a tool's axis. */
static double
get_near_area (const CavSweepSetting *setting, const CavBlank *blank, const CavRegion *chips)
{
  CavTransform back = cav_placement_get_inverse (blank, setting->down, setting->against);
  CavPoint a = cav_transform_point (back, CAV_POINT (-FAR_OFF, -FAR_OFF));
  CavPoint b = cav_transform_point (back, CAV_POINT (setting->fence, FAR_OFF));
  g_autoptr (CavRegion) half
      = cav_region_new_box (fmin (a.x, b.x), fmin (a.y, b.y), fmax (a.x, b.x), fmax (a.y, b.y));
  g_autoptr (CavRegion) near = cav_region_intersection (chips, half, NULL);

  return near != NULL ? cav_region_get_area (near) : 0;
}

/* How much of an upright line at distance u from the fence lies in a region that is already in the
 * machine's coordinates. */
static double
get_taken_at (const CavRegion *region, double u, GArray *crossings)
{
  double taken = 0;

  g_array_set_size (crossings, 0);
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        {
          CavPoint p = points[i], q = points[(i + 1) % n];

          if ((p.x <= u) != (q.x <= u))
            {
              double v = p.y + (u - p.x) / (q.x - p.x) * (q.y - p.y);

              g_array_append_val (crossings, v);
            }
        }
    }
  g_array_sort (crossings, cav_compare_rising);
  for (guint i = 0; i + 1 < crossings->len; i += 2)
    taken += g_array_index (crossings, double, i + 1) - g_array_index (crossings, double, i);
  return taken;
}

/* The layer changes evenly between two corners, so it is greatest right beside one. */
double
cav_chips_get_layer (const CavSweepSetting *setting, const CavBlank *blank, const CavRegion *chips)
{
  CavTransform map = cav_placement_get_transform (blank, setting->down, setting->against);
  g_autoptr (CavRegion) region = cav_region_transformed (chips, map);
  g_autoptr (GArray) corners = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (double));
  double layer = 0;

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        g_array_append_val (corners, points[i].x);
    }
  g_array_sort (corners, cav_compare_rising);
  for (guint i = 0; i + 1 < corners->len; i++)
    {
      double u0 = g_array_index (corners, double, i), u1 = g_array_index (corners, double, i + 1);

      if (u1 - u0 < FIN)
        continue;
      layer = fmax (layer, get_taken_at (region, u0 + FIN / 4, crossings));
      layer = fmax (layer, get_taken_at (region, u1 - FIN / 4, crossings));
    }
  return layer;
}

void
cav_chips_get_sides (const CavSweepSetting *setting,
                     const CavBlank *blank,
                     const CavRegion *chips,
                     double out_sides[2])
{
  out_sides[0] = setting->cutter != NULL ? get_near_area (setting, blank, chips) : 0;
  out_sides[1] = cav_region_get_area (chips) - out_sides[0];
}
