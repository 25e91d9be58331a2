/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-end-grain.h"
#include "milling/cav-plan.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* How a pass is shown beside what it is. */
typedef struct
{
  CavUnit unit;
  int denominator;    /* of inch fractions */
  double letters;     /* height of the figures, mm on the page */
  double scale;       /* greatest enlargement of the wood; 0: that of the sheets */
  double progress;    /* 0 before the pass, 1 after it: how much of it is milled */
  gboolean centred;   /* in its box, else at its left */
  gboolean unfigured; /* without fence and height, where the picture is too small for them */
} CavMachineLook;

/* Passes as they are seen from the outfeed side, drawn into a box of the page: fence at the left,
 * table below, sizes of the wood as large as they fit, letters and lines as look has them. Those of
 * a ladder are drawn together: the rail stands there as before the first and after the last of
 * them, tool, fence and height are the last one's. */
void cav_machine_view_draw_passes (CavScene *scene,
                                   const CavPlan *plan,
                                   const CavSetup *setup,
                                   const CavPass *const *passes,
                                   guint n_passes,
                                   CavEndMark mark,
                                   CavBox box,
                                   const CavMachineLook *look);

/* How many times its size wood would be drawn in a box of this size. */
double cav_machine_view_get_scale (const CavPlan *plan,
                                   const CavSetup *setup,
                                   const CavPass *const *passes,
                                   guint n_passes,
                                   double width,
                                   double height);
/* Height that the picture fills where width is all that limits it. */
double cav_machine_view_get_height (const CavPlan *plan,
                                    const CavSetup *setup,
                                    const CavPass *const *passes,
                                    guint n_passes,
                                    double width);

/* Width that it fills where height is all that limits it. */
double cav_machine_view_get_width (const CavPlan *plan,
                                   const CavSetup *setup,
                                   const CavPass *const *passes,
                                   guint n_passes,
                                   double height);

/* (transfer full) The rail while a pass is being milled. A section that comes to a blade sees it
 * rise through the table to its full height, one that comes to a cutter sees it widen about its
 * axis; progress is that share of height or width. */
CavRegion *cav_machine_view_create_rail (const CavPlan *plan,
                                         const CavSetup *setup,
                                         const CavPass *pass,
                                         double progress) G_GNUC_WARN_UNUSED_RESULT;

/* Leg of the triangle on the rail's end, mm of wood, before it is made to fit. */
double cav_machine_view_get_mark_size (const CavPlan *plan);

G_END_DECLS
