/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-point.h"
#include "geometry/cav-unit.h"
#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* User units in an inch, and in a millimetre (SVG 1.1, section 7.10, and CSS). */
#define CAV_SVG_UNITS_PER_INCH 96.0
#define CAV_SVG_UNITS_PER_MM (CAV_SVG_UNITS_PER_INCH / CAV_INCH)

/* Numbers of a picture are below this, so that squares and products of them stay finite; what is
 * drawn has a narrower limit of its own. */
#define CAV_SVG_LARGEST_NUMBER 1e9

/* Size of the picture in millimetres and the map from user units to them, by width, height,
 * viewBox and preserveAspectRatio (SVG 1.1, sections 7.7 and 7.8). */
gboolean cav_svg_viewport_read (const CavXml *xml,
                                const xmlNode *root,
                                double *out_width,
                                double *out_height,
                                CavTransform *out_map,
                                GError **error);

/* A length in user units: a bare number, or one with px, mm, cm, in, pt or pc. out_has_unit is
 * nullable. */
gboolean cav_svg_length_parse (const char *text, double *out_units, gboolean *out_has_unit);

G_END_DECLS
