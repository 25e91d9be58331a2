/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <pango/pangocairo.h>

#include "drawing/cav-grain.h"
#include "geometry/cav-region.h"

G_BEGIN_DECLS

/*
 * Drawing on a screen: units are the window's pixels, of which the device may have several. Lines
 * along x or y are put onto whole device pixels, so that they are as thin as they say.
 */
typedef struct
{
  cairo_t *cr;
  CavLight light;
  double device;  /* device pixels to a unit, 1 or more */
  double letters; /* how many times as large as usual */
  PangoLayout *layout;
} CavPen;

/* Letters by the size of the font (its em), units, where they are as large as usual. */
#define CAV_PEN_RULER 10.0
#define CAV_PEN_SMALL 11.0
#define CAV_PEN_USUAL 12.5
#define CAV_PEN_FIGURE 15.0

typedef enum
{
  CAV_PEN_START,
  CAV_PEN_MIDDLE,
  CAV_PEN_END,
} CavPenAlign;

typedef struct
{
  double size;
  CavTone tone;
  gboolean bold;
  CavPenAlign x;   /* of the point: at the text's left, middle or right */
  CavPenAlign y;   /* top, middle or foot */
  gboolean turned; /* reads from bottom to top; x and y are those of the page */
  gboolean plated; /* on a plate with a thin edge in the text's tone */
  double broken;   /* lines are broken at this width, units; 0 where they are not */
} CavPenText;

void cav_pen_begin (CavPen *pen, cairo_t *cr, const CavPane *pane);
void cav_pen_end (CavPen *pen);

void cav_pen_set_tone (CavPen *pen, CavTone tone, double alpha);
/* The coordinate nearest to value on which a line of that width covers whole device pixels. */
double cav_pen_snap (const CavPen *pen, double value, double width);
/* A line along x or y. */
void cav_pen_add_level_line (CavPen *pen, double x0, double x1, double y, double width);
void cav_pen_add_upright_line (CavPen *pen, double x, double y0, double y1, double width);
void cav_pen_add_box (CavPen *pen, CavBox box, double width);
/* Lines at 45 degrees, the way a hatched section has them, over what is clipped to. */
void cav_pen_hatch (CavPen *pen, CavBox box, double spacing, double width);

/* The box that a text takes, with its plate where it has one. */
CavBox cav_pen_get_text_box (CavPen *pen, const char *text, CavPoint at, const CavPenText *style);
void cav_pen_draw_text (CavPen *pen, const char *text, CavPoint at, const CavPenText *style);

G_END_DECLS
