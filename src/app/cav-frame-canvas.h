/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "app/cav-document.h"

G_BEGIN_DECLS

/*
 * The frame as it would hang, in light that can be dragged: the lamp is a handle on the picture,
 * which the arrow keys move as well. An image that is dropped becomes the picture. Property
 * "document".
 */
#define CAV_TYPE_FRAME_CANVAS (cav_frame_canvas_get_type ())
G_DECLARE_FINAL_TYPE (CavFrameCanvas, cav_frame_canvas, CAV, FRAME_CANVAS, GtkWidget)

/* For tests: nothing is being painted, what is shown is what the document says. */
gboolean cav_frame_canvas_is_settled (CavFrameCanvas *self);

G_END_DECLS
