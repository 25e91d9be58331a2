/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-segment.h"

G_BEGIN_DECLS

/* A run of segments, each beginning where the one before ends; closed or open. */
typedef struct _CavPath CavPath;

CavPath *cav_path_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavPath *cav_path_copy (const CavPath *path) G_GNUC_WARN_UNUSED_RESULT;
void cav_path_free (CavPath *path);

/* Building. The first call must be move_to; arcs begin with a line to their start where the
 * path is not there yet. Segments shorter than CAV_TOLERANCE_POINT are left out. */
void cav_path_move_to (CavPath *path, CavPoint point);
void cav_path_line_to (CavPath *path, CavPoint point);
void cav_path_append (CavPath *path, const CavSegment *segment);
void
cav_path_arc (CavPath *path, CavPoint centre, double rx, double ry, double start, double sweep);
/* Closes with a line where the end is not the beginning. */
void cav_path_close (CavPath *path);

gboolean cav_path_is_closed (const CavPath *path);
/* FALSE once a coordinate that is no finite number (or beyond 1e12) was handed in; such a
 * piece is left out, and no region is made from the rest. */
gboolean cav_path_is_finite (const CavPath *path);
guint cav_path_get_segment_count (const CavPath *path);
const CavSegment *cav_path_get_segment (const CavPath *path, guint index);
/* All of them, one behind the other; they are the path's. */
const CavSegment *cav_path_get_segments (const CavPath *path, guint *out_n);
CavPoint cav_path_get_start (const CavPath *path);
double cav_path_get_length (const CavPath *path);
/* Area by the exact integral, positive where the path runs counter-clockwise; closed only. */
double cav_path_get_signed_area (const CavPath *path);
CavBox cav_path_get_bounds (const CavPath *path);
double cav_path_get_distance (const CavPath *path, CavPoint point);
CavPath *cav_path_reversed (const CavPath *path) G_GNUC_WARN_UNUSED_RESULT;
CavPath *cav_path_transformed (const CavPath *path,
                               CavTransform transform) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) CavPoint array; a closed path does not repeat its first point. */
GArray *cav_path_linearise (const CavPath *path, double tolerance) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavPath, cav_path_free)

G_END_DECLS
