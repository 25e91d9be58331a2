/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-bands.h"
#include "milling/cav-task.h"

G_BEGIN_DECLS

/* Rounds and hollows of the profile, at most a quarter of a circle each, that a cutter of the same
 * shape should make. Fills task->arcs. */
void cav_arc_collect (CavTask *task);
/* TRUE where a sweep leaves the arc as it is drawn. */
gboolean cav_arc_is_made_by (const CavOutlineArc *arc, const CavSweepRows *sweep);
/* TRUE where more than a hair stands over the arc. */
gboolean cav_arc_is_left (const CavOutlineArc *arc, const CavBands *bands);
/* What the search has to pay for each mated arc that it leaves, minutes; no plan reports them. */
double cav_arc_get_price (const CavTask *task);

G_END_DECLS
