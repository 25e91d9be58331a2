/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-path-edit.h"

#include <math.h>

#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

/* Points of a path nearer than this cannot be told apart by hand, and a bulge of less is a line:
 * a tenth of what the finest setting of a machine can show. */
#define NEAR 0.005

/* (transfer full) The segments as a closed path. */
static CavPath *
new_closed (const CavSegment *segments, guint n_segments)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, segments[0].from);
  for (guint i = 0; i < n_segments; i++)
    cav_path_append (path, &segments[i]);
  cav_path_close (path);
  return path;
}

/* (transfer full) CavSegment */
static GArray *
dup_segments (const CavPath *path)
{
  guint n = cav_path_get_segment_count (path);
  GArray *segments = g_array_sized_new (FALSE, FALSE, sizeof (CavSegment), n + 1);

  for (guint i = 0; i < n; i++)
    g_array_append_val (segments, *cav_path_get_segment (path, i));
  return segments;
}

static CavPath *
new_from_array (const GArray *segments)
{
  return new_closed ((const CavSegment *)(gconstpointer)segments->data, segments->len);
}

/* (transfer full) The path with another segment between the same points. */
static CavPath *
with_segment (const CavPath *path, guint index, CavSegment segment)
{
  g_autoptr (GArray) segments = dup_segments (path);

  g_array_index (segments, CavSegment, index) = segment;
  return new_from_array (segments);
}

CavPoint
cav_path_edit_get_point (const CavPath *path, guint index)
{
  g_return_val_if_fail (path != NULL, CAV_POINT (0.0, 0.0));
  g_return_val_if_fail (index < cav_path_get_segment_count (path), CAV_POINT (0.0, 0.0));

  return cav_path_get_segment (path, index)->from;
}

/* The share of a line where it is nearest to a point. */
static double
get_line_share (const CavSegment *line, CavPoint point)
{
  double dx = line->to.x - line->from.x;
  double dy = line->to.y - line->from.y;
  double square = dx * dx + dy * dy;

  if (square <= 0.0)
    return 0.0;
  return CLAMP (((point.x - line->from.x) * dx + (point.y - line->from.y) * dy) / square, 0.0, 1.0);
}

/* Steps in which the nearest place of an arc is looked for before it is narrowed down. */
#define ARC_STEPS 48
#define ARC_NARROWINGS 40

static double
get_distance_at (const CavSegment *arc, double share, CavPoint point)
{
  return cav_point_distance (cav_segment_point_at (arc, share), point);
}

/* The same for an arc: between the neighbours of the best of equal steps the distance has one
 * least, which thirds close in on. */
static double
get_arc_share (const CavSegment *arc, CavPoint point)
{
  int best = 0;
  double low, high;

  for (int i = 1; i <= ARC_STEPS; i++)
    if (get_distance_at (arc, (double)i / ARC_STEPS, point)
        < get_distance_at (arc, (double)best / ARC_STEPS, point))
      best = i;
  low = fmax (best - 1, 0) / ARC_STEPS;
  high = fmin (best + 1, ARC_STEPS) / ARC_STEPS;
  for (int i = 0; i < ARC_NARROWINGS; i++)
    {
      double third = (high - low) / 3.0;

      if (get_distance_at (arc, low + third, point) < get_distance_at (arc, high - third, point))
        high -= third;
      else
        low += third;
    }
  return (low + high) / 2.0;
}

static double
get_share (const CavSegment *segment, CavPoint point)
{
  return segment->kind == CAV_SEGMENT_LINE ? get_line_share (segment, point)
                                           : get_arc_share (segment, point);
}

gboolean
cav_path_edit_find_segment (const CavPath *path,
                            CavPoint point,
                            double tolerance,
                            guint *out_segment,
                            CavPoint *out_nearest)
{
  double least = tolerance;
  gboolean found = FALSE;

  g_return_val_if_fail (path != NULL, FALSE);

  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);
      CavPoint nearest = cav_segment_point_at (segment, get_share (segment, point));
      double distance = cav_point_distance (nearest, point);

      if (distance > least)
        continue;
      least = distance;
      found = TRUE;
      if (out_segment != NULL)
        *out_segment = i;
      if (out_nearest != NULL)
        *out_nearest = nearest;
    }
  return found;
}

/* The part of a segment between two shares of it. */
static CavSegment
get_part (const CavSegment *segment, double from, double to)
{
  CavSegment part = *segment;

  part.from = cav_segment_point_at (segment, from);
  part.to = cav_segment_point_at (segment, to);
  if (segment->kind == CAV_SEGMENT_ARC)
    {
      part.start = segment->start + from * segment->sweep;
      part.sweep = (to - from) * segment->sweep;
    }
  return part;
}

CavPath *
cav_path_edit_insert_point (const CavPath *path, guint segment, CavPoint point)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (segment < cav_path_get_segment_count (path), NULL);

  const CavSegment *whole = cav_path_get_segment (path, segment);
  double share = get_share (whole, point);
  CavPoint place = cav_segment_point_at (whole, share);
  if (cav_point_near (place, whole->from, NEAR) || cav_point_near (place, whole->to, NEAR))
    return NULL;

  g_autoptr (GArray) segments = dup_segments (path);
  CavSegment first = get_part (whole, 0.0, share);
  CavSegment second = get_part (whole, share, 1.0);
  first.from = whole->from;
  second.to = whole->to;
  g_array_index (segments, CavSegment, segment) = first;
  g_array_insert_val (segments, segment + 1, second);
  return new_from_array (segments);
}

CavPath *
cav_path_edit_remove_point (const CavPath *path, guint index)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (index < cav_path_get_segment_count (path), NULL);

  g_autoptr (GArray) segments = dup_segments (path);
  guint n = segments->len;
  guint before = (index + n - 1) % n;
  if (n < 3)
    return NULL;
  CavSegment line = cav_segment_line (g_array_index (segments, CavSegment, before).from,
                                      g_array_index (segments, CavSegment, index).to);
  if (cav_point_near (line.from, line.to, NEAR))
    return NULL;

  g_array_index (segments, CavSegment, before) = line;
  g_array_remove_index (segments, index);
  /* A line there and back encloses nothing. */
  if (segments->len == 2 && g_array_index (segments, CavSegment, 0).kind == CAV_SEGMENT_LINE
      && g_array_index (segments, CavSegment, 1).kind == CAV_SEGMENT_LINE)
    return NULL;
  return new_from_array (segments);
}

/* The segment turned and scaled so that it runs between other points. */
static CavSegment
stretch (const CavSegment *segment, CavPoint from, CavPoint to)
{
  double dx = segment->to.x - segment->from.x;
  double dy = segment->to.y - segment->from.y;
  double square = dx * dx + dy * dy;

  if (segment->kind == CAV_SEGMENT_LINE || square < NEAR * NEAR)
    return cav_segment_line (from, to);

  /* (to - from) / (old to - old from) as complex numbers. */
  double re = ((to.x - from.x) * dx + (to.y - from.y) * dy) / square;
  double im = ((to.y - from.y) * dx - (to.x - from.x) * dy) / square;
  CavTransform transform = {
    re, -im, from.x - re * segment->from.x + im * segment->from.y,
    im, re,  from.y - im * segment->from.x - re * segment->from.y,
  };
  CavSegment result = cav_segment_transformed (segment, transform);
  result.from = from;
  result.to = to;
  return result;
}

CavPath *
cav_path_edit_move_point (const CavPath *path, guint index, CavPoint to)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (index < cav_path_get_segment_count (path), NULL);
  g_return_val_if_fail (cav_point_is_finite (to), NULL);

  g_autoptr (GArray) segments = dup_segments (path);
  CavSegment *before
      = &g_array_index (segments, CavSegment, (index + segments->len - 1) % segments->len);
  CavSegment *after = &g_array_index (segments, CavSegment, index);
  if (before == after || cav_point_near (to, before->from, NEAR)
      || cav_point_near (to, after->to, NEAR))
    return NULL;
  *before = stretch (before, before->from, to);
  *after = stretch (after, to, after->to);
  return new_from_array (segments);
}

/* The point half way along the chord, and the unit vector to the right of the segment's way.
 * Returns the chord's length. */
static double
get_chord (const CavSegment *segment, CavPoint *out_middle, CavPoint *out_right)
{
  double dx = segment->to.x - segment->from.x;
  double dy = segment->to.y - segment->from.y;
  double length = hypot (dx, dy);

  *out_middle = CAV_POINT ((segment->from.x + segment->to.x) / 2.0,
                           (segment->from.y + segment->to.y) / 2.0);
  *out_right = length > 0.0 ? CAV_POINT (dy / length, -dx / length) : CAV_POINT (0.0, 0.0);
  return length;
}

double
cav_path_edit_get_bulge (const CavPath *path, guint segment)
{
  CavPoint middle, right, top;

  g_return_val_if_fail (path != NULL, 0.0);
  g_return_val_if_fail (segment < cav_path_get_segment_count (path), 0.0);

  const CavSegment *bent = cav_path_get_segment (path, segment);
  if (bent->kind == CAV_SEGMENT_LINE)
    return 0.0;
  get_chord (bent, &middle, &right);
  top = cav_segment_point_at (bent, 0.5);
  return (top.x - middle.x) * right.x + (top.y - middle.y) * right.y;
}

/* An arc of a circle over a chord c with the sagitta h: radius (c²/4 + h²) / 2h, sweep
 * 4 atan (2h / c); counter-clockwise where it bulges to the right. */
static CavSegment
bend (const CavSegment *segment, double bulge)
{
  CavPoint middle, right;
  double chord = get_chord (segment, &middle, &right);
  double radius;
  double most = CAV_PATH_EDIT_BULGE_MAX * chord;

  bulge = CLAMP (bulge, -most, most);
  if (fabs (bulge) < NEAR)
    return cav_segment_line (segment->from, segment->to);
  radius = (chord * chord / 4.0 + bulge * bulge) / (2.0 * bulge);

  CavPoint centre
      = CAV_POINT (middle.x + right.x * (bulge - radius), middle.y + right.y * (bulge - radius));
  double start = CAV_DEGREES (atan2 (segment->from.y - centre.y, segment->from.x - centre.x));
  double sweep = 4.0 * CAV_DEGREES (atan (2.0 * bulge / chord));
  CavSegment arc = cav_segment_arc (centre, fabs (radius), fabs (radius), 0.0, start, sweep);
  arc.from = segment->from;
  arc.to = segment->to;
  return arc;
}

CavPath *
cav_path_edit_set_bulge (const CavPath *path, guint segment, double bulge)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (segment < cav_path_get_segment_count (path), NULL);
  g_return_val_if_fail (isfinite (bulge), NULL);

  return with_segment (path, segment, bend (cav_path_get_segment (path, segment), bulge));
}

/* By the inscribed angle at the point: the arc's sweep is a full turn less twice that angle, and
 * the sagitta is c/2 tan (sweep / 4). */
CavPath *
cav_path_edit_bend_through (const CavPath *path, guint segment, CavPoint point)
{
  CavPoint middle, right;

  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (segment < cav_path_get_segment_count (path), NULL);
  g_return_val_if_fail (cav_point_is_finite (point), NULL);

  const CavSegment *bent = cav_path_get_segment (path, segment);
  double chord = get_chord (bent, &middle, &right);
  double ax = bent->from.x - point.x, ay = bent->from.y - point.y;
  double bx = bent->to.x - point.x, by = bent->to.y - point.y;
  double angle = fabs (atan2 (ax * by - ay * bx, ax * bx + ay * by));
  double side = (point.x - middle.x) * right.x + (point.y - middle.y) * right.y;
  double share = tan ((G_PI - angle) / 2.0);
  double bulge = fmin (chord / 2.0 * share, CAV_PATH_EDIT_BULGE_MAX * chord);

  return cav_path_edit_set_bulge (path, segment, copysign (bulge, side));
}

CavPath *
cav_path_edit_straighten (const CavPath *path, guint segment)
{
  g_return_val_if_fail (path != NULL, NULL);
  g_return_val_if_fail (segment < cav_path_get_segment_count (path), NULL);

  const CavSegment *bent = cav_path_get_segment (path, segment);
  return with_segment (path, segment, cav_segment_line (bent->from, bent->to));
}

gboolean
cav_path_edit_check (const CavPath *path, GError **error)
{
  g_return_val_if_fail (path != NULL, FALSE);

  g_autoptr (GError) cause = NULL;
  g_autoptr (CavRegion) region = cav_region_new_from_path (path, &cause);
  if (region != NULL)
    return TRUE;
  g_set_error (error, CAV_PROFILE_ERROR, CAV_PROFILE_ERROR_PATH, "%s.", cause->message);
  return FALSE;
}
