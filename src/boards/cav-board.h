/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What a price is asked for. A board without a price says so; nought is a gift. */
typedef enum
{
  CAV_PRICE_UNKNOWN,
  CAV_PRICE_BOARD,
  CAV_PRICE_BOARD_FOOT,
  CAV_PRICE_CUBIC_METRE,
  CAV_PRICE_METRE, /* of the board's length */
} CavPriceBasis;
#define CAV_N_PRICE_BASES 5

/* The words that stand in files: "unknown", "board", "board-foot", "cubic-metre", "metre". */
const char *cav_price_basis_to_string (CavPriceBasis basis);
gboolean cav_price_basis_from_string (const char *string, CavPriceBasis *out_basis);

/* A stretch of a board that must not get into a rail (knot, split, wane), or one that may. mm from
 * the board's left end and from its lower edge. low = high = 0: the whole width. */
typedef struct
{
  gboolean clear; /* a clear stretch: where a board has any, only they are used */
  double from;
  double to;
  double low;
  double high;
} CavBoardSpan;

/* Boards of one size and look, at hand or to be bought. mm. */
typedef struct
{
  char *name; /* what is chalked on it; may be empty */
  int count;  /* at hand: at least 1; to be bought: 0 for any number */
  double length;
  double width;
  double thickness; /* as measured */
  gboolean planed;  /* both faces are planed already and flat */
  char *wood;       /* id of a CavWood; empty: nobody said */
  double price;     /* in whatever money; counts where basis is not CAV_PRICE_UNKNOWN */
  CavPriceBasis basis;
  double end_trim; /* cut off at either end before anything else */
  GArray *spans;   /* CavBoardSpan */
} CavBoard;

/* Least and greatest of a board's length, width and thickness. */
#define CAV_BOARD_MIN 1.0
#define CAV_BOARD_MAX 20000.0
#define CAV_BOARD_MAX_COUNT 100000

/* A rough board of ordinary size: 2400 x 150 x 27 mm, 25 mm off either end. */
CavBoard *cav_board_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavBoard *cav_board_copy (const CavBoard *board) G_GNUC_WARN_UNUSED_RESULT;
void cav_board_free (CavBoard *board);
/* Every word and every number the same. */
gboolean cav_board_equal (const CavBoard *a, const CavBoard *b);
void cav_board_add_span (CavBoard *board, CavBoardSpan span);
/* (transfer full) In words what cannot be about the board, or NULL. */
char *cav_board_explain (const CavBoard *board) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavBoard, cav_board_free)

G_END_DECLS
