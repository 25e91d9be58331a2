/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-outline-builder.h"
#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* path, rect, circle, ellipse, line, polyline, polygon: all that draws an outline. */
gboolean cav_svg_shape_is_known (const xmlNode *node);
/* Draws a known shape; errors have no place. */
gboolean cav_svg_shape_draw (const xmlNode *node, CavOutlineBuilder *builder, GError **error);

G_END_DECLS
