/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/* A ring of a region, and the chords that stand for it in overlays. */
typedef struct
{
  CavPath *path;
  CavPoint *points;
  guint *owners; /* for each point, the segment that its chord to the next point belongs to */
  guint n_points;
  gboolean hole;
  CavBox bounds;
} CavRing;

struct _CavRegion
{
  gint ref_count;
  CavRing *rings;
  guint n_rings;
  guint *piece_starts; /* first ring of each piece; n_pieces + 1 entries */
  guint n_pieces;
  CavBox bounds;
  double area;
};

/* Appends a ring to an array of CavRing, turned the way that hole asks for; takes the path. A
 * ring that encloses nothing is dropped and FALSE returned. */
gboolean cav_rings_append (GArray *rings, CavPath *path, gboolean hole);
/* (transfer full) The region of these rings, outer ones before their holes; takes the array. */
CavRegion *cav_region_new_take_rings (GArray *rings) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) A new, empty array for rings. */
GArray *cav_rings_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) What becomes of a region when each of its rings becomes another path, which map
 * gives (transfer full). A ring that is none any more is left out, a piece's outer ring with its
 * holes. */
CavRegion *cav_region_map_rings (const CavRegion *region,
                                 CavPath *(*map) (const CavPath *ring, gconstpointer data),
                                 gconstpointer data) G_GNUC_WARN_UNUSED_RESULT;
/* A copy of one ring into an array of rings. */
void cav_rings_append_copy (GArray *rings, const CavRing *ring);

/* Whether something of this area and this length of outline is thinner than thickness. */
gboolean cav_is_sliver (double area, double perimeter, double thickness);

static inline gboolean
cav_box_is_empty (CavBox box)
{
  return box.x1 < box.x0 || box.y1 < box.y0;
}

/* Whether two boxes come nearer to each other than gap. */
static inline gboolean
cav_box_meets (CavBox a, CavBox b, double gap)
{
  return a.x0 <= b.x1 + gap && b.x0 <= a.x1 + gap && a.y0 <= b.y1 + gap && b.y0 <= a.y1 + gap;
}

G_END_DECLS
