/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * The lower envelope of a region: for each column of width step the height at which the region
 * begins when seen from below. Column i covers origin + i step to origin + (i + 1) step and
 * holds the lowest height over all of it, so that an envelope never lies above the region.
 * Columns without any part of the region hold CAV_ENVELOPE_OPEN.
 */
#define CAV_ENVELOPE_OPEN 1e9f

typedef struct
{
  double origin;
  double step;
  int n_columns;
  float *heights;
} CavEnvelope;

/* Columns from x0 up to x1 (rounded up to a whole column). To look from another side, turn the
 * region first. */
CavEnvelope *cav_envelope_new (const CavRegion *region, double x0, double x1, double step)
    G_GNUC_WARN_UNUSED_RESULT;
void cav_envelope_free (CavEnvelope *envelope);

/*
 * One-dimensional erosion: how high a tool may rise at each place without entering what lies
 * above. depths[d] is how far the tool's surface lies below its highest point at d columns from
 * its axis (0 <= d < n_depths; the tool is symmetric). out_heights[i], for the tool's axis on the
 * boundary between columns i - 1 and i (0 <= i <= n_columns), becomes the least of
 * heights[i + d] + depths[d] and heights[i - 1 - d] + depths[d]; columns outside the envelope
 * are open. Time n_columns x n_depths, vectorised.
 */
void cav_envelope_erode (const CavEnvelope *envelope,
                         const float *depths,
                         int n_depths,
                         float *out_heights);
/* The same for a flat tool of width columns whose near face stands on boundary i
 * (columns i .. i + width - 1): a sliding minimum in linear time. */
void cav_envelope_erode_flat (const CavEnvelope *envelope, int width, float *out_heights);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavEnvelope, cav_envelope_free)

G_END_DECLS
