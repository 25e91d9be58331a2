/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"
#include "geometry/cav-number-text.h"

G_BEGIN_DECLS

/* Adds to the findings where the wood of a section is thinner than CAV_WALL_THIN. */
#define CAV_WALL_THIN 2.0
void cav_profile_check_walls (const CavRegion *region, GPtrArray *findings);
/* The same only where the outline runs through around. */
void cav_profile_check_walls_in (const CavRegion *region, CavBox around, GPtrArray *findings);

G_END_DECLS
