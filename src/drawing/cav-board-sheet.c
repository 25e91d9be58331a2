/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-board-map.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-sheet-private.h"

/*
 * Boards with the rails on them, what it comes to, what is worth a look, and the pieces by number.
 */

#define MARGIN 12.0
#define HEAD 16.0
#define FOOT 10.0
#define ROW 5.2

static const CavTextStyle title = { .height = CAV_LETTER_TOOL, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle note = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK };
static const CavTextStyle bold = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK };

typedef struct
{
  CavProject *project;
  const CavBoardLayout *layout;
  const CavSheetOptions *options;
  GPtrArray *pages; /* CavScene */
  double width;
  double height;
  CavScene *scene; /* the last page */
  double y;        /* where the next thing goes */
} Sheet;

static void
begin_page (Sheet *self)
{
  g_autofree char *name = cav_sheet_dup_title (self->project);
  g_autofree char *whole = g_strdup_printf (
      /* Translators: a project, in the head of its sheet. */ _ ("%s, boards"), name);

  self->scene = cav_scene_new (self->width, self->height);
  g_ptr_array_add (self->pages, self->scene);
  cav_scene_set_title (self->scene, whole, _ ("Rails on boards"));
  cav_scene_add_box (self->scene, cav_box (0, 0, self->width, self->height), CAV_STYLE_PAPER);
  cav_scene_add_text_within (self->scene, whole, CAV_POINT (MARGIN, MARGIN + title.height), &title,
                             self->width - 2 * MARGIN - 40.0);
  if (self->options->date != NULL)
    {
      CavTextStyle right = note;

      right.align = CAV_ALIGN_END;
      cav_scene_add_text (self->scene, self->options->date,
                          CAV_POINT (self->width - MARGIN, MARGIN + title.height), &right);
    }
  cav_scene_add_line (self->scene, CAV_POINT (MARGIN, MARGIN + 8.0),
                      CAV_POINT (self->width - MARGIN, MARGIN + 8.0), CAV_STYLE_RULE);
  self->y = MARGIN + HEAD - 4.0;
}

static double
get_bottom (const Sheet *self)
{
  return self->height - MARGIN - FOOT;
}

static void
need (Sheet *self, double room)
{
  if (self->scene == NULL || self->y + room > get_bottom (self))
    begin_page (self);
}

/* As many faces as fit on each page. */
static void
add_boards (Sheet *self)
{
  g_autoptr (CavBoardMap) map = cav_board_map_new (self->layout, self->width - 2 * MARGIN, FALSE);
  guint first = 0;

  cav_board_map_indent (map, MARGIN);
  while (first < map->faces->len)
    {
      guint last = first + 1;

      need (self, cav_board_map_get_height (map, first, last));
      while (last < map->faces->len
             && self->y + cav_board_map_get_height (map, first, last + 1) <= get_bottom (self))
        last++;
      cav_board_map_draw (map, self->layout, self->scene, first, last, self->y, self->options->unit,
                          -1);
      self->y += cav_board_map_get_height (map, first, last);
      first = last;
    }
}

static void
add_line (Sheet *self, const char *text, const CavTextStyle *style)
{
  g_autoptr (GPtrArray) lines
      = cav_lettering_wrap (self->scene != NULL ? cav_scene_get_lettering (self->scene) : NULL,
                            text, style->height, style->bold, self->width - 2 * MARGIN, 0);

  for (guint i = 0; i < lines->len; i++)
    {
      need (self, ROW);
      self->y += ROW;
      cav_scene_add_text (self->scene, g_ptr_array_index (lines, i), CAV_POINT (MARGIN, self->y),
                          style);
    }
}

static const double COLUMNS[] = { 0.0, 14.0, 72.0, 108.0, 148.0, 200.0 };

static void
add_row (Sheet *self, const char *const *cells, const CavTextStyle *style)
{
  need (self, ROW);
  self->y += ROW;
  for (guint i = 0; i < G_N_ELEMENTS (COLUMNS); i++)
    {
      const double right
          = i + 1 < G_N_ELEMENTS (COLUMNS) ? COLUMNS[i + 1] - 2.0 : self->width - 2 * MARGIN;

      cav_scene_add_text_within (self->scene, cells[i], CAV_POINT (MARGIN + COLUMNS[i], self->y),
                                 style, right - COLUMNS[i]);
    }
}

static void
add_piece (
    Sheet *self, const CavLaidBoard *board, guint strip, guint layer, const CavPlacedPiece *piece)
{
  const CavUnit unit = self->options->unit;
  const int denominator = self->options->denominator;
  const CavLaidStrip *laid = g_ptr_array_index (board->strips, strip);
  g_autofree char *number = g_strdup_printf ("%d", piece->number);
  g_autofree char *label = cav_piece_dup_label (self->layout, piece);
  g_autofree char *name = cav_lettering_clean (label);
  g_autofree char *length = cav_length_format (piece->length, unit, denominator);
  g_autofree char *from
      = cav_length_format (cav_placed_piece_get_mark (piece, unit), unit, denominator);
  g_autofree char *raw = cav_laid_board_dup_name (board);
  g_autofree char *where = cav_lettering_clean (raw);
  g_autofree char *lane = laid->lanes->len > 1
                              ? g_strdup_printf (_ ("strip %u, layer %u"), strip + 1, layer + 1)
                              : g_strdup_printf (_ ("strip %u"), strip + 1);
  const char *const cells[] = { number, name, length, from, where, lane };

  add_row (self, cells, &note);
}

static void
add_pieces (Sheet *self)
{
  static const char *const HEADS[]
      = { NC_ ("column", "No."),    NC_ ("column", "Piece"),
          NC_ ("column", "Length"), NC_ ("column", "From the left"),
          NC_ ("column", "Board"),  NC_ ("column", "Strip, from below") };
  const char *heads[G_N_ELEMENTS (HEADS)];

  for (guint i = 0; i < G_N_ELEMENTS (HEADS); i++)
    heads[i] = g_dpgettext2 (GETTEXT_PACKAGE, "column", HEADS[i]);
  need (self, 4 * ROW);
  self->y += 2.0;
  add_row (self, heads, &bold);
  for (guint b = 0; b < self->layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              const CavLane *lane = g_ptr_array_index (strip->lanes, l);

              for (guint i = 0; i < lane->pieces->len; i++)
                add_piece (self, board, s, l, &g_array_index (lane->pieces, CavPlacedPiece, i));
            }
        }
    }
}

/* What is to be known of ripping each board. */
static void
add_ripping (Sheet *self)
{
  for (guint b = 0; b < self->layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (self->layout->boards, b);
      g_autofree char *raw = cav_laid_board_dup_name (board);
      g_autofree char *name = cav_lettering_clean (raw);
      g_autofree char *ripping = cav_laid_board_dup_ripping (
          self->layout, board, self->options->unit, self->options->denominator);
      g_autofree char *line = NULL;

      if (ripping == NULL)
        continue;
      /* Translators: a board, and how it is ripped. */
      line = g_strdup_printf (_ ("%s: %s"), name, ripping);
      add_line (self, line, &note);
    }
}

/* Whoever sets a stop by these lengths has to know whether they are those of the mitred rail. */
static const char *
get_advice (const CavBoardLayout *layout)
{
  for (guint i = 0; i < layout->jobs->len; i++)
    if (((const CavBoardJob *)g_ptr_array_index (layout->jobs, i))->square_first)
      return _ ("Rails lie with their outer edge up. Where rails are cut square first, lengths are "
                "those of the square pieces: cut the mitres later, by the cutting list. The wood "
                "has the last word: look at every board before it is cut.");
  return _ (
      "Rails lie with their outer edge up; lengths are those of the long points. The wood has "
      "the last word: look at every board before it is cut.");
}

static void
add_totals (Sheet *self)
{
  const CavLengthStyle style = { self->options->unit, self->options->denominator };
  g_autofree char *totals = cav_layout_dup_totals (self->layout, style);
  g_autofree char *strip
      = cav_layout_dup_strip (self->layout, self->options->unit, self->options->denominator);
  g_autoptr (GPtrArray) reserves
      = cav_layout_list_reserves (self->layout, cav_project_get_lumber (self->project),
                                  self->options->unit, self->options->denominator);

  need (self, 4 * ROW);
  self->y += 3.0;
  add_line (self, totals, &bold);
  if (strip != NULL)
    add_line (self, strip, &note);
  add_ripping (self);
  add_line (self, get_advice (self->layout), &note);
  for (guint i = 0; i < reserves->len; i++)
    add_line (self, g_ptr_array_index (reserves, i), &bold);
  for (guint i = 0; i < self->layout->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (self->layout->findings, i);
      g_autofree char *message = cav_length_restyle (finding->message, style);

      add_line (self, message, &note);
    }
}

static void
number_pages (Sheet *self)
{
  CavTextStyle right = note;

  right.align = CAV_ALIGN_END;
  for (guint i = 0; i < self->pages->len; i++)
    {
      cav_scene_add_page_number (g_ptr_array_index (self->pages, i), i + 1, self->pages->len, FALSE,
                                 CAV_POINT (self->width - MARGIN, self->height - MARGIN), &right);
    }
}

GPtrArray *
cav_board_sheet_create_scenes (CavProject *project,
                               const CavBoardLayout *layout,
                               const CavSheetOptions *options)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);
  g_return_val_if_fail (layout != NULL && options != NULL, NULL);

  Sheet sheet = { .project = project, .layout = layout, .options = options };

  sheet.pages = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  cav_paper_get_size (options->paper, &sheet.width, &sheet.height);
  begin_page (&sheet);
  add_boards (&sheet);
  add_totals (&sheet);
  if (layout->boards->len > 0)
    add_pieces (&sheet);
  number_pages (&sheet);
  return sheet.pages;
}
