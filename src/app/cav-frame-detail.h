/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/*
 * A drawing of the frame that fills its place: the section with the package and its dimensions, or
 * with "is-corner" the close up of a mitre in air of "humidity" percent. Property "document".
 */
#define CAV_TYPE_FRAME_DETAIL (cav_frame_detail_get_type ())
G_DECLARE_FINAL_TYPE (CavFrameDetail, cav_frame_detail, CAV, FRAME_DETAIL, GtkWidget)

/* For tests: the drawing for the size of now; NULL where there is nothing to draw. (transfer none)
 */
CavScene *cav_frame_detail_get_scene (CavFrameDetail *self);

G_END_DECLS
