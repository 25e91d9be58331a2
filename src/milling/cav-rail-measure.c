/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands of a rail, and what support it offers. */
#include "milling/cav-rail-private.h"

#include <string.h>

/* Lands count from a little over 1 mm on. */
#define LAND_LEAST 1.005

/* Adds a stretch of wood on a side to its lands. */
static void
add_land (CavLands *lands, double from, double to)
{
  if (to - from < LAND_LEAST)
    return;
  if (lands->total <= 0)
    lands->first = from;
  lands->last = to;
  lands->total += to - from;
}

/* Stretches of wood along the inside and the outside, gathered band by band. */
typedef struct
{
  int begin[2]; /* row, below 0: none open */
} UprightRuns;

static inline void
run_upright (const CavRailStore *store,
             UprightRuns *runs,
             int side,
             gboolean touches,
             int row,
             CavStanding *standing)
{
  if (touches == (runs->begin[side] >= 0))
    return;
  if (!touches)
    add_land (&standing->lands[side == 0 ? CAV_SIDE_INSIDE : CAV_SIDE_OUTSIDE],
              runs->begin[side] * CAV_ROW_HEIGHT,
              MIN (row * CAV_ROW_HEIGHT, store->task->blank.thickness));
  runs->begin[side] = touches ? row : -1;
}

/* Lands on the back or the face: the spans of the outermost band. */
static void
measure_flat_lands (const CavBands *bands, const int *parent, int piece, int band, CavLands *lands)
{
  for (int i = bands->first[band]; i < bands->first[band + 1]; i++)
    if (parent == NULL || parent[i] == piece)
      add_land (lands, bands->spans[i].a / CAV_MICRONS, bands->spans[i].b / CAV_MICRONS);
}

/* Leftmost and rightmost place of a band; parent: of the spans, where only those of one piece
 * count. FALSE where it has none. */
static inline gboolean
get_reach (const CavBands *s, const int *parent, int piece, int band, CavSpan *out_reach)
{
  int i = s->first[band], j = s->first[band + 1] - 1;

  while (parent != NULL && i <= j && parent[i] != piece)
    i++;
  while (parent != NULL && i <= j && parent[j] != piece)
    j--;
  if (i > j)
    return FALSE;
  *out_reach = (CavSpan){ s->spans[i].a, s->spans[j].b };
  return TRUE;
}

/* Lands, and the box, whose sides right and top stay below left and bottom where there is nothing.
 */
static void
measure_sides (const CavRailStore *store,
               const CavBands *s,
               const int *parent,
               int piece,
               CavStanding *standing)
{
  int n_rows = store->task->n_rows, bottom = n_rows, top = 0;
  CavSpan all = { G_MAXINT32, G_MININT32 };
  UprightRuns runs = { { -1, -1 } };

  measure_flat_lands (s, parent, piece, 0, &standing->lands[CAV_SIDE_BACK]);
  measure_flat_lands (s, parent, piece, s->n_bands - 1, &standing->lands[CAV_SIDE_FACE]);
  for (int band = 0, r0 = 0; band < s->n_bands; r0 = s->ends[band++])
    {
      CavSpan reach = { G_MAXINT32, G_MININT32 };

      if (get_reach (s, parent, piece, band, &reach))
        {
          bottom = MIN (bottom, r0);
          top = s->ends[band];
          all = (CavSpan){ MIN (all.a, reach.a), MAX (all.b, reach.b) };
        }
      run_upright (store, &runs, 0, reach.a <= CAV_SPAN_LEAST, r0, standing);
      run_upright (store, &runs, 1, reach.b >= store->width - CAV_SPAN_LEAST, r0, standing);
    }
  run_upright (store, &runs, 0, FALSE, n_rows, standing);
  run_upright (store, &runs, 1, FALSE, n_rows, standing);
  standing->box = (CavBox){ all.a / CAV_MICRONS, bottom * CAV_ROW_HEIGHT, all.b / CAV_MICRONS,
                            MIN (top * CAV_ROW_HEIGHT, store->task->blank.thickness) };
}

static void
add_band (const CavBands *s, const int *parent, int piece, int band, int r0, CavSums *sums)
{
  for (int i = s->first[band]; i < s->first[band + 1]; i++)
    if (parent == NULL || parent[i] == piece)
      cav_sums_add (sums, r0, s->ends[band], s->spans[i].a, s->spans[i].b);
}

static CavSums
sum_bands (const CavBands *s, const int *parent, int piece)
{
  CavSums sums = { 0 };

  for (int band = 0; band < s->n_bands; band++)
    add_band (s, parent, piece, band, cav_bands_get_start (s, band), &sums);
  return sums;
}

static void
measure_bands (const CavRailStore *store,
               const CavBands *s,
               const int *parent,
               int piece,
               const CavSums *sums,
               CavStanding *standing)
{
  double lacks = 1 - store->last_share, n_rows = store->task->n_rows, area;
  CavSums last = { 0 };

  memset (standing, 0, sizeof *standing);
  measure_sides (store, s, parent, piece, standing);
  add_band (s, parent, piece, s->n_bands - 1, store->task->n_rows - 1, &last);
  area = (double)sums->area - (double)last.area * lacks;
  if (area > 0)
    standing->centroid
        = (CavPoint){ ((double)sums->moment_x - (double)last.moment_x * lacks) / 2 / area
                          / CAV_MICRONS,
                      ((double)sums->moment_y - (double)last.area * lacks * (2 * n_rows - lacks))
                          / 2 / area * CAV_ROW_HEIGHT };
  standing->area = area / CAV_MICRONS * CAV_ROW_HEIGHT;
}

void
cav_rail_store_measure (const CavRailStore *store, int piece, CavStanding *standing)
{
  const CavScratch *s = &store->scratch;
  const CavBands bands = { store->task->n_rows, s->n_bands, s->ends, s->first, s->spans };
  CavSums sums = sum_bands (&bands, s->parent, piece);

  measure_bands (store, &bands, s->parent, piece, &sums, standing);
}

const CavStanding *
cav_rail_get_standing (const CavRailStore *store, const CavRail *rail)
{
  CavRail *self = (CavRail *)rail;

  if (!self->has_sums)
    self->sums = sum_bands (&rail->bands, NULL, -1);
  self->has_sums = TRUE;
  if (!self->has_standing)
    measure_bands (store, &rail->bands, NULL, -1, &rail->sums, &self->standing);
  self->has_standing = TRUE;
  return &rail->standing;
}
