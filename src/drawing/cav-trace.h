/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "geometry/cav-path.h"

G_BEGIN_DECLS

/* Adds a path to the current one of cr as a subpath of its own, arcs as true arcs in its unit. */
void cav_path_trace (cairo_t *cr, const CavPath *path);

G_END_DECLS
