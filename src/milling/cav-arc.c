/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-arc.h"

#include "geometry/cav-tolerance.h"
#include <math.h>

/* Places looked at over an arc, before those that are air or profile anyway are left out. */
#define PLACES CAV_ARC_PLACES

/* A round that turns by less (degrees), or is shorter (mm), is a matter for sandpaper. */
#define LEAST_TURN 20
#define LEAST_LENGTH 1.0
/* Fewer places than this say too little. */
#define PLACES_LEAST 10
/* An arc counts as made where no more than one place in so many is missed. */
#define MISSED_SHARE 10
/* How far over the arc a cutter has to reach to count as the one that made it: what the raster and
 * its own light touch need, and a step of the settings, up to a limit. */
#define TOUCH 0.03
#define STEP_MOST 0.07
/* An arc left to the hand that a cutter of the shop would make costs so many times what it takes to
 * set that cutter up and feed it twice: once for that, once for the waste that may have to go
 * before. No rate of hand work says so, but a round scraped by eye is not the drawn one, and the
 * next rail's is another. */
#define LEFT_FACTOR 2
#define LEFT_FEEDS 2

/* Adds what runs from one angle to another of a circular arc, degrees. */
static void
add_arc (CavTask *task, const CavSegment *segment, double from, double to)
{
  double sense = segment->sweep > 0 ? 1 : -1;
  double depth = TOUCH + fmin (task->shop->limits.step, STEP_MOST);
  /* Wood is on the left: an outline that turns left has its middle in the wood. */
  double radius = segment->rx + sense * depth;
  CavOutlineArc arc = { .n = 0 };

  if (fabs (to - from) < LEAST_TURN || fabs (to - from) * G_PI / 180 * segment->rx < LEAST_LENGTH
      || radius <= 0)
    return;
  for (int i = 0; i < PLACES; i++)
    {
      double angle = segment->rotation + from + (i + 0.5) / PLACES * (to - from);
      double x = segment->centre.x + radius * cos (angle * G_PI / 180);
      double y = segment->centre.y + radius * sin (angle * G_PI / 180);

      int row = (int)floor (y / CAV_ROW_HEIGHT);
      gint32 at = (gint32)lround (x * CAV_MICRONS);

      if (x < 0 || x > task->blank.width || y < 0 || y > task->blank.thickness
          || cav_rows_contains (task->profile_rows, row, at))
        continue;
      arc.rows[arc.n] = row;
      arc.xs[arc.n++] = at;
    }
  if (arc.n >= PLACES_LEAST)
    g_array_append_val (task->arcs, arc);
}

/* Quarter by quarter, because a cutter for a quarter round makes half a bead at a time. */
static void
add_quarters (CavTask *task, const CavSegment *segment)
{
  double sense = segment->sweep > 0 ? 1 : -1, turn = segment->rotation;
  double at = segment->start, end = segment->start + segment->sweep;

  while (sense * (end - at) > 1e-6)
    {
      double quarter = floor (sense * (at + turn) / 90 + 1e-6) + 1;
      double next = sense * quarter * 90 - turn;

      if (sense * (next - end) > 0)
        next = end;
      add_arc (task, segment, at, next);
      at = next;
    }
}

void
cav_arc_collect (CavTask *task)
{
  task->arcs = g_array_new (FALSE, FALSE, sizeof (CavOutlineArc));
  for (guint i = 0; i < cav_region_get_ring_count (task->profile); i++)
    {
      const CavPath *ring = cav_region_get_ring (task->profile, i);

      for (guint j = 0; j < cav_path_get_segment_count (ring); j++)
        {
          const CavSegment *segment = cav_path_get_segment (ring, j);

          if (segment->kind == CAV_SEGMENT_ARC
              && fabs (segment->rx - segment->ry) < CAV_TOLERANCE_POINT)
            add_quarters (task, segment);
        }
    }
}

gboolean
cav_arc_is_made_by (const CavOutlineArc *arc, const CavSweepRows *sweep)
{
  int left = arc->n / MISSED_SHARE;

  for (int i = 0; i < arc->n && left >= 0; i++)
    left -= !cav_sweep_rows_contain (sweep, arc->rows[i], arc->xs[i]);
  return left >= 0;
}

gboolean
cav_arc_is_left (const CavOutlineArc *arc, const CavBands *bands)
{
  int left = arc->n / MISSED_SHARE, band = bands->n_bands / 2;

  for (int i = 0; i < arc->n && left >= 0; i++)
    left -= cav_bands_contain (bands, arc->rows[i], arc->xs[i], &band);
  return left < 0;
}

double
cav_arc_get_price (const CavTask *task)
{
  const CavRates *rates = &task->shop->rates;

  return LEFT_FACTOR * (rates->router_setup + LEFT_FEEDS * (task->pass_minutes + rates->move));
}
