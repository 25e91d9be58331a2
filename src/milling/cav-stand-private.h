/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-stand.h"

G_BEGIN_DECLS

/* Sweeps are grown by this when they are subtracted, so that two cuts that share a wall leave no
 * film between them (micrometres). */
#define CAV_STAND_GROWTH 3

/* Intervals of a sweep on a line of constant v (u from .. to) or constant u (v from .. to). */
typedef struct
{
  double from[2];
  double to[2];
  int n;
} CavStandCrossing;

/* Nearest micrometre, within what a gint32 holds. */
gint32 cav_stand_to_microns (double x);
/* Spans and runs of so many rows, all alike where stride is 0; in one block, that of the spans. */
void cav_stand_make_room (CavSweepRows *sweep, int n_rows, int stride);
/* Finds the stretches of rows that have the same spans. */
void cav_stand_find_runs (CavSweepRows *sweep);
/* What the tool covers at distance u, as heights. */
void cav_stand_cross_at_distance (const CavStand *stand, double u, CavStandCrossing *out_crossing);

/* cav-stand-table.c */
/* Rows of a tool that stands on the grid, from the tables of its configuration. FALSE where it does
 * not, or has no such table. */
gboolean cav_stand_fill_from_table (const CavTask *task,
                                    const CavStand *stand,
                                    CavSide down,
                                    CavSweepRows *sweep);
G_END_DECLS
