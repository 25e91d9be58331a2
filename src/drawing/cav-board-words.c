/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-map.h"

#include "drawing/cav-words-private.h"
#include "geometry/cav-number-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#define NUMBER(format, value) CAV_NUMBER_TEXT (format, value)

double
cav_placed_piece_get_mark (const CavPlacedPiece *piece, CavUnit unit)
{
  g_return_val_if_fail (piece != NULL, 0.0);
  return cav_words_round_place (piece->from, unit);
}

static gboolean
has_held_rails (const CavBoardLayout *layout)
{
  for (guint i = 0; i < layout->jobs->len; i++)
    if (((const CavBoardJob *)g_ptr_array_index (layout->jobs, i))->pins->len > 0)
      return TRUE;
  return FALSE;
}

/* What is known for certain, as the end of the sentence of totals. */
static const char *
get_proof (const CavBoardLayout *layout)
{
  if (layout->boards->len == 0 || layout->missing->len > 0 || !layout->boards_proved)
    return ".";
  if (has_held_rails (layout))
    return _ (". With the rails held where they are, no fewer boards will do: that is proved.");
  if (layout->cost_proved && layout->totals.without_price == 0)
    return _ (". No fewer boards will do, and no others cost less: that is proved.");
  return _ (". No fewer boards will do: that is proved.");
}

char *
cav_layout_dup_totals (const CavBoardLayout *layout, CavLengthStyle style)
{
  const CavLayoutTotals *totals;
  g_autoptr (GString) text = g_string_new (NULL);
  const guint boards = layout != NULL ? layout->boards->len : 0;

  g_return_val_if_fail (layout != NULL, NULL);

  totals = &layout->totals;
  /* Translators: these parts follow each other: “2 boards, 0.0076 m³ or 3.20 board feet,
   * cost 31.00; 4 rails, yield 61 %, offcuts 900 mm, the longest 610 mm.” */
  g_string_append_printf (text,
                          g_dngettext (GETTEXT_PACKAGE, "%u board, %s m³ or %s board feet",
                                       "%u boards, %s m³ or %s board feet", boards),
                          boards, NUMBER ("%.4f", totals->volume),
                          NUMBER ("%.2f", totals->board_feet));
  if (totals->without_price < (int)boards)
    g_string_append_printf (
        text, totals->without_price > 0 ? _ (", cost %s and what has no price") : _ (", cost %s"),
        NUMBER ("%.2f", totals->cost));
  g_string_append_printf (text,
                          g_dngettext (GETTEXT_PACKAGE, "; %d rail, yield %s %%",
                                       "; %d rails, yield %s %%", (gulong)totals->rails),
                          totals->rails, NUMBER ("%.0f", 100.0 * totals->yield));
  if (totals->offcuts > 0.0)
    g_string_append_printf (text, _ (", offcuts %s mm, the longest %s mm"),
                            NUMBER ("%.0f", floor (totals->offcuts)),
                            NUMBER ("%.0f", floor (totals->longest_offcut)));
  g_string_append (text, get_proof (layout));
  return cav_length_restyle (text->str, style);
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
  g_autofree char *rip = cav_length_format (strip->sawn.ply, unit, denominator);
  g_autofree char *width = cav_length_format_bare (job->width, unit, denominator);
  g_autofree char *thickness = cav_length_format (job->thickness, unit, denominator);

  if (layout->jobs->len > 1)
    return NULL;
  return g_strdup_printf (_ ("Rip strips of %s, and square them to blanks of %s × %s."), rip, width,
                          thickness);
}

/* Nearer than this no fence is set. mm. */
#define SAME 0.01

/* Strips of one width lie beside each other from the jointed edge up, each one blank thick. */
static gboolean
is_plainly_ripped (const CavBoardLayout *layout, const CavLaidBoard *board)
{
  double at = layout->jointing;
  double width = -1.0;

  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      if (strip->used
          && (fabs (strip->sawn.low - at) > SAME || strip->sawn.plies > 1 || strip->sawn.layers > 1
              || (width >= 0.0 && fabs (strip->sawn.width - width) > SAME)))
        return FALSE;
      if (strip->used)
        width = strip->sawn.width;
      at += strip->sawn.width + layout->kerf;
    }
  return TRUE;
}

/* (transfer full) "2 from 61 mm to 107 mm". */
static char *
describe_strip (const CavBoardLayout *layout,
                const CavLaidStrip *strip,
                guint number,
                CavUnit unit,
                int denominator)
{
  const CavSawnStrip *sawn = &strip->sawn;
  const double low = sawn->low - layout->jointing;
  g_autofree char *from = cav_length_format (low, unit, denominator);
  g_autofree char *to = cav_length_format (low + sawn->width, unit, denominator);
  g_autofree char *ply = cav_length_format (sawn->ply, unit, denominator);

  if (sawn->plies > 1)
    /* Translators: number of a strip, where it begins and ends across its board; how many strips
     * it is ripped into, and how wide they are. */
    return g_strdup_printf (_ ("%u from %s to %s, ripped into %d of %s and glued face to face"),
                            number, from, to, sawn->plies, ply);
  if (sawn->layers > 1)
    /* Translators: number of a strip, where it begins and ends across its board, how many layers
     * it is resawn into. */
    return g_strdup_printf (_ ("%u from %s to %s, resawn into %d layers"), number, from, to,
                            sawn->layers);
  /* Translators: number of a strip, where it begins and ends across its board. */
  return g_strdup_printf (_ ("%u from %s to %s"), number, from, to);
}

char *
cav_laid_board_dup_ripping (const CavBoardLayout *layout,
                            const CavLaidBoard *board,
                            CavUnit unit,
                            int denominator)
{
  g_return_val_if_fail (layout != NULL && board != NULL, NULL);

  g_autoptr (GString) strips = g_string_new (NULL);

  if (is_plainly_ripped (layout, board))
    return NULL;
  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);
      g_autofree char *words = describe_strip (layout, strip, s + 1, unit, denominator);

      if (strip->used)
        g_string_append_printf (strips, "%s%s", strips->len > 0 ? "; " : "", words);
    }
  /* Translators: a list: “1 from 0 mm to 46 mm; 2 from 61 mm to 107 mm”. */
  return g_strdup_printf (_ ("Strips, measured from the jointed edge: %s."), strips->str);
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
