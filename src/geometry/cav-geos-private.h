/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <geos_c.h>

#include "geometry/cav-point.h"

G_BEGIN_DECLS

/* The calling thread's GEOS context, made at its first use. */
GEOSContextHandle_t cav_geos_context (void);
/* (transfer none) What GEOS last complained of in this thread; never NULL. */
const char *cav_geos_get_message (void);
/* (transfer full) (nullable) A closed ring of points, first one not repeated. */
GEOSGeometry *cav_geos_ring (GEOSContextHandle_t geos, const CavPoint *points, guint n_points);

G_END_DECLS
