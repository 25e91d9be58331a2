/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "frame/cav-sanding.h"
#include "geometry/cav-envelope.h"

G_BEGIN_DECLS

/* What is drawn at full size. */
typedef enum
{
  CAV_TEMPLATE_RIGHT_END, /* rail face up, inside toward you: the end at your right */
  CAV_TEMPLATE_LEFT_END,
  CAV_TEMPLATE_BLOCK, /* the face's counter-shape */
} CavTemplatePart;
#define CAV_N_TEMPLATE_PARTS 3

/* Where the middle of a cutter or of a coved hollow stands, in the prepared blank's coordinates. */
typedef struct
{
  CavPoint from; /* a little outside of the blank */
  CavPoint to;   /* where the tool ends in the wood, or a little beyond */
  CavSide side;  /* at which the line begins */
  double along;  /* from the inside, or from the back */
  char *tool;
} CavTemplateCentre;

/* (transfer full) CavTemplateCentre array, each line once; empty without a plan. */
GPtrArray *cav_template_find_centres (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
char *cav_template_describe_centre (const CavTemplateCentre *centre,
                                    const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer full) The face's counter-shape, smaller all around by the thickness of the paper. */
CavRegion *cav_template_create_block (const CavRegion *profile,
                                      const CavBlank *blank,
                                      double paper) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
