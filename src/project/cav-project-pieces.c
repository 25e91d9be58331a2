/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project-pieces.h"

#include <math.h>

/* Rounding in lengths that come out of sums, mm. */
#define SAME 1e-6

static double
round_up (double length)
{
  return ceil (length - SAME);
}

static void
add (GArray *pieces, int count, double length, int rails)
{
  const CavMilledPiece piece = { count, length, rails };

  for (guint i = 0; i < pieces->len; i++)
    {
      CavMilledPiece *other = &g_array_index (pieces, CavMilledPiece, i);

      if (other->rails == rails && fabs (other->length - length) < SAME)
        {
          other->count += count;
          return;
        }
    }
  g_array_append_val (pieces, piece);
}

/* Pieces in a lane that follow each other without anything between them. */
typedef struct
{
  const CavBoardLayout *layout;
  const CavLaidBoard *board;
  const GArray *lane; /* CavPlacedPiece */
  guint first;
  guint last; /* exclusive */
} Run;

static const CavPlacedPiece *
get_piece (const Run *run, guint index)
{
  return &g_array_index (run->lane, CavPlacedPiece, index);
}

static gboolean
is_own_rail (const CavPlacedPiece *piece)
{
  return piece->kind == CAV_PIECE_RAIL && piece->job == 0;
}

/* Between two rails that stay together lies a kerf, and no defect or other piece. */
static gboolean
goes_on (const Run *run, gboolean same_stick)
{
  const CavPlacedPiece *before = get_piece (run, run->last - 1);
  const CavPlacedPiece *next;

  if (run->last >= run->lane->len)
    return FALSE;
  next = get_piece (run, run->last);
  return is_own_rail (next) && (!same_stick || next->stick == before->stick)
         && next->from - before->from - before->length <= 2 * CAV_PIECE_TRIM;
}

static double
get_room_before (const Run *run)
{
  const double from = get_piece (run, run->first)->from;
  const CavPlacedPiece *before = run->first > 0 ? get_piece (run, run->first - 1) : NULL;
  const double edge = before != NULL ? before->from + before->length + run->layout->kerf : 0.0;

  return CLAMP (floor (from - edge + SAME), 0.0, CAV_PIECE_TRIM);
}

static double
get_room_after (const Run *run)
{
  const CavPlacedPiece *last = get_piece (run, run->last - 1);
  const double edge = run->last < run->lane->len
                          ? get_piece (run, run->last)->from - run->layout->kerf
                          : run->board->board->length;

  return CLAMP (floor (edge - last->from - last->length + SAME), 0.0, CAV_PIECE_TRIM);
}

static double
get_extent (const Run *run)
{
  const CavPlacedPiece *last = get_piece (run, run->last - 1);

  return last->from + last->length - get_piece (run, run->first)->from;
}

/* In one length as it lies in the strip; the first and last mitre trim its ends. */
static void
add_run (GArray *pieces, Run *run)
{
  while (goes_on (run, FALSE))
    run->last++;
  add (pieces, 1, round_up (get_extent (run)) + get_room_before (run) + get_room_after (run),
       (int)(run->last - run->first));
}

/* Each alone, unless one of its stick is too short for that: those stay together. */
static void
add_square (GArray *pieces, Run *run)
{
  gboolean is_short = FALSE;

  while (goes_on (run, TRUE))
    run->last++;
  for (guint i = run->first; i < run->last; i++)
    is_short = is_short || get_piece (run, i)->length < run->layout->shortest - SAME;
  if (is_short)
    add (pieces, 1, round_up (fmax (get_extent (run), run->layout->shortest)),
         (int)(run->last - run->first));
  for (guint i = run->first; i < run->last && !is_short; i++)
    add (pieces, 1, round_up (get_piece (run, i)->length), 1);
}

static void
add_lane (GArray *pieces, const CavBoardLayout *layout, const CavLaidBoard *board, GArray *lane)
{
  const gboolean square_first
      = ((const CavBoardJob *)g_ptr_array_index (layout->jobs, 0))->square_first;
  Run run = { .layout = layout, .board = board, .lane = lane };

  while (run.first < lane->len)
    {
      run.last = run.first + 1;
      if (is_own_rail (get_piece (&run, run.first)))
        {
          if (square_first)
            add_square (pieces, &run);
          else
            add_run (pieces, &run);
        }
      run.first = run.last;
    }
}

static void
add_laid (GArray *pieces, const CavBoardLayout *layout)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            add_lane (pieces, layout, board,
                      ((const CavLane *)g_ptr_array_index (strip->lanes, l))->pieces);
        }
    }
}

static gboolean
is_square_first (const CavFrame *frame, const CavLumber *lumber)
{
  const double safe = fmax (frame->settings.safe_length, lumber->shortest);

  if (!lumber->square_first)
    return FALSE;
  for (int i = 0; i < frame->rails.n_groups && frame->rails.together > 1; i++)
    if (frame->rails.groups[i].long_point + lumber->square_extra < safe)
      return FALSE;
  return TRUE;
}

static void
add_of_frame (GArray *pieces, const CavFrame *frame, const CavLumber *lumber)
{
  const CavFrameRails *rails = &frame->rails;
  const int frames = MAX (lumber->frames, 1);
  const int together = MAX (rails->together, 1);

  if (is_square_first (frame, lumber))
    {
      for (int i = 0; i < rails->n_groups; i++)
        add (pieces, rails->groups[i].count * frames,
             round_up (rails->groups[i].long_point + lumber->square_extra), 1);
      return;
    }
  /* As much is left beyond the last rail of a strip as before its first. */
  for (int i = 0; i + together <= rails->n_places; i += together)
    add (pieces, frames, round_up (rails->places[i + together - 1].to + rails->places[i].from),
         together);
}

GArray *
cav_project_list_milled_pieces (CavProject *self, const CavBoardLayout *layout)
{
  GArray *pieces = g_array_new (FALSE, FALSE, sizeof (CavMilledPiece));
  int rails;
  double length;

  g_return_val_if_fail (CAV_IS_PROJECT (self), pieces);

  if (layout != NULL && layout->boards->len > 0 && layout->missing->len == 0)
    add_laid (pieces, layout);
  if (pieces->len > 0)
    return pieces;
  if (cav_project_has_frame (self) && cav_project_get_frame (self)->possible)
    {
      add_of_frame (pieces, cav_project_get_frame (self), cav_project_get_lumber (self));
      return pieces;
    }
  cav_project_get_milled_rails (self, &rails, &length);
  if (rails > 0)
    add (pieces, rails, round_up (length / rails), 1);
  return pieces;
}
