/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* Wood that a pass leaves thinner than CAV_WALL_THIN between its fresh cut and air, and that the
 * profile does not ask for: weak until a later pass takes it. mm. */
typedef struct
{
  CavSide near;     /* the side of the prepared blank that it is parallel to and nearest */
  double from;      /* its middle from that side */
  double thickness; /* at its thinnest */
  double height;    /* over which it is so thin, along that side */
} CavThinWall;

#define CAV_WALL_THIN 2.0

/* FALSE where the pass leaves none. That of the greatest height, of walls along either side. */
gboolean cav_pass_find_thin_wall (const CavPlan *plan, const CavPass *pass, CavThinWall *out_wall);

G_END_DECLS
