/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project.h"

G_BEGIN_DECLS

/*
 * Where a new cut would go. At a corner of the wood as it stands, also one that another cut has
 * left, or on a level edge of it: the cut then sits on that ledge.
 */

/* (transfer full) (nullable) The cut with usual numbers that a click would make; NULL where the
 * pointer is farther than reach (mm) from the blank, or for a drawn cut. */
CavCut *cav_proposal_at (CavProject *project, CavCutKind kind, CavPoint point, double reach)
    G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) (nullable) The same, drawn out from one point to another: what lies between them
 * gives the numbers. Its place is found at from. NULL for a drawn cut, and where nothing is drawn
 * out. */
CavCut *cav_proposal_from_drag (CavProject *project, CavCutKind kind, CavPoint from, CavPoint to)
    G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) (nullable) The same without a pointer: at a corner that no cut is at, else in the
 * middle of the face or back. A rabbet comes where it holds the package, if that is free; all
 * others come as near as they can to the point (nullable), or to the sight edge. NULL for a drawn
 * cut. */
CavCut *cav_proposal_at_free_place (CavProject *project,
                                    CavCutKind kind,
                                    const CavPoint *near) G_GNUC_WARN_UNUSED_RESULT;
/* Where a proposed cut stands, to be lit up: the corner (both points the same) or the edge. */
void cav_proposal_get_place (const CavCut *cut,
                             const CavBlank *blank,
                             CavPoint *out_from,
                             CavPoint *out_to);

G_END_DECLS
