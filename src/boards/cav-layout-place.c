/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-layout-private.h"

#include "boards/cav-board-measure.h"

#include <math.h>

/* Pieces are rounded up to the solver's unit. What fits to the last must not fail by that: so many
 * units, 0.002 mm, a place is taken to be longer. */
#define GRACE 20
#define ROUNDING 1e-4

static CavLane *
get_lane (const CavLaidBoard *board, int strip, int layer)
{
  CavLaidStrip *laid = g_ptr_array_index (board->strips, strip);

  laid->used = TRUE;
  return g_ptr_array_index (laid->lanes, layer);
}

void
cav_laying_place_stick (CavLaying *laying,
                        CavLaidBoard *board,
                        const CavClearPlace *place,
                        guint stick_index,
                        double from,
                        gboolean pinned)
{
  const CavStick *stick = g_ptr_array_index (laying->demand->sticks, stick_index);
  const CavBoardJob *job = g_ptr_array_index (laying->request->jobs, stick->job);

  for (guint i = 0; i < stick->pieces->len; i++)
    {
      const CavStickPiece *piece = &g_array_index (stick->pieces, CavStickPiece, i);
      const CavPlacedPiece placed = {
        .kind = piece->kind,
        .job = stick->job,
        .frame = piece->frame,
        .rail = piece->rail,
        .stick = (int)stick_index,
        .from = from + piece->from,
        .length = piece->length,
        .mitre = piece->kind == CAV_PIECE_RAIL && !job->square_first ? job->mitre : 0.0,
        .reversed = piece->reversed,
        .pinned = pinned,
      };
      CavLane *lane = piece->lane == 0 ? get_lane (board, place->strip, place->layer)
                                       : get_lane (board, place->second_strip, place->second_layer);

      g_array_append_val (lane->pieces, placed);
    }
  laying->placed[stick_index] = TRUE;
}

static int
get_item_length (const CavStick *stick)
{
  return (int)ceil ((stick->length + stick->kerf) * CAV_LAYOUT_UNITS - ROUNDING);
}

/* Equal sticks are one item. */
static void
add_items (CavLaying *laying)
{
  for (guint s = 0; s < laying->demand->sticks->len; s++)
    {
      const CavStick *stick = g_ptr_array_index (laying->demand->sticks, s);
      const CavCutItem item = { get_item_length (stick), 1, stick->family, stick->wide };
      int index = laying->placed[s] ? G_MAXINT : -1;

      for (guint i = 0; index < 0 && i < laying->problem->items->len; i++)
        {
          CavCutItem *other = &g_array_index (laying->problem->items, CavCutItem, i);

          if (other->length == item.length && other->family == item.family
              && !other->wide == !item.wide)
            {
              other->count++;
              index = (int)i;
            }
        }
      if (index < 0)
        index = cav_cut_problem_add_item (laying->problem, item);
      if (index == G_MAXINT)
        index = -1;
      g_array_append_val (laying->item_of, index);
    }
}

static CavCutPlace
get_place (const CavLaying *laying, const CavClearPlace *place)
{
  const CavStripFamily *family
      = &g_array_index (laying->demand->families, CavStripFamily, place->family);

  /* Every item brings its kerf, and the last one needs none. */
  return (CavCutPlace){ .length = (int)floor ((place->to - place->from + family->least_kerf)
                                              * CAV_LAYOUT_UNITS)
                                  + GRACE,
                        .family = place->family,
                        .wide = place->wide };
}

/* The number of the places that are like this one; new where there are none. */
static int
find_place (CavLaying *laying, const CavClearPlace *clear)
{
  const CavCutPlace place = get_place (laying, clear);

  for (guint i = 0; i < laying->problem->places->len; i++)
    {
      const CavCutPlace *other = &g_array_index (laying->problem->places, CavCutPlace, i);

      if (other->length == place.length && other->family == place.family
          && !other->wide == !place.wide)
        return (int)i;
    }
  return cav_cut_problem_add_place (laying->problem, place);
}

/* All places come before all ways. */
static void
add_places (CavLaying *laying)
{
  for (guint i = 0; i < laying->open->len; i++)
    {
      const CavOpenBoard *open = g_ptr_array_index (laying->open, i);

      for (guint p = 0; p < open->places->len; p++)
        {
          const int place = find_place (laying, &g_array_index (open->places, CavClearPlace, p));

          g_array_index (laying->problem->places, CavCutPlace, place).open++;
        }
    }
  for (guint k = 0; k < laying->pile->len; k++)
    {
      const CavPileKind *kind = g_ptr_array_index (laying->pile, k);

      for (guint s = 0; s < kind->sawings->len; s++)
        {
          const CavSawing *sawing = g_ptr_array_index (kind->sawings, s);

          for (guint p = 0; p < sawing->places->len; p++)
            find_place (laying, &g_array_index (sawing->places, CavClearPlace, p));
        }
    }
}

static void
add_ways (CavLaying *laying)
{
  for (guint k = 0; k < laying->pile->len; k++)
    {
      const CavPileKind *kind = g_ptr_array_index (laying->pile, k);
      double cost;
      int stock;

      /* Between boards of one price the smaller one is taken. */
      cav_board_get_cost (kind->board, &cost);
      cost += 1e-3 * cav_board_get_volume (kind->board);
      stock = cav_cut_problem_add_stock (
          laying->problem, (CavCutStock){ (int)(kind->rows->len - kind->next), cost });
      for (guint s = 0; s < kind->sawings->len; s++)
        {
          const CavSawing *sawing = g_ptr_array_index (kind->sawings, s);
          const CavWayOf way = { k, s };
          int *gives = cav_cut_problem_add_way (laying->problem, stock);

          g_array_append_val (laying->ways, way);
          for (guint p = 0; p < sawing->places->len; p++)
            gives[find_place (laying, &g_array_index (sawing->places, CavClearPlace, p))]++;
        }
    }
}

void
cav_laying_build_problem (CavLaying *laying)
{
  laying->problem = cav_cut_problem_new ();
  laying->item_of = g_array_new (FALSE, FALSE, sizeof (int));
  laying->ways = g_array_new (FALSE, FALSE, sizeof (CavWayOf));
  add_items (laying);
  add_places (laying);
  add_ways (laying);
}

/* The next stick of an item that lies nowhere yet. */
static guint
take_stick (CavLaying *laying, int item)
{
  for (guint s = 0; s < laying->item_of->len; s++)
    if (g_array_index (laying->item_of, int, s) == item && !laying->placed[s])
      return s;
  g_assert_not_reached ();
}

/* Frames in their order from the left, tests and spare molding last. */
static int
compare_sticks (gconstpointer a, gconstpointer b)
{
  return (int)*(const guint *)a - (int)*(const guint *)b;
}

static void
lay_fill (CavLaying *laying,
          const CavCutFill *fill,
          CavLaidBoard *board,
          const CavClearPlace *place)
{
  g_autoptr (GArray) sticks = g_array_new (FALSE, FALSE, sizeof (guint));
  double from = place->from;

  for (guint i = 0; i < fill->items->len; i++)
    {
      const guint stick = take_stick (laying, g_array_index (fill->items, int, i));

      laying->placed[stick] = TRUE;
      g_array_append_val (sticks, stick);
    }
  g_array_sort (sticks, compare_sticks);
  for (guint i = 0; i < sticks->len; i++)
    {
      const guint index = g_array_index (sticks, guint, i);
      const CavStick *stick = g_ptr_array_index (laying->demand->sticks, index);

      cav_laying_place_stick (laying, board, place, index, from, FALSE);
      from += stick->length + stick->kerf;
    }
}

/* The first of these places that is like the fill's and not yet taken. */
static const CavClearPlace *
take_place (CavLaying *laying, const GArray *places, GArray *taken, int wanted)
{
  g_array_set_size (taken, places->len);
  for (guint p = 0; p < places->len; p++)
    {
      const CavClearPlace *place = &g_array_index (places, CavClearPlace, p);

      if (!g_array_index (taken, gboolean, p) && find_place (laying, place) == wanted)
        {
          g_array_index (taken, gboolean, p) = TRUE;
          return place;
        }
    }
  return NULL;
}

static void
lay_on_open (CavLaying *laying, const CavCutFill *fill)
{
  for (guint i = 0; i < laying->open->len; i++)
    {
      CavOpenBoard *open = g_ptr_array_index (laying->open, i);
      const CavClearPlace *place = take_place (laying, open->places, open->taken, fill->place);

      if (place != NULL)
        {
          lay_fill (laying, fill, open->laid, place);
          return;
        }
    }
  g_assert_not_reached ();
}

static void
taken_free (gpointer data)
{
  g_array_unref (data);
}

void
cav_laying_use_solution (CavLaying *laying, const CavCutSolution *solution)
{
  g_autoptr (GPtrArray) taken = g_ptr_array_new_with_free_func (taken_free);
  const guint first = laying->layout->boards->len;

  for (guint i = 0; i < laying->open->len; i++)
    {
      CavOpenBoard *open = g_ptr_array_index (laying->open, i);

      open->taken = g_array_new (FALSE, TRUE, sizeof (gboolean));
    }
  for (guint b = 0; b < solution->boards->len; b++)
    {
      const CavWayOf *way
          = &g_array_index (laying->ways, CavWayOf, g_array_index (solution->boards, int, b));

      g_ptr_array_add (laying->layout->boards,
                       cav_laying_open_board (laying, way->kind, way->sawing));
      g_ptr_array_add (taken, g_array_new (FALSE, TRUE, sizeof (gboolean)));
    }
  for (guint f = 0; f < solution->fills->len; f++)
    {
      const CavCutFill *fill = g_ptr_array_index (solution->fills, f);
      const CavWayOf *way;
      const CavPileKind *kind;
      const CavSawing *sawing;

      if (fill->items->len == 0)
        continue;
      if (fill->board < 0)
        {
          lay_on_open (laying, fill);
          continue;
        }
      way = &g_array_index (laying->ways, CavWayOf,
                            g_array_index (solution->boards, int, fill->board));
      kind = g_ptr_array_index (laying->pile, way->kind);
      sawing = g_ptr_array_index (kind->sawings, way->sawing);
      lay_fill (
          laying, fill, g_ptr_array_index (laying->layout->boards, first + (guint)fill->board),
          take_place (laying, sawing->places, g_ptr_array_index (taken, fill->board), fill->place));
    }
}
