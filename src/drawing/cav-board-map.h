/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "drawing/cav-scene.h"
#include "project/cav-length.h"

G_BEGIN_DECLS

/* One board as it lies before one, or one layer of a board that is resawn. */
typedef struct
{
  int board;
  int layer;
  int layers;
  gboolean is_idle; /* nothing lies on it */
  int rows_above;   /* of labels that have no room on their pieces, between name and board */
  int rows_below;
  double caption; /* baseline of its name */
  CavBox box;     /* the board itself, left end at the left, lower edge at the bottom */
} CavBoardFace;

/*
 * Where the boards of a layout lie on a page or in a window, all to one scale, one below the other.
 * Millimetres of the page, y down.
 */
typedef struct
{
  double scale; /* of the page to the wood */
  double width;
  double height;
  int caption_lines; /* name and size of a board on one, or the size below the name */
  GArray *faces;     /* CavBoardFace */
} CavBoardMap;

/* What lies at a point. */
typedef struct
{
  int board;
  int strip;
  int layer;
  double at;                   /* along the board, mm from its left end */
  const CavPlacedPiece *piece; /* (nullable) borrowed from the layout */
} CavBoardHit;

/* has_idle: with the boards on which nothing lies, after the others. */
CavBoardMap *cav_board_map_new (const CavBoardLayout *layout,
                                double width,
                                gboolean has_idle) G_GNUC_WARN_UNUSED_RESULT;
void cav_board_map_free (CavBoardMap *map);
/* To a page whose margin is that wide. */
void cav_board_map_indent (CavBoardMap *map, double margin);
/* FALSE beside the strips. */
gboolean cav_board_map_hit (const CavBoardMap *map,
                            const CavBoardLayout *layout,
                            CavPoint point,
                            CavBoardHit *out_hit);
/* Which face shows the board and layer of a hit. */
guint cav_board_map_find_face (const CavBoardMap *map, const CavBoardHit *hit);
/* Where a piece that lies in that lane is on the page. */
CavBox cav_board_map_get_piece_box (const CavBoardMap *map,
                                    const CavBoardLayout *layout,
                                    guint face,
                                    int strip,
                                    double from,
                                    double length);

/* Draws faces first to last - 1 so that the first one's caption comes to top; chosen: the stick
 * that is marked, -1 for none. */
void cav_board_map_draw (const CavBoardMap *map,
                         const CavBoardLayout *layout,
                         CavScene *scene,
                         guint first,
                         guint last,
                         double top,
                         CavUnit unit,
                         int chosen);
/* Room from the first one's caption to the end of the last. */
double cav_board_map_get_height (const CavBoardMap *map, guint first, guint last);
/* (nullable) A piece by its number, or a rail by what it is of, and where it begins; borrowed from
 * the layout. NULL where none lies on a board. */
const CavPlacedPiece *
cav_board_find_number (const CavBoardLayout *layout, int number, CavBoardHit *out_hit);
const CavPlacedPiece *cav_board_find_rail (
    const CavBoardLayout *layout, int job, int frame, int rail, CavBoardHit *out_hit);
/* How far the pieces that keep together with the one that was hit reach to its left, and how long
 * they are together in its lane. */
void cav_board_get_reach (const CavBoardLayout *layout,
                          const CavBoardHit *hit,
                          double *out_before,
                          double *out_length);
/* To the strip above (1) or below (-1) as boards are drawn, which may be another board's; FALSE
 * where there is none. */
gboolean cav_board_step_across (const CavBoardLayout *layout, CavBoardHit *inout_hit, int across);
/* The colour by which a piece is told from others here and on the frame: by its project where
 * several share the boards, else by its place around the frame. Never the only sign. */
CavColour cav_piece_get_colour (const CavBoardLayout *layout, const CavPlacedPiece *piece);
/* (transfer full) "top", "left, frame 2", "test": short, for people. */
char *cav_piece_dup_label (const CavBoardLayout *layout,
                           const CavPlacedPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

/* Where the pencil marks the begin of a piece, from the left: to the millimetre or 1/16 in, as no
 * pencil is finer. */
double cav_placed_piece_get_mark (const CavPlacedPiece *piece, CavUnit unit);
/* (transfer full) "2 boards, 9.8 board feet, 0.023 m³, cost 61.20; ...": what a layout comes to. */
char *cav_layout_dup_totals (const CavBoardLayout *layout,
                             CavLengthStyle style) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Sentences: where the wood of a layout only just suffices, with numbers. */
GPtrArray *cav_layout_list_reserves (const CavBoardLayout *layout,
                                     const CavLumber *lumber,
                                     CavUnit unit,
                                     int denominator) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) "510 mm, any rail": an offcut of that length and what it is good for. */
char *cav_offcut_dup_words (CavOffcutUse use, const char *length) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) (nullable) How strips are to be ripped and what blanks are made of them; NULL
 * where nothing is laid. */
char *cav_layout_dup_strip (const CavBoardLayout *layout,
                            CavUnit unit,
                            int denominator) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) (nullable) Where the strips of a board lie, what is resawn and what glued up;
 * NULL where all are of one width and lie beside each other from the jointed edge up. */
char *cav_laid_board_dup_ripping (const CavBoardLayout *layout,
                                  const CavLaidBoard *board,
                                  CavUnit unit,
                                  int denominator) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBoardMap, cav_board_map_free)

G_END_DECLS
