/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-relief.h"

#include <math.h>

#include "geometry/cav-tolerance.h"

/* Chords this near to the curve turn by less than half a degree on any molding's hollow, so that
 * shading shows no facets; mm. */
#define CHORD 0.0001
/* Steeper than this is a wall, which is not seen from the front. */
#define SLOPE_MAX 20.0

static double
get_place (const CavRelief *relief, int sample)
{
  return (sample + 0.5) * relief->width / relief->n_samples;
}

/* Raises the samples under a chord to it, where it lies higher. */
static void
raise_chord (CavRelief *relief, CavPoint a, CavPoint b)
{
  double step = relief->width / relief->n_samples;
  double from = relief->outer - fmax (a.x, b.x);
  double to = relief->outer - fmin (a.x, b.x);
  int first = MAX (0, (int)ceil (from / step - 0.5));
  int last = MIN (relief->n_samples - 1, (int)floor (to / step - 0.5));

  if (to - from < CAV_TOLERANCE_POINT)
    return;
  double slope = (b.y - a.y) / (a.x - b.x);
  for (int i = first; i <= last; i++)
    {
      double height = a.y + slope * (get_place (relief, i) - (relief->outer - a.x));

      if (height <= relief->heights[i])
        continue;
      relief->heights[i] = (float)height;
      relief->slopes[i] = (float)CLAMP (slope, -SLOPE_MAX, SLOPE_MAX);
    }
}

static void
raise_region (CavRelief *relief, const CavRegion *region)
{
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      g_autoptr (GArray) points = cav_path_linearise (cav_region_get_ring (region, ring), CHORD);

      for (guint i = 0; i < points->len; i++)
        raise_chord (relief, g_array_index (points, CavPoint, i),
                     g_array_index (points, CavPoint, (i + 1) % points->len));
    }
}

/* Sine of the height of the horizon at a sample, looking one way along the section. */
static double
get_horizon (const CavRelief *relief, int sample, int way)
{
  double step = relief->width / relief->n_samples;
  double steepest = 0.0;

  for (int i = sample + way, n = 1; i >= 0 && i < relief->n_samples; i += way, n++)
    steepest = fmax (steepest, (relief->heights[i] - relief->heights[sample]) / (n * step));
  return steepest / sqrt (1.0 + steepest * steepest);
}

static void
fill_sky (CavRelief *relief)
{
  for (int i = 0; i < relief->n_samples; i++)
    relief->open_sky[i]
        = (float)(1.0 - (get_horizon (relief, i, -1) + get_horizon (relief, i, 1)) / 2.0);
}

static void
fill_slices (CavRelief *relief)
{
  for (int k = 0; k < CAV_RELIEF_SLICES; k++)
    {
      CavReliefSlice *slice = &relief->slices[k];
      int first = 0;
      int last = relief->n_samples - 1;

      /* A little below the top, where there is wood for certain. */
      slice->height = (float)(relief->top * (k + 1) / CAV_RELIEF_SLICES * 0.9999);
      while (first < last && relief->heights[first] < slice->height)
        first++;
      while (last > first && relief->heights[last] < slice->height)
        last--;
      slice->outer = (float)(first * relief->width / relief->n_samples);
      slice->inner = (float)((last + 1) * relief->width / relief->n_samples);
    }
}

CavRelief *
cav_relief_new (const CavProfile *profile, int n_samples)
{
  g_return_val_if_fail (profile != NULL && n_samples > 1, NULL);

  CavBox bounds = cav_region_get_bounds (profile->region);
  if (cav_region_is_empty (profile->region) || !(bounds.x1 - bounds.x0 > 0.0))
    return NULL;

  CavRelief *relief = g_new0 (CavRelief, 1);
  relief->n_samples = n_samples;
  relief->width = bounds.x1 - bounds.x0;
  relief->outer = bounds.x1;
  relief->top = bounds.y1;
  relief->heights = g_new0 (float, n_samples);
  relief->slopes = g_new0 (float, n_samples);
  relief->open_sky = g_new0 (float, n_samples);
  raise_region (relief, profile->region);
  fill_sky (relief);
  fill_slices (relief);
  return relief;
}

void
cav_relief_free (CavRelief *relief)
{
  if (relief == NULL)
    return;
  g_free (relief->heights);
  g_free (relief->slopes);
  g_free (relief->open_sky);
  g_free (relief);
}

/* One sweep away from the lamp: the highest ray so far sinks by rise for each mm, and what lies
 * below it is dark, softly over the lamp's size times the way from what stands before it. */
void
cav_relief_fill_shadow (
    const CavRelief *relief, double rise, gboolean toward_inside, double softness, float *out_light)
{
  g_return_if_fail (relief != NULL && out_light != NULL);

  double step = relief->width / relief->n_samples;
  int way = toward_inside ? -1 : 1;
  int start = toward_inside ? relief->n_samples - 1 : 0;
  double ray = -1e9;
  double gone = 0.0;

  for (int i = start; i >= 0 && i < relief->n_samples; i += way)
    {
      double height = relief->heights[i];

      ray -= rise * step;
      gone += step;
      if (height >= ray)
        {
          ray = height;
          gone = 0.0;
          out_light[i] = 1.0f;
          continue;
        }
      double soft = 0.05 + softness * gone * (1.0 + rise);
      out_light[i] = (float)CLAMP (1.0 - (ray - height) / soft, 0.0, 1.0);
    }
}
