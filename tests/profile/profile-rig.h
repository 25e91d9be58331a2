/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"

G_BEGIN_DECLS

/* (nullable) The first finding with this code. */
const CavFinding *rig_find (const CavProfile *profile, const char *code);
/* The same where there has to be one; the test fails where there is none. */
const CavFinding *rig_expect (const CavProfile *profile, const char *code);
/* Area that belongs to one region alone. */
double rig_get_difference (const CavRegion *a, const CavRegion *b);
/* Adds a cut, which is the array's. */
CavCut *
rig_add_corner_cut (GPtrArray *cuts, CavCutKind kind, CavCorner corner, double width, double depth);

G_END_DECLS
