/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* What the drawings for people share: the sheet with its border, and the scales. Lengths on paper,
 * mm. */

#define CAV_DRAWING_DOTS_PER_INCH 200.0

/* The border, with the margins of ISO 5457: room for binding at the left. */
CavBox cav_drawing_sheet_get_border (double width, double height);
/* Draws paper and border as the layer "sheet". */
void cav_drawing_sheet_draw (CavScene *scene);
/* The upper left corner of a title block of three rows, in the border's lower right corner. */
CavPoint cav_drawing_sheet_get_block (CavBox border);

/* A scale of the series of ISO 5455. */
typedef struct
{
  double value;
  const char *text; /* as it is written beside what is drawn: "1:5" */
} CavDrawingScale;

/* The greatest that enlarges no more than this; the next smaller one, NULL behind the last. */
const CavDrawingScale *cav_drawing_scale_get_first (double most);
const CavDrawingScale *cav_drawing_scale_get_next (const CavDrawingScale *scale);

G_END_DECLS
