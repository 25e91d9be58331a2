/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rows.h"

G_BEGIN_DECLS

/*
 * A section as bands of equal rows: where straight cuts bound it, a few bands stand for hundreds of
 * rows. Band i covers the rows from the end of the one before it (0 for the first) to ends[i].
 */
typedef struct
{
  int n_rows;
  int n_bands;
  gint32 *ends;
  gint32 *first; /* n_bands + 1: where the spans of each band begin */
  CavSpan *spans;
} CavBands;

CavBands *cav_bands_new_from_rows (const CavRows *rows) G_GNUC_WARN_UNUSED_RESULT;
void cav_bands_free (CavBands *bands);
/* Area of what two sections share, and of one alone, mm² (rows of full height). */
double cav_bands_get_common_area (const CavBands *a, const CavBands *b);
double cav_bands_get_area (const CavBands *bands);

/* Most bands have a span or two: a loop beats a call. */
static inline gboolean
cav_spans_equal (const CavSpan *a, const CavSpan *b, int n)
{
  for (int i = 0; i < n; i++)
    if (a[i].a != b[i].a || a[i].b != b[i].b)
      return FALSE;
  return TRUE;
}

static inline int
cav_bands_get_start (const CavBands *bands, int band)
{
  return band > 0 ? bands->ends[band - 1] : 0;
}

/* The band of a row, looked for from another one on: rows are mostly asked for in some order. */
static inline int
cav_bands_find (const CavBands *bands, int row, int band)
{
  while (bands->ends[band] <= row)
    band++;
  while (band > 0 && bands->ends[band - 1] > row)
    band--;
  return band;
}

/* at: the band that was found last, 0 before the first. */
static inline gboolean
cav_bands_contain (const CavBands *bands, int row, gint32 x, int *at)
{
  int band;

  if (row < 0 || row >= bands->n_rows)
    return FALSE;
  band = *at = cav_bands_find (bands, row, *at);
  for (int i = bands->first[band]; i < bands->first[band + 1]; i++)
    if (x >= bands->spans[i].a && x < bands->spans[i].b)
      return TRUE;
  return FALSE;
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBands, cav_bands_free)

G_END_DECLS
