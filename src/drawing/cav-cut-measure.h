/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-section-overlay.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* (transfer full) CavOverlayMeasure: width and depth of what a cut takes away, and how far it is
 * from the blank's edges where it does not begin at them. live is a number of the cut that changes
 * right now, or -1. */
GArray *cav_section_measure_cut (const CavCut *cut,
                                 const CavRegion *region,
                                 const CavBlank *blank,
                                 CavUnit unit,
                                 int denominator,
                                 int live) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
