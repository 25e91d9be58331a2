/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "boards/cav-lumber.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_RESERVE_THICKNESS, /* of the planed board over the blanks */
  CAV_RESERVE_WIDTH,     /* of the board over its strips */
  CAV_RESERVE_LENGTH,    /* of a strip over its pieces, up to where the board's end is trimmed */
} CavReserveKind;

/* Where the wood of a layout only just suffices. mm. */
typedef struct
{
  CavReserveKind kind;
  guint board; /* of the layout */
  guint strip; /* of its strips; CAV_RESERVE_LENGTH alone */
  double has;
  double needs;
  double spare; /* what is left between them */
} CavReserve;

/* (transfer full) Array of CavReserve, board by board; empty where there is enough everywhere. */
GArray *cav_board_layout_list_reserves (const CavBoardLayout *layout,
                                        const CavLumber *lumber) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
