/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-board-map.h"
#include "drawing/cav-job-sheet-private.h"
#include "drawing/cav-piece-words.h"
#include "drawing/cav-sheets.h"

/* More boards are on the cutting list alone. */
#define BOARDS_MAX 12
/* Lines of words that a board's picture stays with. */
#define WORDS 2
/* Between words and picture. mm. */
#define GAP 1.2

static void
append_pieces (GString *text, const CavBoardLayout *layout, const GArray *pieces)
{
  for (guint i = 0; i < pieces->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (pieces, CavPlacedPiece, i);
      g_autofree char *raw = cav_piece_dup_label (layout, piece);
      g_autofree char *label = cav_lettering_clean (raw);

      g_string_append_printf (text, "%s%d %s", i > 0 ? ", " : "", piece->number, label);
    }
}

/* (transfer full) "strip 2: 2 left, 3 top": one lane that is used. */
static char *
describe_lane (const CavBoardLayout *layout, const CavLaidStrip *strip, guint number, guint layer)
{
  const CavLane *lane = g_ptr_array_index (strip->lanes, layer);
  g_autoptr (GString) pieces = g_string_new (NULL);

  append_pieces (pieces, layout, lane->pieces);
  return strip->lanes->len > 1
             /* Translators: numbers of a strip and its layer, and the pieces on it, in order */
             ? g_strdup_printf (_ ("strip %u, layer %u: %s"), number, layer + 1, pieces->str)
             /* Translators: number of a strip, and the pieces on it, in order */
             : g_strdup_printf (_ ("strip %u: %s"), number, pieces->str);
}

static void
append_lanes (GString *text, const CavBoardLayout *layout, const CavLaidBoard *board)
{
  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      for (guint l = 0; l < strip->lanes->len; l++)
        {
          g_autofree char *lane = NULL;

          if (((const CavLane *)g_ptr_array_index (strip->lanes, l))->pieces->len == 0)
            continue;
          lane = describe_lane (layout, strip, s + 1, l);
          g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", lane);
        }
    }
}

/* What the words say, to scale: each layer of a resawn board is a picture of its own. */
static void
add_pictures (CavJob *job, const CavBoardLayout *layout, CavBoardMap *map, guint first, guint last)
{
  for (guint f = first; f < last; f++)
    {
      CavPoint corner;
      CavScene *scene = cav_text_sheet_add_picture (
          job->sheet, GAP + cav_board_map_get_height (map, f, f + 1), &corner);

      cav_board_map_indent (map, corner.x);
      cav_board_map_draw (map, layout, scene, f, f + 1, corner.y + GAP, job->options->unit, -1);
      cav_board_map_indent (map, -corner.x);
    }
}

/* In strips of one width, or each where it lies; then what lies on them. */
static void
describe_board (CavJob *job, const CavBoardLayout *layout, const CavLaidBoard *board)
{
  g_autofree char *raw = cav_laid_board_dup_name (board);
  g_autofree char *name = cav_lettering_clean (raw);
  g_autofree char *ripping
      = cav_laid_board_dup_ripping (layout, board, job->options->unit, job->options->denominator);
  g_autofree char *width = cav_job_format (
      job, ((const CavLaidStrip *)g_ptr_array_index (board->strips, 0))->sawn.width);
  g_autoptr (GString) lanes = g_string_new (NULL);

  append_lanes (lanes, layout, board);
  if (ripping != NULL)
    cav_job_step (job, /* Translators: a board, how it is ripped, and the pieces on its strips. */
                  _ ("%s. %s From the left, %s."), name, ripping, lanes->str);
  else
    cav_job_step (job, _ ("%s, from its jointed edge in strips of %s. From the left, %s."), name,
                  width, lanes->str);
}

/* Returns the first face that is not of the board. */
static guint
add_board (CavJob *job, const CavBoardLayout *layout, CavBoardMap *map, guint board, guint first)
{
  guint last = first;

  while (last < map->faces->len
         && g_array_index (map->faces, CavBoardFace, last).board == (int)board)
    last++;
  cav_text_sheet_keep (job->sheet,
                       WORDS
                           + (guint)ceil (cav_board_map_get_height (map, first, first + 1)
                                          / (CAV_LETTER_SMALL * CAV_LETTER_LEADING)));
  describe_board (job, layout, g_ptr_array_index (layout->boards, board));
  add_pictures (job, layout, map, first, last);
  return last;
}

static void
add_reserves (CavJob *job, const CavBoardLayout *layout)
{
  g_autoptr (GPtrArray) lines = cav_layout_list_reserves (
      layout, cav_project_get_lumber (job->project), job->options->unit, job->options->denominator);

  for (guint i = 0; i < MIN (lines->len, BOARDS_MAX); i++)
    cav_job_step (job, "%s", (const char *)g_ptr_array_index (lines, i));
}

void
cav_job_add_boards (CavJob *job)
{
  g_autoptr (CavBoardLayout) layout = NULL;
  g_autoptr (CavBoardMap) map = NULL;
  guint face = 0;

  if (cav_project_get_lumber (job->project)->boards->len == 0)
    return;
  layout = cav_sheets_lay_out_boards (job->project, job->plan, job->options);
  if (layout == NULL || layout->boards->len == 0)
    return;
  job->is_numbered = layout->missing->len == 0;
  map = cav_board_map_new (layout, cav_text_sheet_get_picture_width (job->sheet), FALSE);
  cav_job_heading (job, _ ("Rip the boards"));
  for (guint b = 0; b < MIN (layout->boards->len, BOARDS_MAX); b++)
    face = add_board (job, layout, map, b, face);
  cav_job_step (job, cav_words_has_several (job->pieces)
                         ? _ ("Mark the left end of every strip and its number on the end grain: "
                              "planing takes chalk off the face. The sheet of the boards says how "
                              "far from that end each rail begins.")
                         : _ ("Write each piece's number on its end grain before it is cut off: "
                              "planing takes chalk off the face. The sheet of the boards says how "
                              "far from the left each one begins."));
  add_reserves (job, layout);
  if (layout->missing->len > 0)
    cav_job_step (job, _ ("Not everything fits on these boards: see the cutting list."));
}
