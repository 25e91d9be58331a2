/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-frame-private.h"
#include "geometry/cav-unit.h"

#include <math.h>

/* Cut off at either end of a strip, where snipe and checks are; common practice, no source. */
#define TRIM 25.0

static double
get_length (double size, int sides)
{
  return sides == 4 ? size : cav_frame_get_side (size, sides);
}

static CavRailGroup
get_group (CavRailPair which, int count, double outside, const CavFrameSizes *sizes, int sides)
{
  return (CavRailGroup){
    .which = which,
    .count = count,
    .long_point = get_length (outside, sides),
    .rabbet_line = get_length (outside - 2.0 * (sizes->molding - sizes->lip), sides),
    .short_point = get_length (outside - 2.0 * sizes->molding, sides),
  };
}

/* The line through the centroid, parallel to the rail's edges, is as long as the mean of all lines
 * weighted by area: times the area it gives the volume, exactly. */
static void
fill_mean (CavRailGroup *group, const CavProfile *profile, int sides)
{
  CavPoint centroid = { 0.0, 0.0 };

  group->mean = group->long_point;
  if (cav_region_get_centroid (profile->region, &centroid))
    group->mean
        -= 2.0 * cav_mitre_get_run (cav_region_get_bounds (profile->region).x1 - centroid.x, sides);
}

/* Rails are numbered clockwise from the top. */
static const CavRailGroup *
get_rail (const CavFrameRails *rails, int rail)
{
  return &rails->groups[rails->n_groups == 2 ? rail % 2 : 0];
}

static double
get_cut_room (const CavFrameRails *rails)
{
  return CAV_KERF_USUAL / cos (CAV_RADIANS (rails->mitre));
}

static double
get_strip_length (const CavFrameRails *rails, int first, int count)
{
  double length = 2.0 * TRIM + (count + 1) * get_cut_room (rails);

  for (int i = first; i < first + count; i++)
    length += get_rail (rails, i)->long_point;
  return length;
}

/* As few rails in a strip as make every strip long enough; all of them where none is. */
static int
find_together (const CavFrameRails *rails, int sides, double safe_length)
{
  for (int together = 1; together < sides; together++)
    {
      gboolean enough = sides % together == 0;

      for (int first = 0; enough && first < sides; first += together)
        enough = get_strip_length (rails, first, together) >= safe_length;
      if (enough)
        return together;
    }
  return sides;
}

/* Long points follow each other along the strip, a kerf between them: the waste between two rails
 * is the triangle at the sight edge. */
static void
fill_places (CavFrameRails *rails, int sides)
{
  double at = 0.0;

  rails->n_places = sides;
  rails->places = g_new0 (CavRailPlace, sides);
  for (int i = 0; i < sides; i++)
    {
      if (i % rails->together == 0)
        at = TRIM + get_cut_room (rails);
      rails->places[i] = (CavRailPlace){ .strip = i / rails->together,
                                         .rail = i,
                                         .from = at,
                                         .to = at + get_rail (rails, i)->long_point };
      at = rails->places[i].to + get_cut_room (rails);
      rails->strip = fmax (rails->strip, at + TRIM);
    }
}

void
cav_frame_fill_rails (CavFrameRails *rails,
                      const CavFrameSizes *sizes,
                      const CavFrameSettings *settings,
                      const CavProfile *profile)
{
  int sides = settings->sides;
  double around = 0.0;

  rails->mitre = cav_mitre_get_angle (sides);
  if (sides == 4)
    {
      rails->n_groups = 2;
      rails->groups[0] = get_group (CAV_RAILS_TOP_BOTTOM, 2, sizes->outside.width, sizes, sides);
      rails->groups[1] = get_group (CAV_RAILS_LEFT_RIGHT, 2, sizes->outside.height, sizes, sides);
      around = 2.0 * (sizes->glass.width + sizes->glass.height);
    }
  else
    {
      rails->n_groups = 1;
      rails->groups[0] = get_group (CAV_RAILS_ALL, sides, sizes->outside.width, sizes, sides);
      around = sides * cav_frame_get_side (sizes->glass.width, sides);
    }
  for (int i = 0; i < rails->n_groups; i++)
    {
      fill_mean (&rails->groups[i], profile, sides);
      rails->molding += rails->groups[i].count * rails->groups[i].long_point;
    }
  rails->molding_rule = around + 2.0 * sides * sizes->molding;
  rails->molding_cut = rails->molding + (sides + 1) * get_cut_room (rails) + 2.0 * TRIM;
  rails->together = find_together (rails, sides, settings->safe_length);
  fill_places (rails, sides);
}
