/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-path.h"

G_BEGIN_DECLS

/*
 * A bounded part of the plane: any number of pieces, each with any number of holes. Immutable
 * and reference counted. Outlines are closed paths of lines and arcs; outer ones run
 * counter-clockwise, holes clockwise; a piece's outer ring comes first, its holes follow.
 * Arcs survive boolean operations: a curve of the result is the curve that was drawn.
 */
typedef struct _CavRegion CavRegion;

typedef enum
{
  CAV_GEOMETRY_ERROR_NOT_FINITE = 1,
  CAV_GEOMETRY_ERROR_NOT_CLOSED,
  CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
  CAV_GEOMETRY_ERROR_DEGENERATE,
  CAV_GEOMETRY_ERROR_OVERLAY,
} CavGeometryError;

#define CAV_GEOMETRY_ERROR (cav_geometry_error_quark ())
GQuark cav_geometry_error_quark (void);

CavRegion *cav_region_new_empty (void) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *
cav_region_new_box (double x0, double y0, double x1, double y1) G_GNUC_WARN_UNUSED_RESULT;
/* The inside of a closed path, whichever way it runs. Errors: NOT_FINITE, NOT_CLOSED,
 * CROSSES_ITSELF, DEGENERATE (no area). */
CavRegion *cav_region_new_from_path (const CavPath *path, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The same for a polygon, first point not repeated. */
CavRegion *cav_region_new_polygon (const CavPoint *points,
                                   guint n_points,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *cav_region_ref (CavRegion *region);
void cav_region_unref (CavRegion *region);

gboolean cav_region_is_empty (const CavRegion *region);
guint cav_region_get_piece_count (const CavRegion *region);
CavRegion *cav_region_dup_piece (const CavRegion *region, guint piece) G_GNUC_WARN_UNUSED_RESULT;
/* All pieces but those thinner than thickness, as a mean of area and outline. */
CavRegion *cav_region_dup_thick (const CavRegion *region,
                                 double thickness) G_GNUC_WARN_UNUSED_RESULT;
guint cav_region_get_ring_count (const CavRegion *region);
const CavPath *cav_region_get_ring (const CavRegion *region, guint ring);
gboolean cav_region_ring_is_hole (const CavRegion *region, guint ring);
/* Chords of a ring within CAV_TOLERANCE_CHORD, first point not repeated, made once and kept. */
const CavPoint *
cav_region_get_ring_points (const CavRegion *region, guint ring, guint *out_n_points);

/* Measures: exact over lines and arcs. The centroid of an empty region is FALSE. */
double cav_region_get_area (const CavRegion *region);
gboolean cav_region_get_centroid (const CavRegion *region, CavPoint *out_centroid);
CavBox cav_region_get_bounds (const CavRegion *region);
double cav_region_get_perimeter (const CavRegion *region);
gboolean cav_region_contains (const CavRegion *region, CavPoint point);
/* Distance to the nearest point of any outline, inside or outside. */
double cav_region_get_distance (const CavRegion *region, CavPoint point);

/* Boolean operations: NULL with error OVERLAY only where GEOS gives up. */
CavRegion *
cav_region_union (const CavRegion *a, const CavRegion *b, GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *cav_region_union_all (CavRegion *const *regions,
                                 guint n_regions,
                                 GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *cav_region_difference (const CavRegion *a,
                                  const CavRegion *b,
                                  GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *cav_region_intersection (const CavRegion *a,
                                    const CavRegion *b,
                                    GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Grown (distance > 0, round corners) or shrunk (distance < 0). */
CavRegion *cav_region_offset (const CavRegion *region,
                              double distance,
                              GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavRegion *cav_region_transformed (const CavRegion *region,
                                   CavTransform transform) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRegion, cav_region_unref)

G_END_DECLS
