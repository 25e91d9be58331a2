/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-grain.h"
#include "project/cav-snap.h"

G_BEGIN_DECLS

/*
 * What moves over the section with the pointer: outlines of what is chosen or meant, handles,
 * measures, the cut that is being drawn, what it snaps to. Plain data; nothing here is kept.
 */

typedef enum
{
  CAV_SHAPE_HOVERED,  /* thin dashed line */
  CAV_SHAPE_SELECTED, /* firm line, faint hatch */
  CAV_SHAPE_DRAWN,    /* being drawn or dragged: firm line, wash and hatch */
  CAV_SHAPE_PROPOSED, /* where a click would put it: dotted line, wash */
} CavShapeRole;

typedef struct
{
  const CavRegion *region;
  CavShapeRole role;
} CavOverlayShape;

/* A dimension line beside the section, in the blank's coordinates. */
typedef struct
{
  gboolean upright; /* measures along y */
  double from;
  double to;
  double part_from; /* across, where the part is at either end */
  double part_to;
  gboolean high; /* stands on the face's or the outside's side */
  int lane;      /* 0 nearest to the wood */
  gboolean live; /* changes right now: stronger */
  char text[40];
} CavOverlayMeasure;

typedef struct
{
  CavBlank blank;
  const char *names[CAV_N_SIDES]; /* words at the sides, as they are to be read; nullable */
  const CavOverlayShape *shapes;
  guint n_shapes;
  const GArray *handles;  /* (nullable) CavHandle */
  int hovered_handle;     /* or -1 */
  int held_handle;        /* being dragged, or -1 */
  int focused_handle;     /* that the keyboard moves, or -1 */
  const GArray *measures; /* (nullable) CavOverlayMeasure */
  const CavSnap *snap;    /* (nullable) */
  gboolean has_place;     /* corner or edge that lights up for a proposal */
  CavPoint place_from;
  CavPoint place_to;
  gboolean has_band; /* rubber band, pixels */
  CavBox band;
  gboolean has_pointer; /* shown on the rulers */
  CavPoint pointer;
  gboolean has_bounds; /* extent of what is chosen, shown on the rulers, mm */
  CavBox bounds;
  const CavPath *path; /* (nullable) of a drawn cut that is not closed yet */
  CavSegment next;     /* from its end to the pointer; from == to: none */
  gboolean closes;     /* the next click closes it */
  const char *figure;  /* (nullable) live numbers at the pointer, several lines */
  CavPoint figure_at;  /* pixels */
  gboolean is_refused; /* what is drawn cannot be made: figure says why */
} CavSectionOverlay;

/* It is drawn in parts, from the lowest up, each of which covers little of the pane: who keeps them
 * apart draws little anew. Some draw nothing. */
guint cav_section_overlay_get_part_count (const CavSectionOverlay *overlay);
void cav_section_overlay_draw_part (cairo_t *cr,
                                    const CavPane *pane,
                                    const CavSectionOverlay *overlay,
                                    guint number);

G_END_DECLS
