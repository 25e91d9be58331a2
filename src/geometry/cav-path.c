/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-path.h"

#include <math.h>

#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

/* Most paths have no more segments. */
#define USUAL_SEGMENTS 8
/* Far more than any drawing needs and far from where squares lose their meaning. */
#define PATH_COORDINATE_MAX 1e12

struct _CavPath
{
  GArray *segments; /* CavSegment */
  CavPoint start;
  gboolean started;
  gboolean closed;
  gboolean finite; /* FALSE once something that is no number was left out */
};

CavPath *
cav_path_new (void)
{
  CavPath *path = g_new0 (CavPath, 1);

  path->segments = g_array_sized_new (FALSE, FALSE, sizeof (CavSegment), USUAL_SEGMENTS);
  path->finite = TRUE;
  return path;
}

CavPath *
cav_path_copy (const CavPath *path)
{
  CavPath *copy;

  g_return_val_if_fail (path != NULL, NULL);

  copy = g_new (CavPath, 1);
  *copy = *path;
  copy->segments = g_array_copy (path->segments);
  return copy;
}

void
cav_path_free (CavPath *path)
{
  if (path == NULL)
    return;
  g_array_unref (path->segments);
  g_free (path);
}

static gboolean
take_point (CavPath *path, CavPoint point)
{
  if (cav_point_is_finite (point) && fabs (point.x) <= PATH_COORDINATE_MAX
      && fabs (point.y) <= PATH_COORDINATE_MAX)
    return TRUE;
  path->finite = FALSE;
  return FALSE;
}

static CavPoint
path_end (const CavPath *path)
{
  guint n = path->segments->len;

  return n == 0 ? path->start : g_array_index (path->segments, CavSegment, n - 1).to;
}

void
cav_path_move_to (CavPath *path, CavPoint point)
{
  g_return_if_fail (path != NULL && path->segments->len == 0);

  if (!take_point (path, point))
    return;
  path->start = point;
  path->started = TRUE;
}

static void
append_line (CavPath *path, CavPoint point)
{
  CavSegment line;

  if (cav_point_near (path_end (path), point, CAV_TOLERANCE_POINT))
    return;
  line = cav_segment_line (path_end (path), point);
  g_array_append_val (path->segments, line);
}

void
cav_path_line_to (CavPath *path, CavPoint point)
{
  g_return_if_fail (path != NULL && !path->closed);
  g_return_if_fail (path->started || !path->finite);

  if (take_point (path, point) && path->started)
    append_line (path, point);
}

static gboolean
take_segment (CavPath *path, const CavSegment *segment)
{
  if (!take_point (path, segment->from) || !take_point (path, segment->to))
    return FALSE;
  if (segment->kind == CAV_SEGMENT_LINE)
    return TRUE;
  return take_point (path, segment->centre)
         && take_point (path, CAV_POINT (segment->rx, segment->ry))
         && take_point (path, CAV_POINT (segment->start, segment->sweep))
         && take_point (path, CAV_POINT (segment->rotation, 0.0));
}

void
cav_path_append (CavPath *path, const CavSegment *segment)
{
  CavSegment copy = *segment;

  g_return_if_fail (path != NULL && !path->closed);

  if (!take_segment (path, segment))
    return;
  if (!path->started)
    cav_path_move_to (path, segment->from);
  if (segment->kind == CAV_SEGMENT_LINE || fmin (segment->rx, segment->ry) <= CAV_TOLERANCE_POINT)
    {
      append_line (path, segment->from);
      append_line (path, segment->to);
      return;
    }
  append_line (path, segment->from);
  if (cav_segment_length (segment) <= CAV_TOLERANCE_POINT)
    return;
  copy.from = path_end (path);
  g_array_append_val (path->segments, copy);
}

void
cav_path_arc (CavPath *path, CavPoint centre, double rx, double ry, double start, double sweep)
{
  CavSegment arc = cav_segment_arc (centre, rx, ry, 0.0, start, sweep);

  cav_path_append (path, &arc);
}

void
cav_path_close (CavPath *path)
{
  guint n;

  g_return_if_fail (path != NULL);

  if (path->closed || path->segments->len == 0)
    return;
  append_line (path, path->start);
  n = path->segments->len;
  g_array_index (path->segments, CavSegment, n - 1).to = path->start;
  path->closed = TRUE;
}

gboolean
cav_path_is_closed (const CavPath *path)
{
  g_return_val_if_fail (path != NULL, FALSE);

  return path->closed;
}

gboolean
cav_path_is_finite (const CavPath *path)
{
  g_return_val_if_fail (path != NULL, FALSE);

  return path->finite;
}

guint
cav_path_get_segment_count (const CavPath *path)
{
  g_return_val_if_fail (path != NULL, 0);

  return path->segments->len;
}

const CavSegment *
cav_path_get_segment (const CavPath *path, guint index)
{
  g_return_val_if_fail (path != NULL && index < path->segments->len, NULL);

  return &g_array_index (path->segments, CavSegment, index);
}

const CavSegment *
cav_path_get_segments (const CavPath *path, guint *out_n)
{
  g_return_val_if_fail (path != NULL && out_n != NULL, NULL);

  *out_n = path->segments->len;
  return (const CavSegment *)(gpointer)path->segments->data;
}

CavPoint
cav_path_get_start (const CavPath *path)
{
  g_return_val_if_fail (path != NULL, CAV_POINT (0.0, 0.0));

  return path->start;
}

double
cav_path_get_length (const CavPath *path)
{
  double length = 0.0;

  g_return_val_if_fail (path != NULL, 0.0);

  for (guint i = 0; i < path->segments->len; i++)
    length += cav_segment_length (cav_path_get_segment (path, i));
  return length;
}

double
cav_path_get_signed_area (const CavPath *path)
{
  double area = 0.0, moment_x = 0.0, moment_y = 0.0;

  g_return_val_if_fail (path != NULL && path->closed, 0.0);

  for (guint i = 0; i < path->segments->len; i++)
    cav_segment_add_moments (cav_path_get_segment (path, i), path->start, &area, &moment_x,
                             &moment_y);
  return area;
}

/* A path without a point has the empty box. */
CavBox
cav_path_get_bounds (const CavPath *path)
{
  CavBox box = { 0.0, 0.0, -1.0, -1.0 };

  g_return_val_if_fail (path != NULL, box);

  if (path->started)
    box = (CavBox){ path->start.x, path->start.y, path->start.x, path->start.y };
  for (guint i = 0; i < path->segments->len; i++)
    {
      CavBox part = cav_segment_bounds (cav_path_get_segment (path, i));

      box.x0 = fmin (box.x0, part.x0);
      box.y0 = fmin (box.y0, part.y0);
      box.x1 = fmax (box.x1, part.x1);
      box.y1 = fmax (box.y1, part.y1);
    }
  return box;
}

double
cav_path_get_distance (const CavPath *path, CavPoint point)
{
  double distance;

  g_return_val_if_fail (path != NULL, 0.0);

  distance = cav_point_distance (path->start, point);
  for (guint i = 0; i < path->segments->len; i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);

      /* Most segments are too far off to matter: an ellipse costs a long search. */
      if (cav_segment_distance_bound (segment, point) < distance)
        distance = fmin (distance, cav_segment_distance (segment, point));
    }
  return distance;
}

CavPath *
cav_path_reversed (const CavPath *path)
{
  CavPath *reversed;

  g_return_val_if_fail (path != NULL, NULL);

  reversed = cav_path_copy (path);
  reversed->start = path_end (path);
  for (guint i = 0; i < path->segments->len; i++)
    {
      CavSegment *segment = &g_array_index (reversed->segments, CavSegment, i);

      *segment = cav_segment_reversed (cav_path_get_segment (path, path->segments->len - 1 - i));
    }
  return reversed;
}

CavPath *
cav_path_transformed (const CavPath *path, CavTransform transform)
{
  CavPath *result;

  g_return_val_if_fail (path != NULL, NULL);

  result = cav_path_new ();
  result->finite = path->finite;
  if (path->started)
    cav_path_move_to (result, cav_transform_point (transform, path->start));
  for (guint i = 0; i < path->segments->len; i++)
    {
      CavSegment segment = cav_segment_transformed (cav_path_get_segment (path, i), transform);

      cav_path_append (result, &segment);
    }
  if (path->closed)
    cav_path_close (result);
  return result;
}

GArray *
cav_path_linearise (const CavPath *path, double tolerance)
{
  GArray *points;

  g_return_val_if_fail (path != NULL && tolerance > 0.0, NULL);

  points = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  if (path->started)
    g_array_append_val (points, path->start);
  for (guint i = 0; i < path->segments->len; i++)
    cav_segment_linearise (cav_path_get_segment (path, i), tolerance, points);
  if (path->closed && points->len > 1)
    g_array_set_size (points, points->len - 1);
  return points;
}
