/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "boards/cav-cutting.h"
#include "geometry/cav-number-text.h"

G_BEGIN_DECLS

/* The solver counts in ten-thousandths of a millimetre. */
#define CAV_LAYOUT_UNITS 10000.0

/* Boards that are alike in all but their names: one stock for the solver. */
typedef struct
{
  const CavBoard *board;
  gboolean bought;
  GArray *rows;       /* int: their rows */
  GArray *copies;     /* int: beside rows */
  guint next;         /* the first of them that is not in use */
  GPtrArray *sawings; /* CavSawing */
} CavPileKind;

/* A board that a pin has opened, with the places that pins leave. */
typedef struct
{
  CavLaidBoard *laid;
  GArray *places; /* CavClearPlace */
  GArray *taken;  /* gboolean, beside places: filled by the solver */
} CavOpenBoard;

/* One layout in the making. */
typedef struct
{
  const CavLayoutRequest *request;
  const CavLumber *lumber;
  CavBoardLayout *layout;
  CavDemand *demand;
  gboolean *placed; /* by stick */
  gboolean cost_first;
  GPtrArray *pile;     /* CavPileKind */
  gboolean thinned;    /* only the likeliest kinds are looked at */
  int least_by_length; /* boards, of all kinds */
  GPtrArray *open;     /* CavOpenBoard */

  /* What the solver's numbers stand for */
  CavCutProblem *problem;
  GArray *item_of; /* int, by stick; -1 where a pin has placed it */
  GArray *ways;    /* CavWayOf, by way */
} CavLaying;

typedef struct
{
  guint kind;
  guint sawing;
} CavWayOf;

/* Rows of lumber's boards, or of its stock, that can be used at all. */
void cav_laying_add_boards (CavLaying *laying);
void cav_laying_add_stock (CavLaying *laying, int only, gboolean priced);
void cav_laying_thin_pile (CavLaying *laying);
void cav_laying_apply_pins (CavLaying *laying);
/* What was not taken of the boards at hand, as many as can be looked at. */
void cav_laying_list_idle (CavLaying *laying);
/* Takes the next board of a kind that is not in use. */
CavLaidBoard *
cav_laying_open_board (CavLaying *laying, guint kind, guint sawing) G_GNUC_WARN_UNUSED_RESULT;
CavLaidBoard *cav_laid_board_new (const CavPileKind *kind,
                                  int row,
                                  int copy,
                                  const CavSawing *sawing) G_GNUC_WARN_UNUSED_RESULT;
void cav_laying_place_stick (CavLaying *laying,
                             CavLaidBoard *board,
                             const CavClearPlace *place,
                             guint stick,
                             double from,
                             gboolean pinned);
/* The solver's problem, and what its answer means. */
void cav_laying_build_problem (CavLaying *laying);
void cav_laying_use_solution (CavLaying *laying, const CavCutSolution *solution);

void cav_layout_count (CavBoardLayout *layout, const CavLumber *lumber);
void cav_layout_find_wrong (CavBoardLayout *layout,
                            const CavLayoutRequest *request,
                            const CavDemand *demand);
void cav_layout_advise (CavBoardLayout *layout, const CavLayoutRequest *request);
void cav_layout_add_finding (CavBoardLayout *layout, CavFinding *finding);

/* A layout of all that is asked for, without advice and findings. */
CavBoardLayout *cav_board_layout_try (const CavLayoutRequest *request) G_GNUC_WARN_UNUSED_RESULT;
/* The same of some sticks alone on stock that can be bought, for as little money as can be. only: a
 * row of the stock, -1 for all rows; priced: those with a price alone. */
CavBoardLayout *cav_board_layout_try_stock (const CavLayoutRequest *request,
                                            const gboolean *wanted,
                                            int only,
                                            gboolean priced) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
