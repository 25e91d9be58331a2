/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-stick.h"

G_BEGIN_DECLS

/* A piece where it lies on its board, mm from the left end. Rails lie with their outer edge up: the
 * long points are from and from + length, unless the job cuts square first, when the rail is that
 * much shorter than the piece. */
typedef struct
{
  CavPieceKind kind;
  int job;
  int frame;
  int rail;   /* -1 for what is no rail */
  int number; /* chalked on it: counts all pieces of the layout from 1 */
  int stick;  /* pieces of one stick keep together */
  double from;
  double length;
  double mitre; /* of either end, degrees; 0: cut square */
  gboolean reversed;
  gboolean pinned; /* lies where the user wishes */
} CavPlacedPiece;

/* A strip, or one layer of it. */
typedef struct
{
  GArray *pieces;  /* CavPlacedPiece, from left to right */
  GArray *offcuts; /* CavStretch: sound stretches of useful length */
} CavLane;

typedef struct
{
  CavSawnStrip sawn;
  GPtrArray *lanes; /* CavLane, from the upper face down */
  gboolean used;    /* FALSE: no need to rip it off */
} CavLaidStrip;

/* One board and what becomes of it. */
typedef struct
{
  CavBoard *board; /* a copy, of one */
  gboolean bought; /* a row of CavLumber.stock, else of boards */
  int row;
  int copy;          /* which of the row's boards */
  GPtrArray *strips; /* CavLaidStrip, from the lower edge up */
  gboolean has_cost;
  double cost;
} CavLaidBoard;

/* What would have to be bought. */
typedef struct
{
  int row; /* of CavLumber.stock */
  int count;
} CavPurchase;

/* What comes of it. */
typedef struct
{
  double board_feet; /* of the boards that are opened */
  double volume;     /* of them, m³ */
  double cost;
  int without_price; /* boards that nobody said a price for */
  double yield;      /* share of their volume that becomes rails by blank and long point */
  double longest_offcut;
  double offcuts; /* together, of useful length */
  int rails;
  int pieces;
} CavLayoutTotals;

typedef struct
{
  int ref_count;
  GPtrArray *jobs;   /* CavBoardJob, copies */
  GPtrArray *boards; /* CavLaidBoard */
  GPtrArray *idle; /* CavLaidBoard at hand that nothing lies on: not more than one would look at */
  CavLayoutTotals totals;
  double shortest; /* these are of CavLumber */
  double jointing;
  double kerf;
  GArray *missing; /* CavPlacedPiece that found no place; from means nothing */

  /* Proofs, each as CavCutSolution has it */
  int least_boards;
  double least_cost;
  gboolean boards_proved;
  gboolean cost_proved;
  gboolean rest_proved;
  gboolean missing_proved;

  /* Where something is missing */
  GArray *purchases; /* CavPurchase: the cheapest that was found; empty where nothing helps */
  gboolean has_purchase_cost;
  double purchase_cost;
  double narrower; /* widest blank that would fit in this order of the grain; 0: none */
  gboolean has_easier;
  CavGrainOrder easier; /* an order of the grain that would fit */

  GPtrArray *findings; /* CavFinding */
} CavBoardLayout;

typedef struct
{
  const CavLumber *lumber; /* boards, stock and allowances */
  const GPtrArray *jobs;   /* CavBoardJob; several share one pile */
  int effort;              /* 1: usual; 0: at once, while something is dragged */
  const int *cancelled;    /* nullable; read atomically */
  void (*progress) (double share, gpointer data); /* nullable; 1 is left to the caller */
  gpointer progress_data;
} CavLayoutRequest;

typedef enum
{
  CAV_BOARDS_ERROR_CANCELLED = 1,
} CavBoardsError;
#define CAV_BOARDS_ERROR (cav_boards_error_quark ())
GQuark cav_boards_error_quark (void);

/*
 * Lays rails out on boards: fewest boards, then least cost, then the longest rest that can be used
 * for something else, under the order of the grain and around defects. Whatever is wrong with the
 * request is among the findings of a layout that may be empty; the only error is
 * CAV_BOARDS_ERROR_CANCELLED. The same request gives the same layout. May be called from any
 * thread; touches nothing but its arguments.
 */
CavBoardLayout *cav_board_layout_new (const CavLayoutRequest *request,
                                      GError **error) G_GNUC_WARN_UNUSED_RESULT;
CavBoardLayout *cav_board_layout_ref (CavBoardLayout *layout);
void cav_board_layout_unref (CavBoardLayout *layout);

/* The boards that are used, and after them the idle ones. */
guint cav_board_layout_get_board_count (const CavBoardLayout *layout);
const CavLaidBoard *cav_board_layout_get_board (const CavBoardLayout *layout, guint index);

/* What a sound rest of a strip is still good for. */
typedef enum
{
  CAV_OFFCUT_SCRAP,
  CAV_OFFCUT_TRIAL, /* long enough to be milled: for trying settings */
  CAV_OFFCUT_RAIL,  /* long enough for the shortest rail of a job */
  CAV_OFFCUT_ANY,   /* for each of its rails */
} CavOffcutUse;
/* For the jobs whose blanks come from such a strip. */
CavOffcutUse cav_board_layout_judge_offcut (const CavBoardLayout *layout,
                                            const CavLaidStrip *strip,
                                            const CavStretch *offcut);

/* (transfer full) The name for people: what is chalked on the board, or "Board 3". */
char *cav_laid_board_dup_name (const CavLaidBoard *board) G_GNUC_WARN_UNUSED_RESULT;
/* Where a piece of a job lies; FALSE where it is missing. */
gboolean cav_board_layout_find (const CavBoardLayout *layout,
                                int job,
                                int frame,
                                int rail,
                                CavBoardPin *out_pin,
                                gboolean *out_bought);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBoardLayout, cav_board_layout_unref)

G_END_DECLS
