/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"
#include "geometry/cav-unit.h"

#include <math.h>

static CavSeason
get_season (CavClimate climate,
            double start,
            double molding,
            const CavFrameSettings *settings,
            const CavWood *wood)
{
  CavSeason season = { .climate = climate, .moisture = cav_moisture_get (climate) };

  season.fraction = cav_movement_get (wood, settings->sawn, start, season.moisture);
  season.degrees = cav_mitre_get_season_error (settings->sides, season.fraction);
  season.gap = cav_mitre_get_gap (molding, settings->sides, season.degrees);
  return season;
}

/* Gap against humidity, at the mean temperature of the year. */
static void
fill_points (CavFrameMitres *mitres,
             double start,
             double molding,
             const CavFrameSettings *settings,
             const CavWood *wood)
{
  double temperature = (settings->dry.temperature + settings->damp.temperature) / 2.0;

  for (int i = 0; i < CAV_GAP_POINTS; i++)
    {
      CavClimate climate = { temperature, 10.0 + 5.0 * i };
      CavSeason season = get_season (climate, start, molding, settings, wood);

      mitres->points[i] = (CavGapPoint){ climate.humidity, season.moisture, season.gap };
    }
}

static void
fill_errors (CavFrameMitres *mitres, const CavFrameSizes *sizes, const CavFrameSettings *settings)
{
  int sides = settings->sides;

  mitres->joint_degrees = 2.0 * settings->saw_error;
  mitres->joint_gap = cav_mitre_get_gap (sizes->molding, sides, mitres->joint_degrees);
  mitres->last_degrees = 2.0 * sides * settings->saw_error;
  mitres->last_gap = cav_mitre_get_gap (sizes->molding, sides, mitres->last_degrees);
  if (sides != 4)
    return;
  mitres->pair_step = settings->pair_error;
  mitres->pair_degrees = cav_mitre_get_pair_error (
      settings->pair_error, fmin (sizes->outside.width, sizes->outside.height));
  mitres->pair_gap = cav_mitre_get_gap (sizes->molding, sides, mitres->pair_degrees);
}

void
cav_frame_fill_mitres (CavFrameMitres *mitres,
                       const CavFrameSizes *sizes,
                       const CavFrameSettings *settings,
                       const CavWood *wood)
{
  mitres->length = cav_mitre_get_length (sizes->molding, settings->sides);
  mitres->run = cav_mitre_get_run (sizes->molding, settings->sides);
  fill_errors (mitres, sizes, settings);
  if (wood == NULL)
    return;

  double start = cav_moisture_get (settings->shop);
  mitres->has_seasons = TRUE;
  mitres->dry = get_season (settings->dry, start, sizes->molding, settings, wood);
  mitres->damp = get_season (settings->damp, start, sizes->molding, settings, wood);
  mitres->season_gap = fmax (fabs (mitres->dry.gap), fabs (mitres->damp.gap));
  fill_points (mitres, start, sizes->molding, settings, wood);
}

double
cav_frame_mitres_get_gap (const CavFrameMitres *mitres, double humidity)
{
  const CavGapPoint *points = mitres->points;
  int i = 0;
  double share;

  if (!mitres->has_seasons)
    return 0.0;
  while (i + 2 < CAV_GAP_POINTS && points[i + 1].humidity < humidity)
    i++;
  share = (humidity - points[i].humidity) / (points[i + 1].humidity - points[i].humidity);
  return points[i].gap + CLAMP (share, 0.0, 1.0) * (points[i + 1].gap - points[i].gap);
}

double
cav_frame_mitres_get_degrees (const CavFrameMitres *mitres, double humidity)
{
  return mitres->length > 0.0
             ? CAV_DEGREES (cav_frame_mitres_get_gap (mitres, humidity) / mitres->length)
             : 0.0;
}
