/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* Films thinner than twice this do not count, mm. */
#define CAV_HALF_FILM 0.05

/* Greatest distance of the points of a plan's leftover from its profile, films aside, mm. The
 * plan's leftover_area has to be known. */
double cav_leftover_get_thickness (const CavPlan *plan);

G_END_DECLS
