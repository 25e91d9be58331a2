/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "geometry/cav-path.h"
#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* The only closed outline of a parsed picture, as cav_storage_load_outline() gives it. */
CavPath *cav_svg_read_outline (const CavXml *xml,
                               double *out_width,
                               double *out_height,
                               GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
