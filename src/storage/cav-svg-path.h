/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-outline-builder.h"

G_BEGIN_DECLS

/* Draws the path data of SVG 1.1, section 8.3, with builder. Errors name the character. */
gboolean cav_svg_path_draw (const char *data, CavOutlineBuilder *builder, GError **error);

/* Reads a transform list of SVG 1.1, section 7.6: the map that it says, or FALSE. */
gboolean cav_svg_transform_parse (const char *text, CavTransform *out_transform);

G_END_DECLS
