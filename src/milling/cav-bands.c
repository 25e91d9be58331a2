/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-bands.h"

#include <string.h>

CavBands *
cav_bands_new_from_rows (const CavRows *rows)
{
  CavBands *bands = g_new0 (CavBands, 1);
  int n_spans = 0;

  bands->n_rows = rows->n_rows;
  bands->ends = g_new (gint32, MAX (rows->n_rows, 1));
  bands->first = g_new (gint32, rows->n_rows + 1);
  bands->spans = g_new (CavSpan, MAX (rows->first[rows->n_rows], 1));
  for (int row = 0; row < rows->n_rows; row++)
    {
      int begin = rows->first[row], n = rows->first[row + 1] - begin, last = bands->n_bands - 1;
      gboolean same = last >= 0 && n == n_spans - bands->first[last]
                      && memcmp (&rows->spans[begin], &bands->spans[bands->first[last]],
                                 sizeof (CavSpan) * (gsize)n)
                             == 0;

      if (!same)
        {
          bands->first[bands->n_bands++] = n_spans;
          memcpy (&bands->spans[n_spans], &rows->spans[begin], sizeof (CavSpan) * (gsize)n);
          n_spans += n;
        }
      bands->ends[bands->n_bands - 1] = row + 1;
    }
  bands->first[bands->n_bands] = n_spans;
  return bands;
}

void
cav_bands_free (CavBands *bands)
{
  if (bands == NULL)
    return;
  g_free (bands->ends);
  g_free (bands->first);
  g_free (bands->spans);
  g_free (bands);
}

static gint64
get_common_length (const CavBands *a, int i, const CavBands *b, int j)
{
  int p = a->first[i], q = b->first[j];
  gint64 length = 0;

  while (p < a->first[i + 1] && q < b->first[j + 1])
    {
      length += MAX (0, MIN (a->spans[p].b, b->spans[q].b) - MAX (a->spans[p].a, b->spans[q].a));
      if (a->spans[p].b < b->spans[q].b)
        p++;
      else
        q++;
    }
  return length;
}

double
cav_bands_get_common_area (const CavBands *a, const CavBands *b)
{
  gint64 microns = 0;
  int row = 0;

  for (int i = 0, j = 0; i < a->n_bands && j < b->n_bands;)
    {
      int end = MIN (a->ends[i], b->ends[j]);

      microns += get_common_length (a, i, b, j) * (end - row);
      row = end;
      i += a->ends[i] == end;
      j += b->ends[j] == end;
    }
  return (double)microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}

double
cav_bands_get_area (const CavBands *bands)
{
  gint64 microns = 0;

  for (int band = 0; band < bands->n_bands; band++)
    {
      gint64 length = 0;

      for (int i = bands->first[band]; i < bands->first[band + 1]; i++)
        length += bands->spans[i].b - bands->spans[i].a;
      microns += length * (bands->ends[band] - cav_bands_get_start (bands, band));
    }
  return (double)microns / CAV_MICRONS * CAV_ROW_HEIGHT;
}
