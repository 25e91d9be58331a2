/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rail.h"

G_BEGIN_DECLS

#define CAV_FEEDS_MAX 60

/* One feed of a placement: fence distance and height. */
typedef struct
{
  double fence;
  double height;
} CavFeed;

/*
 * Splits a placement into feeds that each keep to the tool's bite and layer: as few as it takes,
 * the bites nearly equal; where the surface shows and it costs no further feed, or the shop wants
 * it so all the same, the last is a light one. Cutters that narrow below approach from the side,
 * everything else rises from below. Returns the number of feeds, 0 where no feed can be found that
 * keeps to the bite.
 */
int cav_feed_split (CavRailStore *store,
                    CavTask *task,
                    const CavRail *rail,
                    int candidate,
                    CavFence fence,
                    CavFeed *out_feeds);

G_END_DECLS
