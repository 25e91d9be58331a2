/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-point.h"

G_BEGIN_DECLS

/* Reads a transform list of SVG 1.1, section 7.6: the map that it says, or FALSE. */
gboolean cav_svg_transform_parse (const char *text, CavTransform *out_transform);

G_END_DECLS
