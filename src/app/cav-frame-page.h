/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/* The page on which the frame is sized and looked at: preview at the left, settings and results in
 * the side column. Arranges them, and holds nothing itself. Property "document". */
#define CAV_TYPE_FRAME_PAGE (cav_frame_page_get_type ())
G_DECLARE_FINAL_TYPE (CavFramePage, cav_frame_page, CAV, FRAME_PAGE, GtkWidget)

G_END_DECLS
