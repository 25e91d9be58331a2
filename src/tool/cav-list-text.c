/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-list-text.h"

#include "drawing/cav-board-map.h"
#include "tool/cav-text.h"

#include <glib/gi18n-lib.h>
#include <math.h>

/* Columns of names are as wide as the longest one, within reason. */
#define NAME_LEAST 18
#define NAME_MOST 44

static void
append_row (GString *out,
            int name_width,
            const char *number,
            const char *name,
            const char *length,
            const char *from,
            const char *strip,
            const char *board)
{
  cav_text_append_cell (out, number, 4, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, name, name_width, FALSE);
  cav_text_append_cell (out, length, 16, TRUE);
  cav_text_append_cell (out, from, 16, TRUE);
  g_string_append (out, "  ");
  cav_text_append_cell (out, strip, 8, FALSE);
  g_string_append_printf (out, "  %s\n", board);
}

static void
append_piece (GString *out,
              int name_width,
              const CavBoardLayout *layout,
              const CavLaidBoard *board,
              guint strip,
              guint layer,
              const CavPlacedPiece *piece,
              CavUnit unit)
{
  const CavLaidStrip *laid = g_ptr_array_index (board->strips, strip);
  g_autofree char *number = g_strdup_printf ("%d", piece->number);
  g_autofree char *label = cav_piece_dup_label (layout, piece);
  g_autofree char *name = cav_text_clean (label);
  g_autofree char *length = cav_length_format (piece->length, unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *from
      = cav_length_format (cav_placed_piece_get_mark (piece, unit), unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *lane = laid->lanes->len > 1 ? g_strdup_printf ("%u, %u", strip + 1, layer + 1)
                                               : g_strdup_printf ("%u", strip + 1);
  g_autofree char *raw = cav_laid_board_dup_name (board);
  g_autofree char *where = cav_text_clean (raw);

  append_row (out, name_width, number, name, length, from, lane, where);
}

/* Every piece that lies somewhere, in the order of their numbers. */
static void
append_pieces (GString *out, int name_width, const CavBoardLayout *layout, CavUnit unit)
{
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              const CavLane *lane = g_ptr_array_index (strip->lanes, l);

              for (guint i = 0; i < lane->pieces->len; i++)
                append_piece (out, name_width, layout, board, s, l,
                              &g_array_index (lane->pieces, CavPlacedPiece, i), unit);
            }
        }
    }
}

static int
find_name_width (const CavBoardLayout *layout)
{
  int width = NAME_LEAST;

  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              const GArray *pieces = ((const CavLane *)g_ptr_array_index (strip->lanes, l))->pieces;

              for (guint i = 0; i < pieces->len; i++)
                {
                  g_autofree char *label
                      = cav_piece_dup_label (layout, &g_array_index (pieces, CavPlacedPiece, i));
                  g_autofree char *name = cav_text_clean (label);

                  width = MAX (width, cav_text_get_width (name) + 1);
                }
            }
        }
    }
  return MIN (width, NAME_MOST);
}

static void
append_boards (GString *out, const CavBoardLayout *layout, CavUnit unit)
{
  g_string_append_printf (out, "\n%s\n", _ ("Boards"));
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);
      g_autofree char *raw = cav_laid_board_dup_name (board);
      g_autofree char *name = cav_text_clean (raw);
      g_autofree char *length
          = cav_length_format_bare (board->board->length, unit, CAV_TEXT_DENOMINATOR);
      g_autofree char *width
          = cav_length_format_bare (board->board->width, unit, CAV_TEXT_DENOMINATOR);
      g_autofree char *thickness
          = cav_length_format (board->board->thickness, unit, CAV_TEXT_DENOMINATOR);

      g_autofree char *ripping
          = cav_laid_board_dup_ripping (layout, board, unit, CAV_TEXT_DENOMINATOR);

      g_string_append_printf (out, "  %s: %s × %s × %s\n", name, length, width, thickness);
      if (ripping != NULL)
        cav_text_append_wrapped (out, "    ", 4, ripping);
    }
}

static void
append_offcut (GString *out,
               const CavBoardLayout *layout,
               const CavLaidStrip *strip,
               guint number,
               const char *board,
               const CavStretch *offcut,
               CavUnit unit)
{
  g_autofree char *length
      = cav_length_format (floor (offcut->to - offcut->from), unit, CAV_TEXT_DENOMINATOR);
  g_autofree char *words
      = cav_offcut_dup_words (cav_board_layout_judge_offcut (layout, strip, offcut), length);

  g_string_append (out, "  ");
  /* Translators: a board, the number of a strip of it, the length of an offcut and its use */
  g_string_append_printf (out, _ ("%s, strip %u: %s"), board, number + 1, words);
  g_string_append_c (out, '\n');
}

/* What is left and long enough to keep, with its use. */
static void
append_offcuts (GString *out, const CavBoardLayout *layout, CavUnit unit)
{
  g_string_append_printf (out, "\n%s\n", _ ("Offcuts"));
  for (guint b = 0; b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);
      g_autofree char *raw = cav_laid_board_dup_name (board);
      g_autofree char *name = cav_text_clean (raw);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              const GArray *offcuts
                  = ((const CavLane *)g_ptr_array_index (strip->lanes, l))->offcuts;

              for (guint i = 0; i < offcuts->len; i++)
                append_offcut (out, layout, strip, s, name, &g_array_index (offcuts, CavStretch, i),
                               unit);
            }
        }
    }
}

char *
cav_list_text_create (const CavBoardLayout *layout, CavUnit unit)
{
  g_return_val_if_fail (layout != NULL, NULL);

  GString *out = g_string_new (NULL);
  const CavLengthStyle style = { unit, CAV_TEXT_DENOMINATOR };
  g_autofree char *totals = cav_layout_dup_totals (layout, style);
  g_autofree char *strip = cav_layout_dup_strip (layout, unit, CAV_TEXT_DENOMINATOR);
  const int name_width = find_name_width (layout);

  g_string_append_printf (out, "%s\n", _ ("Rails on boards"));
  cav_text_append_wrapped (out, "", 0, totals);
  if (strip != NULL)
    cav_text_append_wrapped (out, "", 0, strip);
  if (layout->boards->len > 0)
    {
      append_boards (out, layout, unit);
      g_string_append_c (out, '\n');
      append_row (out, name_width, C_ ("column", "No."), C_ ("column", "Piece"),
                  C_ ("column", "Length"), C_ ("column", "From the left"), C_ ("column", "Strip"),
                  C_ ("column", "Board"));
      append_pieces (out, name_width, layout, unit);
      if (layout->totals.offcuts > 0.0)
        append_offcuts (out, layout, unit);
    }
  if (layout->findings->len > 0)
    g_string_append_c (out, '\n');
  for (guint i = 0; i < layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (layout->findings, i);
      g_autofree char *restyled = cav_length_restyle (finding->message, style);
      g_autofree char *clean = cav_text_clean (restyled);

      cav_text_append_wrapped (out, "- ", 2, clean);
    }
  return g_string_free (out, FALSE);
}
