/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-private.h"

#define FIGURE CAV_BOARD_FIGURE
#define WORDS CAV_BOARD_WORDS
#define BETWEEN 2.0 /* from the number to the words */
#define DOT 0.5     /* at the end of a line, on the piece */
#define AIR 1.8     /* beside a label, together */

static const CavTextStyle number_style = { .height = FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK };
static const CavTextStyle word_style = { .height = WORDS, .ink = CAV_INK_BLACK };

/* Number and words of a piece, and how wide they are. */
typedef struct
{
  char figure[16];
  char *words;
  double figure_width;
  double width; /* of both */
} Label;

static void
label_clear (Label *label)
{
  g_free (label->words);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Label, label_clear)

/* room: the words go where they do not fit. */
static Label
label_make (const CavBoardPicture *self, const CavPlacedPiece *piece, double room)
{
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  g_autofree char *raw = cav_piece_dup_label (self->layout, piece);
  Label label = { .words = cav_lettering_clean (raw) };

  g_snprintf (label.figure, sizeof label.figure, "%d", piece->number);
  label.figure_width = cav_lettering_get_width (lettering, label.figure, FIGURE, TRUE);
  label.width = label.figure_width + BETWEEN
                + cav_lettering_get_width (lettering, label.words, WORDS, FALSE);
  if (label.width > room)
    {
      g_clear_pointer (&label.words, g_free);
      label.width = label.figure_width;
    }
  return label;
}

static void
label_draw (const CavBoardPicture *self, const Label *label, double x, double y)
{
  cav_scene_add_text (self->scene, label->figure, CAV_POINT (x, y), &number_style);
  if (label->words != NULL)
    cav_scene_add_text (self->scene, label->words, CAV_POINT (x + label->figure_width + BETWEEN, y),
                        &word_style);
}

/* On a plate, so that the grain does not cross the letters. */
void
cav_board_picture_draw_label (const CavBoardPicture *self,
                              const CavPlacedPiece *piece,
                              CavBox box,
                              double inset,
                              double below)
{
  const double room = box.x1 - box.x0 - 2.0 * inset - AIR;
  const double height = box.y1 - box.y0 - below;
  const double y = box.y0 + (height + FIGURE) / 2.0;
  g_auto (Label) label = label_make (self, piece, room);
  const double x = (box.x0 + box.x1 - label.width) / 2.0;

  if (box.y1 - box.y0 < CAV_BOARD_LABEL_ROOM || label.figure_width > room + inset)
    return;
  cav_scene_add_box (self->scene,
                     cav_box (x - 0.6, y - FIGURE - 0.3, x + label.width + 0.6, y + 0.5),
                     CAV_STYLE_WOOD);
  label_draw (self, &label, x, y);
}

/* Where along the piece a line can leave it without crossing what was written nearer the board. */
static double
find_way (CavBox box, double to, const GArray *written)
{
  static const double shares[] = { 0.5, 0.3, 0.7, 0.15, 0.85 };

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      const double x = box.x0 + shares[i] * (box.x1 - box.x0);
      const CavBox way = cav_box (x - 0.5, MIN (to, box.y0), x + 0.5, MAX (to, box.y1));
      gboolean is_free = TRUE;

      for (guint k = 0; k < written->len; k++)
        is_free = is_free && !cav_box_overlaps (way, g_array_index (written, CavBox, k));
      if (is_free)
        return x;
    }
  return (box.x0 + box.x1) / 2.0;
}

/* baseline: of the row that the label stands in. */
static void
draw_outer (const CavBoardPicture *self,
            int strip,
            const CavPlacedPiece *piece,
            double baseline,
            gboolean above,
            GArray *written)
{
  const CavBox box = cav_board_picture_get_box (self, strip, piece->from, piece->length);
  const double middle_y = (box.y0 + box.y1) / 2.0;
  const double end = above ? baseline + 0.6 : baseline - FIGURE - 0.4;
  const double x = find_way (box, end, written);
  g_auto (Label) label = label_make (self, piece, box.x1 - box.x0 - 2.0);
  const double left = CLAMP (x - label.width / 2.0, box.x0, MAX (box.x0, box.x1 - label.width));
  const CavBox taken = cav_box (left - 0.4, baseline - FIGURE, left + label.width + 0.4, baseline);

  cav_scene_add_line (self->scene, CAV_POINT (x, middle_y), CAV_POINT (x, end),
                      CAV_STYLE_DIMENSION);
  cav_scene_add_box (self->scene, cav_box (x - DOT, middle_y - DOT, x + DOT, middle_y + DOT),
                     CAV_STYLE_BADGE);
  label_draw (self, &label, left, baseline);
  g_array_append_val (written, taken);
}

static void
draw_row (const CavBoardPicture *self, int strip, int row, gboolean above, GArray *written)
{
  const CavLaidStrip *laid = g_ptr_array_index (cav_board_picture_get_board (self)->strips, strip);
  const CavLane *lane = g_ptr_array_index (laid->lanes, self->face.layer);
  const double baseline = above ? self->face.box.y0 - row * CAV_BOARD_LABEL_ROW - 0.9
                                : self->face.box.y1 + (row + 1) * CAV_BOARD_LABEL_ROW - 0.2;

  for (guint i = 0; i < lane->pieces->len; i++)
    draw_outer (self, strip, &g_array_index (lane->pieces, CavPlacedPiece, i), baseline, above,
                written);
}

/* Each strip has a row; that of the outermost strip is nearest to the board. */
void
cav_board_picture_draw_outer_labels (const CavBoardPicture *self)
{
  const CavLaidBoard *board = cav_board_picture_get_board (self);
  g_autoptr (GArray) below = g_array_new (FALSE, FALSE, sizeof (CavBox));
  g_autoptr (GArray) above = g_array_new (FALSE, FALSE, sizeof (CavBox));
  int row = 0;

  for (guint s = 0; s < board->strips->len && row < self->face.rows_below; s++)
    if (cav_board_strip_is_thin (g_ptr_array_index (board->strips, s), self->face.layer,
                                 self->map->scale))
      draw_row (self, (int)s, row++, FALSE, below);
  row = 0;
  for (guint s = board->strips->len; s-- > 0 && row < self->face.rows_above;)
    if (cav_board_strip_is_thin (g_ptr_array_index (board->strips, s), self->face.layer,
                                 self->map->scale))
      draw_row (self, (int)s, row++, TRUE, above);
}
