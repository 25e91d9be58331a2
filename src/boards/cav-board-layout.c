/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board-layout.h"

#include "boards/cav-layout-private.h"

#include <glib/gi18n-lib.h>

/* clang-format off */
G_DEFINE_QUARK (cav-boards-error, cav_boards_error)
/* clang-format on */

static void
laid_board_free (gpointer data)
{
  CavLaidBoard *board = data;

  cav_board_free (board->board);
  g_ptr_array_unref (board->strips);
  g_free (board);
}

static CavBoardLayout *
layout_new (const CavLayoutRequest *request)
{
  CavBoardLayout *layout = g_new0 (CavBoardLayout, 1);

  layout->ref_count = 1;
  layout->jobs = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  for (guint i = 0; i < request->jobs->len; i++)
    g_ptr_array_add (layout->jobs, cav_board_job_copy (g_ptr_array_index (request->jobs, i)));
  layout->boards = g_ptr_array_new_with_free_func (laid_board_free);
  layout->idle = g_ptr_array_new_with_free_func (laid_board_free);
  layout->shortest = request->lumber->shortest;
  layout->jointing = request->lumber->jointing;
  layout->kerf = request->lumber->kerf;
  layout->missing = g_array_new (FALSE, FALSE, sizeof (CavPlacedPiece));
  layout->purchases = g_array_new (FALSE, FALSE, sizeof (CavPurchase));
  layout->findings = cav_finding_list_new ();
  return layout;
}

CavBoardLayout *
cav_board_layout_ref (CavBoardLayout *layout)
{
  g_return_val_if_fail (layout != NULL, NULL);

  g_atomic_int_inc (&layout->ref_count);
  return layout;
}

void
cav_board_layout_unref (CavBoardLayout *layout)
{
  if (layout == NULL || !g_atomic_int_dec_and_test (&layout->ref_count))
    return;
  g_ptr_array_unref (layout->jobs);
  g_ptr_array_unref (layout->boards);
  g_ptr_array_unref (layout->idle);
  g_array_unref (layout->missing);
  g_array_unref (layout->purchases);
  g_ptr_array_unref (layout->findings);
  g_free (layout);
}

void
cav_layout_add_finding (CavBoardLayout *layout, CavFinding *finding)
{
  g_ptr_array_add (layout->findings, finding);
}

static void
open_board_free (gpointer data)
{
  CavOpenBoard *open = data;

  g_array_unref (open->places);
  g_clear_pointer (&open->taken, g_array_unref);
  g_free (open);
}

static void
laying_clear (CavLaying *laying)
{
  g_clear_pointer (&laying->demand, cav_demand_free);
  g_clear_pointer (&laying->pile, g_ptr_array_unref);
  g_clear_pointer (&laying->open, g_ptr_array_unref);
  g_clear_pointer (&laying->problem, cav_cut_problem_free);
  g_clear_pointer (&laying->item_of, g_array_unref);
  g_clear_pointer (&laying->ways, g_array_unref);
  g_clear_pointer (&laying->placed, g_free);
}

static void
list_missing (CavLaying *laying)
{
  for (guint s = 0; s < laying->demand->sticks->len; s++)
    {
      const CavStick *stick = g_ptr_array_index (laying->demand->sticks, s);

      for (guint i = 0; !laying->placed[s] && i < stick->pieces->len; i++)
        {
          const CavStickPiece *piece = &g_array_index (stick->pieces, CavStickPiece, i);
          const CavPlacedPiece missing = { .kind = piece->kind,
                                           .job = stick->job,
                                           .frame = piece->frame,
                                           .rail = piece->rail,
                                           .stick = (int)s,
                                           .length = piece->length };

          g_array_append_val (laying->layout->missing, missing);
        }
    }
}

static void
solve (CavLaying *laying)
{
  const CavLayoutRequest *request = laying->request;
  CavBoardLayout *layout = laying->layout;
  const CavCutOptions options = { request->effort, request->cancelled, request->progress,
                                  request->progress_data, laying->cost_first };
  const int opened = (int)laying->open->len;
  g_autoptr (CavCutSolution) solution = NULL;

  cav_laying_build_problem (laying);
  solution = cav_cut_solve (laying->problem, &options);
  for (guint i = 0; i < laying->open->len; i++)
    g_ptr_array_add (layout->boards, ((CavOpenBoard *)g_ptr_array_index (laying->open, i))->laid);
  cav_laying_use_solution (laying, solution);
  layout->least_boards = solution->least_boards + opened;
  layout->least_cost = solution->least_cost;
  layout->boards_proved = solution->boards_proved;
  layout->cost_proved = solution->cost_proved;
  layout->rest_proved = solution->rest_proved;
  layout->missing_proved = solution->missing_proved && !laying->thinned;
  if (laying->thinned)
    {
      layout->least_boards = MIN (layout->least_boards, laying->least_by_length);
      layout->boards_proved = layout->least_boards == (int)layout->boards->len;
      layout->cost_proved = FALSE;
      layout->rest_proved = FALSE;
    }
}

static void
laying_init (CavLaying *laying, const CavLayoutRequest *request, CavBoardLayout *layout)
{
  *laying = (CavLaying){ .request = request, .lumber = request->lumber, .layout = layout };
  laying->demand = cav_demand_new (request->lumber, request->jobs);
  laying->placed = g_new0 (gboolean, laying->demand->sticks->len + 1);
  laying->open = g_ptr_array_new_with_free_func (open_board_free);
}

static gboolean
has_rail (const CavStick *stick)
{
  for (guint i = 0; i < stick->pieces->len; i++)
    if (g_array_index (stick->pieces, CavStickPiece, i).kind == CAV_PIECE_RAIL)
      return TRUE;
  return FALSE;
}

/* Pieces for trials and to spare are asked for, or as if they had found a place already. */
static void
ask_for_others (CavLaying *laying, gboolean asked)
{
  for (guint s = 0; s < laying->demand->sticks->len; s++)
    if (!has_rail (g_ptr_array_index (laying->demand->sticks, s)))
      laying->placed[s] = !asked;
}

/* Everything but advice; returns what the jobs ask for. rails_only: the other pieces stay out. */
static CavDemand *
lay_out (const CavLayoutRequest *request, gboolean rails_only, CavBoardLayout *layout)
{
  CavLaying laying;
  CavDemand *demand;

  laying_init (&laying, request, layout);
  if (laying.demand->sticks->len > 0)
    {
      ask_for_others (&laying, !rails_only);
      cav_laying_add_boards (&laying);
      cav_laying_apply_pins (&laying);
      cav_laying_thin_pile (&laying);
      solve (&laying);
      if (rails_only)
        ask_for_others (&laying, TRUE);
    }
  list_missing (&laying);
  cav_layout_count (layout, request->lumber);
  if (laying.pile != NULL && request->effort > 0)
    cav_laying_list_idle (&laying);
  demand = g_steal_pointer (&laying.demand);
  laying_clear (&laying);
  return demand;
}

CavBoardLayout *
cav_board_layout_try (const CavLayoutRequest *request)
{
  CavBoardLayout *layout = layout_new (request);
  g_autoptr (CavDemand) demand = lay_out (request, FALSE, layout);

  return layout;
}

CavBoardLayout *
cav_board_layout_try_stock (const CavLayoutRequest *request,
                            const gboolean *wanted,
                            int only,
                            gboolean priced)
{
  CavBoardLayout *layout = layout_new (request);
  CavLaying laying;

  laying_init (&laying, request, layout);
  for (guint s = 0; s < laying.demand->sticks->len; s++)
    laying.placed[s] = !wanted[s];
  laying.cost_first = TRUE;
  cav_laying_add_stock (&laying, only, priced);
  cav_laying_thin_pile (&laying);
  solve (&laying);
  list_missing (&laying);
  cav_layout_count (layout, request->lumber);
  laying_clear (&laying);
  return layout;
}

/* A part of the way, of which the solver knows nothing else. */
typedef struct
{
  const CavLayoutRequest *request; /* the whole way */
  double from;
  double to;
} Stage;

static void
tell_stage (double share, gpointer data)
{
  const Stage *stage = data;

  stage->request->progress (stage->from + share * (stage->to - stage->from),
                            stage->request->progress_data);
}

static CavLayoutRequest
make_part (const Stage *stage)
{
  CavLayoutRequest part = *stage->request;

  if (part.progress == NULL)
    return part;
  part.progress = tell_stage;
  part.progress_data = (gpointer)stage;
  return part;
}

static gboolean
is_cancelled (const CavLayoutRequest *request)
{
  return request->cancelled != NULL && g_atomic_int_get (request->cancelled) != 0;
}

/* Where not all of it fits, a piece for trials must not keep the rails of a frame from the boards:
 * without such pieces less may be missing in all. */
static void
prefer_rails (const CavLayoutRequest *request, CavBoardLayout **layout)
{
  const Stage stage = { request, 0.7, 0.8 };
  const CavLayoutRequest part = make_part (&stage);
  g_autoptr (CavBoardLayout) other = layout_new (request);
  g_autoptr (CavDemand) demand = lay_out (&part, TRUE, other);

  if (other->missing->len >= (*layout)->missing->len)
    return;
  other->missing_proved = (*layout)->missing_proved;
  other->boards_proved = other->cost_proved = other->rest_proved = FALSE;
  cav_board_layout_unref (*layout);
  *layout = g_steal_pointer (&other);
}

CavBoardLayout *
cav_board_layout_new (const CavLayoutRequest *request, GError **error)
{
  g_return_val_if_fail (request != NULL, NULL);
  g_return_val_if_fail (request->lumber != NULL && request->jobs != NULL, NULL);

  const Stage first = { request, 0.0, 0.7 };
  const Stage last = { request, 0.8, 0.99 };
  const CavLayoutRequest layout_part = make_part (&first);
  const CavLayoutRequest advice_part = make_part (&last);
  g_autoptr (CavBoardLayout) layout = layout_new (request);
  g_autoptr (CavDemand) demand = lay_out (&layout_part, FALSE, layout);

  if (layout->missing->len > 1 && request->effort > 0 && !is_cancelled (request))
    prefer_rails (request, &layout);
  if (layout->missing->len > 0 && request->effort > 0 && !is_cancelled (request))
    cav_layout_advise (layout, &advice_part);
  if (is_cancelled (request))
    {
      g_set_error_literal (error, CAV_BOARDS_ERROR, CAV_BOARDS_ERROR_CANCELLED,
                           _ ("The layout was given up."));
      return NULL;
    }
  cav_layout_find_wrong (layout, request, demand);
  return g_steal_pointer (&layout);
}

guint
cav_board_layout_get_board_count (const CavBoardLayout *layout)
{
  g_return_val_if_fail (layout != NULL, 0);

  return layout->boards->len + layout->idle->len;
}

const CavLaidBoard *
cav_board_layout_get_board (const CavBoardLayout *layout, guint index)
{
  g_return_val_if_fail (layout != NULL, NULL);
  g_return_val_if_fail (index < layout->boards->len + layout->idle->len, NULL);

  return index < layout->boards->len
             ? g_ptr_array_index (layout->boards, index)
             : g_ptr_array_index (layout->idle, index - layout->boards->len);
}

char *
cav_laid_board_dup_name (const CavLaidBoard *board)
{
  g_return_val_if_fail (board != NULL, NULL);

  const char *name = board->board->name;

  if (name[0] != '\0' && board->copy == 0)
    return g_strdup (name);
  if (name[0] != '\0')
    return g_strdup_printf (_ ("%s, no. %d"), name, board->copy + 1);
  if (board->copy == 0)
    return g_strdup_printf (_ ("Board %d"), board->row + 1);
  return g_strdup_printf (_ ("Board %d, no. %d"), board->row + 1, board->copy + 1);
}

static gboolean
find_on_board (const CavLaidBoard *board, int job, int frame, int rail, CavBoardPin *out_pin)
{
  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      for (guint l = 0; l < strip->lanes->len; l++)
        {
          const CavLane *lane = g_ptr_array_index (strip->lanes, l);

          for (guint i = 0; i < lane->pieces->len; i++)
            {
              const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);

              if (piece->kind != CAV_PIECE_RAIL || piece->job != job || piece->frame != frame
                  || piece->rail != rail)
                continue;
              *out_pin = (CavBoardPin){ .frame = frame,
                                        .rail = rail,
                                        .board = board->row,
                                        .copy = board->copy,
                                        .strip = (int)s,
                                        .layer = (int)l,
                                        .from = piece->from };
              return TRUE;
            }
        }
    }
  return FALSE;
}

/* The program follows pieces on its map of the boards; tests ask here whether a layout kept a pin. */
gboolean
cav_board_layout_find (const CavBoardLayout *layout,
                       int job,
                       int frame,
                       int rail,
                       CavBoardPin *out_pin,
                       gboolean *out_bought)
{
  g_return_val_if_fail (layout != NULL && out_pin != NULL && out_bought != NULL, FALSE);

  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      if (find_on_board (board, job, frame, rail, out_pin))
        {
          *out_bought = board->bought;
          return TRUE;
        }
    }
  return FALSE;
}
