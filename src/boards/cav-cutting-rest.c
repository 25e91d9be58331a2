/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-cutting-private.h"

#include <math.h>
#include <string.h>

/* Rests are looked for this share of a place's length apart, at least. */
#define FINENESS 200
/* Questions for one kind of place. */
#define QUESTIONS 9
/* Above this many pieces nothing is moved any more. */
#define MANY_PIECES 160
/* Steps for all questions together. */
#define STEPS_LIMIT 60000

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

/* No rest of such a place is longer: filled as full as they can be, the other places leave so much
 * for this one. */
static int
get_most (const CavCutSearch *search, const int *room, guint place)
{
  const CavCutProblem *problem = search->problem;
  const CavCutWorth *worth = g_ptr_array_index (search->worths, 0);
  const int family = CUT_PLACE (problem, place)->family;
  double left = -worth->places[place];

  for (guint p = 0; p < problem->places->len; p++)
    if (CUT_PLACE (problem, p)->family == family)
      left += room[p] * worth->places[p];
  for (guint i = 0; i < problem->items->len; i++)
    if (CUT_ITEM (problem, i)->family == family)
      left -= search->demand[i] * worth->items[i];
  return left >= 0.0 ? CUT_PLACE (problem, place)->length
                     : CUT_PLACE (problem, place)->length + (int)ceil (left);
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
  /* Each question may take a share of what is left for all of them. */
  const gint64 share = MAX (search->rest_steps / 4, 1000);
  CavCutBudget budget = { share, search->options->cancelled };
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
  answer = cav_cut_pack (&changed, more, search->demand, 1, &budget, fills);
  search->rest_steps -= share - MAX (budget.steps, 0);
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
  const int step = MAX (1, CUT_PLACE (problem, place_index)->length / FINENESS);
  gboolean sure = TRUE;
  int above = get_most (search, room, place_index) + 1;
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
  int pieces = 0;

  for (guint i = 0; i < problem->items->len; i++)
    pieces += search->demand[i];
  if (search->effort == 0 || pieces > MANY_PIECES)
    return;
  search->rest_steps = STEPS_LIMIT;
  solution->rest_proved = TRUE;
  for (guint p = 0; p < problem->places->len; p++)
    if (room[p] > 0 && !lengthen_place (search, room, p, &best))
      solution->rest_proved = FALSE;
}
