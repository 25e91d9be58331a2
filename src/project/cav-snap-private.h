/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-snap.h"

G_BEGIN_DECLS

/* Snapped numbers are cleared of the rounding of sums: 1/512 in has nine decimals. */
#define CAV_SNAP_DECIMALS 1e9

typedef struct
{
  double value;
  CavSnapKind kind;
  CavCutKind cut; /* of a cut's edge or centre */
} CavSnapTarget;

struct _CavSnapper
{
  /* Owned */
  CavProject *project; /* a snapshot, for its shop */
  GArray *x;           /* CavSnapTarget, by value */
  GArray *y;
  GPtrArray *cutters; /* CavCutter that this shop can use, borrowed from the snapshot */

  /* State */
  CavBlank blank;
  double grid;
};

/* Tolerances of 0 turn snapping off. */
gboolean cav_snap_is_on (double tolerance);
/* (nullable) The nearest target within tolerance among those along x or y, by value. */
const CavSnapTarget *
cav_snapper_find_target (const GArray *targets, double value, double tolerance);
double cav_snapper_round (double value, double grid);
void cav_snapper_set_hold (const CavSnapper *self,
                           gboolean is_x,
                           const CavSnapTarget *target,
                           CavSnapHold *hold);
/* Takes as much of the text as there is room for. */
void cav_snap_hold_set_label (CavSnapHold *hold, const char *text);

/* Whether the cutter makes the cut exactly in one stand, and where it then stands: a map from the
 * cutter's outline to the frame of the cut. */
gboolean cav_cutter_makes_cut (const CavCutter *cutter, const CavCut *cut, CavTransform *out_place);

/* Sizes that cutters make. Each looks among the cutters (CavCutter) for the size that is nearest to
 * the cut's own, so that a cutter makes the cut exactly; reach and the result's distance are mm of
 * the number. NULL where none is within reach. */
const CavCutter *cav_cutter_find_size (const GPtrArray *cutters,
                                       const CavCut *cut,
                                       CavCutNumber number,
                                       double reach,
                                       double *out_value);
/* The same for width and depth together. */
const CavCutter *cav_cutter_find_both (const GPtrArray *cutters,
                                       const CavCut *cut,
                                       double reach,
                                       double *out_width,
                                       double *out_depth);
/* The same for the bulge of an arc over a chord: the radius is a cutter's. */
const CavCutter *cav_cutter_find_bulge (
    const GPtrArray *cutters, double chord, double bulge, double reach, double *out_bulge);

G_END_DECLS
