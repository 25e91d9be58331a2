/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-board-map.h"

G_BEGIN_DECLS

/* A strip that is drawn thinner than this has no room for the numbers of its pieces. */
#define CAV_BOARD_LABEL_ROOM 4.2
/* One row of labels beside a board. */
#define CAV_BOARD_LABEL_ROW 4.2
/* From one line over a board to the next. */
#define CAV_BOARD_CAPTION_LINE 4.2
/* Height of a piece's number and of the words beside it. */
#define CAV_BOARD_FIGURE CAV_LETTER_SMALL
#define CAV_BOARD_WORDS CAV_LETTER_SMALL

/* One face in the drawing. */
typedef struct
{
  const CavBoardMap *map;
  const CavBoardLayout *layout;
  CavScene *scene;
  CavUnit unit;
  int chosen;
  guint face_index;
  CavBoardFace face; /* moved to where it is drawn */
  double moved;
} CavBoardPicture;

const CavLaidBoard *cav_board_picture_get_board (const CavBoardPicture *self);
/* Where a stretch of a strip is drawn. */
CavBox
cav_board_picture_get_box (const CavBoardPicture *self, int strip, double from, double length);

/* Whether there are pieces on that layer of a strip, and no room to number them. */
gboolean cav_board_strip_is_thin (const CavLaidStrip *strip, int layer, double scale);

/* Number and name on a piece, as large as it lets them be; inset: of the mitres, below: taken
 * already at its lower edge. */
void cav_board_picture_draw_label (const CavBoardPicture *self,
                                   const CavPlacedPiece *piece,
                                   CavBox box,
                                   double inset,
                                   double below);
/* Numbers and names of the pieces that have no room for them, above and below the board, each with
 * a line to its piece. */
void cav_board_picture_draw_outer_labels (const CavBoardPicture *self);

G_END_DECLS
