/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-rows.h"

#include <math.h>

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

/* Half open, so that a vertex counts once. */
static void
add_crossings (GArray *crossings, CavPoint p, CavPoint q, int n_rows)
{
  if (p.y > q.y)
    {
      CavPoint swap = p;

      p = q;
      q = swap;
    }
  int from = (int)ceil (p.y / CAV_ROW_HEIGHT - 0.5), to = (int)ceil (q.y / CAV_ROW_HEIGHT - 0.5);

  for (int row = MAX (from, 0); row < MIN (to, n_rows); row++)
    {
      double y = (row + 0.5) * CAV_ROW_HEIGHT;
      Crossing crossing = { row, p.x + (y - p.y) / (q.y - p.y) * (q.x - p.x) };

      g_array_append_val (crossings, crossing);
    }
}

/* The crossings of each row, rising: rows by counting, the few of a row by insertion. */
static double *
sort_crossings (const GArray *crossings, int n_rows, int *out_begin)
{
  double *xs = g_new (double, MAX (crossings->len, 1));
  g_autofree int *filled = g_new0 (int, n_rows + 1);

  for (guint i = 0; i < crossings->len; i++)
    out_begin[g_array_index (crossings, Crossing, i).row + 1]++;
  for (int row = 0; row < n_rows; row++)
    out_begin[row + 1] += out_begin[row];
  for (guint i = 0; i < crossings->len; i++)
    {
      Crossing crossing = g_array_index (crossings, Crossing, i);
      int begin = out_begin[crossing.row], at = begin + filled[crossing.row]++;

      for (; at > begin && xs[at - 1] > crossing.x; at--)
        xs[at] = xs[at - 1];
      xs[at] = crossing.x;
    }
  return xs;
}

static CavRows *
rows_from_crossings (const GArray *crossings, int n_rows)
{
  CavRows *rows = g_new0 (CavRows, 1);
  g_autofree int *begin = g_new0 (int, n_rows + 1);
  g_autofree double *xs = sort_crossings (crossings, n_rows, begin);
  int n_spans = 0;

  rows->n_rows = n_rows;
  rows->first = g_new0 (gint32, n_rows + 1);
  rows->spans = g_new (CavSpan, crossings->len / 2 + 1);
  for (int row = 0; row < n_rows; row++)
    {
      rows->first[row] = n_spans;
      for (int i = begin[row]; i + 1 < begin[row + 1]; i += 2)
        {
          CavSpan span
              = { (gint32)lround (xs[i] * CAV_MICRONS), (gint32)lround (xs[i + 1] * CAV_MICRONS) };

          if (span.b > span.a)
            rows->spans[n_spans++] = span;
        }
    }
  rows->first[n_rows] = n_spans;
  return rows;
}

CavRows *
cav_rows_new_from_region (const CavRegion *region, int n_rows)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));

  for (guint ring = 0; ring < cav_region_get_ring_count (region); ring++)
    {
      guint n_points;
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n_points);

      for (guint i = 0; i < n_points; i++)
        add_crossings (crossings, points[i], points[(i + 1) % n_points], n_rows);
    }
  return rows_from_crossings (crossings, n_rows);
}

CavRows *
cav_rows_new_from_polygon (const CavPoint *points, guint n_points, int n_rows)
{
  g_autoptr (GArray) crossings = g_array_new (FALSE, FALSE, sizeof (Crossing));

  for (guint i = 0; i < n_points; i++)
    add_crossings (crossings, points[i], points[(i + 1) % n_points], n_rows);
  return rows_from_crossings (crossings, n_rows);
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
