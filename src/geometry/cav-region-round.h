/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * Coordinates on a coarse grid, for whoever must not care how a figure came about: 38.1 as it was
 * typed, as a sum, or a ten millionth aside are one figure then.
 *
 * Where a figure lies just between two others of the grid, rounding would not help. The grid is
 * therefore laid so that no length that people use comes near such a place: neither decimals of a
 * millimetre, nor halves of sixty-fourths of an inch.
 */

/* The grid, mm. */
#define CAV_ROUND_STEP 1e-4

double cav_round (double length);
/* (transfer full) Ends, middles and radii on the grid, angles to thousandths of a degree. Arcs stay
 * arcs; their ends agree with their middles within CAV_TOLERANCE_CHORD. */
CavRegion *cav_region_rounded (const CavRegion *region) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
