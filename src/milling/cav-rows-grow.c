/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Regions grown all round, straight into rows. */
#include "milling/cav-rows.h"

#include <math.h>
#include <string.h>

/* What is covered of one row: spans that do not touch, rising. */
typedef struct
{
  CavSpan *spans;
  int n;
  int room;
} Cover;

/* Joins a span with what it touches. */
static void
add_span (Cover *cover, CavSpan span)
{
  int from = 0, to;

  while (from < cover->n && cover->spans[from].b < span.a)
    from++;
  for (to = from; to < cover->n && cover->spans[to].a <= span.b; to++)
    {
      span.a = MIN (span.a, cover->spans[to].a);
      span.b = MAX (span.b, cover->spans[to].b);
    }
  if (from == to && cover->n == cover->room)
    {
      cover->room = 2 * cover->room + 4;
      cover->spans = g_renew (CavSpan, cover->spans, cover->room);
    }
  memmove (&cover->spans[from + 1], &cover->spans[to], sizeof (CavSpan) * (gsize)(cover->n - to));
  cover->spans[from] = span;
  cover->n += from + 1 - to;
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
add_edge (Cover *covers, CavPoint p, CavPoint q, double distance, int n_rows)
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
      add_span (&covers[row], (CavSpan){ cav_rows_to_microns (from), cav_rows_to_microns (to) });
    }
}

static CavRows *
rows_from_covers (const Cover *covers, int n_rows)
{
  CavRows *rows = g_new0 (CavRows, 1);
  int n = 0;

  rows->n_rows = n_rows;
  rows->first = g_new0 (gint32, n_rows + 1);
  for (int row = 0; row < n_rows; row++)
    rows->first[row + 1] = rows->first[row] + covers[row].n;
  rows->spans = g_new (CavSpan, MAX (rows->first[n_rows], 1));
  for (int row = 0; row < n_rows; row++)
    for (int i = 0; i < covers[row].n; i++)
      rows->spans[n++] = covers[row].spans[i];
  return rows;
}

CavRows *
cav_rows_new_grown (const CavRegion *region, double distance, int n_rows)
{
  g_autoptr (CavRows) inside = cav_rows_new_from_region (region, n_rows);
  g_autofree Cover *covers = g_new0 (Cover, MAX (n_rows, 1));
  CavRows *rows;

  for (int row = 0; row < n_rows; row++)
    for (int i = inside->first[row]; i < inside->first[row + 1]; i++)
      add_span (&covers[row], inside->spans[i]);
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n);

      for (guint i = 0; i < n; i++)
        add_edge (covers, points[i], points[(i + 1) % n], distance, n_rows);
    }
  rows = rows_from_covers (covers, n_rows);
  for (int row = 0; row < n_rows; row++)
    g_free (covers[row].spans);
  return rows;
}
