/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How much a placement takes from a rail, where nobody needs to know what it leaves. */
#include "milling/cav-rail-private.h"

/* Where no band can fall into more spans than a rail may have, a sweep of one layer takes what it
 * shares with them, whatever is left. */
static gboolean
is_plain (const CavRailStore *store, const CavRail *rail, const CavCandidate *candidate)
{
  const CavBands *bands = &rail->bands;
  gint32 most = 0;

  for (int band = 0; band < bands->n_bands; band++)
    most = MAX (most, bands->first[band + 1] - bands->first[band]);
  return 2 * most <= CAV_RAIL_SPANS_MOST && candidate->sweep.n_layers == 1
         && (candidate->sweep.r1 < bands->n_rows || store->last_share >= 1);
}

/* Micrometres by rows. */
static gint64
sum_common (const CavBands *bands, const CavSweepRows *sweep)
{
  const gint32 *run = sweep->runs, *first = bands->first, *ends = bands->ends;
  gint64 common = 0;
  int band = 0;

  while (band < bands->n_bands && ends[band] <= sweep->r0)
    band++;
  for (int row = sweep->r0, end; band < bands->n_bands && row < sweep->r1; row = end)
    {
      CavSpan cut = *cav_sweep_rows_get (sweep, row);
      const CavSpan *span = &bands->spans[first[band]], *last = &bands->spans[first[band + 1]];
      gint64 length = 0;

      end = MIN (ends[band], *run);
      for (; span < last && span->a < cut.b; span++)
        if (span->b > cut.a)
          length += MIN (span->b, cut.b) - MAX (span->a, cut.a);
      common += length * (end - row);
      run += *run == end;
      band += ends[band] == end;
    }
  return common;
}

gboolean
cav_rail_store_weigh (const CavRailStore *store,
                      const CavRail *rail,
                      const CavCandidate *candidate,
                      double *out_removed)
{
  double removed;

  *out_removed = 0;
  if (candidate->has_pilot || cav_rail_store_needs_layer (store, candidate)
      || !is_plain (store, rail, candidate))
    return FALSE;
  removed = (double)sum_common (&rail->bands, &candidate->sweep) * CAV_ROW_HEIGHT / CAV_MICRONS;
  if (removed >= CAV_REMOVED_LEAST)
    *out_removed = (double)(float)removed;
  return TRUE;
}
