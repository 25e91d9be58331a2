/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-sweep.h"

G_BEGIN_DECLS

/* The wood that a pass turns into chips. */
typedef struct
{
  double area;     /* mm² */
  double layer;    /* thickest, measured upward, mm */
  double sides[2]; /* area on the fence's side of the tool's axis and beyond it, mm²; only a cutter
                    * is asked where its chips lie, for a blade all counts as beyond */
} CavChips;

/* What rail and sweep share, both in the blank's coordinates and bounded by lines, as rails are
 * that tools have cut from a blank. */
void cav_chips_measure (CavChips *chips,
                        const CavSweepSetting *setting,
                        const CavBlank *blank,
                        const CavRegion *rail,
                        const CavRegion *swept);

G_END_DECLS
