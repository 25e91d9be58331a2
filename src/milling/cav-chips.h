/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-sweep.h"

G_BEGIN_DECLS

/* Measures of the wood that a pass turns into chips, in the blank's coordinates. */

/* Thickest layer, measured upward, mm. */
double
cav_chips_get_layer (const CavSweepSetting *setting, const CavBlank *blank, const CavRegion *chips);
/* Areas on the fence's side of the tool's axis and beyond it, mm²; only a cutter is asked where its
 * chips lie, for a blade all counts as beyond. */
void cav_chips_get_sides (const CavSweepSetting *setting,
                          const CavBlank *blank,
                          const CavRegion *chips,
                          double out_sides[2]);

G_END_DECLS
