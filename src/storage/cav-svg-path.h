/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-outline-builder.h"

G_BEGIN_DECLS

/* Draws the path data of SVG 1.1, section 8.3, with builder. Errors name the character. */
gboolean cav_svg_path_draw (const char *data, CavOutlineBuilder *builder, GError **error);

G_END_DECLS
