/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Offsets by what an outline sweeps: every line carries a strip of the offset's width on one
 * side, every arc a band, every corner that turns away from that side a sector of a circle.
 * The region grows by their union, or shrinks by taking it away; the arcs of the result are
 * found again like those of any overlay.
 */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "geometry/cav-angle-private.h"
#include "geometry/cav-number-text.h"
#include "geometry/cav-overlay-private.h"
#include "geometry/cav-segment-private.h"
#include "geometry/cav-tolerance.h"

#define DEGREES (180.0 / G_PI)

/* A corner that opens no wider gap than this needs no sector. */
#define GAP_MIN CAV_TOLERANCE_OVERLAY

/* A turn this near to half a turn is a cusp, whichever way rounding lets it turn. */
#define CUSP_ANGLE (180.0 - 1e-6)

typedef struct
{
  GPtrArray *shapes; /* CavRegion */
  double width;
  double side; /* 1: on the right of the outline, outside the region; -1: on its left */
} Sweep;

/* Takes the path. A shape without area is left out. */
static void
add_shape (Sweep *sweep, CavPath *path)
{
  GArray *rings = cav_rings_new ();

  cav_path_close (path);
  if (cav_rings_append (rings, path, FALSE))
    g_ptr_array_add (sweep->shapes, cav_region_new_take_rings (rings));
  else
    g_array_unref (rings);
}

/* Direction, in degrees, in which an arc runs at its parameter t. */
static double
arc_direction (const CavSegment *arc, double t)
{
  CavArcFrame frame = cav_arc_frame (arc);
  double sign = arc->sweep < 0.0 ? -1.0 : 1.0;
  double s, c;

  cav_angle_sincos (t, &s, &c);
  return atan2 (sign * (frame.yy * c - frame.yx * s), sign * (frame.xy * c - frame.xx * s))
         * DEGREES;
}

static double
line_direction (CavPoint from, CavPoint to)
{
  return atan2 (to.y - from.y, to.x - from.x) * DEGREES;
}

static double
start_direction (const CavSegment *segment)
{
  return segment->kind == CAV_SEGMENT_LINE ? line_direction (segment->from, segment->to)
                                           : arc_direction (segment, segment->start);
}

static double
end_direction (const CavSegment *segment)
{
  return segment->kind == CAV_SEGMENT_LINE
             ? line_direction (segment->from, segment->to)
             : arc_direction (segment, segment->start + segment->sweep);
}

/* A point moved by the width to the swept side of a direction. */
static CavPoint
move_aside (const Sweep *sweep, CavPoint point, double direction)
{
  double s, c;

  cav_angle_sincos (direction - 90.0 * sweep->side, &s, &c);
  return CAV_POINT (point.x + sweep->width * c, point.y + sweep->width * s);
}

static void
add_line (Sweep *sweep, CavPoint from, CavPoint to)
{
  double direction = line_direction (from, to);
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, from);
  cav_path_line_to (path, to);
  cav_path_line_to (path, move_aside (sweep, to, direction));
  cav_path_line_to (path, move_aside (sweep, from, direction));
  add_shape (sweep, path);
}

static void
add_circle_arc (Sweep *sweep, const CavSegment *arc)
{
  double outward = sweep->side * (arc->sweep < 0.0 ? -1.0 : 1.0);
  double radius = arc->rx + outward * sweep->width;
  CavPath *path = cav_path_new ();

  cav_path_append (path, arc);
  /* Beyond the centre nothing is nearer to the arc than to its ends. */
  if (radius <= CAV_TOLERANCE_POINT)
    cav_path_line_to (path, arc->centre);
  else
    cav_path_arc (path, arc->centre, radius, radius, arc->start + arc->sweep, -arc->sweep);
  add_shape (sweep, path);
}

/* The offset of an ellipse is no ellipse: a run of chords stands for it. */
static void
add_ellipse_band (Sweep *sweep, const CavSegment *arc, double curvature)
{
  double tolerance = CAV_TOLERANCE_CHORD / (1.0 + curvature * sweep->width);
  guint n = cav_arc_step_count (arc, fmax (tolerance, CAV_TOLERANCE_SLIVER)) / 2;
  CavArcFrame frame = cav_arc_frame (arc);
  CavPath *path = cav_path_new ();

  cav_path_append (path, arc);
  for (guint i = 0; i <= n; i++)
    {
      double t = arc->start + arc->sweep * (n - i) / n;

      cav_path_line_to (
          path, move_aside (sweep, cav_arc_frame_point (&frame, t), arc_direction (arc, t)));
    }
  add_shape (sweep, path);
}

/* On the hollow side of an ellipse a band wider than its least radius would fold over. */
static void
add_ellipse_chords (Sweep *sweep, const CavSegment *arc)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  CavPoint from = arc->from;

  cav_segment_linearise (arc, CAV_TOLERANCE_CHORD, points);
  for (guint i = 0; i < points->len; i++)
    {
      CavPoint to = g_array_index (points, CavPoint, i);

      add_line (sweep, from, to);
      from = to;
    }
}

static void
add_ellipse_arc (Sweep *sweep, const CavSegment *arc)
{
  double least = fmin (arc->rx, arc->ry);
  double curvature = fmax (arc->rx, arc->ry) / (least * least);
  gboolean hollow = sweep->side * arc->sweep < 0.0;

  if (hollow && curvature * sweep->width > 0.99)
    add_ellipse_chords (sweep, arc);
  else
    add_ellipse_band (sweep, arc, curvature);
}

/* Both halves, so that no band closes on itself. */
static void
add_arc (Sweep *sweep, const CavSegment *arc)
{
  CavSegment half = *arc;

  half.sweep = 0.5 * arc->sweep;
  for (int i = 0; i < 2; i++)
    {
      half.from = i == 0 ? arc->from : half.to;
      half.start = arc->start + i * half.sweep;
      half.to = i == 0 ? cav_segment_point_at (arc, 0.5) : arc->to;
      if (fabs (half.rx - half.ry) <= 0.0)
        add_circle_arc (sweep, &half);
      else
        add_ellipse_arc (sweep, &half);
    }
}

static void
add_corner (Sweep *sweep, const CavSegment *before, const CavSegment *after)
{
  double direction = end_direction (before);
  double turn = cav_angle_wrap_signed (start_direction (after) - direction);
  CavPath *path;

  if (fabs (turn) / DEGREES * sweep->width < GAP_MIN
      || (turn * sweep->side < 0.0 && fabs (turn) < CUSP_ANGLE))
    return;
  path = cav_path_new ();
  cav_path_move_to (path, after->from);
  cav_path_line_to (path, move_aside (sweep, after->from, direction));
  cav_path_arc (path, after->from, sweep->width, sweep->width, direction - 90.0 * sweep->side,
                sweep->side * fabs (turn));
  add_shape (sweep, path);
}

static void
add_ring (Sweep *sweep, const CavPath *path)
{
  guint n = cav_path_get_segment_count (path);

  for (guint i = 0; i < n; i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);

      if (segment->kind == CAV_SEGMENT_LINE)
        add_line (sweep, segment->from, segment->to);
      else
        add_arc (sweep, segment);
      add_corner (sweep, segment, cav_path_get_segment (path, (i + 1) % n));
    }
}

CavRegion *
cav_region_offset (const CavRegion *region, double distance, GError **error)
{
  g_autoptr (GPtrArray) shapes = NULL;
  g_autoptr (CavRegion) swept = NULL;
  Sweep sweep;

  g_return_val_if_fail (region != NULL, NULL);
  g_return_val_if_fail (error == NULL || *error == NULL, NULL);

  if (!(fabs (distance) <= CAV_COORDINATE_MAX))
    {
      g_set_error (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_FINITE,
                   _ ("An outline cannot be moved by %s mm; give a distance of at most %s mm"),
                   CAV_NUMBER_TEXT ("%g", distance), CAV_NUMBER_TEXT ("%g", CAV_COORDINATE_MAX));
      return NULL;
    }
  if (fabs (distance) <= CAV_TOLERANCE_POINT || region->n_rings == 0)
    return cav_region_ref ((CavRegion *)region);

  shapes = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_region_unref);
  sweep
      = (Sweep){ .shapes = shapes, .width = fabs (distance), .side = distance > 0.0 ? 1.0 : -1.0 };
  if (distance > 0.0)
    g_ptr_array_add (shapes, cav_region_ref ((CavRegion *)region));
  for (guint i = 0; i < region->n_rings; i++)
    add_ring (&sweep, region->rings[i].path);

  swept = cav_region_union_all ((CavRegion *const *)shapes->pdata, shapes->len, error);
  if (swept == NULL)
    return NULL;
  if (distance > 0.0)
    return g_steal_pointer (&swept);
  return cav_region_difference (region, swept, error);
}
