/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include "boards/cav-board-measure.h"
#include "geometry/cav-tolerance.h"
#include "geometry/cav-unit.h"

#include <math.h>

static int
compare_pieces (gconstpointer a, gconstpointer b)
{
  const CavPlacedPiece *one = a;
  const CavPlacedPiece *other = b;

  return one->from < other->from ? -1 : one->from > other->from;
}

static double
get_kerf (const CavBoardLayout *layout, const CavLumber *lumber, const CavPlacedPiece *piece)
{
  return cav_stick_get_kerf (lumber, g_ptr_array_index (layout->jobs, piece->job));
}

/* What no piece and no kerf takes of the sound stretches of a strip. */
static void
find_offcuts (CavBoardLayout *layout,
              const CavLumber *lumber,
              const CavLaidBoard *board,
              const CavLaidStrip *strip,
              CavLane *lane)
{
  g_autoptr (GArray) clear = cav_sawing_list_clear (board->board, strip->sawn.low,
                                                    strip->sawn.low + strip->sawn.width, 1.0);

  for (guint i = 0; i < lane->pieces->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);
      const double kerf = get_kerf (layout, lumber, piece);

      cav_stretches_cut (clear, piece->from - kerf, piece->from + piece->length + kerf);
    }
  for (guint i = 0; i < clear->len; i++)
    {
      const CavStretch *rest = &g_array_index (clear, CavStretch, i);

      if (rest->to - rest->from < MAX (lumber->useful, 1.0))
        continue;
      g_array_append_val (lane->offcuts, *rest);
      layout->totals.offcuts += rest->to - rest->from;
      layout->totals.longest_offcut = MAX (layout->totals.longest_offcut, rest->to - rest->from);
    }
}

/* Returns the volume of the lane's rails, mm³. */
static double
count_lane (CavBoardLayout *layout, CavLane *lane)
{
  double volume = 0.0;

  g_array_sort (lane->pieces, compare_pieces);
  for (guint i = 0; i < lane->pieces->len; i++)
    {
      CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, piece->job);

      piece->number = ++layout->totals.pieces;
      if (piece->kind != CAV_PIECE_RAIL)
        continue;
      layout->totals.rails++;
      volume += job->long_points[piece->rail] * job->width * job->thickness;
    }
  return volume;
}

void
cav_layout_count (CavBoardLayout *layout, const CavLumber *lumber)
{
  double rails = 0.0;

  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      layout->totals.board_feet += cav_board_get_feet (board->board);
      layout->totals.volume += cav_board_get_volume (board->board);
      layout->totals.cost += board->cost;
      layout->totals.without_price += !board->has_cost;
      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              rails += count_lane (layout, g_ptr_array_index (strip->lanes, l));
              find_offcuts (layout, lumber, board, strip, g_ptr_array_index (strip->lanes, l));
            }
        }
    }
  if (layout->totals.volume > 0.0)
    layout->totals.yield = CAV_CUBIC_METRES (rails) / layout->totals.volume;
}

/* Blanks of a job come from strips of one width, whatever is taken off to square them. */
static gboolean
suits_strip (const CavBoardJob *job, const CavLaidStrip *strip)
{
  return job->width <= strip->sawn.ply + CAV_TOLERANCE_POINT && job->n_rails > 0;
}

CavOffcutUse
cav_board_layout_judge_offcut (const CavBoardLayout *layout,
                               const CavLaidStrip *strip,
                               const CavStretch *offcut)
{
  g_return_val_if_fail (layout != NULL && strip != NULL && offcut != NULL, CAV_OFFCUT_SCRAP);

  const double length = offcut->to - offcut->from;
  CavOffcutUse use = length >= layout->shortest ? CAV_OFFCUT_TRIAL : CAV_OFFCUT_SCRAP;

  for (guint j = 0; j < layout->jobs->len; j++)
    {
      const CavBoardJob *job = g_ptr_array_index (layout->jobs, j);
      const double extra = job->square_first ? job->square_extra : 0.0;
      int fitting = 0;

      for (int r = 0; suits_strip (job, strip) && r < job->n_rails; r++)
        fitting += job->long_points[r] + extra <= length;
      if (fitting > 0 && length >= layout->shortest)
        use = MAX (use, fitting == job->n_rails ? CAV_OFFCUT_ANY : CAV_OFFCUT_RAIL);
    }
  return use;
}
