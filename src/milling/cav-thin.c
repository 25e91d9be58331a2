/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-thin.h"

#include "milling/cav-root.h"

#include <math.h>

/* A wall counts when so much of it is not the profile's own (micrometres). */
#define WASTE_LEAST 300
/* What holds so much of the profile is no waste, mm². */
#define CORE_LEAST 0.01
/* A sweep's edge and a wall's are the same within this (micrometres). */
#define SAME_EDGE 60

static CavRows *
rows_alloc (int n_rows, int n_spans)
{
  CavRows *rows = g_new0 (CavRows, 1);

  rows->n_rows = n_rows;
  rows->first = g_new0 (gint32, n_rows + 1);
  rows->spans = g_new (CavSpan, MAX (n_spans, 1));
  return rows;
}

static CavRows *
rows_shrunk (const CavRows *rows, gint32 aside)
{
  CavRows *shrunk = rows_alloc (rows->n_rows, rows->first[rows->n_rows]);
  int n = 0;

  for (int row = 0; row < rows->n_rows; row++)
    {
      shrunk->first[row] = n;
      for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
        if (rows->spans[i].b - rows->spans[i].a > 2 * aside)
          shrunk->spans[n++] = (CavSpan){ rows->spans[i].a + aside, rows->spans[i].b - aside };
    }
  shrunk->first[rows->n_rows] = n;
  return shrunk;
}

/* Row i of the result is what rows i and i + shift share. */
static CavRows *
rows_common (const CavRows *rows, int shift)
{
  CavRows *common = rows_alloc (rows->n_rows, 2 * rows->first[rows->n_rows] + 2);
  int n = 0;

  for (int row = 0; row < rows->n_rows; row++)
    {
      int i = rows->first[row], j, end;

      common->first[row] = n;
      if (row + shift >= rows->n_rows)
        continue;
      j = rows->first[row + shift];
      end = rows->first[row + shift + 1];
      while (i < rows->first[row + 1] && j < end)
        {
          CavSpan p = rows->spans[i], q = rows->spans[j];

          if (MIN (p.b, q.b) > MAX (p.a, q.a))
            common->spans[n++] = (CavSpan){ MAX (p.a, q.a), MIN (p.b, q.b) };
          if (p.b < q.b)
            i++;
          else
            j++;
        }
    }
  common->first[rows->n_rows] = n;
  return common;
}

CavRows *
cav_rows_eroded (const CavRows *rows, gint32 aside, int n_rows_up)
{
  CavRows *eroded = rows_shrunk (rows, aside);
  int window = 2 * n_rows_up + 1, covered = 1;

  /* Doubling: what covered rows share becomes what twice as many share. Row i then stands for the
   * rows from i upward; which row is its middle does not matter to those who ask. */
  while (covered < window)
    {
      int shift = MIN (covered, window - covered);
      CavRows *next = rows_common (eroded, shift);

      cav_rows_free (eroded);
      eroded = next;
      covered += shift;
    }
  return eroded;
}

static int *
label_pieces (const CavRows *rows)
{
  int n = rows->first[rows->n_rows];
  int *parent = g_new (int, MAX (n, 1));

  for (int i = 0; i < n; i++)
    parent[i] = i;
  for (int row = 1; row < rows->n_rows; row++)
    {
      int i = rows->first[row - 1], j = rows->first[row];

      while (i < rows->first[row] && j < rows->first[row + 1])
        {
          CavSpan p = rows->spans[i], q = rows->spans[j];

          if (MIN (p.b, q.b) > MAX (p.a, q.a))
            {
              int a = cav_find_root (parent, i), b = cav_find_root (parent, j);

              parent[MAX (a, b)] = MIN (a, b);
            }
          if (p.b < q.b)
            i++;
          else
            j++;
        }
    }
  for (int i = 0; i < n; i++)
    parent[i] = cav_find_root (parent, i);
  return parent;
}

/* How much of a span lies in a row of another section, micrometres. */
static gint32
get_common_length (const CavRows *rows, int row, CavSpan span)
{
  gint32 length = 0;

  for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
    length += MAX (0, MIN (rows->spans[i].b, span.b) - MAX (rows->spans[i].a, span.a));
  return length;
}

/* Some pieces by the first span of each, mm²: what they have of the section and of the profile. */
typedef struct
{
  double area;
  double core;      /* not counted beyond CORE_LEAST */
  gboolean goes_on; /* out of the rows that were looked at */
} Lump;

static Lump *
measure_lumps (const CavRows *eroded, const int *parent, const CavRows *profile, int row_of_first)
{
  Lump *lumps = g_new0 (Lump, MAX (eroded->first[eroded->n_rows], 1));

  for (int row = 0; row < eroded->n_rows; row++)
    for (int i = eroded->first[row]; i < eroded->first[row + 1]; i++)
      {
        CavSpan span = eroded->spans[i];
        Lump *lump = &lumps[parent[i]];

        lump->area += (span.b - span.a) / CAV_MICRONS * CAV_ROW_HEIGHT;
        /* How much more it has does not matter. */
        if (lump->core < CORE_LEAST)
          lump->core
              += get_common_length (profile, MIN (row_of_first + row, profile->n_rows - 1), span)
                 / CAV_MICRONS * CAV_ROW_HEIGHT;
      }
  return lumps;
}

static void
mark_row (Lump *lumps, const int *parent, const CavRows *rows, int row)
{
  for (int i = rows->first[row]; i < rows->first[row + 1]; i++)
    lumps[parent[i]].goes_on = TRUE;
}

/* Where rows have changed, drawn in ones have changed that are up to a web lower. One more on
 * either side holds something of every piece that lost something there. */
CavLump
cav_rows_find_weak_lump (
    const CavRows *rail, const CavRows *profile, double web, double least, int from, int to)
{
  int half = (int)lround (web / 2 / CAV_ROW_HEIGHT);
  int begin = MAX (from - 2 * half - 1, 0), end = MIN (to + 2 * half + 1, rail->n_rows);
  const CavRows near = { end - begin, rail->first + begin, rail->spans };
  g_autoptr (CavRows) eroded
      = cav_rows_eroded (&near, (gint32)lround (web / 2 * CAV_MICRONS), half);
  g_autofree int *parent = label_pieces (eroded);
  g_autofree Lump *lumps = measure_lumps (eroded, parent, profile, begin + half);
  CavLump found = CAV_LUMP_NONE;

  if (begin > 0)
    mark_row (lumps, parent, eroded, 0);
  if (end < rail->n_rows)
    mark_row (lumps, parent, eroded, MAX (near.n_rows - 2 * half - 1, 0));
  for (int i = 0; i < eroded->first[eroded->n_rows]; i++)
    if (parent[i] == i && lumps[i].core < CORE_LEAST)
      {
        if (lumps[i].goes_on)
          found = CAV_LUMP_UNSURE;
        else if (lumps[i].area > least)
          return CAV_LUMP_WEAK;
      }
  return found;
}

gboolean
cav_rows_have_weak_lump (const CavRows *rail, const CavRows *profile, double web, double least)
{
  return cav_rows_find_weak_lump (rail, profile, web, least, 0, rail->n_rows) == CAV_LUMP_WEAK;
}

/* TRUE where the sweep made one of the span's two faces. */
static gboolean
is_beside (const CavRows *swept, int row, CavSpan span)
{
  for (int i = swept->first[row]; i < swept->first[row + 1]; i++)
    if (ABS (swept->spans[i].b - span.a) < SAME_EDGE
        || ABS (swept->spans[i].a - span.b) < SAME_EDGE)
      return TRUE;
  return FALSE;
}

/* The thinnest span of a row that is a wall; FALSE where there is none. swept: nullable. */
static gboolean
find_wall_in_row (const CavRows *rail,
                  const CavRows *profile,
                  const CavRows *swept,
                  int row,
                  gint32 limit,
                  CavSpan *out_span)
{
  gboolean found = FALSE;

  if (swept != NULL && swept->first[row + 1] == swept->first[row])
    return FALSE;
  for (int i = rail->first[row]; i < rail->first[row + 1]; i++)
    {
      CavSpan span = rail->spans[i];
      gint32 length = span.b - span.a;

      if (length >= limit || (found && length >= out_span->b - out_span->a)
          || (swept != NULL && !is_beside (swept, row, span))
          || length - get_common_length (profile, row, span) < WASTE_LEAST)
        continue;
      *out_span = span;
      found = TRUE;
    }
  return found;
}

gboolean
cav_rows_find_thin_wall (const CavRows *rail,
                         const CavRows *profile,
                         const CavRows *swept,
                         double wall,
                         CavRowsWall *out_wall)
{
  gint32 limit = (gint32)lround (wall * CAV_MICRONS);
  CavRowsWall run = { 0 };
  int begin = 0, end = rail->n_rows;

  *out_wall = run;
  /* Often only some rows are filled. */
  while (begin < end && rail->first[begin + 1] == 0)
    begin++;
  while (begin < end && rail->first[end - 1] == rail->first[rail->n_rows])
    end--;
  for (int row = begin; row < end; row++)
    {
      CavSpan span = { 0, 0 };

      if (!find_wall_in_row (rail, profile, swept, row, limit, &span))
        {
          run.n_rows = 0;
          continue;
        }
      if (run.n_rows == 0)
        run.row = row;
      if (run.n_rows == 0 || span.b - span.a < run.span.b - run.span.a)
        run.span = span;
      if (++run.n_rows > out_wall->n_rows)
        *out_wall = run;
    }
  return out_wall->n_rows > 0;
}

double
cav_rows_get_thin_wall (const CavRows *rail,
                        const CavRows *profile,
                        const CavRows *swept,
                        double wall)
{
  CavRowsWall found;

  cav_rows_find_thin_wall (rail, profile, swept, wall, &found);
  return found.n_rows * CAV_ROW_HEIGHT;
}
