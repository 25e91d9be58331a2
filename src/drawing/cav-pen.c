/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pen-private.h"

#include <math.h>

#include "drawing/cav-lettering.h"

/* Between a text and the edge of its plate. */
#define PLATE_X 5.0
#define PLATE_Y 2.0
#define PLATE_RADIUS 3.0

void
cav_pen_begin (CavPen *pen, cairo_t *cr, const CavPane *pane)
{
  PangoContext *context;

  *pen = (CavPen){ .cr = cr,
                   .light = pane->light,
                   .device = fmax (pane->device, 1),
                   .letters = cav_pane_get_letters (pane) };
  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  pen->layout = pango_cairo_create_layout (cr);
  context = pango_layout_get_context (pen->layout);
  pango_cairo_context_set_resolution (context, 72);
}

void
cav_pen_end (CavPen *pen)
{
  g_clear_object (&pen->layout);
  cairo_restore (pen->cr);
}

void
cav_pen_set_tone (CavPen *pen, CavTone tone, double alpha)
{
  CavColour colour = cav_tone_get_colour (tone, pen->light);

  cairo_set_source_rgba (pen->cr, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0,
                         alpha);
}

double
cav_pen_snap (const CavPen *pen, double value, double width)
{
  double dots = fmax (round (width * pen->device), 1);
  double shift = fmod (dots, 2) > 0.5 ? 0.5 : 0;

  return (round (value * pen->device - shift) + shift) / pen->device;
}

void
cav_pen_add_level_line (CavPen *pen, double x0, double x1, double y, double width)
{
  double at = cav_pen_snap (pen, y, width);

  cairo_move_to (pen->cr, x0, at);
  cairo_line_to (pen->cr, x1, at);
}

void
cav_pen_add_upright_line (CavPen *pen, double x, double y0, double y1, double width)
{
  double at = cav_pen_snap (pen, x, width);

  cairo_move_to (pen->cr, at, y0);
  cairo_line_to (pen->cr, at, y1);
}

void
cav_pen_add_box (CavPen *pen, CavBox box, double width)
{
  double x0 = cav_pen_snap (pen, box.x0, width);
  double y0 = cav_pen_snap (pen, box.y0, width);

  cairo_rectangle (pen->cr, x0, y0, cav_pen_snap (pen, box.x1, width) - x0,
                   cav_pen_snap (pen, box.y1, width) - y0);
}

void
cav_pen_hatch (CavPen *pen, CavBox box, double spacing, double width)
{
  double height = box.y1 - box.y0;
  /* On a lattice of its own, so that the lines stay where they are while the box changes. */
  double first = floor ((box.x0 - height + box.y0) / spacing) * spacing - box.y0;

  cairo_set_line_width (pen->cr, width);
  for (double x = first; x < box.x1; x += spacing)
    {
      cairo_move_to (pen->cr, x, box.y1);
      cairo_line_to (pen->cr, x + height, box.y0);
    }
  cairo_stroke (pen->cr);
}

static void
set_text (CavPen *pen, const char *text, const CavPenText *style)
{
  PangoFontDescription *font = pango_font_description_new ();

  pango_font_description_set_family_static (font, CAV_LETTERING_FAMILY);
  pango_font_description_set_absolute_size (font, style->size * pen->letters * PANGO_SCALE);
  if (style->bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (pen->layout, font);
  pango_font_description_free (font);
  pango_layout_set_text (pen->layout, text, -1);
  /* Not wider than its longest line, so that a plate fits it. */
  pango_layout_set_width (pen->layout, -1);
  if (style->broken > 0)
    {
      int width;

      pango_layout_get_size (pen->layout, &width, NULL);
      if (width > style->broken * PANGO_SCALE)
        pango_layout_set_width (pen->layout, (int)(style->broken * PANGO_SCALE));
    }
}

static double
get_start (double at, double size, CavPenAlign align)
{
  return align == CAV_PEN_START ? at : align == CAV_PEN_MIDDLE ? at - size / 2 : at - size;
}

/* The text alone, from the top of its letters' line to its foot. */
static CavBox
get_bare_box (CavPen *pen, const char *text, CavPoint at, const CavPenText *style)
{
  PangoRectangle extent;
  double width;
  double height;
  CavBox box;

  set_text (pen, text, style);
  pango_layout_get_extents (pen->layout, NULL, &extent);
  width = (style->turned ? extent.height : extent.width) / (double)PANGO_SCALE;
  height = (style->turned ? extent.width : extent.height) / (double)PANGO_SCALE;
  box.x0 = get_start (at.x, width, style->x);
  box.y0 = get_start (at.y, height, style->y);
  box.x1 = box.x0 + width;
  box.y1 = box.y0 + height;
  return box;
}

CavBox
cav_pen_get_text_box (CavPen *pen, const char *text, CavPoint at, const CavPenText *style)
{
  CavBox box = get_bare_box (pen, text, at, style);

  if (style->plated)
    box = (CavBox){ box.x0 - PLATE_X, box.y0 - PLATE_Y, box.x1 + PLATE_X, box.y1 + PLATE_Y };
  return box;
}

static void
draw_plate (CavPen *pen, CavBox box, CavTone tone)
{
  cairo_t *cr = pen->cr;
  double x0 = cav_pen_snap (pen, box.x0 - PLATE_X, 1);
  double y0 = cav_pen_snap (pen, box.y0 - PLATE_Y, 1);
  double x1 = cav_pen_snap (pen, box.x1 + PLATE_X, 1);
  double y1 = cav_pen_snap (pen, box.y1 + PLATE_Y, 1);
  double r = PLATE_RADIUS;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x1 - r, y0 + r, r, -G_PI / 2, 0);
  cairo_arc (cr, x1 - r, y1 - r, r, 0, G_PI / 2);
  cairo_arc (cr, x0 + r, y1 - r, r, G_PI / 2, G_PI);
  cairo_arc (cr, x0 + r, y0 + r, r, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
  cav_pen_set_tone (pen, CAV_TONE_PLATE, 0.94);
  cairo_fill_preserve (cr);
  cav_pen_set_tone (pen, tone, 0.45);
  cairo_set_line_width (cr, 1);
  cairo_stroke (cr);
}

void
cav_pen_draw_text (CavPen *pen, const char *text, CavPoint at, const CavPenText *style)
{
  CavBox box = get_bare_box (pen, text, at, style);

  if (*text == '\0')
    return;
  if (style->plated)
    draw_plate (pen, box, style->tone);
  cav_pen_set_tone (pen, style->tone, 1);
  cairo_save (pen->cr);
  if (style->turned)
    {
      cairo_translate (pen->cr, box.x0, box.y1);
      cairo_rotate (pen->cr, -G_PI / 2);
    }
  else
    cairo_translate (pen->cr, round (box.x0 * pen->device) / pen->device,
                     round (box.y0 * pen->device) / pen->device);
  cairo_move_to (pen->cr, 0, 0);
  pango_cairo_update_layout (pen->cr, pen->layout);
  pango_cairo_show_layout (pen->cr, pen->layout);
  cairo_restore (pen->cr);
  /* Or the next arc would begin with a line from here. */
  cairo_new_path (pen->cr);
}
