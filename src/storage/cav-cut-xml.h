/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* One cut: an element called as its kind, with corner or side, form, and its numbers; a drawn cut
 * holds its path as <start>, <line> and <arc>. (transfer full) */
CavCut *
cav_cut_xml_read (const CavXml *xml, const xmlNode *node, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_cut_xml_write (GString *text, int depth, const CavCut *cut);

G_END_DECLS
