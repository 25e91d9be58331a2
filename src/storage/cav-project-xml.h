/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* Version 2 brought the frame and the lumber, version 3 other projects on its boards. A file is
 * written as the oldest version that can hold what it says. */
#define CAV_PROJECT_XML_NEWEST 3

/* The project of a document whose root has been checked. (transfer full) */
CavProject *cav_project_xml_read (const CavXml *xml, GError **error) G_GNUC_WARN_UNUSED_RESULT;
void cav_project_xml_write (GString *text, CavProject *project);

G_END_DECLS
