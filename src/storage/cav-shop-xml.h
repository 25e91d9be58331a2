/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-xml.h"

G_BEGIN_DECLS

/* Reads a <shop> element, of a shop file or inside a project (then it has neither version nor
 * unit, which is the caller's to know). (transfer full) */
CavShop *cav_shop_xml_read (const CavXml *xml,
                            const xmlNode *node,
                            gboolean is_root,
                            GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Appends the same element, indented by depth levels. */
void cav_shop_xml_write (GString *text, int depth, const CavShop *shop, gboolean is_root);

/* Appends a tool as plan files have it: cutters by their points alone, names left out. */
void cav_shop_xml_write_plan_blade (GString *text, int depth, const CavBlade *blade);
void cav_shop_xml_write_plan_cutter (GString *text, int depth, const CavCutter *cutter);

G_END_DECLS
