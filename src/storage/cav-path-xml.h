/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* A closed path as the children of node: <start x y/>, then <line x y/> and <arc .../>, each to
 * x, y. Arcs carry their centre, radii and angles, so that they come back as the same bits.
 * (transfer full) */
CavPath *cav_path_xml_read (const CavXml *xml,
                            const xmlNode *node,
                            GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_path_xml_write (GString *text, int depth, const CavPath *path);

G_END_DECLS
