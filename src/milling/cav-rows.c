/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rows.h"

#include <math.h>
#include <string.h>

int
cav_rows_count_for (double thickness)
{
  return (int)ceil (thickness / CAV_ROW_HEIGHT - 1e-6);
}

double
cav_rows_get_share (double thickness, int row)
{
  return CLAMP (thickness / CAV_ROW_HEIGHT - row, 0, 1);
}

/* Where the edges of an outline cross the middle lines of rows. */
typedef struct
{
  int row;
  double x;
} Crossing;

typedef struct
{
  Crossing *crossings;
  int n;
  int room;
  int n_rows;
  int from_row; /* rows outside of these stay empty */
  int to_row;
} Crossings;

/* Half open, so that a vertex counts once. */
static void
add_crossings (Crossings *list, CavPoint p, CavPoint q)
{
  double slope;
  int from, to;

  if (p.y > q.y)
    {
      CavPoint swap = p;

      p = q;
      q = swap;
    }
  from = MAX ((int)ceil (p.y / CAV_ROW_HEIGHT - 0.5), list->from_row);
  to = MIN ((int)ceil (q.y / CAV_ROW_HEIGHT - 0.5), list->to_row);
  if (to <= from)
    return;
  if (list->n + to - from > list->room)
    {
      list->room = 2 * (list->n + to - from) + 1000;
      list->crossings = g_renew (Crossing, list->crossings, list->room);
    }
  slope = (q.x - p.x) / (q.y - p.y);
  for (int row = from; row < to; row++)
    list->crossings[list->n++]
        = (Crossing){ row, p.x + ((row + 0.5) * CAV_ROW_HEIGHT - p.y) * slope };
}

/* The crossings of each row, rising: rows by counting, the few of a row by insertion. begin: for
 * each row from the first that is filled. */
static double *
sort_crossings (const Crossings *list, int *begin)
{
  double *xs = g_new (double, MAX (list->n, 1));
  int n_rows = list->to_row - list->from_row;
  g_autofree int *filled = g_new0 (int, n_rows + 1);

  for (int i = 0; i < list->n; i++)
    begin[list->crossings[i].row - list->from_row + 1]++;
  for (int i = 0; i < n_rows; i++)
    begin[i + 1] += begin[i];
  for (int i = 0; i < list->n; i++)
    {
      Crossing crossing = list->crossings[i];
      int row = crossing.row - list->from_row, first = begin[row], at = first + filled[row]++;

      for (; at > first && xs[at - 1] > crossing.x; at--)
        xs[at] = xs[at - 1];
      xs[at] = crossing.x;
    }
  return xs;
}

static CavRows *
rows_from_crossings (const Crossings *list)
{
  CavRows *rows = g_new0 (CavRows, 1);
  int n_rows = list->n_rows, n_spans = 0;
  g_autofree int *begins = g_new0 (int, list->to_row - list->from_row + 1);
  g_autofree double *xs = sort_crossings (list, begins);

  rows->n_rows = n_rows;
  rows->first = g_new (gint32, n_rows + 1);
  rows->spans = g_new (CavSpan, list->n / 2 + 1);
  memset (rows->first, 0, sizeof (gint32) * (gsize)list->from_row);
  for (int row = list->from_row; row < list->to_row; row++)
    {
      const int *begin = &begins[row - list->from_row];

      rows->first[row] = n_spans;
      for (int i = begin[0]; i + 1 < begin[1]; i += 2)
        {
          CavSpan span = { cav_rows_to_microns (xs[i]), cav_rows_to_microns (xs[i + 1]) };

          if (span.b > span.a)
            rows->spans[n_spans++] = span;
        }
    }
  for (int row = list->to_row; row <= n_rows; row++)
    rows->first[row] = n_spans;
  return rows;
}

static CavPoint
swap_axes (CavPoint point)
{
  return CAV_POINT (point.y, point.x);
}

CavRows *
cav_rows_new_from_region_part (
    const CavRegion *region, int n_rows, gboolean turned, double from, double to)
{
  Crossings list = { .n_rows = n_rows };
  CavRows *rows;

  list.from_row = (int)CLAMP (floor (from / CAV_ROW_HEIGHT), 0, n_rows);
  list.to_row = (int)CLAMP (ceil (to / CAV_ROW_HEIGHT), list.from_row, n_rows);
  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n_points;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        {
          CavPoint p = points[i], q = points[i + 1 < n_points ? i + 1 : 0];

          add_crossings (&list, turned ? swap_axes (p) : p, turned ? swap_axes (q) : q);
        }
    }
  rows = rows_from_crossings (&list);
  g_free (list.crossings);
  return rows;
}

CavRows *
cav_rows_new_from_region (const CavRegion *region, int n_rows)
{
  return cav_rows_new_from_region_part (region, n_rows, FALSE, 0, n_rows * CAV_ROW_HEIGHT);
}

CavRows *
cav_rows_new_from_polygon (const CavPoint *points, guint n_points, int n_rows)
{
  Crossings list = { .n_rows = n_rows, .to_row = n_rows };
  CavRows *rows;

  for (guint i = 0; i < n_points; i++)
    add_crossings (&list, points[i], points[(i + 1) % n_points]);
  rows = rows_from_crossings (&list);
  g_free (list.crossings);
  return rows;
}

void
cav_rows_free (CavRows *rows)
{
  if (rows == NULL)
    return;
  g_free (rows->first);
  g_free (rows->spans);
  g_free (rows);
}

void
cav_rows_find_middle (const CavRows *rows, int *out_row, gint32 *out_x)
{
  gint32 widest = 0;

  *out_row = 0;
  *out_x = 0;
  for (int row = 0; row < rows->n_rows; row++)
    for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
      if (rows->spans[i].b - rows->spans[i].a > widest)
        {
          widest = rows->spans[i].b - rows->spans[i].a;
          *out_row = row;
          *out_x = (rows->spans[i].a + rows->spans[i].b) / 2;
        }
}

CavPoint
cav_rows_get_place (int row, gint32 x)
{
  return CAV_POINT (x / CAV_MICRONS, (row + 0.5) * CAV_ROW_HEIGHT);
}

gboolean
cav_rows_contains (const CavRows *rows, int row, gint32 x)
{
  if (row < 0 || row >= rows->n_rows)
    return FALSE;
  for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
    if (x >= rows->spans[i].a && x < rows->spans[i].b)
      return TRUE;
  return FALSE;
}

double
cav_rows_get_common_area (const CavRows *a, const CavRows *b)
{
  gint64 microns = 0;

  for (int row = 0; row < MIN (a->n_rows, b->n_rows); row++)
    {
      int i = a->first[row], j = b->first[row];

      while (i < a->first[row + 1] && j < b->first[row + 1])
        {
          gint32 from = MAX (a->spans[i].a, b->spans[j].a), to = MIN (a->spans[i].b, b->spans[j].b);

          if (to > from)
            microns += to - from;
          if (a->spans[i].b < b->spans[j].b)
            i++;
          else
            j++;
        }
    }
  return (double)microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}

double
cav_rows_get_area (const CavRows *rows)
{
  gint64 microns = 0;

  for (int i = 0; i < rows->first[rows->n_rows]; i++)
    microns += rows->spans[i].b - rows->spans[i].a;
  return (double)microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}
