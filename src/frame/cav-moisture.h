/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame-settings.h"
#include "shop/cav-wood.h"

G_BEGIN_DECLS

/* Above this wood does not swell any more: the fibres are full. Percent. */
#define CAV_MOISTURE_FULL 30.0

/*
 * The moisture that wood comes to in this air, percent of its dry weight. Hailwood and Horrobin's
 * equation with two hydrates, equation (4-5) of the Wood Handbook, FPL-GTR-190, with its
 * coefficients for degrees Celsius; its table 4-2 goes from -1 degree and from 5 to 95 %. Good
 * enough for planning: FPL-GTR-229 (2014) doubts the old measurements behind it.
 */
double cav_moisture_get (CavClimate climate);

/*
 * By which fraction wood changes its width when its moisture goes from one percentage to another;
 * along the grain it does not. Equation (13-2) of the Wood Handbook where both lie between 6 and
 * 14 %, else equation (13-3), whose 3000/S the coefficient gives back (table 13-5 is 13-3 taken
 * from 10 %). What is above CAV_MOISTURE_FULL counts as that.
 */
double cav_movement_get (const CavWood *wood, CavSawn sawn, double from, double to);

G_END_DECLS
