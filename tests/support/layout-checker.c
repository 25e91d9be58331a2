/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "layout-checker.h"

#include <math.h>
#include <string.h>

#define NEAR 0.02

#define WRONG(...)                                                                                 \
  G_STMT_START                                                                                     \
  {                                                                                                \
    if (self->wrong == NULL)                                                                       \
      self->wrong = g_strdup_printf (__VA_ARGS__);                                                 \
  }                                                                                                \
  G_STMT_END

/* A rail with its place. */
typedef struct
{
  const CavPlacedPiece *piece;
  int board;
  int strip;
  int layer;
} Seen;

typedef struct
{
  const CavLumber *lumber;
  const GPtrArray *jobs;
  const CavBoardLayout *layout;
  GArray *seen; /* Seen */
  char *wrong;
} Checker;

static const CavBoardJob *
get_job (const Checker *self, int job)
{
  return g_ptr_array_index (self->jobs, job);
}

static double
get_kerf (const Checker *self, const CavBoardJob *job)
{
  return job->square_first ? self->lumber->kerf
                           : self->lumber->kerf / cos (job->mitre * 3.14159265358979 / 180.0);
}

static void
check_strip_size (Checker *self,
                  const CavLaidBoard *board,
                  const CavLaidStrip *strip,
                  int job_index)
{
  const CavLumber *lumber = self->lumber;
  const CavBoardJob *job = get_job (self, job_index);
  const double net
      = board->board->planed ? board->board->thickness : board->board->thickness - lumber->planing;
  const int plies = strip->sawn.plies;
  const int layers = strip->sawn.layers;
  const double width = plies * (job->width + lumber->strip_extra) + (plies - 1) * lumber->kerf;

  if (fabs (strip->sawn.width - width) > NEAR)
    WRONG ("strip %g mm wide, job needs %g", strip->sawn.width, width);
  if (plies * net < job->thickness - NEAR)
    WRONG ("strip too thin");
  if (plies > 1 && !lumber->glue_up)
    WRONG ("glued up without being asked to");
  if (layers > 1 && !lumber->resaw)
    WRONG ("resawn without being asked to");
  if (layers * job->thickness + (layers - 1) * (lumber->resaw_kerf + 2.0 * lumber->resaw_planing)
      > plies * net + NEAR)
    WRONG ("too many layers");
  if ((int)strip->lanes->len != layers)
    WRONG ("%u lanes in %d layers", strip->lanes->len, layers);
  if (job->wood[0] != '\0' && board->board->wood[0] != '\0'
      && strcmp (job->wood, board->board->wood) != 0)
    WRONG ("wrong wood");
}

static void
check_sound (
    Checker *self, const CavLaidBoard *board, const CavLaidStrip *strip, double from, double to)
{
  const CavBoard *wood = board->board;
  const double low = strip->sawn.low;
  const double high = low + strip->sawn.width;
  gboolean has_clear = FALSE;
  double clear = from;

  if (from < wood->end_trim - NEAR || to > wood->length - wood->end_trim + NEAR)
    WRONG ("%g to %g lies beyond the trimmed ends", from, to);
  for (guint i = 0; i < wood->spans->len; i++)
    {
      const CavBoardSpan *span = &g_array_index (wood->spans, CavBoardSpan, i);
      const gboolean whole = span->low <= 1e-6 && span->high <= 1e-6;

      has_clear = has_clear || span->clear;
      if (!span->clear && span->from < to - NEAR && span->to > from + NEAR
          && (whole || (span->low < high - NEAR && span->high > low + NEAR)))
        WRONG ("%g to %g lies on a defect", from, to);
    }
  /* Clear stretches may touch and overlap in any order. */
  for (guint round = 0; has_clear && round < wood->spans->len; round++)
    for (guint i = 0; i < wood->spans->len; i++)
      {
        const CavBoardSpan *span = &g_array_index (wood->spans, CavBoardSpan, i);
        const gboolean whole = span->low <= 1e-6 && span->high <= 1e-6;

        if (span->clear && span->from <= clear + NEAR
            && (whole || (span->low <= low + NEAR && span->high >= high - NEAR)))
          clear = MAX (clear, span->to);
      }
  if (has_clear && clear < to - NEAR)
    WRONG ("%g to %g leaves the clear stretches", from, to);
}

static void
check_piece (Checker *self, const CavPlacedPiece *piece)
{
  const CavBoardJob *job = get_job (self, piece->job);
  double length;

  switch (piece->kind)
    {
    case CAV_PIECE_RAIL:
      length = job->long_points[piece->rail] + (job->square_first ? job->square_extra : 0.0);
      if (fabs (piece->mitre - (job->square_first ? 0.0 : job->mitre)) > 1e-9)
        WRONG ("wrong mitre");
      break;
    case CAV_PIECE_SPARE:
      length = job->spare;
      break;
    case CAV_PIECE_TEST:
    default:
      length = job->test;
      break;
    }
  if (fabs (length - piece->length) > 1e-9)
    WRONG ("piece %g mm long, not %g", piece->length, length);
}

static void
check_lane (Checker *self, int board_index, int strip_index, int layer)
{
  const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, board_index);
  const CavLaidStrip *strip = g_ptr_array_index (board->strips, strip_index);
  const CavLane *lane = g_ptr_array_index (strip->lanes, layer);
  double end = -1e9;

  for (guint i = 0; i < lane->pieces->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);
      const Seen seen = { piece, board_index, strip_index, layer };

      check_strip_size (self, board, strip, piece->job);
      check_sound (self, board, strip, piece->from, piece->from + piece->length);
      check_piece (self, piece);
      if (piece->from < end - NEAR)
        WRONG ("pieces overlap, or there is no kerf between them, at %g", piece->from);
      if (!strip->used)
        WRONG ("a strip with pieces on it counts as not used");
      end = piece->from + piece->length + get_kerf (self, get_job (self, piece->job));
      g_array_append_val (self->seen, seen);
    }
  for (guint k = 0; k < lane->offcuts->len; k++)
    {
      const CavStretch *rest = &g_array_index (lane->offcuts, CavStretch, k);

      check_sound (self, board, strip, rest->from, rest->to);
      if (rest->to - rest->from < self->lumber->useful - NEAR)
        WRONG ("a short offcut");
      for (guint i = 0; i < lane->pieces->len; i++)
        {
          const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);

          if (piece->from < rest->to + self->lumber->kerf - NEAR
              && piece->from + piece->length > rest->from - self->lumber->kerf + NEAR)
            WRONG ("an offcut where a piece lies");
        }
    }
}

static void
check_board (Checker *self, int board_index)
{
  const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, board_index);
  double edge = self->lumber->jointing;

  for (int other = 0; other < board_index; other++)
    {
      const CavLaidBoard *before = g_ptr_array_index (self->layout->boards, other);

      if (before->bought == board->bought && before->row == board->row
          && before->copy == board->copy)
        WRONG ("one board is used twice");
    }
  if (!board->bought)
    {
      const CavBoard *row = g_ptr_array_index (self->lumber->boards, board->row);

      if (board->copy < 0 || board->copy >= row->count
          || fabs (row->length - board->board->length) > 0
          || fabs (row->width - board->board->width) > 0)
        WRONG ("a board that is not there");
    }
  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      if (strip->sawn.low < edge - NEAR
          || strip->sawn.low + strip->sawn.width > board->board->width + NEAR)
        WRONG ("strip %u does not fit across its board", s);
      edge = strip->sawn.low + strip->sawn.width + self->lumber->kerf;
      for (guint l = 0; l < strip->lanes->len; l++)
        check_lane (self, board_index, (int)s, (int)l);
    }
}

static const Seen *
find (const Checker *self, int job, int frame, int rail)
{
  for (guint i = 0; i < self->seen->len; i++)
    {
      const Seen *seen = &g_array_index (self->seen, Seen, i);

      if (seen->piece->kind == CAV_PIECE_RAIL && seen->piece->job == job
          && seen->piece->frame == frame && seen->piece->rail == rail)
        return seen;
    }
  return NULL;
}

static int
count (const Checker *self, int job, CavPieceKind kind, int frame, int rail)
{
  int n = 0;

  for (guint i = 0; i < self->seen->len; i++)
    {
      const CavPlacedPiece *piece = g_array_index (self->seen, Seen, i).piece;

      n += piece->job == job && piece->kind == kind && piece->frame == frame && piece->rail == rail;
    }
  for (guint i = 0; i < self->layout->missing->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (self->layout->missing, CavPlacedPiece, i);

      n += piece->job == job && piece->kind == kind && piece->frame == frame && piece->rail == rail;
    }
  return n;
}

static void
check_all_there (Checker *self, int index)
{
  const CavBoardJob *job = get_job (self, index);
  g_autofree char *unsound = cav_board_job_explain (job);
  const int each = unsound == NULL;

  for (int frame = 0; frame < job->frames; frame++)
    for (int rail = 0; rail < job->n_rails; rail++)
      if (count (self, index, CAV_PIECE_RAIL, frame, rail) != each)
        WRONG ("rail %d of frame %d is there %d times", rail, frame,
               count (self, index, CAV_PIECE_RAIL, frame, rail));
  if (count (self, index, CAV_PIECE_SPARE, -1, -1) != (each && job->spare > 0.0))
    WRONG ("spare length");
  if (count (self, index, CAV_PIECE_TEST, -1, -1) != (each && job->test > 0.0))
    WRONG ("test length");
}

static gboolean
follows (const Checker *self, const CavBoardJob *job, const Seen *a, const Seen *b)
{
  return a->board == b->board && a->strip == b->strip && a->layer == b->layer
         && fabs (a->piece->from + a->piece->length + get_kerf (self, job) - b->piece->from) < NEAR;
}

static void
check_running (Checker *self, int index, int frame)
{
  const CavBoardJob *job = get_job (self, index);

  for (int k = 0; k + 1 < job->n_rails; k++)
    {
      const Seen *a = find (self, index, frame, (job->run_start + k) % job->n_rails);
      const Seen *b = find (self, index, frame, (job->run_start + k + 1) % job->n_rails);

      if ((a == NULL) != (b == NULL) || (a != NULL && !follows (self, job, a, b)))
        WRONG ("the grain of frame %d does not run on", frame);
    }
}

static void
check_pairs (Checker *self, int index, int frame)
{
  const CavBoardJob *job = get_job (self, index);

  for (int k = 0; k < job->n_rails / 2; k++)
    {
      const Seen *a = find (self, index, frame, k);
      const Seen *b = find (self, index, frame, k + job->n_rails / 2);

      if ((a == NULL) != (b == NULL)
          || (a != NULL
              && (a->board != b->board || abs (a->strip - b->strip) != 1 || a->layer != b->layer
                  || fabs (a->piece->from - b->piece->from) > NEAR)))
        WRONG ("rails %d of frame %d do not lie side by side", k, frame);
    }
}

/* Both leaves of one strip, layers that were parted by the saw; the corner before the run and the
 * one in its middle begin and end at the same place. */
static void
check_book (Checker *self, int index, int frame)
{
  const CavBoardJob *job = get_job (self, index);
  const int half = job->n_rails / 2;
  const Seen *seen[CAV_JOB_MAX_RAILS] = { NULL };

  for (int k = 0; k < job->n_rails; k++)
    {
      seen[k] = find (self, index, frame, (job->run_start + k) % job->n_rails);
      if ((seen[k] == NULL) != (seen[0] == NULL))
        WRONG ("half a frame");
    }
  if (seen[0] == NULL || self->wrong != NULL)
    return;
  for (int k = 0; k + 1 < half; k++)
    if (!follows (self, job, seen[k], seen[k + 1])
        || !follows (self, job, seen[job->n_rails - 1 - k], seen[job->n_rails - 2 - k]))
      WRONG ("a leaf of frame %d does not run on", frame);
  if (seen[0]->strip != seen[half]->strip || seen[0]->board != seen[half]->board
      || abs (seen[0]->layer - seen[half]->layer) != 1
      || fabs (seen[0]->piece->from - seen[job->n_rails - 1]->piece->from) > NEAR
      || seen[0]->piece->reversed || !seen[half]->piece->reversed)
    WRONG ("the leaves of frame %d do not open like a book", frame);
}

static void
check_order (Checker *self, int index)
{
  const CavBoardJob *job = get_job (self, index);
  const gboolean even = job->n_rails % 2 == 0;

  for (int frame = 0; frame < job->frames; frame++)
    switch (job->order)
      {
      case CAV_GRAIN_FREE:
        break;
      case CAV_GRAIN_PAIRS:
        if (even)
          check_pairs (self, index, frame);
        break;
      case CAV_GRAIN_RUNNING:
        check_running (self, index, frame);
        break;
      case CAV_GRAIN_BOOK:
        if (even)
          check_book (self, index, frame);
        else
          check_running (self, index, frame);
        break;
      }
}

/* Cut square first, what is milled in one length is long enough for it. */
static void
check_milled_length (Checker *self)
{
  for (guint i = 0; i < self->seen->len; i++)
    {
      const Seen *seen = &g_array_index (self->seen, Seen, i);
      double from = 1e9;
      double to = -1e9;
      double next = 1e9;

      if (!get_job (self, seen->piece->job)->square_first)
        continue;
      for (guint k = 0; k < self->seen->len; k++)
        {
          const Seen *other = &g_array_index (self->seen, Seen, k);

          if (other->piece->stick == seen->piece->stick)
            {
              from = MIN (from, other->piece->from);
              to = MAX (to, other->piece->from + other->piece->length);
            }
        }
      for (guint k = 0; k < self->seen->len; k++)
        {
          const Seen *other = &g_array_index (self->seen, Seen, k);

          if (other->board == seen->board && other->strip == seen->strip
              && other->layer == seen->layer && other->piece->from > to)
            next = MIN (next, other->piece->from - self->lumber->kerf);
        }
      if (MAX (to, MIN (next, from + self->lumber->shortest)) - from
          < self->lumber->shortest - NEAR)
        WRONG ("%g mm would be milled alone", to - from);
    }
}

static gboolean
lies_at (const Checker *self, const Seen *seen, const CavBoardPin *pin)
{
  const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, seen->board);

  return board->row == pin->board && board->copy == pin->copy && seen->strip == pin->strip
         && seen->layer == pin->layer && fabs (seen->piece->from - pin->from) <= 1.0
         && seen->piece->pinned;
}

/* Of several pins on rails that keep together the first one counts. */
static gboolean
is_granted (const Checker *self, int index, guint pin_index)
{
  const CavBoardJob *job = get_job (self, index);
  const CavBoardPin *pin = &g_array_index (job->pins, CavBoardPin, pin_index);
  const Seen *seen = find (self, index, pin->frame, pin->rail);

  if (seen == NULL || lies_at (self, seen, pin))
    return seen != NULL;
  for (guint i = 0; i < pin_index; i++)
    {
      const CavBoardPin *other = &g_array_index (job->pins, CavBoardPin, i);
      const Seen *before = find (self, index, other->frame, other->rail);

      if (before != NULL && before->piece->stick == seen->piece->stick)
        return TRUE;
    }
  return FALSE;
}

static void
check_pins (Checker *self)
{
  gboolean excused = FALSE;

  for (guint i = 0; i < self->layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (self->layout->findings, i);

      excused = excused || strcmp (finding->code, "lumber-pin") == 0;
    }
  for (guint j = 0; !excused && j < self->jobs->len; j++)
    {
      const CavBoardJob *job = get_job (self, (int)j);

      for (guint i = 0; i < job->pins->len; i++)
        {
          const CavBoardPin *pin = &g_array_index (job->pins, CavBoardPin, i);

          if (pin->frame < job->frames && pin->rail < job->n_rails && !is_granted (self, (int)j, i))
            WRONG ("a wish was passed over without a word");
        }
    }
}

static void
check_totals (Checker *self)
{
  double cost = 0.0;
  double volume = 0.0;
  double rails = 0.0;
  int n_rails = 0;

  for (guint b = 0; b < self->layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, b);

      cost += board->cost;
      volume += board->board->length * board->board->width * board->board->thickness / 1e9;
    }
  for (guint i = 0; i < self->seen->len; i++)
    {
      const CavPlacedPiece *piece = g_array_index (self->seen, Seen, i).piece;
      const CavBoardJob *job = get_job (self, piece->job);

      if (piece->kind != CAV_PIECE_RAIL)
        continue;
      n_rails++;
      rails += job->long_points[piece->rail] * job->width * job->thickness / 1e9;
    }
  if (fabs (cost - self->layout->totals.cost) > 1e-6
      || fabs (volume - self->layout->totals.volume) > 1e-9
      || n_rails != self->layout->totals.rails)
    WRONG ("totals");
  if (volume > 0.0 && fabs (rails / volume - self->layout->totals.yield) > 1e-9)
    WRONG ("yield");
  if (self->layout->totals.yield > 1.0)
    WRONG ("more wood comes out than goes in");
}

char *
check_layout (const CavLumber *lumber, const GPtrArray *jobs, const CavBoardLayout *layout)
{
  g_autoptr (GArray) seen = g_array_new (FALSE, FALSE, sizeof (Seen));
  Checker checker = { lumber, jobs, layout, seen, NULL };

  for (guint b = 0; b < layout->boards->len; b++)
    check_board (&checker, (int)b);
  for (guint j = 0; j < jobs->len; j++)
    {
      check_all_there (&checker, (int)j);
      check_order (&checker, (int)j);
    }
  check_milled_length (&checker);
  check_pins (&checker);
  check_totals (&checker);
  return checker.wrong;
}

void
assert_layout (const CavLumber *lumber, const CavBoardLayout *layout)
{
  g_autofree char *wrong = check_layout (lumber, layout->jobs, layout);

  if (wrong != NULL)
    g_error ("The layout is wrong: %s", wrong);
}
