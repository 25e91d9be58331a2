/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region-round.h"

#include "geometry/cav-region-private.h"

#include <math.h>

/* Half a sixty-fourth of an inch is 0.1984375 mm, so that all such lengths are multiples of an
 * eighth of the grid; places between two figures of the grid lie in the middle of two such. */
#define BETWEEN 0.5625
#define ANGLE_STEP 1e-3

double
cav_round (double length)
{
  return floor (length / CAV_ROUND_STEP + BETWEEN) * CAV_ROUND_STEP;
}

static double
round_angle (double angle)
{
  return floor (angle / ANGLE_STEP + BETWEEN) * ANGLE_STEP;
}

static CavPoint
round_point (CavPoint point)
{
  return CAV_POINT (cav_round (point.x), cav_round (point.y));
}

static CavSegment
round_segment (const CavSegment *segment)
{
  CavSegment rounded = *segment;

  rounded.from = round_point (segment->from);
  rounded.to = round_point (segment->to);
  if (segment->kind == CAV_SEGMENT_LINE)
    return rounded;
  rounded.centre = round_point (segment->centre);
  rounded.rx = cav_round (segment->rx);
  rounded.ry = cav_round (segment->ry);
  rounded.rotation = round_angle (segment->rotation);
  rounded.start = round_angle (segment->start);
  rounded.sweep = round_angle (segment->sweep);
  return rounded;
}

static CavPath *
round_ring (const CavPath *path, gconstpointer data)
{
  CavPath *rounded = cav_path_new ();

  cav_path_move_to (rounded, round_point (cav_path_get_start (path)));
  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      CavSegment segment = round_segment (cav_path_get_segment (path, i));

      cav_path_append (rounded, &segment);
    }
  cav_path_close (rounded);
  return rounded;
}

CavRegion *
cav_region_rounded (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, NULL);

  return cav_region_map_rings (region, round_ring, NULL);
}
