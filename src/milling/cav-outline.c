/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-task.h"

#include <math.h>

/* Spacing of samples along the outline: what hand work is counted by. */
#define SAMPLE_SPACING 0.1
/* The outline turns sharply where its direction changes by more than this (degrees); chords of a
 * drawn curve turn by less. */
#define SHARP_TURN 14
/* An edge between two gentle turns counts as straight from this length on. */
#define LONG_EDGE 4.0
#define LEAST_EDGE 1.2
/* Outline that a sweep leaves and that can be seen, mm: from here on it shows. */
#define SHOWS_LEAST 0.5
/* How far over the surface a pass must reach to count as the one that made it. */
#define CONTACT_DEPTH 0.03

static double
get_turn (CavPoint a, CavPoint b, CavPoint c)
{
  double cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
  double dot = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y);

  return fabs (atan2 (cross, dot)) * 180 / G_PI;
}

/* TRUE where an edge is one of the blank's own sides: nothing has to be made there. */
static gboolean
is_on_blank (const CavTask *task, CavPoint p, CavPoint q)
{
  const double near = 1e-4;
  double w = task->blank.width, t = task->blank.thickness;

  return (fabs (p.x) < near && fabs (q.x) < near)
         || (fabs (p.x - w) < near && fabs (q.x - w) < near)
         || (fabs (p.y) < near && fabs (q.y) < near)
         || (fabs (p.y - t) < near && fabs (q.y - t) < near);
}

static void
sample_edge (CavTask *task, CavPoint p, CavPoint q)
{
  double length = cav_point_distance (p, q);
  int n = MAX (1, (int)ceil (length / SAMPLE_SPACING - 1e-9));

  for (int i = 0; i < n; i++)
    {
      double t = (i + 0.5) / n;
      /* Outer rings run counter-clockwise, holes clockwise: wood is on the left of both. */
      CavOutlineSample sample = { .point = { p.x + t * (q.x - p.x), p.y + t * (q.y - p.y) },
                                  .normal = { (q.y - p.y) / length, -(q.x - p.x) / length },
                                  .length = length / n };

      sample.over_row
          = (int)floor ((sample.point.y + CONTACT_DEPTH * sample.normal.y) / CAV_ROW_HEIGHT);
      sample.over_x
          = (gint32)lround ((sample.point.x + CONTACT_DEPTH * sample.normal.x) * CAV_MICRONS);
      g_array_append_val (task->samples, sample);
    }
}

static void
collect_ring (CavTask *task, const CavPoint *points, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      CavPoint before = points[(i + n - 1) % n], p = points[i], q = points[(i + 1) % n];
      CavPoint after = points[(i + 2) % n];
      double length = cav_point_distance (p, q);
      double turn = get_turn (before, p, q), next_turn = get_turn (p, q, after);
      gboolean extreme = ((before.x - p.x) * (q.x - p.x) > 0 || (before.y - p.y) * (q.y - p.y) > 0);

      if (length < 1e-9)
        continue;
      if (turn > SHARP_TURN || extreme)
        g_array_append_val (task->corners, p);
      if (is_on_blank (task, p, q))
        continue;
      sample_edge (task, p, q);
      if (length >= LONG_EDGE
          || (length >= LEAST_EDGE && (turn > SHARP_TURN || next_turn > SHARP_TURN)))
        {
          CavOutlineEdge edge = { p, q };

          g_array_append_val (task->edges, edge);
        }
      else if (turn <= SHARP_TURN)
        task->curved = TRUE;
    }
}

void
cav_outline_collect (CavTask *task)
{
  task->samples = g_array_new (FALSE, FALSE, sizeof (CavOutlineSample));
  task->corners = g_array_new (FALSE, FALSE, sizeof (CavPoint));
  task->edges = g_array_new (FALSE, FALSE, sizeof (CavOutlineEdge));
  for (guint ring = 0; ring < cav_region_get_ring_count (task->profile); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (task->profile, ring, &n);

      collect_ring (task, points, n);
    }
}

gboolean
cav_candidate_shows (const CavTask *task, const CavCandidate *candidate)
{
  double seen = 0;

  for (guint i = 0; i < task->samples->len && seen <= SHOWS_LEAST; i++)
    {
      const CavOutlineSample *s = &g_array_index (task->samples, CavOutlineSample, i);

      if (!cav_sweep_rows_contain (&candidate->sweep, s->over_row, s->over_x))
        continue;
      /* Nothing of the profile above it. */
      if (task->blank.thickness - s->point.y
          <= cav_lower_line_at (task->lines[CAV_SIDE_FACE],
                                s->point.x + CONTACT_DEPTH * s->normal.x)
                 + 0.05)
        seen += s->length;
    }
  return seen > SHOWS_LEAST;
}
