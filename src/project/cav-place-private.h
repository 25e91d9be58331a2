/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/* Corners and sides by what they stand for. */
gboolean cav_corner_is_outside (CavCorner corner);
gboolean cav_corner_is_face (CavCorner corner);
CavCorner cav_corner_from_ends (gboolean outside, gboolean face);
/* The back and the face lie level: they run along x. */
gboolean cav_side_is_level (CavSide side);

/* How far a cut on a side stands in from it. */
CavCutNumber cav_cut_get_sink_number (const CavCut *cut);
/* The middle of a cut on a side along that side, from the blank's low end: its position and what
 * it is shifted by together. */
double cav_cut_get_along (const CavCut *cut);
void cav_cut_set_along (CavCut *cut, double along);

/* Least height that a bevel takes off at one end, mm; profile/cav-cut-region.c asks for it. */
#define CAV_LEAST_BEVEL 0.1

/* A drawn cut moved or mirrored; others stay. */
void cav_cut_transform_path (CavCut *cut, CavTransform transform);

G_END_DECLS
