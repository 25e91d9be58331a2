/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"
#include "frame/cav-frame.h"

G_BEGIN_DECLS

/*
 * The section through a rail and what its rabbet holds, face up and sight edge left, with all
 * dimensions and the names of the package's layers. Laid out for one scale around the blank's upper
 * left corner; mm on the page.
 */

/* What it takes, seen from that corner. */
CavBox cav_frame_section_get_extent (CavScene *scene,
                                     const CavFrame *frame,
                                     const CavProfile *profile,
                                     double scale,
                                     CavLengthStyle style);
/* Draws it with that corner at a point, in layers of its own whose ids begin with "section". */
void cav_frame_section_draw (CavScene *scene,
                             const CavFrame *frame,
                             const CavProfile *profile,
                             double scale,
                             CavPoint origin,
                             CavLengthStyle style);

G_END_DECLS
