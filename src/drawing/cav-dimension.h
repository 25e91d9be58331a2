/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/*
 * One measure on a drawing, by the habits of ISO 129-1: a thin line between two arrowheads, its
 * value above it (of an upright line, at its left, read from the right), extension lines that
 * leave a small gap to the part and pass the line. Millimetres on the page. Where the value does
 * not fit between the arrows it stands beyond the far end, where the arrows do not, they point
 * inward from outside.
 */
typedef struct
{
  gboolean upright; /* measures along y */
  double from;      /* along the line, from < to */
  double to;
  double line;       /* where the line stands across */
  double start_from; /* where the part is, across, at either end */
  double start_to;
  const char *text;
  double height;       /* of its figures */
  gboolean beyond_low; /* a value that does not fit stands before from, not behind to */
} CavDimension;

/* Room that a dimension takes. */
typedef struct
{
  CavBox text;
  CavBox line;
  CavBox extensions[2];
} CavDimensionRoom;

CavDimensionRoom cav_dimension_get_room (CavScene *scene, const CavDimension *dimension);
void cav_dimension_draw (CavScene *scene, const CavDimension *dimension);
/* A filled arrowhead with its tip at a point, pointing along (dx, dy), a vector of length 1. */
void cav_arrow_draw (CavScene *scene, CavPoint tip, double dx, double dy);

G_END_DECLS
