/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <cairo.h>

#include "boards/cav-board-layout.h"
#include "drawing/cav-palette.h"
#include "frame/cav-frame.h"

G_BEGIN_DECLS

/*
 * Where in its tree a rail grew, so that its figure is that of its board. A place on the rail is
 * given along it (mm from its middle, clockwise around the frame), across it and from its back,
 * both in the blank's coordinates.
 */
typedef struct
{
  double start;      /* of the rail's middle, mm along the tree */
  gboolean reversed; /* the way around the frame runs against it: an opened leaf */
  double low;        /* of its sight edge, mm across the board */
  double up;         /* of its back, mm through the board */
  gboolean turned;   /* its face looks down in the board */

  /* How it is told from the others */
  int number; /* chalked on it; 0: it lies on no board */
  CavColour colour;
} CavRailGrain;

typedef struct
{
  CavRailGrain rails[CAV_FRAME_SIDES_MAX];
  gboolean has_boards;
} CavFrameGrain;

/* Rails one after another, as if out of one long strip. */
void cav_frame_grain_init (CavFrameGrain *grain, const CavFrame *frame);
/* The rails of one frame of the layout's first job where they lie on boards; those that lie
 * nowhere as above. (nullable) layout. */
void cav_frame_grain_place (CavFrameGrain *grain, const CavBoardLayout *layout, int frame);

/* From a place on the rail to one in the tree. */
static inline void
cav_rail_grain_map (const CavRailGrain *rail, double *along, double *across, double *height)
{
  *along = rail->start + (rail->reversed ? -*along : *along);
  *across += rail->low;
  *height = rail->up + (rail->turned ? -*height : *height);
}

/* Paints each rail's number on a disc of its colour in the middle of the rail. The frame's middle
 * is the origin; scale: pixels for each mm. */
void cav_frame_grain_draw_numbers (const CavFrameGrain *grain,
                                   const CavFrame *frame,
                                   cairo_t *cr,
                                   double scale);

G_END_DECLS
