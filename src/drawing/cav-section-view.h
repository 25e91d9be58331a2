/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-dimension.h"
#include "project/cav-length.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/*
 * The section with its dimensions, laid out for one scale: the blank's upper left corner (inside,
 * face) is the origin, millimetres on the page, y down.
 */
typedef struct
{
  CavScene *scene;           /* borrowed, for measuring and drawing */
  const CavProfile *profile; /* borrowed */
  double scale;
  CavTransform map;      /* from the blank */
  double letters;        /* height of the values */
  GPtrArray *dimensions; /* CavDimension, their texts owned */
  GArray *rooms;         /* CavDimensionRoom of each */
  GPtrArray *names;      /* of the sides */
  int n_lanes[2][2];     /* in use: along x or y, low or high side */
  CavBox extent;         /* of everything */
} CavSectionView;

/* bare: the wood alone, no words or dimensions. */
CavSectionView *cav_section_view_new (CavScene *scene,
                                      CavProject *project,
                                      double scale,
                                      gboolean bare,
                                      CavUnit unit,
                                      int denominator) G_GNUC_WARN_UNUSED_RESULT;
void cav_section_view_free (CavSectionView *view);
/* Draws it with the origin at a point of the page, in layers of its own. */
void cav_section_view_draw (CavSectionView *view, CavPoint origin, CavUnit unit, int denominator);

/* Names the radii of the profile's circular arcs where there is room; part of the above. map leads
 * from the blank to the page. */
void cav_section_draw_radii (
    CavSectionView *view, CavPoint origin, CavTransform map, CavUnit unit, int denominator);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavSectionView, cav_section_view_free)

/* What is worth a measure, in the blank's coordinates. */
typedef struct
{
  gboolean upright;
  double from; /* along x, or y where upright */
  double to;
  double start_from; /* across, where the part is at either end */
  double start_to;
  gboolean high;    /* belongs to the face or the outside, else to the back or the inside */
  gboolean crosses; /* its extension lines run over the wood, so either side would do */
} CavMeasured;

/* (transfer full) CavMeasured, each measure once, the most telling first. */
GArray *cav_section_find_measures (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
