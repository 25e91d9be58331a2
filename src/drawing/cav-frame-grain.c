/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-grain.h"

#include <pango/pangocairo.h>
#include <string.h>

#include "drawing/cav-board-map.h"
#include "drawing/cav-frame-face.h"
#include "drawing/cav-palette.h"

/* Boards are of different trees: so far apart that no figure comes twice. */
#define TREE 9000.0
/* Discs, pixels. */
#define RADIUS 13.0
#define FIGURE_POINTS 11

static double
get_long_point (const CavFrame *frame, int rail)
{
  return frame->rails.groups[frame->rails.n_groups == 2 ? rail % 2 : 0].long_point;
}

void
cav_frame_grain_init (CavFrameGrain *grain, const CavFrame *frame)
{
  double at = 0.0;

  g_return_if_fail (grain != NULL && frame != NULL);

  /* All of it, so that two can be compared. */
  memset (grain, 0, sizeof *grain);
  for (int i = 0; i < MIN (frame->settings.sides, CAV_FRAME_SIDES_MAX); i++)
    {
      grain->rails[i].start = at;
      at += get_long_point (frame, i);
    }
}

/* Leaves of a book show the two faces of one cut: they lie on either side of it, a kerf apart, and
 * the upper one is turned over end for end. */
static void
place_layer (CavRailGrain *rail, const CavBoardJob *job, const CavLaidStrip *strip, int layer)
{
  const gboolean is_book = cav_stick_get_order (job) == CAV_GRAIN_BOOK && strip->lanes->len > 1;

  rail->turned = is_book && layer % 2 == 0;
  rail->up = (is_book ? layer / 2 * 2 : layer) * -(job->thickness + 3.0);
  if (is_book)
    rail->up += rail->turned ? job->thickness + 3.0 : -job->thickness;
}

static void
place_piece (CavFrameGrain *grain,
             const CavBoardLayout *layout,
             guint board,
             const CavLaidStrip *strip,
             int layer,
             const CavPlacedPiece *piece)
{
  CavRailGrain *rail = &grain->rails[piece->rail];

  grain->has_boards = TRUE;
  rail->start = board * TREE + piece->from + 0.5 * piece->length;
  rail->reversed = piece->reversed;
  rail->low = strip->sawn.low;
  rail->number = piece->number;
  rail->colour = cav_piece_get_colour (layout, piece);
  place_layer (rail, g_ptr_array_index (layout->jobs, 0), strip, layer);
}

static gboolean
is_wanted (const CavPlacedPiece *piece, int frame)
{
  return piece->kind == CAV_PIECE_RAIL && piece->job == 0 && piece->frame == frame
         && piece->rail >= 0 && piece->rail < CAV_FRAME_SIDES_MAX;
}

void
cav_frame_grain_place (CavFrameGrain *grain, const CavBoardLayout *layout, int frame)
{
  g_return_if_fail (grain != NULL);

  for (guint b = 0; layout != NULL && b < layout->boards->len; b++)
    {
      const CavLaidBoard *board = g_ptr_array_index (layout->boards, b);

      for (guint s = 0; s < board->strips->len; s++)
        {
          const CavLaidStrip *strip = g_ptr_array_index (board->strips, s);

          for (guint l = 0; l < strip->lanes->len; l++)
            {
              const GArray *pieces = ((const CavLane *)g_ptr_array_index (strip->lanes, l))->pieces;

              for (guint i = 0; i < pieces->len; i++)
                if (is_wanted (&g_array_index (pieces, CavPlacedPiece, i), frame))
                  place_piece (grain, layout, b, strip, (int)l,
                               &g_array_index (pieces, CavPlacedPiece, i));
            }
        }
    }
}

/* Figures, black or white, whichever is read better; a pale and a dark rim are seen on any wood. */
static void
draw_disc (cairo_t *cr, PangoLayout *text, const CavRailGrain *rail, double x, double y)
{
  static const CavColour black = { 0, 0, 0 };
  static const CavColour white = { 255, 255, 255 };
  const CavColour ink = cav_colour_get_contrast (rail->colour, black)
                                > cav_colour_get_contrast (rail->colour, white)
                            ? black
                            : white;
  g_autofree char *number = g_strdup_printf ("%d", rail->number);
  int width;
  int height;

  /* Text leaves a current point, from which the arc would draw a line. */
  cairo_new_path (cr);
  cairo_arc (cr, x, y, RADIUS, 0, 2 * G_PI);
  cairo_set_source_rgb (cr, rail->colour.red / 255.0, rail->colour.green / 255.0,
                        rail->colour.blue / 255.0);
  cairo_fill_preserve (cr);
  cairo_set_source_rgb (cr, 0.1, 0.1, 0.1);
  cairo_set_line_width (cr, 4.0);
  cairo_stroke_preserve (cr);
  cairo_set_source_rgb (cr, 1.0, 1.0, 1.0);
  cairo_set_line_width (cr, 2.0);
  cairo_stroke (cr);
  pango_layout_set_text (text, number, -1);
  pango_layout_get_pixel_size (text, &width, &height);
  cairo_move_to (cr, x - width / 2.0, y - height / 2.0);
  cairo_set_source_rgb (cr, ink.red / 255.0, ink.green / 255.0, ink.blue / 255.0);
  pango_cairo_show_layout (cr, text);
  cairo_new_path (cr);
}

void
cav_frame_grain_draw_numbers (const CavFrameGrain *grain,
                              const CavFrame *frame,
                              cairo_t *cr,
                              double scale)
{
  CavFrameFace face;
  g_autoptr (PangoLayout) text = NULL;
  PangoFontDescription *font;

  g_return_if_fail (grain != NULL && frame != NULL && cr != NULL);

  if (!frame->possible)
    return;
  cav_frame_face_init (&face, frame->settings.sides, frame->sizes.outside);
  text = pango_cairo_create_layout (cr);
  font = pango_font_description_new ();
  pango_font_description_set_family_static (font, "Sans");
  pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_font_description_set_size (font, FIGURE_POINTS * PANGO_SCALE);
  pango_layout_set_font_description (text, font);
  pango_font_description_free (font);
  for (int i = 0; i < face.sides; i++)
    {
      const double depth = face.reach[i] - 0.5 * frame->sizes.molding;

      if (grain->rails[i].number > 0)
        draw_disc (cr, text, &grain->rails[i], face.across[i].x * depth * scale,
                   face.across[i].y * depth * scale);
    }
}
