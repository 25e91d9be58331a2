/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "geometry/cav-region.h"

G_BEGIN_DECLS

/* Adds a path to the current one of cr as a subpath of its own, arcs as true arcs in its unit. */
void cav_path_trace (cairo_t *cr, const CavPath *path);
/* The same for what is mapped onto cr, and for all outlines of a region. */
void cav_path_trace_mapped (cairo_t *cr, const CavPath *path, CavTransform map);
void cav_region_trace (cairo_t *cr, const CavRegion *region, CavTransform map);
/* The outlines alone that come within reach, in units of cr, of what cr is not clipped away from:
 * to be stroked, not filled. */
void cav_region_trace_shown (cairo_t *cr, const CavRegion *region, CavTransform map, double reach);

G_END_DECLS
