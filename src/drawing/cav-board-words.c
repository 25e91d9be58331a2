/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-map.h"

#include "geometry/cav-number-text.h"

#include <glib/gi18n-lib.h>

#define NUMBER(format, value) CAV_NUMBER_TEXT (format, value)

char *
cav_layout_dup_totals (const CavBoardLayout *layout)
{
  const CavLayoutTotals *totals;
  GString *text;
  const guint boards = layout != NULL ? layout->boards->len : 0;

  g_return_val_if_fail (layout != NULL, NULL);

  totals = &layout->totals;
  text = g_string_new (NULL);
  /* Translators: these parts follow each other: “2 boards, 3.20 board feet, 0.0076 m³, cost 31.00;
   * 4 rails, yield 61 %, offcuts 0.90 m, the longest 610 mm.” */
  g_string_append_printf (text,
                          g_dngettext (GETTEXT_PACKAGE, "%u board, %s board feet, %s m³",
                                       "%u boards, %s board feet, %s m³", boards),
                          boards, NUMBER ("%.2f", totals->board_feet),
                          NUMBER ("%.4f", totals->volume));
  if (totals->without_price < (int)boards)
    g_string_append_printf (
        text, totals->without_price > 0 ? _ (", cost %s and what has no price") : _ (", cost %s"),
        NUMBER ("%.2f", totals->cost));
  g_string_append_printf (text,
                          g_dngettext (GETTEXT_PACKAGE, "; %d rail, yield %s %%",
                                       "; %d rails, yield %s %%", (gulong)totals->rails),
                          totals->rails, NUMBER ("%.0f", 100.0 * totals->yield));
  if (totals->offcuts > 0.0)
    g_string_append_printf (text, _ (", offcuts %s m, the longest %s mm"),
                            NUMBER ("%.2f", totals->offcuts / 1000.0),
                            NUMBER ("%.0f", totals->longest_offcut));
  if (boards > 0 && layout->missing->len == 0 && layout->boards_proved)
    g_string_append (text, _ (". No fewer boards will do: that is proved."));
  else
    g_string_append_c (text, '.');
  return g_string_free (text, FALSE);
}

static const CavLaidStrip *
find_used (const CavBoardLayout *layout)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          if (strip->used)
            return strip;
        }
    }
  return NULL;
}

char *
cav_layout_dup_strip (const CavBoardLayout *layout, CavUnit unit, int denominator)
{
  const CavLaidStrip *strip;
  const CavBoardJob *job;

  g_return_val_if_fail (layout != NULL, NULL);

  strip = find_used (layout);
  if (strip == NULL || layout->jobs->len == 0)
    return NULL;
  job = g_ptr_array_index (layout->jobs, 0);
  g_autofree char *rip = cav_length_format (strip->sawn.width, unit, denominator);
  g_autofree char *width = cav_length_format_bare (job->width, unit, denominator);
  g_autofree char *thickness = cav_length_format (job->thickness, unit, denominator);

  if (layout->jobs->len > 1)
    return NULL;
  return g_strdup_printf (_ ("Rip strips of %s, and square them to blanks of %s × %s."), rip, width,
                          thickness);
}

char *
cav_offcut_dup_words (CavOffcutUse use, const char *length)
{
  g_return_val_if_fail (length != NULL, NULL);

  switch (use)
    {
    case CAV_OFFCUT_ANY:
      /* Translators: an offcut of this length is long enough for each rail of the frame */
      return g_strdup_printf (_ ("%s, any rail"), length);
    case CAV_OFFCUT_RAIL:
      /* Translators: an offcut of this length is long enough for the frame's shorter rails */
      return g_strdup_printf (_ ("%s, a short rail"), length);
    case CAV_OFFCUT_TRIAL:
      return g_strdup_printf (_ ("%s, trial cuts"), length);
    case CAV_OFFCUT_SCRAP:
      break;
    }
  return g_strdup (length);
}
