/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-blank.h"

G_BEGIN_DECLS

/*
 * Where the wood stands on the screen: so many pixels a millimetre, and the pixel at which the
 * blank's corner at back and inside lies. Pixels run right and down, millimetres right and up.
 */
typedef struct
{
  double scale; /* pixels a millimetre, between the two limits below */
  double x;
  double y;
} CavView;

#define CAV_VIEW_SCALE_MIN 0.2
#define CAV_VIEW_SCALE_MAX 400.0

/* The blank in the middle of a window, with this much air on all four sides; the air gives way
 * before the wood does where the window is small. */
CavView cav_view_fit (const CavBlank *blank, double width, double height, double air);
/* Larger by factor; what lies at the pixel stays there. */
void cav_view_zoom (CavView *self, double factor, CavPoint pixel);
void cav_view_pan (CavView *self, double dx, double dy);
/* Moves it by the least that keeps some of the blank within the window, at least margin pixels of
 * it either way, so that nobody loses the wood. */
void
cav_view_hold (CavView *self, const CavBlank *blank, double width, double height, double margin);
gboolean cav_view_equal (const CavView *a, const CavView *b);

CavPoint cav_view_to_pixel (const CavView *self, CavPoint wood);
CavPoint cav_view_to_wood (const CavView *self, CavPoint pixel);
/* A box of the wood as a box of pixels, and back. */
CavBox cav_view_box_to_pixels (const CavView *self, CavBox wood);
CavBox cav_view_box_to_wood (const CavView *self, CavBox pixels);
CavTransform cav_view_get_transform (const CavView *self);

G_END_DECLS
