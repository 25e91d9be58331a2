/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-sweep.h"

#include "geometry/cav-tolerance.h"
#include "milling/cav-placement.h"

#include <math.h>

#define RADIANS(degrees) ((degrees)*G_PI / 180)
/* Below the table there is nothing to cut; this much makes subtraction clean. */
#define BELOW 1.0

static void
add_point (GArray *points, double u, double v)
{
  CavPoint point = { u, v };

  g_array_append_val (points, point);
}

static void
outline_blade (const CavSweepSetting *s, double growth, GArray *points)
{
  double t = RADIANS (s->tilt), k = s->blade->kerf, below = growth > 0 ? BELOW : 0;
  /* Direction of the blade, and square to it away from the near face. */
  double dx = sin (t), dy = cos (t), nx = cos (t), ny = -sin (t);
  double along = t >= 0 ? s->height / dy : (s->height - k * sin (-t)) / dy;
  double from_n = -growth, to_n = k + growth, top = along + growth;
  /* Where each face meets the lowest height, along the blade. */
  double near = (-below - from_n * ny) / dy, far = (-below - to_n * ny) / dy;

  if (top <= near)
    {
      /* The same for a blade that leans toward the fence, whose end reaches its near face below the
       * table: what stands above is bounded by the end and the far face. */
      double n = (top * dy + below) / -ny;

      add_point (points, s->fence + n * nx + top * dx, -below);
      add_point (points, s->fence + to_n * nx + far * dx, to_n * ny + far * dy);
      add_point (points, s->fence + to_n * nx + top * dx, to_n * ny + top * dy);
      return;
    }
  add_point (points, s->fence + from_n * nx + near * dx, from_n * ny + near * dy);
  if (top > far)
    {
      add_point (points, s->fence + to_n * nx + far * dx, to_n * ny + far * dy);
      add_point (points, s->fence + to_n * nx + top * dx, to_n * ny + top * dy);
    }
  else
    {
      /* So low that the end of the kerf runs into the table before it reaches the far face. */
      double n = (top * dy + below) / -ny;

      add_point (points, s->fence + n * nx + top * dx, -below);
    }
  add_point (points, s->fence + from_n * nx + top * dx, from_n * ny + top * dy);
}

/* A symmetric outline from rising depths below the tip. */
static void
outline_round (double axis, double height, const GArray *silhouette, double growth, GArray *points)
{
  double below = growth > 0 ? BELOW : 0;
  guint n = 0;

  for (; n < silhouette->len; n++)
    {
      CavSilhouettePoint p = g_array_index (silhouette, CavSilhouettePoint, n);

      if (height - p.z <= 0)
        break;
    }
  for (guint i = 0; i < n; i++)
    {
      CavSilhouettePoint p = g_array_index (silhouette, CavSilhouettePoint, i);

      add_point (points, axis - p.r - growth, height - p.z + growth);
    }

  CavSilhouettePoint q = g_array_index (silhouette, CavSilhouettePoint, n > 0 ? n - 1 : 0);
  double r = q.r;

  if (n < silhouette->len)
    {
      CavSilhouettePoint p = g_array_index (silhouette, CavSilhouettePoint, n);

      if (p.z - q.z > 1e-12)
        r += (p.r - q.r) * (height - q.z) / (p.z - q.z);
    }
  /* Down to the table along the cutter, from there straight. */
  add_point (points, axis - r - growth, growth);
  if (below > 0)
    {
      add_point (points, axis - r - growth, -below);
      add_point (points, axis + r + growth, -below);
    }
  add_point (points, axis + r + growth, growth);
  for (guint i = n; i-- > 0;)
    {
      CavSilhouettePoint p = g_array_index (silhouette, CavSilhouettePoint, i);

      add_point (points, axis + p.r + growth, height - p.z + growth);
    }
}

/* The crossed blade's ellipse with its flat, as rising depths, chords within the tolerance. */
static GArray *
create_cove_silhouette (const CavSweepSetting *s)
{
  GArray *points = g_array_new (FALSE, FALSE, sizeof (CavSilhouettePoint));
  double radius = s->blade->diameter / 2, across = radius * sin (RADIANS (s->angle));
  double flat = s->blade->kerf * cos (RADIANS (s->angle)) / 2;
  double last = acos (fmax (1 - s->height / radius, -1));
  int n = MAX (8, (int)ceil (last / (2 * acos (1 - CAV_TOLERANCE_CHORD / 2 / radius))));

  for (int i = 0; i <= n; i++)
    {
      double angle = last * i / n;
      CavSilhouettePoint point = { flat + across * sin (angle), radius * (1 - cos (angle)) };

      g_array_append_val (points, point);
    }
  return points;
}

CavRegion *
cav_sweep_create_region (const CavSweepSetting *setting,
                         const CavBlank *blank,
                         double growth,
                         GError **error)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  CavTransform back = cav_placement_get_inverse (blank, setting->down, setting->against);

  /* A tool that the shop does not have. */
  if (setting->blade == NULL && setting->cutter == NULL)
    return NULL;
  if (setting->machine == CAV_MACHINE_SAW)
    outline_blade (setting, growth, points);
  else if (setting->machine == CAV_MACHINE_COVE)
    {
      g_autoptr (GArray) silhouette = create_cove_silhouette (setting);

      outline_round (setting->fence, setting->height, silhouette, growth, points);
    }
  else
    outline_round (setting->fence, setting->height, setting->cutter->silhouette, growth, points);
  for (guint i = 0; i < points->len; i++)
    g_array_index (points, CavPoint, i)
        = cav_transform_point (back, g_array_index (points, CavPoint, i));
  return cav_region_new_polygon ((const CavPoint *)(void *)points->data, points->len, error);
}

CavRegion *
cav_sweep_create_pilot (const CavSweepSetting *setting, const CavBlank *blank, double inset)
{
  const CavCutter *cutter = setting->cutter;
  CavTransform back = cav_placement_get_inverse (blank, setting->down, setting->against);
  CavPoint a, b;

  if (cutter == NULL || !cutter->has_pilot || cutter->pilot_radius <= inset
      || cutter->pilot_length <= 2 * inset)
    return NULL;
  a = cav_transform_point (
      back, CAV_POINT (setting->fence - cutter->pilot_radius + inset, setting->height + inset));
  b = cav_transform_point (back, CAV_POINT (setting->fence + cutter->pilot_radius - inset,
                                            setting->height + cutter->pilot_length - inset));
  return cav_region_new_box (fmin (a.x, b.x), fmin (a.y, b.y), fmax (a.x, b.x), fmax (a.y, b.y));
}

double
cav_sweep_get_middle (const CavSweepSetting *setting)
{
  if (setting->machine == CAV_MACHINE_SAW)
    return setting->fence + setting->blade->kerf / 2 / cos (RADIANS (setting->tilt));
  return setting->fence;
}

double
cav_sweep_get_near_edge (const CavSweepSetting *setting)
{
  if (setting->machine == CAV_MACHINE_COVE)
    return setting->fence
           - sin (RADIANS (setting->angle))
                 * sqrt (fmax (0, setting->height * (setting->blade->diameter - setting->height)))
           - setting->blade->kerf * cos (RADIANS (setting->angle)) / 2;
  return setting->fence;
}
