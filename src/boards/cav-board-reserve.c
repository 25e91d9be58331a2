/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-reserve.h"

#include <math.h>

#include "boards/cav-sawing.h"

/* Less than this to spare is worth a look: a board that is a little cupped, crooked or split at its
 * end takes that much. mm; common practice, no source. */
#define LITTLE_THICKNESS 1.0
#define LITTLE_WIDTH 3.0
#define LITTLE_LENGTH 10.0

static void
add (GArray *reserves, CavReserve reserve, double little)
{
  reserve.spare = fmax (reserve.has - reserve.needs, 0.0);
  if (reserve.spare < little)
    g_array_append_val (reserves, reserve);
}

/* (nullable) */
static const CavPlacedPiece *
find_last (const CavLaidStrip *strip)
{
  const CavPlacedPiece *last = NULL;

  for (guint l = 0; l < strip->lanes->len; l++)
    {
      const GArray *pieces = ((const CavLane *)g_ptr_array_index (strip->lanes, l))->pieces;

      for (guint i = 0; i < pieces->len; i++)
        {
          const CavPlacedPiece *piece = &g_array_index (pieces, CavPlacedPiece, i);

          if (last == NULL || piece->from + piece->length > last->from + last->length)
            last = piece;
        }
    }
  return last;
}

/* Of all layers that the thickness is resawn into; strips glued face to face are planed to it. */
static double
get_thickness (const CavBoardLayout *layout, const CavLumber *lumber, const CavLaidStrip *strip)
{
  const CavPlacedPiece *piece = find_last (strip);
  const CavBoardJob *job = piece != NULL ? g_ptr_array_index (layout->jobs, piece->job) : NULL;
  const double loss = lumber->resaw_kerf + 2.0 * lumber->resaw_planing;

  if (job == NULL || strip->sawn.plies > 1)
    return 0.0;
  return strip->sawn.layers * job->thickness + (strip->sawn.layers - 1) * loss;
}

static void
add_board (GArray *reserves, const CavBoardLayout *layout, const CavLumber *lumber, guint index)
{
  const CavLaidBoard *board = g_ptr_array_index (layout->boards, index);
  const double end = board->board->length - board->board->end_trim;
  double thickness = 0.0;
  double width = 0.0;

  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      if (!strip->used)
        continue;
      thickness = fmax (thickness, get_thickness (layout, lumber, strip));
      width = fmax (width, strip->sawn.low + strip->sawn.width);
    }
  if (thickness > 0.0)
    add (reserves,
         (CavReserve){ .kind = CAV_RESERVE_THICKNESS,
                       .board = index,
                       .has = cav_sawing_get_net_thickness (lumber, board->board),
                       .needs = thickness },
         LITTLE_THICKNESS);
  if (width > 0.0)
    add (
        reserves,
        (CavReserve){
            .kind = CAV_RESERVE_WIDTH, .board = index, .has = board->board->width, .needs = width },
        LITTLE_WIDTH);
  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavPlacedPiece *last = find_last (g_ptr_array_index (board->strips, s));

      if (last != NULL)
        add (reserves,
             (CavReserve){ .kind = CAV_RESERVE_LENGTH,
                           .board = index,
                           .strip = s,
                           .has = end,
                           .needs = last->from + last->length },
             LITTLE_LENGTH);
    }
}

GArray *
cav_board_layout_list_reserves (const CavBoardLayout *layout, const CavLumber *lumber)
{
  GArray *reserves = g_array_new (FALSE, FALSE, sizeof (CavReserve));

  g_return_val_if_fail (layout != NULL && lumber != NULL, reserves);

  for (guint b = 0; b < layout->boards->len; b++)
    add_board (reserves, layout, lumber, b);
  return reserves;
}
