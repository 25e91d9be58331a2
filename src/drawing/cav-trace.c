/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-trace.h"

#include "geometry/cav-unit.h"

#include <math.h>

static void
trace_arc (cairo_t *cr, const CavSegment *arc)
{
  double start = CAV_RADIANS (arc->start);
  double end = CAV_RADIANS (arc->start + arc->sweep);

  cairo_save (cr);
  cairo_translate (cr, arc->centre.x, arc->centre.y);
  cairo_rotate (cr, CAV_RADIANS (arc->rotation));
  cairo_scale (cr, arc->rx, arc->ry);
  if (arc->sweep < 0)
    cairo_arc_negative (cr, 0, 0, 1, start, end);
  else
    cairo_arc (cr, 0, 0, 1, start, end);
  cairo_restore (cr);
}

void
cav_path_trace (cairo_t *cr, const CavPath *path)
{
  CavPoint start;

  g_return_if_fail (cr != NULL && path != NULL);

  start = cav_path_get_start (path);
  cairo_move_to (cr, start.x, start.y);
  for (guint i = 0; i < cav_path_get_segment_count (path); i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);

      if (segment->kind == CAV_SEGMENT_ARC)
        trace_arc (cr, segment);
      else
        cairo_line_to (cr, segment->to.x, segment->to.y);
    }
  if (cav_path_is_closed (path))
    cairo_close_path (cr);
}

static void
apply (cairo_t *cr, CavTransform map)
{
  cairo_matrix_t matrix;

  cairo_matrix_init (&matrix, map.xx, map.yx, map.xy, map.yy, map.x0, map.y0);
  cairo_transform (cr, &matrix);
}

void
cav_path_trace_mapped (cairo_t *cr, const CavPath *path, CavTransform map)
{
  cairo_save (cr);
  apply (cr, map);
  cav_path_trace (cr, path);
  cairo_restore (cr);
}

void
cav_region_trace (cairo_t *cr, const CavRegion *region, CavTransform map)
{
  cairo_save (cr);
  apply (cr, map);
  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    cav_path_trace (cr, cav_region_get_ring (region, i));
  cairo_restore (cr);
}

/* What cr can show, grown by reach, in the units that map maps from; map has been applied. */
static CavBox
get_shown (cairo_t *cr, CavTransform map, double reach)
{
  double scale = sqrt (fabs (map.xx * map.yy - map.xy * map.yx));
  CavBox box;

  cairo_clip_extents (cr, &box.x0, &box.y0, &box.x1, &box.y1);
  reach /= scale;
  return (CavBox){ box.x0 - reach, box.y0 - reach, box.x1 + reach, box.y1 + reach };
}

static gboolean
is_shown (const CavSegment *segment, CavBox shown)
{
  CavBox box = cav_segment_bounds (segment);

  return box.x1 >= shown.x0 && box.x0 <= shown.x1 && box.y1 >= shown.y0 && box.y0 <= shown.y1;
}

/* The first segment that is not shown, or how many there are. */
static guint
find_gap (const CavPath *path, CavBox shown)
{
  guint count = cav_path_get_segment_count (path);
  guint i = 0;

  while (i < count && is_shown (cav_path_get_segment (path, i), shown))
    i++;
  return i;
}

static CavPoint
get_segment_start (const CavPath *path, guint index)
{
  guint count = cav_path_get_segment_count (path);

  return index == 0 ? cav_path_get_start (path)
                    : cav_path_get_segment (path, (index + count - 1) % count)->to;
}

/* A closed path from the gap on, so that no run of what is shown is torn where the path begins. */
static void
trace_shown (cairo_t *cr, const CavPath *path, guint gap, CavBox shown)
{
  guint count = cav_path_get_segment_count (path);
  gboolean goes_on = FALSE;

  for (guint i = 1; i < count; i++)
    {
      guint index = (gap + i) % count;
      const CavSegment *segment = cav_path_get_segment (path, index);
      gboolean shows = is_shown (segment, shown);

      if (shows && !goes_on)
        {
          CavPoint start = get_segment_start (path, index);

          cairo_move_to (cr, start.x, start.y);
        }
      if (shows && segment->kind == CAV_SEGMENT_ARC)
        trace_arc (cr, segment);
      else if (shows)
        cairo_line_to (cr, segment->to.x, segment->to.y);
      goes_on = shows;
    }
}

void
cav_region_trace_shown (cairo_t *cr, const CavRegion *region, CavTransform map, double reach)
{
  CavBox shown;

  cairo_save (cr);
  apply (cr, map);
  shown = get_shown (cr, map, reach);
  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *ring = cav_region_get_ring (region, i);
      guint gap = find_gap (ring, shown);

      if (gap == cav_path_get_segment_count (ring))
        cav_path_trace (cr, ring);
      else
        trace_shown (cr, ring, gap, shown);
    }
  cairo_restore (cr);
}
