/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* The block in a drawing's lower right corner, as ISO 7200 has it: cells with a small label and a
 * value. mm. */
#define CAV_TITLE_BLOCK_WIDTH 150.0
#define CAV_TITLE_BLOCK_ROW 12.0

typedef struct
{
  double x; /* in the block */
  int row;
  double width;
  const char *label;
  const char *value; /* cleaned and shortened to the cell; NULL: the number of the only sheet */
  gboolean large;
} CavTitleCell;

/* Draws cells as one layer, "title-block", with its upper left corner at a point. */
void
cav_title_block_draw (CavScene *scene, const CavTitleCell *cells, guint n_cells, CavPoint corner);

G_END_DECLS
