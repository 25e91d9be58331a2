/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"
#include "profile/cav-blank.h"

G_BEGIN_DECLS

/* Paints a region of a blank as end grain: a light ground and growth rings, arcs around a heart
 * that lies below the back, so that they turn with the rail. map leads from the blank to the page;
 * spacing is the mean gap between rings there. */
void cav_end_grain_draw (CavScene *scene,
                         const CavRegion *region,
                         const CavBlank *blank,
                         CavTransform map,
                         double spacing);

/* The heart of the tree that a blank was sawn from, in the blank's coordinates: below its back. */
CavPoint cav_end_grain_get_heart (const CavBlank *blank);

/* Where on the finished profile the triangle is pencilled that tells how a rail lies, and how
 * large it may be: on the wood, as near to face and sight edge as size allows. */
typedef struct
{
  CavPoint centre;
  double size; /* leg of the triangle, mm of wood */
} CavEndMark;

CavEndMark cav_end_mark_find (const CavRegion *profile, double size);
/* The triangle; its square corner points to face and sight edge. */
void cav_end_mark_draw (CavScene *scene, CavEndMark mark, CavTransform map);

G_END_DECLS
