/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* The project of a document whose root has been checked. (transfer full) */
CavProject *cav_project_xml_read (const CavXml *xml, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_project_xml_write (GString *text, CavProject *project);

G_END_DECLS
