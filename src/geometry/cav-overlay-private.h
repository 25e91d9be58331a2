/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-geos-private.h"
#include "geometry/cav-region-private.h"

G_BEGIN_DECLS

/*
 * The common ground of a boolean operation: the vertices of all operands, brought together on
 * one grid, and the chords between them, each of which remembers the line or arc it stands
 * for. GEOS overlays the chords; the lines and arcs of its result are found again here.
 */
typedef struct
{
  gint64 x, y;      /* in steps of the grid */
  CavPoint point;   /* the same in millimetres */
  CavPoint exact;   /* as it was drawn, at most a few steps away */
  int next_in_cell; /* next node of the same cell of the hash, or -1 */
  int first_chord;  /* head of the list of chord ends that meet here, or -1 */
} CavNode;

typedef struct
{
  int from, to; /* nodes */
  const CavSegment *segment;
  int next_at[2]; /* next chord end (2 chord + end) at from and at to, or -1 */
} CavChord;

typedef struct
{
  GArray *nodes;       /* CavNode */
  GArray *chords;      /* CavChord; those of a ring follow each other */
  GArray *ring_ends;   /* guint, for each ring the number of chords up to its end */
  GArray *region_ends; /* guint, for each region the number of rings up to its end */
  GArray *rings;       /* const CavRing * (borrowed) */
  int *cells;          /* hash of nodes */
  guint cell_mask;
} CavOverlay;

/* The regions must outlive the overlay. */
CavOverlay *cav_overlay_new (const CavRegion *const *regions,
                             guint n_regions) G_GNUC_WARN_UNUSED_RESULT;
void cav_overlay_free (CavOverlay *overlay);
/* (transfer full) (nullable) The regions from first on, n of them, on the grid. */
GEOSGeometry *cav_overlay_dup_geometry (const CavOverlay *overlay,
                                        GEOSContextHandle_t geos,
                                        guint first,
                                        guint n);
/* The node at a point of the grid, or -1. */
int cav_overlay_find (const CavOverlay *overlay, CavPoint point);
/* (transfer full) The polygons of a geometry as a region, with lines and arcs. */
CavRegion *cav_overlay_recover (const CavOverlay *overlay,
                                GEOSContextHandle_t geos,
                                const GEOSGeometry *geometry) G_GNUC_WARN_UNUSED_RESULT;

/* Distance from a point to the straight line between two, ends included. */
double cav_line_distance (CavPoint from, CavPoint to, CavPoint point);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavOverlay, cav_overlay_free)

G_END_DECLS
