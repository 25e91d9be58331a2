/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame.h"

G_BEGIN_DECLS

/*
 * The outline of a frame, or of anything with the same corners, as it is seen from the front:
 * the middle is the origin, x runs right and y down, mm. Side k lies on the line
 * across[k] · point = reach[k]; the first side is the top of a rectangle, the others follow
 * clockwise. A frame of equal sides stands on its last side where the number is odd, and hangs
 * with sides at top and bottom where it is even.
 */
typedef struct
{
  int sides;
  CavPoint across[CAV_FRAME_SIDES_MAX]; /* away from the middle, length 1 */
  double reach[CAV_FRAME_SIDES_MAX];
} CavFrameFace;

void cav_frame_face_init (CavFrameFace *face, int sides, CavSize size);
/* Moved as a whole, mm. */
void cav_frame_face_shift (CavFrameFace *face, double x, double y);
/* The corner between side k and the next one, of a line that runs inset within the outline. */
CavPoint cav_frame_face_get_corner (const CavFrameFace *face, int side, double inset);
CavBox cav_frame_face_get_bounds (const CavFrameFace *face);
/* How deep a point lies inside, negative outside: distance to the nearest side. (optional)
 * out_side and out_second: that side, and how much deeper it lies by the next nearest. */
double cav_frame_face_get_depth (const CavFrameFace *face,
                                 CavPoint point,
                                 int *out_side,
                                 double *out_second);

/* How far a point lies outside, measured around corners too; 0 inside. Exact for rectangles. */
double cav_frame_face_get_distance (const CavFrameFace *face, CavPoint point);

G_END_DECLS
