/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The blades and cutters of the shop of a document, each with its outline, all to one scale.
 * Property "document". What is done to them are actions of the window around it: "shop.add-blade",
 * "shop.add-cutter", and with a tool's id "shop.edit-tool", "shop.duplicate-tool",
 * "shop.remove-tool". */
#define CAV_TYPE_TOOL_LIST (cav_tool_list_get_type ())
G_DECLARE_FINAL_TYPE (CavToolList, cav_tool_list, CAV, TOOL_LIST, GtkWidget)

/* (transfer none) (nullable) The row of a tool. */
GtkWidget *cav_tool_list_get_row (CavToolList *self, const char *id);

G_END_DECLS
