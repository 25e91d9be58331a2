/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-trace.h"

static void
trace_arc (cairo_t *cr, const CavSegment *arc)
{
  double start = arc->start * G_PI / 180;
  double end = (arc->start + arc->sweep) * G_PI / 180;

  cairo_save (cr);
  cairo_translate (cr, arc->centre.x, arc->centre.y);
  cairo_rotate (cr, arc->rotation * G_PI / 180);
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
