/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-view.h"
#include "project/cav-handle.h"

G_BEGIN_DECLS

/* What lies under a pointer on the section. */
typedef enum
{
  CAV_HIT_NOTHING,
  CAV_HIT_HANDLE, /* index: which */
  CAV_HIT_CUT,    /* index: which cut, by its edge or by its area */
  CAV_HIT_CORNER, /* of the blank */
  CAV_HIT_SIDE,
  CAV_HIT_BLANK, /* its inside */
} CavHitKind;

typedef struct
{
  CavHitKind kind;
  guint index;
  gboolean on_edge;
  CavCorner corner;
  CavSide side;
} CavHit;

/*
 * What the pointer means, by pixels: handles first, then the edges of cuts, then their areas
 * (the smallest of those that lie over each other), corners and sides of the blank. cuts are
 * CavRegion, NULL where a cut has no shape; handles are nullable CavHandle. tolerance is in
 * pixels.
 */
CavHit cav_section_hit (const CavBlank *blank,
                        const GPtrArray *cuts,
                        const GArray *handles,
                        const CavView *view,
                        CavPoint pixel,
                        double tolerance);
/* (transfer full) guint: every cut under the pointer, in the order in which it would be meant. */
GArray *cav_section_hit_cuts (const GPtrArray *cuts,
                              const CavView *view,
                              CavPoint pixel,
                              double tolerance) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) guint: the cuts that a box (pixels, its corners in any order) touches. */
GArray *cav_section_hit_band (const GPtrArray *cuts,
                              const CavView *view,
                              CavBox box) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
