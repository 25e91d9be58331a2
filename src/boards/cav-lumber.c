/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-lumber.h"

#include <math.h>

#include "geometry/cav-same.h"

/* Allowances that are common practice and have no source; a kerf of 3.2 mm is a full 1/8 in blade,
 * and 300 mm the shortest piece that shop rules let past a router table or through a planer. */
CavLumber *
cav_lumber_new (void)
{
  CavLumber *lumber = g_new0 (CavLumber, 1);

  lumber->boards = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_free);
  lumber->stock = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_free);
  lumber->pins = g_array_new (FALSE, FALSE, sizeof (CavBoardPin));
  lumber->joined = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);
  lumber->frames = 1;
  lumber->order = CAV_GRAIN_RUNNING;
  /* Rails are counted top, right, bottom, left: the corner at the lower left does not match. */
  lumber->run_start = 3;
  lumber->kerf = 3.2;
  lumber->jointing = 3.0;
  lumber->strip_extra = 1.0;
  lumber->planing = 3.0;
  lumber->resaw = TRUE;
  lumber->resaw_kerf = 3.2;
  lumber->resaw_planing = 1.0;
  lumber->square_extra = 10.0;
  lumber->test = 300.0;
  lumber->shortest = 300.0;
  lumber->useful = 300.0;
  return lumber;
}

static GPtrArray *
copy_boards (const GPtrArray *boards)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_free);

  for (guint i = 0; i < boards->len; i++)
    g_ptr_array_add (copy, cav_board_copy (g_ptr_array_index (boards, i)));
  return copy;
}

static GPtrArray *
copy_joined (const GPtrArray *joined)
{
  GPtrArray *copy = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_board_job_free);

  for (guint i = 0; i < joined->len; i++)
    g_ptr_array_add (copy, cav_board_job_copy (g_ptr_array_index (joined, i)));
  return copy;
}

CavLumber *
cav_lumber_copy (const CavLumber *lumber)
{
  g_return_val_if_fail (lumber != NULL, NULL);

  CavLumber *copy = g_memdup2 (lumber, sizeof *lumber);

  copy->boards = copy_boards (lumber->boards);
  copy->stock = copy_boards (lumber->stock);
  copy->pins = g_array_copy (lumber->pins);
  copy->joined = copy_joined (lumber->joined);
  return copy;
}

void
cav_lumber_free (CavLumber *lumber)
{
  if (lumber == NULL)
    return;
  g_ptr_array_unref (lumber->boards);
  g_ptr_array_unref (lumber->stock);
  g_array_unref (lumber->pins);
  g_ptr_array_unref (lumber->joined);
  g_free (lumber);
}

static gboolean
boards_equal (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!cav_board_equal (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;
  return TRUE;
}

static gboolean
joined_equal (const GPtrArray *a, const GPtrArray *b)
{
  if (a->len != b->len)
    return FALSE;
  for (guint i = 0; i < a->len; i++)
    if (!cav_board_job_equal (g_ptr_array_index (a, i), g_ptr_array_index (b, i)))
      return FALSE;
  return TRUE;
}

gboolean
cav_lumber_equal (const CavLumber *a, const CavLumber *b)
{
  g_return_val_if_fail (a != NULL && b != NULL, FALSE);

  return boards_equal (a->boards, b->boards) && boards_equal (a->stock, b->stock)
         && cav_board_pins_equal (a->pins, b->pins) && joined_equal (a->joined, b->joined)
         && a->frames == b->frames && a->order == b->order && a->run_start == b->run_start
         && cav_same (a->kerf, b->kerf) && cav_same (a->jointing, b->jointing)
         && cav_same (a->strip_extra, b->strip_extra) && cav_same (a->planing, b->planing)
         && !a->resaw == !b->resaw && cav_same (a->resaw_kerf, b->resaw_kerf)
         && cav_same (a->resaw_planing, b->resaw_planing) && !a->glue_up == !b->glue_up
         && !a->square_first == !b->square_first && cav_same (a->square_extra, b->square_extra)
         && cav_same (a->spare, b->spare) && cav_same (a->test, b->test)
         && cav_same (a->shortest, b->shortest) && cav_same (a->useful, b->useful);
}

CavBoard *
cav_lumber_create_board (const CavLumber *lumber, const CavBlank *blank)
{
  CavBoard *board = cav_board_new ();

  g_return_val_if_fail (lumber != NULL, board);
  g_return_val_if_fail (blank != NULL, board);

  board->thickness = fmax (board->thickness, ceil (blank->thickness + lumber->planing));
  return board;
}
