/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-board-private.h"
#include "drawing/cav-dimension.h"
#include "geometry/cav-unit.h"

#define HATCH 1.4
#define FIGURE CAV_BOARD_FIGURE
#define WORDS CAV_BOARD_WORDS
#define FLAG 0.9 /* stripe of a piece's colour */
#define GRAIN_GAP 1.1
#define DESCENT 0.35 /* words stand so much over the middle, for what hangs below their line */

const CavLaidBoard *
cav_board_picture_get_board (const CavBoardPicture *self)
{
  return cav_board_layout_get_board (self->layout, (guint)self->face.board);
}

CavBox
cav_board_picture_get_box (const CavBoardPicture *self, int strip, double from, double length)
{
  CavBox box = cav_board_map_get_piece_box (self->map, self->layout, self->face_index, strip, from,
                                            length);

  box.y0 += self->moved;
  box.y1 += self->moved;
  return box;
}

/* What there is room for beside the name, or below it; lines end over the board. */
static void
draw_size (const CavBoardPicture *self, const char *name, const char *size)
{
  static const CavTextStyle plain = { .height = WORDS, .ink = CAV_INK_GREY };
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  const double room = self->map->width;
  const int n_lines = self->map->caption_lines - 1;
  const double at = MIN (cav_lettering_get_width (lettering, name, FIGURE, TRUE), room * 0.5) + 3.0;
  g_autoptr (GPtrArray) lines = NULL;

  if (n_lines == 0)
    {
      cav_scene_add_text_within (self->scene, size,
                                 CAV_POINT (self->face.box.x0 + at, self->face.caption), &plain,
                                 MAX (room - at, 1.0));
      return;
    }
  lines = cav_lettering_wrap (lettering, size, WORDS, FALSE, room, (guint)n_lines);
  for (guint i = 0; i < lines->len; i++)
    cav_scene_add_text (
        self->scene, g_ptr_array_index (lines, i),
        CAV_POINT (self->face.box.x0, self->face.caption + (i + 1) * CAV_BOARD_CAPTION_LINE),
        &plain);
}

static void
draw_caption (const CavBoardPicture *self)
{
  static const CavTextStyle bold = { .height = FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK };
  const CavLaidBoard *laid = cav_board_picture_get_board (self);
  const CavBoard *board = laid->board;
  g_autofree char *raw = cav_laid_board_dup_name (laid);
  g_autofree char *name = cav_lettering_clean (raw);
  g_autofree char *length = cav_length_format_bare (board->length, self->unit, 16);
  g_autofree char *width = cav_length_format_bare (board->width, self->unit, 16);
  g_autofree char *thickness = cav_length_format (board->thickness, self->unit, 16);
  g_autoptr (GString) more = g_string_new (NULL);
  const double room = self->map->width;

  g_string_append_printf (more, board->planed ? _ ("%s × %s × %s, planed") : "%s × %s × %s", length,
                          width, thickness);
  if (self->face.is_idle)
    {
      g_autofree char *size = g_strdup (more->str);

      /* Translators: the size of a board that no rail lies on */
      g_string_printf (more, _ ("%s, not used"), size);
    }
  if (self->face.layers > 1)
    g_string_append_printf (more, _ (", layer %d of %d"), self->face.layer + 1, self->face.layers);
  cav_scene_add_text_within (self->scene, name, CAV_POINT (self->face.box.x0, self->face.caption),
                             &bold, self->map->caption_lines > 1 ? room : room * 0.5);
  draw_size (self, name, more->str);
}

/* Ends that are trimmed off, and what lies beside the strips, is waste. */
static void
draw_ground (const CavBoardPicture *self)
{
  cav_scene_add_box (self->scene, self->face.box, CAV_STYLE_WASTE);
}

static void
draw_defects (const CavBoardPicture *self)
{
  const CavBoard *board = cav_board_picture_get_board (self)->board;
  const double scale = self->map->scale;

  for (guint i = 0; i < board->spans->len; i++)
    {
      const CavBoardSpan *span = &g_array_index (board->spans, CavBoardSpan, i);
      const gboolean whole = span->high <= 1e-6;
      const double from = CLAMP (span->from, 0.0, board->length);
      const double to = CLAMP (span->to, 0.0, board->length);
      const double low = whole ? 0.0 : MIN (span->low, board->width);
      const double high = whole ? board->width : MIN (span->high, board->width);
      const CavBox box
          = cav_box (self->face.box.x0 + from * scale, self->face.box.y1 - high * scale,
                     self->face.box.x0 + to * scale, self->face.box.y1 - low * scale);

      if (span->clear || box.x1 - box.x0 < 0.1 || box.y1 - box.y0 < 0.1)
        continue;
      cav_scene_add_box (self->scene, box, CAV_STYLE_PAPER);
      cav_scene_add_hatch (self->scene, box, HATCH, TRUE);
      cav_scene_add_hatch (self->scene, box, HATCH, FALSE);
      cav_scene_add_box (self->scene, box, CAV_STYLE_SHAPE);
    }
}

/* Lines along the rail, none across a mitre. */
static void
draw_grain (const CavBoardPicture *self, CavBox box, double inset, int seed)
{
  const int n = (int)floor ((box.y1 - box.y0) / GRAIN_GAP);

  for (int k = 1; k <= n; k++)
    {
      const double share = (k - 0.35 + 0.1 * ((seed + k * 3) % 7)) / (n + 1.0);
      const double y = box.y0 + share * (box.y1 - box.y0);
      const double in = inset * share + 0.5;

      if (y < box.y1 && box.x1 - box.x0 > 2.0 * in + 1.0)
        cav_scene_add_line (self->scene, CAV_POINT (box.x0 + in, y), CAV_POINT (box.x1 - in, y),
                            CAV_STYLE_RING);
    }
}

/* The way around the frame, where the grain runs on. */
static double
draw_direction (const CavBoardPicture *self, const CavPlacedPiece *piece, CavBox box, double inset)
{
  const CavBoardJob *job = g_ptr_array_index (self->layout->jobs, piece->job);
  const CavGrainOrder order = cav_stick_get_order (job);
  const double y = box.y1 - 1.1;
  const double middle = (box.x0 + box.x1) / 2.0;
  const double sign = piece->reversed ? -1.0 : 1.0;

  if (piece->kind != CAV_PIECE_RAIL || order == CAV_GRAIN_FREE || order == CAV_GRAIN_PAIRS
      || box.x1 - box.x0 - 2.0 * inset < 8.0 || box.y1 - box.y0 < 6.0)
    return 0.0;
  cav_scene_add_line (self->scene, CAV_POINT (middle - 3.0 * sign, y),
                      CAV_POINT (middle + 2.0 * sign, y), CAV_STYLE_DIMENSION);
  cav_arrow_draw (self->scene, CAV_POINT (middle + 3.5 * sign, y), sign, 0.0);
  return 1.6;
}

/* A stripe along the outer edge. */
static void
draw_flag (const CavBoardPicture *self, const CavPlacedPiece *piece, CavBox box)
{
  const CavStop stop = { .colour = cav_piece_get_colour (self->layout, piece) };
  const double height = MIN (FLAG, 0.3 * (box.y1 - box.y0));
  const CavPoint corners[] = { { box.x0, box.y0 },
                               { box.x1, box.y0 },
                               { box.x1 - height, box.y0 + height },
                               { box.x0 + height, box.y0 + height } };

  if (piece->kind == CAV_PIECE_RAIL && box.x1 - box.x0 > 4.0 * height)
    cav_scene_add_gradient (self->scene, corners, 4, corners[0], corners[1], &stop, 1);
}

static void
draw_piece (const CavBoardPicture *self, int strip, const CavPlacedPiece *piece)
{
  const CavBox box = cav_board_picture_get_box (self, strip, piece->from, piece->length);
  const double inset
      = MIN ((box.y1 - box.y0) * tan (CAV_RADIANS (piece->mitre)), 0.5 * (box.x1 - box.x0));
  const CavPoint corners[] = {
    { box.x0, box.y0 },
    { box.x1, box.y0 },
    { box.x1 - inset, box.y1 },
    { box.x0 + inset, box.y1 },
  };

  cav_scene_add_polygon (self->scene, corners, 4, CAV_STYLE_WOOD);
  draw_grain (self, box, inset, piece->number);
  draw_flag (self, piece, box);
  cav_board_picture_draw_label (self, piece, box, inset, draw_direction (self, piece, box, inset));
  cav_scene_add_polygon (self->scene, corners, 4,
                         piece->stick == self->chosen ? CAV_STYLE_TABLE : CAV_STYLE_SHAPE);
  /* A nail holds what the user has put there. */
  if (piece->pinned)
    cav_scene_add_box (
        self->scene,
        cav_box (box.x0 + inset + 0.8, box.y0 + 0.7, box.x0 + inset + 2.0, box.y0 + 1.9),
        CAV_STYLE_BADGE);
}

/* (transfer full) How long, and what for. */
static char *
describe_offcut (const CavBoardPicture *self, int strip, const CavStretch *rest)
{
  g_autofree char *length = cav_length_format (floor (rest->to - rest->from), self->unit, 16);
  const CavLaidBoard *board = cav_board_picture_get_board (self);

  return cav_offcut_dup_words (
      cav_board_layout_judge_offcut (self->layout, g_ptr_array_index (board->strips, strip), rest),
      length);
}

static void
draw_offcut (const CavBoardPicture *self, int strip, const CavStretch *rest)
{
  static const CavTextStyle words
      = { .height = WORDS, .ink = CAV_INK_GREY, .align = CAV_ALIGN_MIDDLE };
  const CavBox box = cav_board_picture_get_box (self, strip, rest->from, rest->to - rest->from);
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  g_autofree char *length = cav_length_format (floor (rest->to - rest->from), self->unit, 16);
  g_autofree char *whole = describe_offcut (self, strip, rest);
  const double room = box.x1 - box.x0 - 2.0;
  const char *text
      = cav_lettering_get_width (lettering, whole, WORDS, FALSE) < room ? whole : length;

  cav_scene_add_box (self->scene, box, CAV_STYLE_PAPER);
  cav_scene_add_box (self->scene, cav_box_grow (box, -0.2), CAV_STYLE_TAB);
  if (cav_lettering_get_width (lettering, text, WORDS, FALSE) < room
      && box.y1 - box.y0 > WORDS + 0.8)
    cav_scene_add_text (
        self->scene, text,
        CAV_POINT ((box.x0 + box.x1) / 2.0, (box.y0 + box.y1 + WORDS) / 2.0 - DESCENT), &words);
}

static void
draw_strip (const CavBoardPicture *self, int index)
{
  const CavLaidStrip *strip = g_ptr_array_index (cav_board_picture_get_board (self)->strips, index);
  const CavLane *lane;

  if (self->face.layer >= (int)strip->lanes->len)
    return;
  /* As it could be ripped. */
  if (self->face.is_idle)
    cav_scene_add_box (self->scene,
                       cav_board_picture_get_box (
                           self, index, 0.0, cav_board_picture_get_board (self)->board->length),
                       CAV_STYLE_TAB);
  lane = g_ptr_array_index (strip->lanes, self->face.layer);
  for (guint i = 0; i < lane->offcuts->len; i++)
    draw_offcut (self, index, &g_array_index (lane->offcuts, CavStretch, i));
  for (guint i = 0; i < lane->pieces->len; i++)
    draw_piece (self, index, &g_array_index (lane->pieces, CavPlacedPiece, i));
}

static void
draw_face (CavBoardPicture *self)
{
  const CavLaidBoard *board = cav_board_picture_get_board (self);

  draw_caption (self);
  draw_ground (self);
  for (guint s = 0; s < board->strips->len; s++)
    draw_strip (self, (int)s);
  draw_defects (self);
  cav_scene_add_box (self->scene, self->face.box,
                     self->face.is_idle ? CAV_STYLE_SHAPE : CAV_STYLE_OUTLINE);
  cav_board_picture_draw_outer_labels (self);
}

void
cav_board_map_draw (const CavBoardMap *map,
                    const CavBoardLayout *layout,
                    CavScene *scene,
                    guint first,
                    guint last,
                    double top,
                    CavUnit unit,
                    int chosen)
{
  g_return_if_fail (map != NULL && layout != NULL && scene != NULL);
  g_return_if_fail (last <= map->faces->len);

  for (guint f = first; f < last; f++)
    {
      CavBoardPicture picture = { .map = map,
                                  .layout = layout,
                                  .scene = scene,
                                  .unit = unit,
                                  .chosen = chosen,
                                  .face_index = f,
                                  .face = g_array_index (map->faces, CavBoardFace, f) };

      picture.moved = top - (map->height - cav_board_map_get_height (map, first, map->faces->len));
      picture.face.caption += picture.moved;
      picture.face.box.y0 += picture.moved;
      picture.face.box.y1 += picture.moved;
      draw_face (&picture);
    }
}
