/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cutting-list.h"

#include <glib/gi18n-lib.h>
#include <string.h>

/* Boards of one row of the list count as one line. */
static gboolean
is_like (const CavLaidBoard *a, const CavLaidBoard *b)
{
  return a->bought == b->bought && a->row == b->row;
}

static void
add_board (CavCuttingList *list, const CavBoardLayout *layout, guint first)
{
  const CavLaidBoard *laid = g_ptr_array_index (layout->boards, first);
  const CavWood *wood = cav_wood_find (laid->board->wood);
  CavListItem item
      = { .kind = CAV_LIST_BOARDS,
          .what = laid->board->name[0] != '\0' ? laid->board->name : (char *)_ ("Board"),
          .material = (char *)(wood != NULL ? cav_wood_get_name (wood) : ""),
          .length = laid->board->length,
          .width = laid->board->width,
          .thickness = laid->board->thickness,
          .note = (char *)(laid->has_cost ? _ ("to saw from") : _ ("to saw from; no price")) };

  for (guint b = 0; b < first; b++)
    if (is_like (laid, g_ptr_array_index (layout->boards, b)))
      return;
  for (guint b = first; b < layout->boards->len; b++)
    if (is_like (laid, g_ptr_array_index (layout->boards, b)))
      {
        item.count++;
        item.cost += laid->cost;
      }
  cav_cutting_list_add (list, &item);
}

void
cav_cutting_list_add_boards (CavCuttingList *list, const CavBoardLayout *layout)
{
  g_return_if_fail (list != NULL && layout != NULL);

  for (guint b = 0; b < layout->boards->len; b++)
    add_board (list, layout, b);
}
