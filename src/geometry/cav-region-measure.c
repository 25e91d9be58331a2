/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Measures of regions: exact over lines and arcs. */
#include <math.h>

#include "geometry/cav-angle-private.h"
#include "geometry/cav-region-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

double
cav_region_get_area (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, 0.0);

  return region->area;
}

gboolean
cav_region_get_centroid (const CavRegion *region, CavPoint *out_centroid)
{
  double area = 0.0, moment_x = 0.0, moment_y = 0.0;
  CavPoint origin;

  g_return_val_if_fail (region != NULL && out_centroid != NULL, FALSE);

  if (region->n_rings == 0)
    return FALSE;
  /* About a corner of its own, so that a small region far from the origin loses nothing. */
  origin = CAV_POINT (region->bounds.x0, region->bounds.y0);
  for (guint i = 0; i < region->n_rings; i++)
    {
      const CavPath *path = region->rings[i].path;

      for (guint k = 0; k < cav_path_get_segment_count (path); k++)
        cav_segment_add_moments (cav_path_get_segment (path, k), origin, &area, &moment_x,
                                 &moment_y);
    }
  if (area <= 0.0)
    return FALSE;
  *out_centroid = CAV_POINT (origin.x + moment_x / area, origin.y + moment_y / area);
  return TRUE;
}

CavBox
cav_region_get_bounds (const CavRegion *region)
{
  g_return_val_if_fail (region != NULL, ((CavBox){ 0.0, 0.0, -1.0, -1.0 }));

  return region->bounds;
}

double
cav_region_get_perimeter (const CavRegion *region)
{
  double perimeter = 0.0;

  g_return_val_if_fail (region != NULL, 0.0);

  for (guint i = 0; i < region->n_rings; i++)
    perimeter += cav_path_get_length (region->rings[i].path);
  return perimeter;
}

/* Where a monotone piece of an arc passes the height y: on the side of the circle on which its
 * middle lies. */
static double
arc_x_at (const CavSegment *arc, const CavMonotone *piece, double y)
{
  CavArcFrame frame = cav_arc_frame (arc);
  double reach = hypot (frame.yx, frame.yy);
  double top = atan2 (frame.yy, frame.yx) * (180.0 / G_PI);
  double share = CLAMP ((y - frame.centre.y) / reach, -1.0, 1.0);
  double away = acos (share) * (180.0 / G_PI);
  double middle = cav_angle_wrap_signed (0.5 * (piece->t0 + piece->t1) - top);

  return cav_arc_frame_point (&frame, top + (middle < 0.0 ? -away : away)).x;
}

/* TRUE where a ray from point toward +x crosses the line from one point to another. A line holds
 * its lower end and not its upper one, so that a corner counts once. */
static inline gboolean
crosses_line (CavPoint from, CavPoint to, CavPoint point)
{
  if ((from.y <= point.y) == (to.y <= point.y))
    return FALSE;
  if (from.x > point.x && to.x > point.x)
    return TRUE;
  if (from.x <= point.x && to.x <= point.x)
    return FALSE;
  return from.x + (point.y - from.y) / (to.y - from.y) * (to.x - from.x) > point.x;
}

/* TRUE where the ray crosses a piece of a circle that keeps to one side of its centre's upright,
 * half being what the circle's chord at the ray's height measures from there, signed. */
static inline gboolean
crosses_side (double from_y, double to_y, CavPoint centre, double half, CavPoint point)
{
  return (from_y <= point.y) != (to_y <= point.y) && centre.x + half > point.x;
}

/* The same for any arc, piece by piece. */
static guint
count_piece_crossings (const CavSegment *arc, CavPoint point)
{
  CavMonotone pieces[CAV_MONOTONE_MAX];
  guint n = cav_segment_split_monotone (arc, pieces), count = 0;

  for (guint i = 0; i < n; i++)
    {
      const CavMonotone *piece = &pieces[i];

      if ((piece->from.y <= point.y) == (piece->to.y <= point.y))
        continue;
      if (fmin (piece->from.x, piece->to.x) > point.x)
        count++;
      else if (fmax (piece->from.x, piece->to.x) > point.x)
        count += arc_x_at (arc, piece, point.y) > point.x;
    }
  return count;
}

/* The same for an arc of a circle: most are quarters, which run up or down or turn back once. */
static guint
count_circle_crossings (const CavSegment *arc, CavPoint point)
{
  CavPoint centre = arc->centre;
  double dy = point.y - centre.y, half = sqrt (fmax (arc->rx * arc->rx - dy * dy, 0.0));
  gboolean top, bottom;
  double turn;

  /* Wholly before the point's upright: as many, odd or even, as the line between the ends. */
  if (fmin (arc->from.x, arc->to.x) > point.x
      && (centre.x - arc->rx > point.x || !cav_circle_faces (arc, CAV_POINT (-1.0, 0.0))))
    return (arc->from.y <= point.y) != (arc->to.y <= point.y);
  top = cav_circle_faces (arc, CAV_POINT (0.0, 1.0));
  bottom = cav_circle_faces (arc, CAV_POINT (0.0, -1.0));
  if (top && bottom)
    return count_piece_crossings (arc, point);
  if (!top && !bottom)
    return crosses_side (arc->from.y, arc->to.y, centre,
                         arc->from.x + arc->to.x > 2.0 * centre.x ? half : -half, point);
  turn = top ? centre.y + arc->rx : centre.y - arc->rx;
  return (guint)crosses_side (arc->from.y, turn, centre, arc->from.x > centre.x ? half : -half,
                              point)
         + (guint)crosses_side (turn, arc->to.y, centre, arc->to.x > centre.x ? half : -half,
                                point);
}

/* Number of times that a ray from point toward +x crosses an arc. */
static guint
count_arc_crossings (const CavSegment *arc, CavPoint point)
{
  double reach = fmax (arc->rx, arc->ry) + CAV_TOLERANCE_CHORD;

  /* An arc that the ray passes by, above, below or behind, has no crossings; one that lies wholly
   * before it has as many, odd or even, as the line between its ends. */
  if (fabs (point.y - arc->centre.y) > reach || point.x > arc->centre.x + reach)
    return 0;
  if (point.x < arc->centre.x - reach)
    return (arc->from.y <= point.y) != (arc->to.y <= point.y);
  return arc->rx < arc->ry || arc->rx > arc->ry ? count_piece_crossings (arc, point)
                                                : count_circle_crossings (arc, point);
}

/* On an outline itself either answer may come. */
gboolean
cav_region_contains (const CavRegion *region, CavPoint point)
{
  guint count = 0;

  g_return_val_if_fail (region != NULL, FALSE);

  for (guint i = 0; i < region->n_rings; i++)
    {
      const CavRing *ring = &region->rings[i];
      const CavSegment *segments;
      guint n;

      if (point.y < ring->bounds.y0 || point.y > ring->bounds.y1 || point.x > ring->bounds.x1)
        continue;
      segments = cav_path_get_segments (ring->path, &n);
      for (guint k = 0; k < n; k++)
        count += segments[k].kind == CAV_SEGMENT_LINE
                     ? (guint)crosses_line (segments[k].from, segments[k].to, point)
                     : count_arc_crossings (&segments[k], point);
    }
  return count % 2 == 1;
}

/* G_MAXDOUBLE where there is no outline. */
double
cav_region_get_distance (const CavRegion *region, CavPoint point)
{
  double distance = G_MAXDOUBLE;

  g_return_val_if_fail (region != NULL, distance);

  for (guint i = 0; i < region->n_rings; i++)
    distance = fmin (distance, cav_path_get_distance (region->rings[i].path, point));
  return distance;
}
