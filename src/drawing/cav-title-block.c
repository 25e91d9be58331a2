/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-title-block.h"

#include <glib/gi18n-lib.h>

#define PAD 2.0

static void
draw_cell (CavScene *scene, const CavTitleCell *cell, CavPoint corner)
{
  const CavTextStyle label = { .height = CAV_LETTER_NOTE, .ink = CAV_INK_GREY };
  const CavTextStyle value = { .height = cell->large ? CAV_LETTER_TOOL - 0.8 : CAV_LETTER_VALUE,
                               .bold = cell->large,
                               .ink = CAV_INK_BLACK };
  double room = cell->width - 2 * PAD;
  double x = corner.x + cell->x;
  double y = corner.y + cell->row * CAV_TITLE_BLOCK_ROW;

  cav_scene_add_box (scene, cav_box (x, y, x + cell->width, y + CAV_TITLE_BLOCK_ROW),
                     CAV_STYLE_BLANK);
  cav_scene_add_text_within (scene, cell->label, CAV_POINT (x + PAD, y + 1 + CAV_LETTER_NOTE),
                             &label, room);
  if (cell->value != NULL)
    cav_scene_add_text_within (scene, cell->value,
                               CAV_POINT (x + PAD, y + CAV_TITLE_BLOCK_ROW - 2.2), &value, room);
  else
    cav_scene_add_page_number (scene, 1, 1, TRUE,
                               CAV_POINT (x + PAD, y + CAV_TITLE_BLOCK_ROW - 2.2), &value);
}

void
cav_title_block_draw (CavScene *scene, const CavTitleCell *cells, guint n_cells, CavPoint corner)
{
  int n_rows = 0;

  g_return_if_fail (scene != NULL && cells != NULL);

  cav_scene_begin_titled_layer (scene, "title-block", _ ("Title block"),
                                _ ("Project, scale, unit and date."));
  for (guint i = 0; i < n_cells; i++)
    {
      draw_cell (scene, &cells[i], corner);
      n_rows = MAX (n_rows, cells[i].row + 1);
    }
  cav_scene_add_line (scene, corner, CAV_POINT (corner.x + CAV_TITLE_BLOCK_WIDTH, corner.y),
                      CAV_STYLE_SHEET_FRAME);
  cav_scene_add_line (scene, corner, CAV_POINT (corner.x, corner.y + n_rows * CAV_TITLE_BLOCK_ROW),
                      CAV_STYLE_SHEET_FRAME);
  cav_scene_end_layer (scene);
}
