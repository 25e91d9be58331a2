/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "shop/cav-shop.h"

G_BEGIN_DECLS

/* A cutter or a blade, drawn to scale in the colour of the text around it. */
#define CAV_TYPE_TOOL_PICTURE (cav_tool_picture_get_type ())
G_DECLARE_FINAL_TYPE (CavToolPicture, cav_tool_picture, CAV, TOOL_PICTURE, GtkWidget)

CavToolPicture *cav_tool_picture_new (void) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer none) (nullable) copied; one of them, the other is forgotten. */
void cav_tool_picture_set_cutter (CavToolPicture *self, const CavCutter *cutter);
void cav_tool_picture_set_blade (CavToolPicture *self, const CavBlade *blade);
/* Pixels for a millimetre; 0, as at first: as many as fit. */
void cav_tool_picture_set_scale (CavToolPicture *self, double scale);

G_END_DECLS
