/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/*
 * Edits of the path of a drawn cut. Paths are closed; point i is where segment i begins. Each edit
 * gives back a new path (transfer full). Coordinates are the blank's.
 */

/* Longest way an arc may bulge from the middle of its chord, as a share of the chord. */
#define CAV_PATH_EDIT_BULGE_MAX 50.0

CavPoint cav_path_edit_get_point (const CavPath *path, guint index);
/* Which segment is nearest, and where on it; FALSE where none is within tolerance (mm). */
gboolean cav_path_edit_find_segment (const CavPath *path,
                                     CavPoint point,
                                     double tolerance,
                                     guint *out_segment,
                                     CavPoint *out_nearest);
/* Splits a segment where it is nearest to point; the new point has the index segment + 1. NULL
 * where that is at one of its ends. */
CavPath *cav_path_edit_insert_point (const CavPath *path,
                                     guint segment,
                                     CavPoint point) G_GNUC_WARN_UNUSED_RESULT;
/* A line takes the place of the two segments beside it. NULL where less than a triangle, or two
 * arcs, would be left. */
CavPath *cav_path_edit_remove_point (const CavPath *path, guint index) G_GNUC_WARN_UNUSED_RESULT;
/* Arcs beside the point keep their shape and turn and grow with their chord. NULL where the point
 * would come to lie on a neighbour. */
CavPath *
cav_path_edit_move_point (const CavPath *path, guint index, CavPoint to) G_GNUC_WARN_UNUSED_RESULT;
/* How far the middle of a segment stands out from the middle of its chord, to the right of its way
 * positive, mm; 0 for a line. */
double cav_path_edit_get_bulge (const CavPath *path, guint segment);
/* The arc of a circle with that bulge; a line where it is next to nothing. */
CavPath *cav_path_edit_set_bulge (const CavPath *path,
                                  guint segment,
                                  double bulge) G_GNUC_WARN_UNUSED_RESULT;
/* The arc of a circle through a point; a line where the point is next to on it. */
CavPath *cav_path_edit_bend_through (const CavPath *path,
                                     guint segment,
                                     CavPoint point) G_GNUC_WARN_UNUSED_RESULT;
CavPath *cav_path_edit_straighten (const CavPath *path, guint segment) G_GNUC_WARN_UNUSED_RESULT;
/* Whether the path encloses something to take away. Errors (CAV_PROFILE_ERROR_PATH) are a
 * sentence: what, where, what to do. */
gboolean cav_path_edit_check (const CavPath *path, GError **error);

G_END_DECLS
