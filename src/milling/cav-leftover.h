/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* Fills area, thickness and places of the leftover that a plan has, and its minutes of hand work.
 * reached: nullable test whether any tool would reach a place. */
typedef gboolean (*CavReachedFunc) (gpointer data, CavPoint place);

void cav_leftover_measure (CavPlan *plan, CavReachedFunc reached, gpointer data);

/* Whether a tool would reach a place that stays. */
gboolean cav_leftover_place_is_reached (const CavLeftoverPlace *place);

G_END_DECLS
