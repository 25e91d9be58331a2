/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <string.h>

/* Rests are looked for this share of a place's length apart, at least. */
#define FINENESS 200
/* Questions for one kind of place. */
#define QUESTIONS 9
/* Above this many pieces only quick answers are waited for. */
#define MANY_PIECES 160

static int
get_longest_rest (const CavCutProblem *problem, const int *room, const GPtrArray *fills)
{
  g_autofree int *used = g_new0 (int, problem->places->len + 1);
  int longest = 0;

  for (guint i = 0; i < fills->len; i++)
    {
      const CavCutFill *fill = g_ptr_array_index (fills, i);

      used[fill->place]++;
      longest = MAX (longest, CUT_PLACE (problem, fill->place)->length
                                  - cav_cut_fill_get_length (problem, fill));
    }
  for (guint p = 0; p < problem->places->len; p++)
    if (used[p] < room[p])
      longest = MAX (longest, CUT_PLACE (problem, p)->length);
  return longest;
}

/* What a family's places are longer than its items. */
static gint64
get_slack (const CavCutSearch *search, const int *room, int family)
{
  const CavCutProblem *problem = search->problem;
  gint64 slack = 0;

  for (guint p = 0; p < problem->places->len; p++)
    if (CUT_PLACE (problem, p)->family == family)
      slack += (gint64)room[p] * CUT_PLACE (problem, p)->length;
  for (guint i = 0; i < problem->items->len; i++)
    if (CUT_ITEM (problem, i)->family == family)
      slack -= (gint64)search->demand[i] * CUT_ITEM (problem, i)->length;
  return slack;
}

/* Whether everything fits where one such place is shorter by rest. */
static CavCutAnswer
ask (CavCutSearch *search, const int *room, guint place, int rest, GPtrArray *fills)
{
  const CavCutProblem *problem = search->problem;
  const guint n = problem->places->len;
  /* The same problem but for one more kind of place, which no board gives by itself. */
  CavCutProblem changed = *problem;
  g_autoptr (GArray) places = g_array_copy (problem->places);
  g_autofree int *more = g_new0 (int, n + 2);
  CavCutPlace shorter = g_array_index (places, CavCutPlace, place);
  CavCutBudget budget = { 60000, search->options->cancelled };
  gint64 pieces = 0;
  CavCutAnswer answer;

  memcpy (more, room, n * sizeof *more);
  more[place]--;
  shorter.length -= rest;
  if (shorter.length > 0)
    {
      g_array_append_val (places, shorter);
      more[n] = 1;
    }
  changed.places = places;
  for (guint i = 0; i < problem->items->len; i++)
    pieces += search->demand[i];
  answer
      = cav_cut_pack (&changed, more, search->demand, pieces > MANY_PIECES ? 0 : 1, &budget, fills);
  for (guint i = 0; i < fills->len; i++)
    {
      CavCutFill *fill = g_ptr_array_index (fills, i);

      if (fill->place == (int)n)
        fill->place = (int)place;
    }
  return answer;
}

/* Halves the doubt about one kind of place; FALSE where some of it stays. */
static gboolean
lengthen_place (CavCutSearch *search, const int *room, guint place_index, int *best)
{
  const CavCutProblem *problem = search->problem;
  CavCutSolution *solution = search->solution;
  const CavCutPlace *place = CUT_PLACE (problem, place_index);
  const int step = MAX (1, place->length / FINENESS);
  gboolean sure = TRUE;
  int above = (int)MIN (place->length, get_slack (search, room, place->family)) + 1;
  int rest = above - 1;

  for (int k = 0; k < QUESTIONS && above - *best > step; k++)
    {
      g_autoptr (GPtrArray) fills = cav_cut_fills_new ();
      const CavCutAnswer answer = ask (search, room, place_index, rest, fills);

      if (answer == CAV_CUT_YES)
        {
          cav_cut_assign (problem, solution->boards, fills);
          *best = get_longest_rest (problem, room, fills);
          g_ptr_array_unref (solution->fills);
          solution->fills = g_steal_pointer (&fills);
        }
      else
        {
          sure = sure && answer == CAV_CUT_NO;
          above = rest;
        }
      rest = *best + (above - *best) / 2;
    }
  return sure && above - *best <= step;
}

void
cav_cut_lengthen_rest (CavCutSearch *search)
{
  const CavCutProblem *problem = search->problem;
  CavCutSolution *solution = search->solution;
  g_autofree int *room = cav_cut_get_room (problem, solution->boards);
  int best = get_longest_rest (problem, room, solution->fills);

  solution->rest_proved = TRUE;
  if (search->effort == 0)
    {
      solution->rest_proved = FALSE;
      return;
    }
  for (guint p = 0; p < problem->places->len; p++)
    if (room[p] > 0 && !lengthen_place (search, room, p, &best))
      solution->rest_proved = FALSE;
}
