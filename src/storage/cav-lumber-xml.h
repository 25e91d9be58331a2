/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* The element <lumber>. (transfer full) What is left out has its usual value. */
CavLumber *
cav_lumber_xml_read (const CavXml *xml, xmlNode *node, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_lumber_xml_write (GString *text, int depth, const CavLumber *lumber);

G_END_DECLS
