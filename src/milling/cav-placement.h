/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-blank.h"

G_BEGIN_DECLS

/*
 * How a rail lies on a machine: u is the distance from the fence, v the height above the table.
 * A rail can be turned end for end, so every pair of neighbouring sides is possible.
 */

/* TRUE where one side can lie on the table with the other at the fence: neighbours only. */
gboolean cav_placement_is_possible (CavSide down, CavSide against);
/* The map from the blank's coordinates to (u, v). */
CavTransform cav_placement_get_transform (const CavBlank *blank, CavSide down, CavSide against);
/* The map back. */
CavTransform cav_placement_get_inverse (const CavBlank *blank, CavSide down, CavSide against);
/* Extent of the blank along u and v with that side down. */
double cav_placement_get_reach (const CavBlank *blank, CavSide down);
double cav_placement_get_height (const CavBlank *blank, CavSide down);
CavSide cav_side_get_opposite (CavSide side);
/* TRUE for back and face. */
gboolean cav_side_is_flat (CavSide side);

G_END_DECLS
