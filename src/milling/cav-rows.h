/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * A section as rows, for the search: row i covers y from i to i + 1 times the step of settings, and
 * holds what its middle line crosses, as spans in whole micrometres. Upright sweeps on the step's
 * grid begin and end between rows, so straight cuts come out exact.
 */
typedef struct
{
  gint32 a;
  gint32 b;
} CavSpan;

#define CAV_ROW_HEIGHT 0.05
#define CAV_MICRONS 1000.0
/* Spans shorter than this are rounding, not wood (micrometres). */
#define CAV_SPAN_LEAST 10

/* Nearest whole micrometre. */
static inline gint32
cav_rows_to_microns (double x)
{
  return (gint32)(x * CAV_MICRONS + (x < 0 ? -0.5 : 0.5));
}

typedef struct
{
  int n_rows;
  gint32 *first; /* n_rows + 1: where the spans of each row begin */
  CavSpan *spans;
} CavRows;

/* What a tool takes: rows r0 to r1 (exclusive), n_layers spans each, empty ones with b <= a. Rows
 * that are alike follow each other in runs. */
typedef struct
{
  int r0;
  int r1;
  int n_layers;   /* 1, or 2 where a waisted cutter lies on its side */
  int stride;     /* spans from one row to the next: n_layers, or 0 where all rows are alike */
  CavSpan *spans; /* rising in a row */
  int n_runs;
  gint32 *runs; /* row after the last of each run; in the block of the spans */
} CavSweepRows;

/* The spans of a row that lies within the sweep. */
static inline const CavSpan *
cav_sweep_rows_get (const CavSweepRows *sweep, int row)
{
  return &sweep->spans[(row - sweep->r0) * sweep->stride];
}

static inline gboolean
cav_sweep_rows_contain (const CavSweepRows *sweep, int row, gint32 x)
{
  const CavSpan *spans;

  if (row < sweep->r0 || row >= sweep->r1)
    return FALSE;
  spans = cav_sweep_rows_get (sweep, row);
  return (x >= spans[0].a && x < spans[0].b)
         || (sweep->n_layers > 1 && x >= spans[1].a && x < spans[1].b);
}

int cav_rows_count_for (double thickness);
/* Share of a full row that row i of a blank has: below 1 for the last where the thickness does
 * not fall on the grid. */
double cav_rows_get_share (double thickness, int row);
CavRows *cav_rows_new_from_region (const CavRegion *region, int n_rows) G_GNUC_WARN_UNUSED_RESULT;
/* The same with rows along y where turned; only those that lie between from and to are filled. */
CavRows *cav_rows_new_from_region_part (const CavRegion *region,
                                        int n_rows,
                                        gboolean turned,
                                        double from,
                                        double to) G_GNUC_WARN_UNUSED_RESULT;
CavRows *cav_rows_new_from_polygon (const CavPoint *points,
                                    guint n_points,
                                    int n_rows) G_GNUC_WARN_UNUSED_RESULT;
/* What lies in a region or no farther than a distance from it. */
CavRows *
cav_rows_new_grown (const CavRegion *region, double distance, int n_rows) G_GNUC_WARN_UNUSED_RESULT;
void cav_rows_free (CavRows *rows);
/* A middle of the widest span: of a profile, wood that always stays. */
void cav_rows_find_middle (const CavRows *rows, int *out_row, gint32 *out_x);
/* The place in the middle of a row, mm. */
CavPoint cav_rows_get_place (int row, gint32 x);
gboolean cav_rows_contains (const CavRows *rows, int row, gint32 x);
/* Area of what two sections share, and of one alone, mm² (rows of full height). */
double cav_rows_get_common_area (const CavRows *a, const CavRows *b);
double cav_rows_get_area (const CavRows *rows);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRows, cav_rows_free)

G_END_DECLS
