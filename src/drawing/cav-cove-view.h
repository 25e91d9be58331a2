/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* The saw table from above, the operator at the foot of the picture: the blade, the fence across
 * it, the rail with its direction, and where the fence's distance is measured. */
void cav_cove_view_draw (CavScene *scene,
                         const CavPlan *plan,
                         const CavSetup *setup,
                         CavBox box,
                         CavUnit unit,
                         int denominator);

G_END_DECLS
