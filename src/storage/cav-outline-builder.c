/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-outline-builder.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "geometry/cav-tolerance.h"
#include "storage/cav-bezier.h"

/* Arcs of larger circles are drawn as chords, for their centres lie out of range. */
#define LARGEST_RADIUS CAV_COORDINATE_MAX
/* An ellipse flatter than this is a line, as one with a radius of 0 is by SVG 1.1, F.6.2: drawn
 * from chords it would need any number of them. */
#define FLATTEST 1e-6

static void
outline_free (gpointer data)
{
  CavOutline *outline = data;

  g_array_unref (outline->segments);
  g_free (outline);
}

void
cav_outline_builder_init (CavOutlineBuilder *builder)
{
  *builder = (CavOutlineBuilder){ .transform = cav_transform_identity (),
                                  .outlines = g_ptr_array_new_with_free_func (outline_free) };
}

void
cav_outline_builder_clear (CavOutlineBuilder *builder)
{
  g_clear_pointer (&builder->current, outline_free);
  g_clear_pointer (&builder->outlines, g_ptr_array_unref);
}

void
cav_outline_builder_finish (CavOutlineBuilder *builder)
{
  CavOutline *outline = g_steal_pointer (&builder->current);

  if (outline == NULL)
    return;
  if (outline->segments->len == 0)
    outline_free (outline);
  else
    g_ptr_array_add (builder->outlines, outline);
}

void
cav_outline_builder_move_to (CavOutlineBuilder *builder, CavPoint point)
{
  cav_outline_builder_finish (builder);
  builder->start = builder->point = point;
}

static gboolean
to_millimetres (const CavOutlineBuilder *builder, CavPoint user, CavPoint *out_mm, GError **error)
{
  *out_mm = cav_transform_point (builder->transform, user);
  if (cav_point_is_finite (*out_mm) && fabs (out_mm->x) <= CAV_COORDINATE_MAX
      && fabs (out_mm->y) <= CAV_COORDINATE_MAX)
    return TRUE;
  g_set_error_literal (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
                       _ ("the path runs farther than 100 m from the picture; draw it inside"));
  return FALSE;
}

/* Gets the outline that is being drawn, which begins where the pen is, and that place in mm. */
static gboolean
begin (CavOutlineBuilder *builder, CavPoint *out_from, GError **error)
{
  if (!to_millimetres (builder, builder->point, out_from, error))
    return FALSE;
  if (builder->current == NULL)
    {
      builder->current = g_new0 (CavOutline, 1);
      builder->current->segments = g_array_new (FALSE, FALSE, sizeof (CavSegment));
      builder->current->line = builder->line;
    }
  return TRUE;
}

static gboolean
check_count (const CavOutlineBuilder *builder, GError **error)
{
  if (builder->current->segments->len < CAV_OUTLINE_MAX_SEGMENTS)
    return TRUE;
  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_TOO_LARGE,
               _ ("the path has more than %d pieces; simplify it in the drawing program"),
               CAV_OUTLINE_MAX_SEGMENTS);
  return FALSE;
}

static gboolean
append_line (CavOutlineBuilder *builder, CavPoint from, CavPoint to, GError **error)
{
  CavSegment line = cav_segment_line (from, to);

  if (!cav_point_near (from, to, CAV_TOLERANCE_POINT))
    g_array_append_val (builder->current->segments, line);
  return check_count (builder, error);
}

gboolean
cav_outline_builder_line_to (CavOutlineBuilder *builder, CavPoint point, GError **error)
{
  CavPoint from, to;

  if (!begin (builder, &from, error) || !to_millimetres (builder, point, &to, error))
    return FALSE;
  builder->point = point;
  return append_line (builder, from, to, error);
}

gboolean
cav_outline_builder_curve_to (CavOutlineBuilder *builder,
                              CavPoint control1,
                              CavPoint control2,
                              CavPoint point,
                              GError **error)
{
  CavPoint control[4];

  if (!begin (builder, &control[0], error)
      || !to_millimetres (builder, control1, &control[1], error)
      || !to_millimetres (builder, control2, &control[2], error)
      || !to_millimetres (builder, point, &control[3], error))
    return FALSE;
  builder->point = point;
  cav_bezier_append (control, CAV_OUTLINE_MAX_SEGMENTS, builder->current->segments);
  return check_count (builder, error);
}

/* Chords for an arc of a circle too large to name its centre. */
static gboolean
append_chords (CavOutlineBuilder *builder, const CavSegment *arc, GError **error)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  CavPoint from = arc->from;

  cav_segment_linearise (arc, CAV_TOLERANCE_CHORD, points);
  for (guint i = 0; i < points->len; i++)
    {
      CavPoint to = g_array_index (points, CavPoint, i);

      if (!append_line (builder, from, to, error))
        return FALSE;
      from = to;
    }
  return TRUE;
}

gboolean
cav_outline_builder_arc_to (CavOutlineBuilder *builder,
                            double rx,
                            double ry,
                            double rotation,
                            gboolean large,
                            gboolean sweep,
                            CavPoint point,
                            GError **error)
{
  CavPoint from, to;

  if (!begin (builder, &from, error) || !to_millimetres (builder, point, &to, error))
    return FALSE;
  if (fmin (fabs (rx), fabs (ry)) < FLATTEST * fmax (fabs (rx), fabs (ry)))
    {
      builder->point = point;
      return append_line (builder, from, to, error);
    }

  CavSegment user
      = cav_segment_arc_from_endpoints (builder->point, point, rx, ry, rotation, large, sweep);
  CavSegment arc = cav_segment_transformed (&user, builder->transform);

  builder->point = point;
  arc.from = from;
  arc.to = to;
  if (arc.kind == CAV_SEGMENT_LINE)
    return append_line (builder, from, to, error);
  if (fmax (arc.rx, arc.ry) > LARGEST_RADIUS)
    return append_chords (builder, &arc, error);
  if (cav_segment_length (&arc) > CAV_TOLERANCE_POINT)
    g_array_append_val (builder->current->segments, arc);
  return check_count (builder, error);
}

double
cav_outline_get_gap (const CavOutline *outline, CavPoint *out_end)
{
  CavPoint start = g_array_index (outline->segments, CavSegment, 0).from;
  CavPoint end = g_array_index (outline->segments, CavSegment, outline->segments->len - 1).to;

  *out_end = end;
  return cav_point_distance (start, end);
}

gboolean
cav_outline_builder_close (CavOutlineBuilder *builder, GError **error)
{
  if (builder->current != NULL)
    {
      if (!cav_outline_builder_line_to (builder, builder->start, error))
        return FALSE;
      builder->current->closed = TRUE;
    }
  cav_outline_builder_move_to (builder, builder->start);
  return TRUE;
}

/* Whether segment, the last one, may end at the start instead of where it does: an arc only
 * within what its centre and radius leave open. */
static gboolean
can_snap (const CavSegment *segment, CavPoint start)
{
  double slack = segment->kind == CAV_SEGMENT_LINE ? CAV_OUTLINE_CLOSE : 0.5 * CAV_TOLERANCE_CHORD;

  return cav_point_near (segment->to, start, slack);
}

/* A last line that closes no more than rounding left open would be a sliver; where the segment
 * before it can go all the way, it is left out. */
static guint
count_without_sliver (const CavOutline *outline, CavPoint start)
{
  guint n = outline->segments->len;
  const CavSegment *last = &g_array_index (outline->segments, CavSegment, n - 1);

  if (n >= 3 && last->kind == CAV_SEGMENT_LINE && can_snap (last - 1, start))
    return n - 1;
  return n;
}

CavPath *
cav_outline_create_path (const CavOutline *outline)
{
  CavPath *path = cav_path_new ();
  CavPoint start = g_array_index (outline->segments, CavSegment, 0).from;
  guint n = count_without_sliver (outline, start);

  cav_path_move_to (path, start);
  for (guint i = 0; i < n; i++)
    {
      CavSegment segment = g_array_index (outline->segments, CavSegment, i);

      if (i == n - 1 && can_snap (&segment, start))
        segment.to = start;
      cav_path_append (path, &segment);
    }
  cav_path_close (path);
  return path;
}
