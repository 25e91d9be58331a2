/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* Fills leftover, its area, thickness and places and the minutes of hand work of a plan whose last
 * rail is given. reached: nullable test whether any tool would reach a place. */
typedef gboolean (*CavReachedFunc) (gpointer data, CavPoint place);

void
cav_leftover_measure (CavPlan *plan, const CavRegion *rail, CavReachedFunc reached, gpointer data);

G_END_DECLS
