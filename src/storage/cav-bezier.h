/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-segment.h"

G_BEGIN_DECLS

/* Greatest distance between a curve and what stands for it, mm. */
#define CAV_BEZIER_TOLERANCE 0.002
/* The same where the curve is a drawing program's way to write a circular arc. */
#define CAV_BEZIER_CIRCLE_TOLERANCE 0.005

/*
 * Appends circular arcs and lines (CavSegment) that follow the cubic Bezier curve with these four
 * control points within these tolerances; where the curve is smooth, so are the arcs. Stops
 * early, without an error, once segments holds most of them.
 */
void cav_bezier_append (const CavPoint control[4], guint most, GArray *segments);

G_END_DECLS
