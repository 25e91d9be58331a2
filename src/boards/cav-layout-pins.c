/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* A wish that misses its place by less than this is moved there. */
#define NEAR 1.0

/* Where a pin wants its stick. */
typedef struct
{
  const CavBoardPin *pin;
  guint stick;
  const CavStickPiece *piece;
} Wish;

static gboolean
find_stick (const CavLaying *laying, int job, const CavBoardPin *pin, Wish *out_wish)
{
  for (guint s = 0; s < laying->demand->sticks->len; s++)
    {
      const CavStick *stick = g_ptr_array_index (laying->demand->sticks, s);

      for (guint i = 0; stick->job == job && i < stick->pieces->len; i++)
        {
          const CavStickPiece *piece = &g_array_index (stick->pieces, CavStickPiece, i);

          if (piece->kind == CAV_PIECE_RAIL && piece->frame == pin->frame
              && piece->rail == pin->rail)
            {
              *out_wish = (Wish){ pin, s, piece };
              return TRUE;
            }
        }
    }
  return FALSE;
}

/* Finds the kind and where among its boards the pinned one is. */
static gboolean
find_board (const CavLaying *laying, const CavBoardPin *pin, guint *out_kind, guint *out_index)
{
  for (guint k = 0; k < laying->pile->len; k++)
    {
      const CavPileKind *kind = g_ptr_array_index (laying->pile, k);

      for (guint i = 0; !kind->bought && i < kind->rows->len; i++)
        if (g_array_index (kind->rows, int, i) == pin->board
            && g_array_index (kind->copies, int, i) == pin->copy)
          {
            *out_kind = k;
            *out_index = i;
            return TRUE;
          }
    }
  return FALSE;
}

static void
swap_lanes (CavClearPlace *place)
{
  const int strip = place->strip;
  const int layer = place->layer;

  place->strip = place->second_strip;
  place->layer = place->second_layer;
  place->second_strip = strip;
  place->second_layer = layer;
}

/* The place that holds the wish, turned so that the pinned piece comes where it was wished to be;
 * -1 where there is none. */
static int
find_place (const CavLaying *laying,
            const GArray *places,
            const Wish *wish,
            CavClearPlace *out_place,
            double *out_from)
{
  const CavStick *stick = g_ptr_array_index (laying->demand->sticks, wish->stick);
  const CavBoardPin *pin = wish->pin;

  for (guint i = 0; i < places->len; i++)
    {
      CavClearPlace place = g_array_index (places, CavClearPlace, i);
      const gboolean first = place.strip == pin->strip && place.layer == pin->layer;
      const gboolean second
          = place.wide && place.second_strip == pin->strip && place.second_layer == pin->layer;
      double from = pin->from - wish->piece->from;

      if (place.family != stick->family || (stick->wide && !place.wide) || (!first && !second))
        continue;
      if (from < place.from && from > place.from - NEAR)
        from = place.from;
      if (from + stick->length > place.to && from + stick->length < place.to + NEAR)
        from = place.to - stick->length;
      if (from < place.from || from + stick->length > place.to)
        continue;
      if (second != (wish->piece->lane == 1))
        swap_lanes (&place);
      *out_place = place;
      *out_from = from;
      return (int)i;
    }
  return -1;
}

static CavOpenBoard *
find_open (const CavLaying *laying, const CavBoardPin *pin)
{
  for (guint i = 0; i < laying->open->len; i++)
    {
      CavOpenBoard *open = g_ptr_array_index (laying->open, i);

      if (open->laid->row == pin->board && open->laid->copy == pin->copy)
        return open;
    }
  return NULL;
}

/* Opens the pinned board in the first way of sawing it that grants the wish. */
static CavOpenBoard *
open_for (CavLaying *laying, const Wish *wish)
{
  guint kind_index;
  guint index;
  CavPileKind *kind;

  if (!find_board (laying, wish->pin, &kind_index, &index))
    return NULL;
  kind = g_ptr_array_index (laying->pile, kind_index);
  for (guint s = 0; s < kind->sawings->len; s++)
    {
      const CavSawing *sawing = g_ptr_array_index (kind->sawings, s);
      CavClearPlace place;
      CavOpenBoard *open;
      double from;
      /* Boards in use stand at the front. */
      int *rows = &g_array_index (kind->rows, int, 0);
      int *copies = &g_array_index (kind->copies, int, 0);

      if (find_place (laying, sawing->places, wish, &place, &from) < 0)
        continue;
      g_assert (index >= kind->next);
      const int row = rows[index];
      const int copy = copies[index];
      rows[index] = rows[kind->next];
      copies[index] = copies[kind->next];
      rows[kind->next] = row;
      copies[kind->next] = copy;
      open = g_new0 (CavOpenBoard, 1);
      open->laid = cav_laying_open_board (laying, kind_index, s);
      open->places = g_array_copy (sawing->places);
      g_ptr_array_add (laying->open, open);
      return open;
    }
  return NULL;
}

/* What the stick leaves of its place to the left and right of it. */
static void
split_place (GArray *places, guint index, double from, double to, double kerf)
{
  const CavClearPlace whole = g_array_index (places, CavClearPlace, index);
  CavClearPlace left = whole;
  CavClearPlace right = whole;

  left.to = from - kerf;
  right.from = to + kerf;
  g_array_remove_index (places, index);
  if (left.to - left.from >= 1.0)
    g_array_append_val (places, left);
  if (right.to - right.from >= 1.0)
    g_array_append_val (places, right);
}

static gboolean
grant (CavLaying *laying, const Wish *wish)
{
  const CavStick *stick = g_ptr_array_index (laying->demand->sticks, wish->stick);
  CavOpenBoard *open = find_open (laying, wish->pin);
  CavClearPlace place;
  double from;
  int index;

  if (open == NULL)
    open = open_for (laying, wish);
  if (open == NULL)
    return FALSE;
  index = find_place (laying, open->places, wish, &place, &from);
  if (index < 0)
    return FALSE;
  cav_laying_place_stick (laying, open->laid, &place, wish->stick, from, TRUE);
  split_place (open->places, (guint)index, from, from + stick->length, stick->kerf);
  return TRUE;
}

void
cav_laying_apply_pins (CavLaying *laying)
{
  for (guint j = 0; j < laying->request->jobs->len; j++)
    {
      const CavBoardJob *job = g_ptr_array_index (laying->request->jobs, j);

      for (guint i = 0; i < job->pins->len; i++)
        {
          const CavBoardPin *pin = &g_array_index (job->pins, CavBoardPin, i);
          Wish wish;

          if (!find_stick (laying, (int)j, pin, &wish))
            continue; /* of a frame or rail that is no longer wanted */
          if (laying->placed[wish.stick])
            continue; /* another rail of the same run came first */
          if (isfinite (pin->from) && grant (laying, &wish))
            continue;
          g_autofree char *rail = cav_board_job_dup_rail_name (job, pin->rail);
          cav_layout_add_finding (
              laying->layout,
              cav_finding_new (
                  CAV_FINDING_CAUTION, "lumber-pin",
                  /* Translators: the top rail, rail 3 ... */
                  _ ("The %s of frame %d cannot lie where you put it: there is no "
                     "clear stretch of its strip that long. It was laid elsewhere; move "
                     "it, or set it free."),
                  rail, pin->frame + 1));
        }
    }
}
