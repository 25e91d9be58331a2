/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"
#include "frame/cav-frame.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/*
 * The frame from the front, with its sizes below and beside it, to one scale around the middle that
 * a CavFrameFace has; mm on the page.
 */
typedef struct
{
  CavScene *scene; /* to draw on, and for measuring words */
  const CavFrame *frame;
  double scale;
  CavPoint middle; /* where it stands on the page */
  CavLengthStyle style;
} CavFrameElevation;

/* What frame and lines of the sizes take on the page; and with the words, which may be longer than
 * what they measure. */
CavBox cav_frame_elevation_get_core (const CavFrameElevation *self);
CavBox cav_frame_elevation_get_extent (const CavFrameElevation *self);

/* Draws outlines, arrises and mitres; and the sizes. */
void cav_frame_elevation_draw_frame (const CavFrameElevation *self, const CavProfile *profile);
void cav_frame_elevation_draw_sizes (const CavFrameElevation *self);

G_END_DECLS
