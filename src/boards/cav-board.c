/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-board.h"

#include "geometry/cav-same.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

static const char *const BASES[CAV_N_PRICE_BASES] = {
  [CAV_PRICE_UNKNOWN] = "unknown",       [CAV_PRICE_BOARD] = "board",
  [CAV_PRICE_BOARD_FOOT] = "board-foot", [CAV_PRICE_CUBIC_METRE] = "cubic-metre",
  [CAV_PRICE_METRE] = "metre",
};

const char *
cav_price_basis_to_string (CavPriceBasis basis)
{
  g_return_val_if_fail ((guint)basis < CAV_N_PRICE_BASES, NULL);

  return BASES[basis];
}

gboolean
cav_price_basis_from_string (const char *string, CavPriceBasis *out_basis)
{
  g_return_val_if_fail (string != NULL, FALSE);
  g_return_val_if_fail (out_basis != NULL, FALSE);

  for (guint i = 0; i < CAV_N_PRICE_BASES; i++)
    if (strcmp (BASES[i], string) == 0)
      {
        *out_basis = (CavPriceBasis)i;
        return TRUE;
      }
  return FALSE;
}

CavBoard *
cav_board_new (void)
{
  CavBoard *board = g_new0 (CavBoard, 1);

  board->name = g_strdup ("");
  board->wood = g_strdup ("");
  board->count = 1;
  board->length = 2400.0;
  board->width = 150.0;
  board->thickness = 27.0;
  board->end_trim = 25.0;
  board->spans = g_array_new (FALSE, FALSE, sizeof (CavBoardSpan));
  return board;
}

CavBoard *
cav_board_copy (const CavBoard *board)
{
  g_return_val_if_fail (board != NULL, NULL);

  CavBoard *copy = g_memdup2 (board, sizeof *board);

  copy->name = g_strdup (board->name);
  copy->wood = g_strdup (board->wood);
  copy->spans = g_array_copy (board->spans);
  return copy;
}

void
cav_board_free (CavBoard *board)
{
  if (board == NULL)
    return;
  g_free (board->name);
  g_free (board->wood);
  g_array_unref (board->spans);
  g_free (board);
}

static gboolean
spans_equal (const GArray *a, const GArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    {
      const CavBoardSpan *one = &g_array_index (a, CavBoardSpan, i);
      const CavBoardSpan *other = &g_array_index (b, CavBoardSpan, i);

      if (!one->clear != !other->clear || !cav_same (one->from, other->from)
          || !cav_same (one->to, other->to) || !cav_same (one->low, other->low)
          || !cav_same (one->high, other->high))
        return FALSE;
    }
  return TRUE;
}

gboolean
cav_board_equal (const CavBoard *a, const CavBoard *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return strcmp (a->name, b->name) == 0 && strcmp (a->wood, b->wood) == 0 && a->count == b->count
         && a->basis == b->basis && !a->planed == !b->planed && cav_same (a->length, b->length)
         && cav_same (a->width, b->width) && cav_same (a->thickness, b->thickness)
         && cav_same (a->price, b->price) && cav_same (a->end_trim, b->end_trim)
         && spans_equal (a->spans, b->spans);
}

void
cav_board_add_span (CavBoard *board, CavBoardSpan span)
{
  g_return_if_fail (board != NULL);

  g_array_append_val (board->spans, span);
}

static gboolean
is_size (double value)
{
  return isfinite (value) && value >= CAV_BOARD_MIN && value <= CAV_BOARD_MAX;
}

static gboolean
is_measure (double value)
{
  return isfinite (value) && value >= 0.0 && value <= CAV_BOARD_MAX;
}

static char *
explain_span (const CavBoardSpan *span)
{
  if (!is_measure (span->from) || !is_measure (span->to) || !is_measure (span->low)
      || !is_measure (span->high))
    return g_strdup (span->clear ? _ ("A clear stretch has a place that is no length on the board.")
                                 : _ ("A defect has a place that is no length on the board."));
  if (span->to <= span->from)
    return g_strdup (span->clear
                         ? _ ("A clear stretch ends before it begins: exchange the two ends.")
                         : _ ("A defect ends before it begins: exchange the two ends."));
  if (span->high < span->low)
    return g_strdup (span->clear ? _ ("A clear stretch has its upper edge below its lower one.")
                                 : _ ("A defect has its upper edge below its lower one."));
  return NULL;
}

char *
cav_board_explain (const CavBoard *board)
{
  g_return_val_if_fail (board != NULL, NULL);

  if (!is_size (board->length) || !is_size (board->width) || !is_size (board->thickness))
    return g_strdup_printf (_ ("Length, width and thickness must each be between %d and %d mm."),
                            (int)CAV_BOARD_MIN, (int)CAV_BOARD_MAX);
  if (board->count < 0 || board->count > CAV_BOARD_MAX_COUNT)
    return g_strdup_printf (_ ("The number of boards must be between 0 and %d."),
                            CAV_BOARD_MAX_COUNT);
  if (board->basis != CAV_PRICE_UNKNOWN && (!isfinite (board->price) || board->price < 0.0))
    return g_strdup (_ ("A price cannot be below nought."));
  if (!is_measure (board->end_trim))
    return g_strdup (_ ("The length to trim off the ends is no length."));
  for (guint i = 0; i < board->spans->len; i++)
    {
      char *reason = explain_span (&g_array_index (board->spans, CavBoardSpan, i));

      if (reason != NULL)
        return reason;
    }
  return NULL;
}
