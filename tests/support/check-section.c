/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-section.h"

#include <math.h>

/* Rows are no higher than this. */
#define ROW_HEIGHT 0.01
/* What lies on the blank's back and face is read this far inside, on a row of its own. */
#define SKIN 2e-4
/* Lines nearer than this are one line. */
#define LINE_LEAST 1e-5

static int
compare_double_cb (gconstpointer a, gconstpointer b)
{
  double x = *(const double *)a;
  double y = *(const double *)b;

  return (x > y) - (x < y);
}

CheckRuling *
check_ruling_new (double thickness, GArray *corners)
{
  CheckRuling *ruling = g_new0 (CheckRuling, 1);
  double ends[] = { SKIN, thickness - SKIN, thickness };
  double last = 0;

  ruling->lines = g_array_new (FALSE, FALSE, sizeof (double));
  g_array_append_val (ruling->lines, last);
  g_array_append_vals (corners, ends, G_N_ELEMENTS (ends));
  g_array_sort (corners, compare_double_cb);

  for (guint i = 0; i < corners->len; i++)
    {
      double y = g_array_index (corners, double, i);

      if (y < last + LINE_LEAST || y > thickness)
        continue;
      int parts = MAX ((int)ceil ((y - last) / ROW_HEIGHT - 1e-9), 1);

      for (int part = 1; part <= parts; part++)
        {
          double line = part == parts ? y : last + (y - last) * part / parts;

          g_array_append_val (ruling->lines, line);
        }
      last = y;
    }
  return ruling;
}

void
check_ruling_free (CheckRuling *ruling)
{
  if (ruling == NULL)
    return;
  g_array_unref (ruling->lines);
  g_free (ruling);
}

guint
check_ruling_count (const CheckRuling *ruling)
{
  return ruling->lines->len - 1;
}

double
check_ruling_middle (const CheckRuling *ruling, guint row)
{
  return 0.5
         * (g_array_index (ruling->lines, double, row)
            + g_array_index (ruling->lines, double, row + 1));
}

double
check_ruling_height (const CheckRuling *ruling, guint row)
{
  return g_array_index (ruling->lines, double, row + 1)
         - g_array_index (ruling->lines, double, row);
}

guint
check_ruling_find (const CheckRuling *ruling, double y)
{
  guint low = 0;
  guint high = check_ruling_count (ruling) - 1;

  while (low < high)
    {
      guint middle = (low + high + 1) / 2;

      if (g_array_index (ruling->lines, double, middle) <= y)
        low = middle;
      else
        high = middle - 1;
    }
  return low;
}

static CheckSection *
section_new (const CheckRuling *ruling)
{
  CheckSection *section = g_new0 (CheckSection, 1);

  section->ruling = ruling;
  section->first = g_array_new (FALSE, FALSE, sizeof (guint));
  section->spans = g_array_new (FALSE, FALSE, sizeof (CheckSpan));
  return section;
}

static void
begin_row (CheckSection *section)
{
  g_array_append_val (section->first, section->spans->len);
}

static void
add_span (CheckSection *section, double a, double b)
{
  CheckSpan span = { a, b };

  if (b - a >= CHECK_SPAN_LEAST)
    g_array_append_val (section->spans, span);
}

void
check_section_free (CheckSection *section)
{
  if (section == NULL)
    return;
  g_array_unref (section->first);
  g_array_unref (section->spans);
  g_free (section);
}

guint
check_section_count (const CheckSection *section, guint row)
{
  return g_array_index (section->first, guint, row + 1)
         - g_array_index (section->first, guint, row);
}

CheckSpan
check_section_get (const CheckSection *section, guint row, guint index)
{
  return g_array_index (section->spans, CheckSpan,
                        g_array_index (section->first, guint, row) + index);
}

/* Hangs each edge into the rows whose middle lines it crosses. */
static void
add_crossings (GPtrArray *crossings, const CheckRuling *ruling, CheckPoint p, CheckPoint q)
{
  if (p.y > q.y)
    {
      CheckPoint swap = p;

      p = q;
      q = swap;
    }
  guint n_rows = check_ruling_count (ruling);
  guint row = check_ruling_find (ruling, p.y);

  if (q.y - p.y < 1e-12)
    return;
  for (; row < n_rows; row++)
    {
      double y = check_ruling_middle (ruling, row);

      if (y >= q.y)
        break;
      if (y < p.y)
        continue;
      double x = p.x + (q.x - p.x) * (y - p.y) / (q.y - p.y);
      GArray *row_crossings = g_ptr_array_index (crossings, row);

      if (row_crossings == NULL)
        {
          row_crossings = g_array_new (FALSE, FALSE, sizeof (double));
          g_ptr_array_index (crossings, row) = row_crossings;
        }
      g_array_append_val (row_crossings, x);
    }
}

static void
free_array (gpointer data)
{
  if (data != NULL)
    g_array_unref (data);
}

CheckSection *
check_section_from_rings (const CheckRuling *ruling, const GPtrArray *rings, double width)
{
  CheckSection *section = section_new (ruling);
  guint n_rows = check_ruling_count (ruling);
  g_autoptr (GPtrArray) crossings = g_ptr_array_new_with_free_func (free_array);

  g_ptr_array_set_size (crossings, (gint)n_rows);
  for (guint r = 0; r < rings->len; r++)
    {
      const GArray *ring = g_ptr_array_index (rings, r);

      for (guint i = 0; i < ring->len; i++)
        add_crossings (crossings, ruling, g_array_index (ring, CheckPoint, i),
                       g_array_index (ring, CheckPoint, (i + 1) % ring->len));
    }
  for (guint row = 0; row < n_rows; row++)
    {
      GArray *row_crossings = g_ptr_array_index (crossings, row);

      begin_row (section);
      if (row_crossings == NULL)
        continue;
      g_array_sort (row_crossings, compare_double_cb);
      for (guint i = 0; i + 1 < row_crossings->len; i += 2)
        add_span (section, fmax (g_array_index (row_crossings, double, i), 0),
                  fmin (g_array_index (row_crossings, double, i + 1), width));
    }
  begin_row (section);
  return section;
}

CheckSection *
check_section_minus (const CheckSection *a, const CheckSection *b)
{
  CheckSection *section = section_new (a->ruling);

  for (guint row = 0; row < check_ruling_count (a->ruling); row++)
    {
      guint n_b = check_section_count (b, row);

      begin_row (section);
      for (guint i = 0; i < check_section_count (a, row); i++)
        {
          CheckSpan span = check_section_get (a, row, i);

          for (guint j = 0; j < n_b; j++)
            {
              CheckSpan taken = check_section_get (b, row, j);

              if (taken.b <= span.a || taken.a >= span.b)
                continue;
              add_span (section, span.a, taken.a);
              span.a = taken.b;
            }
          add_span (section, span.a, span.b);
        }
    }
  begin_row (section);
  return section;
}

CheckSection *
check_section_common (const CheckSection *a, const CheckSection *b)
{
  CheckSection *section = section_new (a->ruling);

  for (guint row = 0; row < check_ruling_count (a->ruling); row++)
    {
      begin_row (section);
      for (guint i = 0; i < check_section_count (a, row); i++)
        for (guint j = 0; j < check_section_count (b, row); j++)
          {
            CheckSpan p = check_section_get (a, row, i);
            CheckSpan q = check_section_get (b, row, j);

            add_span (section, fmax (p.a, q.a), fmin (p.b, q.b));
          }
    }
  begin_row (section);
  return section;
}

/* The runs of one row of pixels, taken from the spans of one row of the section. */
static void
add_row_minus_pixels (CheckSection *out,
                      CheckSpan span,
                      const CheckGrid *grid,
                      const guint8 *pixels)
{
  int first = MAX ((int)floor ((span.a - grid->x0) / grid->pixel), 0);
  int last = MIN ((int)ceil ((span.b - grid->x0) / grid->pixel), grid->nx);

  for (int ix = first; ix < last; ix++)
    {
      double left = grid->x0 + ix * grid->pixel;

      if (pixels[ix] == 0)
        continue;
      add_span (out, span.a, fmin (left, span.b));
      span.a = fmax (span.a, left + grid->pixel);
    }
  add_span (out, span.a, span.b);
}

CheckSection *
check_section_minus_grid (const CheckSection *section, const CheckGrid *grid)
{
  CheckSection *out = section_new (section->ruling);

  for (guint row = 0; row < check_ruling_count (section->ruling); row++)
    {
      double y = check_ruling_middle (section->ruling, row);
      int iy = CLAMP ((int)floor ((y - grid->y0) / grid->pixel), 0, grid->ny - 1);

      begin_row (out);
      for (guint i = 0; i < check_section_count (section, row); i++)
        add_row_minus_pixels (out, check_section_get (section, row, i), grid,
                              grid->set + (gsize)iy * (gsize)grid->nx);
    }
  begin_row (out);
  return out;
}

gboolean
check_section_contains (const CheckSection *section, double x, double y)
{
  if (y < 0 || y >= g_array_index (section->ruling->lines, double, section->ruling->lines->len - 1))
    return FALSE;
  guint row = check_ruling_find (section->ruling, y);

  for (guint i = 0; i < check_section_count (section, row); i++)
    {
      CheckSpan span = check_section_get (section, row, i);

      if (span.a <= x && x <= span.b)
        return TRUE;
    }
  return FALSE;
}

CheckMeasure
check_section_measure (const CheckSection *section)
{
  CheckMeasure measure = { .x0 = 1e9, .y0 = 1e9, .x1 = -1e9, .y1 = -1e9 };

  for (guint row = 0; row < check_ruling_count (section->ruling); row++)
    {
      double y = check_ruling_middle (section->ruling, row);
      double height = check_ruling_height (section->ruling, row);

      for (guint i = 0; i < check_section_count (section, row); i++)
        {
          CheckSpan span = check_section_get (section, row, i);
          double area = (span.b - span.a) * height;

          measure.area += area;
          measure.x += area * 0.5 * (span.a + span.b);
          measure.y += area * y;
          measure.x0 = fmin (measure.x0, span.a);
          measure.x1 = fmax (measure.x1, span.b);
          measure.y0 = fmin (measure.y0, y - 0.5 * height);
          measure.y1 = fmax (measure.y1, y + 0.5 * height);
        }
    }
  if (measure.area > 0)
    {
      measure.x /= measure.area;
      measure.y /= measure.area;
    }
  return measure;
}

static guint
find_root (guint *parents, guint index)
{
  while (parents[index] != index)
    {
      parents[index] = parents[parents[index]];
      index = parents[index];
    }
  return index;
}

/* Spans of neighbouring rows hang together where they overlap by more than rounding. */
static void
join_rows (const CheckSection *section, guint row, guint *parents)
{
  guint first = g_array_index (section->first, guint, row);
  guint next = g_array_index (section->first, guint, row + 1);

  for (guint i = 0; i < check_section_count (section, row); i++)
    for (guint j = 0; j < check_section_count (section, row + 1); j++)
      {
        CheckSpan p = check_section_get (section, row, i);
        CheckSpan q = check_section_get (section, row + 1, j);

        if (fmin (p.b, q.b) - fmax (p.a, q.a) > 0.5 * CHECK_SPAN_LEAST)
          parents[find_root (parents, first + i)] = find_root (parents, next + j);
      }
}

static void
piece_free (gpointer data)
{
  CheckPiece *piece = data;

  check_section_free (piece->section);
  g_free (piece);
}

GPtrArray *
check_section_split (const CheckSection *section)
{
  GPtrArray *pieces = g_ptr_array_new_with_free_func (piece_free);
  guint n_rows = check_ruling_count (section->ruling);
  g_autofree guint *parents = g_new (guint, section->spans->len + 1);
  g_autoptr (GHashTable) by_root = g_hash_table_new (NULL, NULL);

  for (guint i = 0; i < section->spans->len; i++)
    parents[i] = i;
  for (guint row = 0; row + 1 < n_rows; row++)
    join_rows (section, row, parents);

  for (guint i = 0; i < section->spans->len; i++)
    {
      gpointer root = GUINT_TO_POINTER (find_root (parents, i));

      if (!g_hash_table_contains (by_root, root))
        {
          CheckPiece *piece = g_new0 (CheckPiece, 1);

          piece->section = section_new (section->ruling);
          g_hash_table_insert (by_root, root, piece);
          g_ptr_array_add (pieces, piece);
        }
    }
  for (guint row = 0; row < n_rows; row++)
    {
      guint first = g_array_index (section->first, guint, row);

      for (guint p = 0; p < pieces->len; p++)
        begin_row (((CheckPiece *)g_ptr_array_index (pieces, p))->section);
      for (guint i = 0; i < check_section_count (section, row); i++)
        {
          CheckPiece *piece
              = g_hash_table_lookup (by_root, GUINT_TO_POINTER (find_root (parents, first + i)));
          CheckSpan span = check_section_get (section, row, i);

          g_array_append_val (piece->section->spans, span);
          piece->area += (span.b - span.a) * check_ruling_height (section->ruling, row);
        }
    }
  for (guint p = 0; p < pieces->len; p++)
    begin_row (((CheckPiece *)g_ptr_array_index (pieces, p))->section);
  return pieces;
}
