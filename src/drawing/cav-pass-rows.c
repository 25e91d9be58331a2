/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-pass-sheet-private.h"

/* How the panels of a setup stand in rows beside its card. */

double
cav_pass_rows_get_width (const CavPassSheet *sheet)
{
  return sheet->width - 2 * CAV_PASS_SHEET_MARGIN - CAV_PASS_SHEET_CARD - CAV_PASS_SHEET_GUTTER;
}

double
cav_pass_rows_get_card_height (const CavPassSheet *sheet, guint first, gboolean continued)
{
  return cav_pass_card_measure (sheet, cav_pass_sheet_get_group (sheet, first)->setup,
                                CAV_PASS_SHEET_CARD, continued);
}

/* A panel alone is as wide as the row, and so is each of several on a card that is enlarged so much
 * that two do not stand beside each other. */
static CavPanelRow
make_row (const CavPassSheet *sheet, guint first, guint count)
{
  CavPanelRow row = { .first = first,
                      .count = count,
                      .begins = cav_pass_sheet_get_group (sheet, first)->first == 0,
                      .width = count > 1 ? sheet->panel_width : cav_pass_rows_get_width (sheet) };

  for (guint i = 0; i < count; i++)
    {
      const CavPassGroup *group = cav_pass_sheet_get_group (sheet, first + i);

      row.height = fmax (row.height, cav_pass_panel_measure (sheet, group, row.width));
      if (count > 1)
        row.below = fmax (row.below, cav_pass_panel_measure_below (sheet, group, row.width));
    }
  return row;
}

/* Whether groups may stand beside each other: a long ladder has a row to itself. */
static gboolean
may_share (const CavPassSheet *sheet, guint first, guint count)
{
  for (guint i = 0; i < count; i++)
    if (cav_pass_ladder_is_long (cav_pass_sheet_get_group (sheet, first + i)))
      return FALSE;
  return TRUE;
}

/* Narrow panels with many words may be higher than a page; alone in their row they are wide and
 * low. */
static gboolean
is_too_high (const CavPassSheet *sheet, const CavPanelRow *row)
{
  return sheet->room > 0 && row->height > sheet->room;
}

guint
cav_pass_sheet_find_setup_end (const CavPassSheet *sheet, guint first)
{
  guint setup = cav_pass_sheet_get_group (sheet, first)->setup;

  while (first < sheet->groups->len && cav_pass_sheet_get_group (sheet, first)->setup == setup)
    first++;
  return first;
}

typedef struct
{
  CavPanelRow row; /* that begins here */
  double height;   /* of it and all that follow */
} Arrangement;

/* Worked out from the last group back. */
GArray *
cav_pass_rows_create (const CavPassSheet *sheet, guint first)
{
  guint end = cav_pass_sheet_find_setup_end (sheet, first);
  g_autofree Arrangement *best = g_new0 (Arrangement, end - first + 1);
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (CavPanelRow));

  for (guint i = end - first; i-- > 0;)
    for (guint count = MIN (sheet->columns, end - first - i); count > 0; count--)
      {
        CavPanelRow row;
        double height;

        if (count > 1 && !may_share (sheet, first + i, count))
          continue;
        row = make_row (sheet, first + i, count);
        if (count > 1 && is_too_high (sheet, &row))
          continue;
        height = row.height + CAV_PASS_ROW_GAP + best[i + count].height;
        if (best[i].row.count == 0 || height < best[i].height)
          best[i] = (Arrangement){ row, height };
      }
  for (guint i = 0; i < end - first; i += best[i].row.count)
    g_array_append_val (rows, best[i].row);
  return rows;
}

double
cav_pass_rows_fit_card (const CavPassSheet *sheet, GArray *rows)
{
  double sum = (rows->len - 1) * CAV_PASS_ROW_GAP;
  double missing;

  for (guint i = 0; i < rows->len; i++)
    sum += g_array_index (rows, CavPanelRow, i).height;
  missing = cav_pass_rows_get_card_height (sheet, g_array_index (rows, CavPanelRow, 0).first, FALSE)
            - sum;
  if (missing <= 0)
    return sum;
  for (guint i = 0; i < rows->len; i++)
    g_array_index (rows, CavPanelRow, i).height += missing / rows->len;
  return sum + missing;
}
