/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-board-map.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-board-private.h"
#include "drawing/cav-words-private.h"

#define CAPTION 5.0 /* from the top of a face to the board */
#define GAP 5.0     /* below it */
/* A board drawn larger than this looks larger than it is. */
#define SCALE_MAX 0.25
/* No board is drawn higher than this share of the drawing's width: it has to go on a page. */
#define HEIGHT_MAX 0.5

/* A page narrower than these has no room for a name and a size on one line, or for a size on one
 * line of its own: a small window whose letters are large. */
#define NARROW 140.0
#define NARROWEST 70.0

static double
get_caption_room (const CavBoardMap *map)
{
  return CAPTION + (map->caption_lines - 1) * CAV_BOARD_CAPTION_LINE;
}

static int
count_layers (const CavLaidBoard *board)
{
  int layers = 1;

  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      if (strip->used)
        layers = MAX (layers, (int)strip->lanes->len);
    }
  return layers;
}

/* Strips of a layer whose pieces are drawn too thin to hold their numbers. */
static int
count_thin (const CavLaidBoard *board, int layer, double scale)
{
  int thin = 0;

  for (guint s = 0; s < board->strips->len; s++)
    {
      const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

      thin += cav_board_strip_is_thin (strip, layer, scale);
    }
  return thin;
}

gboolean
cav_board_strip_is_thin (const CavLaidStrip *strip, int layer, double scale)
{
  return layer < (int)strip->lanes->len && strip->sawn.width * scale < CAV_BOARD_LABEL_ROOM
         && ((const CavLane *)g_ptr_array_index (strip->lanes, layer))->pieces->len > 0;
}

static void
add_faces (CavBoardMap *map, const CavLaidBoard *board, int index, gboolean is_idle)
{
  const int layers = count_layers (board);

  for (int layer = 0; layer < layers; layer++)
    {
      const int thin = count_thin (board, layer, map->scale);
      CavBoardFace face = { .board = index,
                            .layer = layer,
                            .layers = layers,
                            .is_idle = is_idle,
                            .rows_above = thin / 2,
                            .rows_below = thin - thin / 2 };
      const double top
          = map->height + get_caption_room (map) + face.rows_above * CAV_BOARD_LABEL_ROW;

      face.caption = map->height + CAPTION - 1.6;
      face.box = cav_box (0.0, top, board->board->length * map->scale,
                          top + board->board->width * map->scale);
      map->height = face.box.y1 + face.rows_below * CAV_BOARD_LABEL_ROW + GAP;
      g_array_append_val (map->faces, face);
    }
}

CavBoardMap *
cav_board_map_new (const CavBoardLayout *layout, double width, gboolean has_idle)
{
  g_return_val_if_fail (layout != NULL, NULL);
  g_return_val_if_fail (width > 0.0, NULL);

  CavBoardMap *map = g_new0 (CavBoardMap, 1);
  const guint used = layout->boards->len;
  const guint count = has_idle ? cav_board_layout_get_board_count (layout) : used;
  double longest = 1.0;
  double widest = 1.0;

  map->faces = g_array_new (FALSE, FALSE, sizeof (CavBoardFace));
  map->width = width;
  map->caption_lines = width < NARROWEST ? 3 : width < NARROW ? 2 : 1;
  for (guint b = 0; b < count; b++)
    {
      const CavBoard *board = cav_board_layout_get_board (layout, b)->board;

      longest = MAX (longest, board->length);
      widest = MAX (widest, board->width);
    }
  map->scale = MIN (MIN (width / longest, HEIGHT_MAX * width / widest), SCALE_MAX);
  for (guint b = 0; b < count; b++)
    add_faces (map, cav_board_layout_get_board (layout, b), (int)b, b >= used);
  return map;
}

void
cav_board_map_free (CavBoardMap *map)
{
  if (map == NULL)
    return;
  g_array_unref (map->faces);
  g_free (map);
}

void
cav_board_map_indent (CavBoardMap *map, double margin)
{
  g_return_if_fail (map != NULL);

  for (guint f = 0; f < map->faces->len; f++)
    {
      CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, f);

      face->box.x0 += margin;
      face->box.x1 += margin;
    }
}

double
cav_board_map_get_height (const CavBoardMap *map, guint first, guint last)
{
  g_return_val_if_fail (map != NULL && last <= map->faces->len, 0.0);

  if (first >= last)
    return 0.0;
  const CavBoardFace *begin = &g_array_index (map->faces, CavBoardFace, first);
  const CavBoardFace *end = &g_array_index (map->faces, CavBoardFace, last - 1);

  return end->box.y1 + end->rows_below * CAV_BOARD_LABEL_ROW + GAP
         - (begin->box.y0 - begin->rows_above * CAV_BOARD_LABEL_ROW - get_caption_room (map));
}

CavBox
cav_board_map_get_piece_box (const CavBoardMap *map,
                             const CavBoardLayout *layout,
                             guint face_index,
                             int strip_index,
                             double from,
                             double length)
{
  const CavBox nothing = cav_box (0, 0, 0, 0);

  g_return_val_if_fail (map != NULL && face_index < map->faces->len, nothing);

  const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, face_index);
  const CavLaidBoard *board = cav_board_layout_get_board (layout, (guint)face->board);
  const CavLaidStrip *strip = g_ptr_array_index (board->strips, strip_index);

  return cav_box (face->box.x0 + from * map->scale,
                  face->box.y1 - (strip->sawn.low + strip->sawn.width) * map->scale,
                  face->box.x0 + (from + length) * map->scale,
                  face->box.y1 - strip->sawn.low * map->scale);
}

static gboolean
contains (CavBox box, CavPoint point)
{
  return point.x >= box.x0 && point.x <= box.x1 && point.y >= box.y0 && point.y <= box.y1;
}

static const CavPlacedPiece *
find_piece (const CavLane *lane, double at)
{
  for (guint i = 0; i < lane->pieces->len; i++)
    {
      const CavPlacedPiece *piece = &g_array_index (lane->pieces, CavPlacedPiece, i);

      if (at >= piece->from && at <= piece->from + piece->length)
        return piece;
    }
  return NULL;
}

gboolean
cav_board_map_hit (const CavBoardMap *map,
                   const CavBoardLayout *layout,
                   CavPoint point,
                   CavBoardHit *out_hit)
{
  g_return_val_if_fail (map != NULL && layout != NULL && out_hit != NULL, FALSE);

  for (guint f = 0; f < map->faces->len; f++)
    {
      const CavBoardFace *face = &g_array_index (map->faces, CavBoardFace, f);
      const CavLaidBoard *board = cav_board_layout_get_board (layout, (guint)face->board);

      for (guint s = 0; contains (face->box, point) && s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);
          const CavBox box
              = cav_board_map_get_piece_box (map, layout, f, (int)s, 0.0, board->board->length);
          const double at = (point.x - face->box.x0) / map->scale;

          if (face->layer >= (int)strip->lanes->len || !contains (box, point))
            continue;
          *out_hit = (CavBoardHit){
            .board = face->board,
            .strip = (int)s,
            .layer = face->layer,
            .at = at,
            .piece = find_piece (g_ptr_array_index (strip->lanes, face->layer), at),
          };
          return TRUE;
        }
    }
  return FALSE;
}

/* Told apart with any colour vision: M. Okabe and K. Ito, "Color Universal Design", 2008; without
 * their black and their yellow, which is too pale on paper. */
CavColour
cav_piece_get_colour (const CavBoardLayout *layout, const CavPlacedPiece *piece)
{
  static const CavColour colours[] = { { 0, 114, 178 },   { 230, 159, 0 },  { 0, 158, 115 },
                                       { 204, 121, 167 }, { 86, 180, 233 }, { 213, 94, 0 } };

  g_return_val_if_fail (layout != NULL && piece != NULL, colours[0]);

  const int index = layout->jobs->len > 1 ? piece->job : MAX (piece->rail, 0);
  return colours[index % (int)G_N_ELEMENTS (colours)];
}

char *
cav_piece_dup_label (const CavBoardLayout *layout, const CavPlacedPiece *piece)
{
  const CavBoardJob *job;
  const char *word;
  g_autofree char *rail = NULL;

  g_return_val_if_fail (layout != NULL && piece != NULL, NULL);

  job = g_ptr_array_index (layout->jobs, piece->job);
  switch (piece->kind)
    {
    case CAV_PIECE_SPARE:
      return g_strdup (C_ ("piece", "spare"));
    case CAV_PIECE_TEST:
      return g_strdup (C_ ("piece", "test"));
    case CAV_PIECE_RAIL:
      break;
    }
  word = job->mitre > 0.0 ? cav_words_get_rail (piece->rail, job->n_rails) : NULL;
  rail = word != NULL ? g_strdup (word)
                      : g_strdup_printf (C_ ("rail of a frame", "rail %d"), piece->rail + 1);
  if (layout->jobs->len > 1 && job->name[0] != '\0')
    return g_strdup_printf ("%s, %s %d", rail, job->name, piece->frame + 1);
  return job->frames > 1 ? g_strdup_printf (/* Translators: “top, frame 2”. */ _ ("%s, frame %d"),
                                            rail, piece->frame + 1)
                         : g_steal_pointer (&rail);
}
