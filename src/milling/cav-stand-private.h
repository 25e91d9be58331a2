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

/* What is swept as one number and as a length of rows, while it is filled in. */
typedef struct
{
  guint64 key;
  gint64 microns;
} CavStandMeasure;

/* Stirs in a span of the rows from one on. */
static inline void
cav_stand_measure_add (CavStandMeasure *measure, CavSpan span, gint32 row)
{
  guint64 both = (guint64)(guint32)span.a << 32 | (guint32)span.b, key = measure->key;

  key = (key ^ (both + (guint64)(guint32)row * 0x9e3779b97f4a7c15u)) * 0xff51afd7ed558ccdu;
  measure->key = key ^ key >> 32;
}

/* How much of a span lies in the blank. */
static inline gint32
cav_stand_get_length (CavSpan span, gint32 width)
{
  gint32 length = MIN (span.b, width) - MAX (span.a, 0);

  return MAX (length, 0);
}

/* The key stands for what is swept, whatever the tool: placements that take the same have the same.
 */
void cav_stand_set_measure (CavCandidate *candidate, CavStandMeasure measure);

/* Nearest micrometre, within what a gint32 holds. */
gint32 cav_stand_to_microns (double x);
/* Spans and runs of so many rows, all alike where stride is 0; in one block, that of the spans. */
void cav_stand_make_room (CavTask *task, CavSweepRows *sweep, int n_rows, int stride);
/* What the tool covers at distance u, as heights. */
void cav_stand_cross_at_distance (const CavStand *stand, double u, CavStandCrossing *out_crossing);

/* Finds the runs of rows that are alike and measures them. */
void cav_stand_measure_rows (const CavTask *task, CavCandidate *candidate);

/* cav-stand-table.c */
/* Rows of a tool that stands on the grid, from the tables of its configuration, with key and area.
 * FALSE where it does not, or has no such table. */
gboolean cav_stand_fill_from_table (CavTask *task, const CavStand *stand, CavCandidate *candidate);
G_END_DECLS
