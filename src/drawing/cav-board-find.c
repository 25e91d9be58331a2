/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-map.h"

/* What is looked for: a number above 0, or else a rail. */
typedef struct
{
  int number;
  int job;
  int frame;
  int rail;
} Wanted;

static gboolean
is_wanted (const CavPlacedPiece *piece, const Wanted *wanted)
{
  if (wanted->number > 0)
    return piece->number == wanted->number;
  return piece->kind == CAV_PIECE_RAIL && piece->job == wanted->job && piece->frame == wanted->frame
         && piece->rail == wanted->rail;
}

static const CavPlacedPiece *
find_in_lane (const CavLane *lane, const Wanted *wanted)
{
  for (guint i = 0; i < lane->pieces->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);

      if (is_wanted (piece, wanted))
        return piece;
    }
  return NULL;
}

static const CavPlacedPiece *
find (const CavBoardLayout *layout, const Wanted *wanted, CavBoardHit *out_hit)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const GPtrArray *strips
          = ((const CavLaidBoard *)g_ptr_array_index (layout->boards, b))->strips;

      for (guint s = 0; s < strips->len; s++)
        {
          const GPtrArray *lanes = ((const CavLaidStrip *)g_ptr_array_index (strips, s))->lanes;

          for (guint l = 0; l < lanes->len; l++)
            {
              const CavPlacedPiece *piece = find_in_lane (g_ptr_array_index (lanes, l), wanted);

              if (piece == NULL)
                continue;
              *out_hit = (CavBoardHit){ (int)b, (int)s, (int)l, piece->from, piece };
              return piece;
            }
        }
    }
  return NULL;
}

const CavPlacedPiece *
cav_board_find_number (const CavBoardLayout *layout, int number, CavBoardHit *out_hit)
{
  g_return_val_if_fail (layout != NULL && out_hit != NULL && number > 0, NULL);
  return find (layout, &(const Wanted){ .number = number }, out_hit);
}

const CavPlacedPiece *
cav_board_find_rail (
    const CavBoardLayout *layout, int job, int frame, int rail, CavBoardHit *out_hit)
{
  g_return_val_if_fail (layout != NULL && out_hit != NULL, NULL);
  return find (layout, &(const Wanted){ .job = job, .frame = frame, .rail = rail }, out_hit);
}

void
cav_board_get_reach (const CavBoardLayout *layout,
                     const CavBoardHit *hit,
                     double *out_before,
                     double *out_length)
{
  g_return_if_fail (layout != NULL && hit != NULL && hit->piece != NULL);
  g_return_if_fail (out_before != NULL && out_length != NULL);

  const CavLaidBoard *board = cav_board_layout_get_board (layout, (guint)hit->board);
  const CavLaidStrip *strip = g_ptr_array_index (board->strips, hit->strip);
  const CavLane *lane = g_ptr_array_index (strip->lanes, hit->layer);
  double from = hit->piece->from;
  double to = hit->piece->from + hit->piece->length;

  for (guint i = 0; i < lane->pieces->len; i++)
    {
      const CavPlacedPiece *other = &g_array_index (lane->pieces, CavPlacedPiece, i);

      if (other->stick != hit->piece->stick)
        continue;
      from = MIN (from, other->from);
      to = MAX (to, other->from + other->length);
    }
  *out_before = hit->piece->from - from;
  *out_length = to - from;
}

gboolean
cav_board_step_across (const CavBoardLayout *layout, CavBoardHit *inout_hit, int across)
{
  g_return_val_if_fail (layout != NULL && inout_hit != NULL, FALSE);

  const int count = (int)cav_board_layout_get_board_count (layout);
  const CavLaidBoard *board = cav_board_layout_get_board (layout, (guint)inout_hit->board);

  inout_hit->strip += across;
  if (inout_hit->strip >= 0 && inout_hit->strip < (int)board->strips->len)
    return TRUE;
  inout_hit->board -= across;
  inout_hit->layer = 0;
  if (inout_hit->board < 0 || inout_hit->board >= count)
    return FALSE;
  board = cav_board_layout_get_board (layout, (guint)inout_hit->board);
  inout_hit->strip = across > 0 ? 0 : (int)board->strips->len - 1;
  return board->strips->len > 0;
}

guint
cav_board_map_find_face (const CavBoardMap *map, const CavBoardHit *hit)
{
  g_return_val_if_fail (map != NULL && hit != NULL, 0);

  for (guint f = 0; f < map->faces->len; f++)
    {
      const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, f);

      if (face->board == hit->board && face->layer == hit->layer)
        return f;
    }
  return 0;
}
