/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-handle-mark-private.h"

#include <math.h>

/* Pixels. */
#define HALF 7.5 /* from the middle to an arrow's tip */
#define HEAD 5.0 /* length of an arrowhead */
#define WIDE 4.2 /* half its breadth */
#define DIAMOND 6.0
#define SQUARE 4.5
#define DISC 4.0
#define RING 12.0
#define GROWN 1.2

static void
add_point (cairo_t *cr, double x, double y, double dx, double dy)
{
  cairo_line_to (cr, x * dx - y * dy, x * dy + y * dx);
}

/* Two arrowheads with a thin neck, along (dx, dy), about the origin. */
static void
add_double_arrow (cairo_t *cr, double dx, double dy)
{
  const double neck = 1.4;
  const double outline[][2] = { { HALF, 0 },
                                { HALF - HEAD, WIDE },
                                { HALF - HEAD, neck },
                                { HEAD - HALF, neck },
                                { HEAD - HALF, WIDE },
                                { -HALF, 0 },
                                { HEAD - HALF, -WIDE },
                                { HEAD - HALF, -neck },
                                { HALF - HEAD, -neck },
                                { HALF - HEAD, -WIDE } };

  cairo_new_sub_path (cr);
  for (guint i = 0; i < G_N_ELEMENTS (outline); i++)
    add_point (cr, outline[i][0], outline[i][1], dx, dy);
  cairo_close_path (cr);
}

/* Four arrowheads and their necks in one outline. */
static void
add_cross_arrow (cairo_t *cr)
{
  const double neck = 1.3;
  const double half = HALF + 0.5;
  const double head = 3.6;
  const double wide = 3.4;
  const double quarter[][2] = { { neck, neck }, { half - head, neck },  { half - head, wide },
                                { half, 0 },    { half - head, -wide }, { half - head, -neck } };

  cairo_new_sub_path (cr);
  for (int turn = 0; turn < 4; turn++)
    for (guint i = 0; i < G_N_ELEMENTS (quarter); i++)
      {
        double dx = turn == 0 ? 1 : turn == 2 ? -1 : 0;
        double dy = turn == 1 ? -1 : turn == 3 ? 1 : 0;

        add_point (cr, quarter[i][0], quarter[i][1], dx, dy);
      }
  cairo_close_path (cr);
}

static void
add_shape (cairo_t *cr, const CavHandle *handle)
{
  switch (handle->kind)
    {
    case CAV_HANDLE_MOVE:
      add_cross_arrow (cr);
      break;
    case CAV_HANDLE_NUMBER:
      /* Pixels run down. */
      add_double_arrow (cr, handle->direction.x, -handle->direction.y);
      break;
    case CAV_HANDLE_SIZE:
      cairo_move_to (cr, 0, -DIAMOND);
      cairo_line_to (cr, DIAMOND, 0);
      cairo_line_to (cr, 0, DIAMOND);
      cairo_line_to (cr, -DIAMOND, 0);
      cairo_close_path (cr);
      break;
    case CAV_HANDLE_POINT:
      cairo_rectangle (cr, -SQUARE, -SQUARE, 2 * SQUARE, 2 * SQUARE);
      break;
    case CAV_HANDLE_BULGE:
      cairo_arc (cr, 0, 0, DISC, 0, 2 * G_PI);
      break;
    }
}

void
cav_handle_mark_draw (CavPen *pen, const CavHandle *handle, CavPoint at, guint state)
{
  cairo_t *cr = pen->cr;
  gboolean filled = (state & (CAV_HANDLE_MARK_HOVERED | CAV_HANDLE_MARK_HELD)) != 0;
  double size = state & CAV_HANDLE_MARK_HELD ? GROWN : 1;

  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  cairo_scale (cr, size, size);
  cairo_new_path (cr);
  add_shape (cr, handle);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  /* A halo keeps the shape apart from whatever it lies on. */
  cav_pen_set_tone (pen, CAV_TONE_HANDLE, 0.9);
  cairo_set_line_width (cr, 4.5);
  cairo_stroke_preserve (cr);
  cav_pen_set_tone (pen, filled ? CAV_TONE_PENCIL : CAV_TONE_HANDLE, 1);
  cairo_fill_preserve (cr);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  cairo_set_line_width (cr, 1.5);
  cairo_stroke (cr);
  if (state & CAV_HANDLE_MARK_FOCUSED)
    {
      static const double dashes[] = { 3, 2 };

      cairo_arc (cr, 0, 0, RING, 0, 2 * G_PI);
      cairo_set_dash (cr, dashes, 2, 0);
      cairo_stroke (cr);
    }
  cairo_restore (cr);
}
