/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Regions grown all round, straight into rows. */
#include "milling/cav-rows.h"

#include <math.h>
#include <stdlib.h>

/* A stretch of one row. */
typedef struct
{
  int row;
  CavSpan span;
} Stretch;

static int
compare_stretches (const void *a, const void *b)
{
  const Stretch *p = a, *q = b;

  if (p->row != q->row)
    return p->row < q->row ? -1 : 1;
  return (p->span.a > q->span.a) - (p->span.a < q->span.a);
}

static void
widen (double x, double *from, double *to)
{
  *from = MIN (*from, x);
  *to = MAX (*to, x);
}

static void
widen_by_disc (CavPoint centre, double radius, double y, double *from, double *to)
{
  double square = radius * radius - (y - centre.y) * (y - centre.y);

  if (square < 0)
    return;
  square = sqrt (square);
  widen (centre.x - square, from, to);
  widen (centre.x + square, from, to);
}

/* What lies within a distance of one edge: a strip with round ends, so a stretch on every row. */
static void
add_edge (GArray *stretches, CavPoint p, CavPoint q, double distance, int n_rows)
{
  double length = cav_point_distance (p, q);
  double low = MIN (p.y, q.y) - distance, high = MAX (p.y, q.y) + distance;
  CavPoint aside;

  if (length < 1e-9)
    return;
  aside = CAV_POINT ((q.y - p.y) / length * distance, (p.x - q.x) / length * distance);
  for (int row = MAX ((int)ceil (low / CAV_ROW_HEIGHT - 0.5), 0);
       row < MIN ((int)ceil (high / CAV_ROW_HEIGHT - 0.5), n_rows); row++)
    {
      double y = (row + 0.5) * CAV_ROW_HEIGHT, from = G_MAXDOUBLE, to = -G_MAXDOUBLE;
      Stretch stretch = { .row = row };

      widen_by_disc (p, distance, y, &from, &to);
      widen_by_disc (q, distance, y, &from, &to);
      for (int sense = -1; sense <= 1; sense += 2)
        {
          double share = (y - p.y - sense * aside.y) / (q.y - p.y);

          if (share > 0 && share < 1)
            widen (p.x + sense * aside.x + share * (q.x - p.x), &from, &to);
        }
      if (to <= from)
        continue;
      stretch.span
          = (CavSpan){ (gint32)lround (from * CAV_MICRONS), (gint32)lround (to * CAV_MICRONS) };
      g_array_append_val (stretches, stretch);
    }
}

/* Stretches in order, those that touch joined. */
static CavRows *
join_stretches (const GArray *stretches, int n_rows)
{
  CavRows *rows = g_new0 (CavRows, 1);
  int n = 0;
  guint i = 0;

  rows->n_rows = n_rows;
  rows->first = g_new0 (gint32, n_rows + 1);
  rows->spans = g_new (CavSpan, MAX (stretches->len, 1));
  for (int row = 0; row < n_rows; row++)
    {
      rows->first[row] = n;
      for (; i < stretches->len && g_array_index (stretches, Stretch, i).row == row; i++)
        {
          CavSpan span = g_array_index (stretches, Stretch, i).span;

          if (n > rows->first[row] && span.a <= rows->spans[n - 1].b)
            rows->spans[n - 1].b = MAX (rows->spans[n - 1].b, span.b);
          else
            rows->spans[n++] = span;
        }
    }
  rows->first[n_rows] = n;
  return rows;
}

CavRows *
cav_rows_new_grown (const CavRegion *region, double distance, int n_rows)
{
  g_autoptr (CavRows) inside = cav_rows_new_from_region (region, n_rows);
  g_autoptr (GArray) stretches = g_array_new (FALSE, FALSE, sizeof (Stretch));

  for (int row = 0; row < n_rows; row++)
    for (int i = inside->first[row]; i < inside->first[row + 1]; i++)
      {
        Stretch stretch = { row, inside->spans[i] };

        g_array_append_val (stretches, stretch);
      }
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        add_edge (stretches, points[i], points[(i + 1) % n], distance, n_rows);
    }
  if (stretches->len > 1)
    qsort (stretches->data, stretches->len, sizeof (Stretch), compare_stretches);
  return join_stretches (stretches, n_rows);
}
