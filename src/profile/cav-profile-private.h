/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"
#include "geometry/cav-number-text.h"

G_BEGIN_DECLS

/* Wood between two outlines that lie against each other does not stand where it is thinner, mm. */
#define CAV_SPLINTER 0.05
/* Adds to the findings where the wood of a section is thinner than CAV_WALL_THIN; where around is
 * not NULL, only where the outline runs through it. FALSE, with nothing added, where there is a
 * splinter and somebody asks for its place. */
#define CAV_WALL_THIN 2.0
gboolean cav_profile_check_walls (const CavRegion *region,
                                  const CavBox *around,
                                  GPtrArray *findings,
                                  CavPoint *out_splinter);

G_END_DECLS
