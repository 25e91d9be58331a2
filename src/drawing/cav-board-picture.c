/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-board-map.h"
#include "drawing/cav-dimension.h"

#define HATCH 1.4
#define FIGURE 3.05 /* number of a piece */
#define WORDS 2.5
#define GRAIN_GAP 1.1

typedef struct
{
  const CavBoardMap *map;
  const CavBoardLayout *layout;
  CavScene *scene;
  CavUnit unit;
  int chosen;
  guint face_index;
  CavBoardFace face; /* moved to where it is drawn */
  double moved;
} Picture;

static const CavLaidBoard *
get_board (const Picture *self)
{
  return g_ptr_array_index (self->layout->boards, self->face.board);
}

static CavBox
get_box (const Picture *self, int strip, double from, double length)
{
  CavBox box = cav_board_map_get_piece_box (self->map, self->layout, self->face_index, strip, from,
                                            length);

  box.y0 += self->moved;
  box.y1 += self->moved;
  return box;
}

static void
draw_caption (const Picture *self)
{
  static const CavTextStyle bold = { .height = FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK };
  static const CavTextStyle plain = { .height = WORDS, .ink = CAV_INK_GREY };
  const CavLaidBoard *laid = get_board (self);
  const CavBoard *board = laid->board;
  g_autofree char *raw = cav_laid_board_dup_name (laid);
  g_autofree char *name = cav_lettering_clean (raw);
  g_autofree char *length = cav_length_format_bare (board->length, self->unit, 16);
  g_autofree char *width = cav_length_format_bare (board->width, self->unit, 16);
  g_autofree char *thickness = cav_length_format (board->thickness, self->unit, 16);
  g_autoptr (GString) more = g_string_new (NULL);
  const double room = self->map->width;
  const double at
      = cav_lettering_get_width (cav_scene_get_lettering (self->scene), name, FIGURE, TRUE);

  g_string_append_printf (more, board->planed ? _ ("%s × %s × %s, planed") : "%s × %s × %s", length,
                          width, thickness);
  if (self->face.layers > 1)
    g_string_append_printf (more, _ (", layer %d of %d"), self->face.layer + 1, self->face.layers);
  cav_scene_add_text_within (self->scene, name, CAV_POINT (self->face.box.x0, self->face.caption),
                             &bold, room * 0.5);
  cav_scene_add_text_within (
      self->scene, more->str,
      CAV_POINT (self->face.box.x0 + MIN (at, room * 0.5) + 3.0, self->face.caption), &plain,
      MAX (room - MIN (at, room * 0.5) - 3.0, 1.0));
}

/* Ends that are trimmed off, and what lies beside the strips, is waste. */
static void
draw_ground (const Picture *self)
{
  cav_scene_add_box (self->scene, self->face.box, CAV_STYLE_WASTE);
}

static void
draw_defects (const Picture *self)
{
  const CavBoard *board = get_board (self)->board;
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
draw_grain (const Picture *self, CavBox box, double inset, int seed)
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
draw_direction (const Picture *self, const CavPlacedPiece *piece, CavBox box, double inset)
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

/* Number and name, as large as the piece lets them be, on a plate so that the grain does not cross
 * the letters. */
static void
draw_label (
    const Picture *self, const CavPlacedPiece *piece, CavBox box, double inset, double below)
{
  static const CavTextStyle number = { .height = FIGURE, .bold = TRUE, .ink = CAV_INK_BLACK };
  static const CavTextStyle words = { .height = WORDS, .ink = CAV_INK_BLACK };
  CavLettering *lettering = cav_scene_get_lettering (self->scene);
  g_autofree char *figure = g_strdup_printf ("%d", piece->number);
  g_autofree char *label = cav_piece_dup_label (self->layout, piece);
  g_autofree char *name = cav_lettering_clean (label);
  const double figure_width = cav_lettering_get_width (lettering, figure, FIGURE, TRUE);
  const double name_width = cav_lettering_get_width (lettering, name, WORDS, FALSE);
  const double room = box.x1 - box.x0 - 2.0 * inset - 1.0;
  const double height = box.y1 - box.y0 - below;
  const gboolean both = figure_width + 2.0 + name_width < room;
  const double width = both ? figure_width + 2.0 + name_width : figure_width;
  const double x = (box.x0 + box.x1 - width) / 2.0;
  const double y = box.y0 + (height + FIGURE) / 2.0;

  if (height < FIGURE + 0.4 || figure_width > room + inset)
    return;
  cav_scene_add_box (self->scene, cav_box (x - 0.6, y - FIGURE - 0.3, x + width + 0.6, y + 0.5),
                     CAV_STYLE_WOOD);
  cav_scene_add_text (self->scene, figure, CAV_POINT (x, y), &number);
  if (both)
    cav_scene_add_text (self->scene, name, CAV_POINT (x + figure_width + 2.0, y), &words);
}

static void
draw_piece (const Picture *self, int strip, const CavPlacedPiece *piece)
{
  const CavBox box = get_box (self, strip, piece->from, piece->length);
  const double inset
      = MIN ((box.y1 - box.y0) * tan (piece->mitre * G_PI / 180.0), 0.5 * (box.x1 - box.x0));
  const CavPoint corners[] = {
    { box.x0, box.y0 },
    { box.x1, box.y0 },
    { box.x1 - inset, box.y1 },
    { box.x0 + inset, box.y1 },
  };

  cav_scene_add_polygon (self->scene, corners, 4, CAV_STYLE_WOOD);
  draw_grain (self, box, inset, piece->number);
  draw_label (self, piece, box, inset, draw_direction (self, piece, box, inset));
  cav_scene_add_polygon (self->scene, corners, 4,
                         piece->stick == self->chosen ? CAV_STYLE_TABLE : CAV_STYLE_SHAPE);
  /* A nail holds what the user has put there. */
  if (piece->pinned)
    cav_scene_add_box (
        self->scene,
        cav_box (box.x0 + inset + 0.8, box.y0 + 0.7, box.x0 + inset + 2.0, box.y0 + 1.9),
        CAV_STYLE_BADGE);
}

static void
draw_offcut (const Picture *self, int strip, const CavStretch *rest)
{
  static const CavTextStyle words
      = { .height = WORDS, .ink = CAV_INK_GREY, .align = CAV_ALIGN_MIDDLE };
  const CavBox box = get_box (self, strip, rest->from, rest->to - rest->from);
  g_autofree char *text = cav_length_format (floor (rest->to - rest->from), self->unit, 16);
  const double width
      = cav_lettering_get_width (cav_scene_get_lettering (self->scene), text, WORDS, FALSE);

  cav_scene_add_box (self->scene, box, CAV_STYLE_PAPER);
  cav_scene_add_box (self->scene, cav_box_grow (box, -0.2), CAV_STYLE_TAB);
  if (width < box.x1 - box.x0 - 2.0 && box.y1 - box.y0 > WORDS + 0.8)
    cav_scene_add_text (self->scene, text,
                        CAV_POINT ((box.x0 + box.x1) / 2.0, (box.y0 + box.y1 + WORDS) / 2.0),
                        &words);
}

static void
draw_strip (const Picture *self, int index)
{
  const CavLaidStrip *strip = g_ptr_array_index (get_board (self)->strips, index);
  const CavLane *lane;

  if (self->face.layer >= (int)strip->lanes->len)
    return;
  lane = g_ptr_array_index (strip->lanes, self->face.layer);
  for (guint i = 0; i < lane->offcuts->len; i++)
    draw_offcut (self, index, &g_array_index (lane->offcuts, CavStretch, i));
  for (guint i = 0; i < lane->pieces->len; i++)
    draw_piece (self, index, &g_array_index (lane->pieces, CavPlacedPiece, i));
}

static void
draw_face (Picture *self)
{
  const CavLaidBoard *board = get_board (self);

  draw_caption (self);
  draw_ground (self);
  for (guint s = 0; s < board->strips->len; s++)
    draw_strip (self, (int)s);
  draw_defects (self);
  cav_scene_add_box (self->scene, self->face.box, CAV_STYLE_OUTLINE);
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
      Picture picture = { .map = map,
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
