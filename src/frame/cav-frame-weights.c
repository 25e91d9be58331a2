/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"

#include <math.h>

#include "frame/cav-material.h"
#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

/* A point near each corner, the others no further apart: common practice (2 to 4 in), no
 * source. */
#define POINT_FROM_CORNER 50.0
#define POINT_SPACING 100.0
/* Surface that a litre covers in one coat, m²: common practice, no source. Gilding has none. */
#define SPREAD_OIL 14.0
#define SPREAD_WAX 20.0
#define SPREAD_FILM 10.0

/* Prints on paper; a canvas or panel is entered by its thickness and weighs less than this. */
#define DENSITY_PAPER 800.0

static double
get_density (const CavWood *wood)
{
  return wood != NULL ? wood->density : 0.0;
}

/* Area of a sheet of the package. */
static double
get_area (CavSize size, int sides)
{
  if (sides == 4)
    return size.width * size.height;
  /* n triangles of height d / 2 over a side. */
  return sides * cav_frame_get_side (size.width, sides) * size.width / 4.0;
}

/* kg, of mm², mm and kg/m³. */
static double
get_mass (double area, double thickness, double density)
{
  return CAV_CUBIC_METRES (area * thickness) * density;
}

static double
get_mean_length (const CavFrameRails *rails)
{
  double length = 0.0;

  for (int i = 0; i < rails->n_groups; i++)
    length += rails->groups[i].count * rails->groups[i].mean;
  return length;
}

static void
fill_masses (CavFrame *frame, const CavProfile *profile)
{
  CavFrameWeights *weights = &frame->weights;
  const CavFrameSettings *settings = &frame->settings;
  const CavFrameSizes *sizes = &frame->sizes;
  double sheet = get_area (sizes->glass, settings->sides);

  weights->wood_volume = cav_region_get_area (profile->region) * get_mean_length (&frame->rails);
  weights->wood = CAV_CUBIC_METRES (weights->wood_volume) * get_density (frame->wood);
  if (settings->glazing != CAV_GLAZING_NONE)
    weights->glazing = get_mass (sheet, settings->glazing_thickness, settings->glazing_density);
  for (int i = 0; i < settings->n_mats && !settings->floated; i++)
    weights->mats += get_mass (fmax (sheet - get_area (sizes->windows[i], settings->sides), 0.0),
                               settings->mats[i].thickness, CAV_DENSITY_MAT);
  weights->picture = get_mass (get_area (sizes->picture, settings->sides),
                               settings->picture_thickness, DENSITY_PAPER);
  if (settings->backing != CAV_BACKING_NONE)
    weights->backing = get_mass (sheet, settings->backing_thickness, settings->backing_density);
  weights->total
      = weights->wood + weights->glazing + weights->mats + weights->picture + weights->backing;
}

double
cav_wire_get_tension (double angle)
{
  return 1.0 / (2.0 * sin (CAV_RADIANS (angle)));
}

static void
fill_hanging (CavFrameWeights *weights, const CavFrameSettings *settings)
{
  double load = weights->total * CAV_GRAVITY;

  weights->hanger_load = load / settings->hangers;
  if (!settings->wire || settings->hangers != 2 || !(settings->wire_angle > 0.0))
    return;
  weights->wire_tension = load * cav_wire_get_tension (settings->wire_angle);
  weights->hanger_load = weights->wire_tension;
}

static void
fill_points (CavFrameWeights *weights, const CavFrameRails *rails)
{
  for (int i = 0; i < rails->n_groups; i++)
    {
      double between = fmax (rails->groups[i].rabbet_line - 2.0 * POINT_FROM_CORNER, 0.0);
      int each = between > 0.0 ? 1 + (int)ceil (between / POINT_SPACING) : 1;

      weights->points += rails->groups[i].count * each;
      if (each > 1)
        weights->point_spacing = fmax (weights->point_spacing, between / (each - 1));
    }
}

/* Length of all rails, along the edges that run at this place across. */
static double
get_length_at (const CavFrameRails *rails, double from_outside, int sides)
{
  double length = 0.0;

  for (int i = 0; i < rails->n_groups; i++)
    length += rails->groups[i].count
              * (rails->groups[i].long_point - 2.0 * cav_mitre_get_run (from_outside, sides));
  return length;
}

static double
get_spread (CavFinish finish)
{
  switch (finish)
    {
    case CAV_FINISH_OIL:
      return SPREAD_OIL;
    case CAV_FINISH_WAX:
      return SPREAD_WAX;
    case CAV_FINISH_VARNISH:
    case CAV_FINISH_BLACK:
    case CAV_FINISH_WHITE:
      return SPREAD_FILM;
    case CAV_FINISH_BARE:
    case CAV_FINISH_GILT:
      break;
    }
  return 0.0;
}

/* Strip by strip around the outline: each is as long as the rails are at its middle. A strip whose
 * outer side looks down or into the rabbet is not seen. */
static void
fill_surface (CavFrame *frame, const CavProfile *profile)
{
  CavFrameWeights *weights = &frame->weights;
  CavBox bounds = cav_region_get_bounds (profile->region);

  for (guint ring = 0; ring < cav_region_get_ring_count (profile->region); ring++)
    {
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (profile->region, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        {
          CavPoint a = points[i];
          CavPoint b = points[(i + 1) % n_points];
          double area = cav_point_distance (a, b)
                        * get_length_at (&frame->rails, bounds.x1 - (a.x + b.x) / 2.0,
                                         frame->settings.sides);
          gboolean back = b.x > a.x && fabs (b.x - a.x) > fabs (b.y - a.y);
          gboolean in_rabbet
              = (a.y + b.y) / 2.0 < bounds.y0 + frame->sizes.rabbet_depth
                && (a.x + b.x) / 2.0 < bounds.x0 + frame->sizes.lip + CAV_TOLERANCE_POINT;

          weights->finish_area += area;
          if (!back && !in_rabbet)
            weights->face_area += area;
        }
    }
  double spread = get_spread (frame->settings.finish);
  /* mm² over m² for each litre, in millilitres. */
  weights->finish_amount = spread > 0.0 ? weights->finish_area / spread * 1e-3 : 0.0;
}

void
cav_frame_fill_weights (CavFrame *frame, const CavProfile *profile)
{
  fill_masses (frame, profile);
  fill_hanging (&frame->weights, &frame->settings);
  fill_points (&frame->weights, &frame->rails);
  fill_surface (frame, profile);
}
