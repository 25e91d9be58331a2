/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "boards/cav-board-reserve.h"
#include "drawing/cav-board-map.h"
#include "drawing/cav-lettering.h"

/* Less than this is nothing to spare, mm. */
#define NOTHING 0.05

/* To a tenth: what is left is no exact figure. */
static char *
format (double mm, CavUnit unit, int denominator)
{
  return cav_length_format (round (10.0 * mm) / 10.0, unit, denominator);
}

static char *
describe (const char *name, const CavReserve *reserve, CavUnit unit, int denominator)
{
  gboolean any = reserve->spare >= NOTHING;
  g_autofree char *has = format (reserve->has, unit, denominator);
  g_autofree char *needs = format (reserve->needs, unit, denominator);
  g_autofree char *spare = any ? format (reserve->spare, unit, denominator)
                               : g_strdup (C_ ("of a reserve", "nothing"));

  switch (reserve->kind)
    {
    case CAV_RESERVE_THICKNESS:
      /* Translators: a board, two thicknesses, and a length or “nothing”. */
      return g_strdup_printf (
          _ ("%s is planed to %s and its blanks take %s of that: %s is left for cup and twist, so "
             "look for a flat part."),
          name, has, needs, spare);
    case CAV_RESERVE_WIDTH:
      /* Translators: a board, two widths, and a length or “nothing”. */
      return g_strdup_printf (_ ("%s is %s wide and its strips take %s of that: %s is left, so "
                                 "measure before ripping."),
                              name, has, needs, spare);
    case CAV_RESERVE_LENGTH:
      /* Translators: a board, the number of a strip, two lengths, and a length or “nothing”. */
      return g_strdup_printf (
          _ ("%s, strip %u, is sound up to %s and its pieces take %s of that: %s is left, so cut "
             "exactly where they are marked."),
          name, reserve->strip + 1, has, needs, spare);
    }
  g_return_val_if_reached (NULL);
}

GPtrArray *
cav_layout_list_reserves (const CavBoardLayout *layout,
                          const CavLumber *lumber,
                          CavUnit unit,
                          int denominator)
{
  GPtrArray *lines = g_ptr_array_new_with_free_func (g_free);

  g_return_val_if_fail (layout != NULL && lumber != NULL, lines);

  g_autoptr (GArray) reserves = cav_board_layout_list_reserves (layout, lumber);
  for (guint i = 0; i < reserves->len; i++)
    {
      const CavReserve *reserve = &g_array_index (reserves, CavReserve, i);
      g_autofree char *raw
          = cav_laid_board_dup_name (g_ptr_array_index (layout->boards, reserve->board));
      g_autofree char *name = cav_lettering_clean (raw);

      g_ptr_array_add (lines, describe (name, reserve, unit, denominator));
    }
  return lines;
}
