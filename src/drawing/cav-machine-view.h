/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-end-grain.h"
#include "milling/cav-plan.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* One pass as it is seen from the outfeed side, drawn into a box of the page: fence at the left,
 * table below, sizes of the wood as large as they fit, letters and lines as they are. */
void cav_machine_view_draw (CavScene *scene,
                            const CavPlan *plan,
                            const CavSetup *setup,
                            const CavPass *pass,
                            CavEndMark mark,
                            CavBox box,
                            CavUnit unit,
                            int denominator);

/* Leg of the triangle on the rail's end, mm of wood, before it is made to fit. */
double cav_machine_view_get_mark_size (const CavPlan *plan);

G_END_DECLS
