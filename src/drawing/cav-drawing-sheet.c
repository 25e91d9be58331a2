/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-drawing-sheet-private.h"

#include <glib/gi18n-lib.h>

#include "drawing/cav-title-block.h"

#define MARGIN_LEFT 20.0
#define MARGIN 10.0
#define BLOCK_ROWS 3

static const CavDrawingScale scales[] = {
  { 5, "5:1" },    { 2, "2:1" },     { 1, "1:1" },     { 0.5, "1:2" },    { 0.2, "1:5" },
  { 0.1, "1:10" }, { 0.05, "1:20" }, { 0.02, "1:50" }, { 0.01, "1:100" },
};

CavBox
cav_drawing_sheet_get_border (double width, double height)
{
  return cav_box (MARGIN_LEFT, MARGIN, width - MARGIN, height - MARGIN);
}

void
cav_drawing_sheet_draw (CavScene *scene)
{
  const double width = cav_scene_get_width (scene);
  const double height = cav_scene_get_height (scene);

  cav_scene_begin_titled_layer (scene, "sheet", _ ("Sheet"), _ ("The paper and its border."));
  cav_scene_add_box (scene, cav_box (0, 0, width, height), CAV_STYLE_PAPER);
  cav_scene_add_box (scene, cav_drawing_sheet_get_border (width, height), CAV_STYLE_SHEET_FRAME);
  cav_scene_end_layer (scene);
}

CavPoint
cav_drawing_sheet_get_block (CavBox border)
{
  return CAV_POINT (border.x1 - CAV_TITLE_BLOCK_WIDTH,
                    border.y1 - BLOCK_ROWS * CAV_TITLE_BLOCK_ROW);
}

const CavDrawingScale *
cav_drawing_scale_get_first (double most)
{
  guint i = 0;

  while (i + 1 < G_N_ELEMENTS (scales) && scales[i].value > most)
    i++;
  return &scales[i];
}

const CavDrawingScale *
cav_drawing_scale_get_next (const CavDrawingScale *scale)
{
  return scale + 1 < scales + G_N_ELEMENTS (scales) ? scale + 1 : NULL;
}
