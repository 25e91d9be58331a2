/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-tool-outline.h"

#include <math.h>

#include "drawing/cav-scene.h"
#include "drawing/cav-trace.h"

/* Millimetres of the tool. */
#define SHANK_SHOWN 9.0  /* of a cutter's shank, below the cutting part */
#define CROWN_SHOWN 24.0 /* of a blade, from its crown down */
#define TOOTH 7.0        /* height of the part that is as wide as the kerf */
#define BODY_SHARE 0.66  /* of the kerf, of the blade's body below its teeth */
#define BREAK 1.2        /* how far a broken end waves */
/* Of a shank that nobody measured: the two common sizes (common practice, no source). */
#define SHANK_SMALL 6.35
#define SHANK_LARGE 12.7
#define SHANK_SMALL_UP_TO 20.0 /* greatest diameter of a cutter on the small one */

/* Units of the context. */
#define LINE 1.3
#define THIN_LINE 1.0

/* Tones of the one colour. */
#define TONE_BODY 0.22
#define TONE_SHANK 0.08
#define TONE_AXIS 0.55

static double
get_shank (const CavCutter *cutter)
{
  if (cutter->shank > 0.0)
    return cutter->shank;
  return 2.0 * cav_cutter_get_greatest_radius (cutter) <= SHANK_SMALL_UP_TO ? SHANK_SMALL
                                                                            : SHANK_LARGE;
}

CavBox
cav_cutter_get_picture_box (const CavCutter *cutter)
{
  double half;
  double top;

  g_return_val_if_fail (cutter != NULL, cav_box (0, 0, 0, 0));

  half = fmax (cav_cutter_get_greatest_radius (cutter), get_shank (cutter) / 2.0);
  half = fmax (half, cutter->pilot_radius);
  top = cutter->has_pilot ? -cutter->pilot_length : 0.0;
  return cav_box (-half, top, half, cutter->length + SHANK_SHOWN);
}

CavBox
cav_blade_get_picture_box (const CavBlade *blade)
{
  g_return_val_if_fail (blade != NULL, cav_box (0, 0, 0, 0));

  return cav_box (-blade->kerf / 2.0, 0.0, blade->kerf / 2.0, CROWN_SHOWN);
}

static void
append_all (CavPath *path, const CavPath *other)
{
  for (guint i = 0; i < cav_path_get_segment_count (other); i++)
    cav_path_append (path, cav_path_get_segment (other, i));
}

CavPath *
cav_cutter_create_picture_path (const CavCutter *cutter)
{
  /* The outline's x is the radius and its y runs up; the picture's y runs down. */
  const CavTransform right_side = cav_transform_scale (1, -1);
  const CavTransform left_side = cav_transform_scale (-1, -1);
  g_autoptr (CavPath) right = NULL;
  g_autoptr (CavPath) left = NULL;
  g_autoptr (CavPath) back = NULL;
  CavPath *path = cav_path_new ();

  g_return_val_if_fail (cutter != NULL, path);

  right = cav_path_transformed (cutter->outline, right_side);
  left = cav_path_transformed (cutter->outline, left_side);
  back = cav_path_reversed (left);
  cav_path_move_to (path, cav_path_get_start (right));
  append_all (path, right);
  cav_path_line_to (path, cav_path_get_start (back));
  append_all (path, back);
  cav_path_close (path);
  return path;
}

/* A flat tooth is a box. Of alternate bevels two teeth are seen, one behind the other: together
 * they show a shallow roof upside down, high at either side. */
CavPath *
cav_blade_create_picture_path (const CavBlade *blade)
{
  double half;
  double body;
  double dip;
  CavPath *path = cav_path_new ();

  g_return_val_if_fail (blade != NULL, path);

  half = blade->kerf / 2.0;
  body = half * BODY_SHARE;
  dip = blade->grind == CAV_GRIND_ALTERNATE ? fmin (half * 0.7, TOOTH / 2.0) : 0.0;
  cav_path_move_to (path, CAV_POINT (-half, 0));
  cav_path_line_to (path, CAV_POINT (0, dip));
  cav_path_line_to (path, CAV_POINT (half, 0));
  cav_path_line_to (path, CAV_POINT (half, TOOTH));
  cav_path_line_to (path, CAV_POINT (body, TOOTH));
  cav_path_line_to (path, CAV_POINT (body, CROWN_SHOWN));
  cav_path_line_to (path, CAV_POINT (-body, CROWN_SHOWN));
  cav_path_line_to (path, CAV_POINT (-body, TOOTH));
  cav_path_line_to (path, CAV_POINT (-half, TOOTH));
  cav_path_close (path);
  return path;
}

static void
set_tone (cairo_t *cr, const CavToolLook *look, double tone)
{
  cairo_set_source_rgba (cr, look->red, look->green, look->blue, tone);
}

/* Fills and strokes the current path, whose lines keep their width at every scale. */
static void
paint (cairo_t *cr, const CavToolLook *look, double tone, double line)
{
  set_tone (cr, look, tone);
  cairo_fill_preserve (cr);
  set_tone (cr, look, 1.0);
  cairo_set_line_width (cr, line / look->scale);
  cairo_stroke (cr);
}

/* A part that goes on beyond the picture: its lower end is a wave, as of a broken rod. */
static void
paint_broken (
    cairo_t *cr, const CavToolLook *look, double half, double top, double bottom, double tone)
{
  cairo_move_to (cr, -half, bottom);
  cairo_line_to (cr, -half, top);
  cairo_line_to (cr, half, top);
  cairo_line_to (cr, half, bottom);
  cairo_curve_to (cr, half / 2, bottom - 2 * BREAK, half / 2, bottom - 2 * BREAK, 0,
                  bottom - BREAK);
  cairo_curve_to (cr, -half / 2, bottom, -half / 2, bottom, -half, bottom - BREAK);
  cairo_close_path (cr);
  paint (cr, look, tone, THIN_LINE);
}

/* A bearing by its sign on machine drawings: a box with its diagonals. */
static void
paint_bearing (cairo_t *cr, const CavToolLook *look, const CavCutter *cutter)
{
  double half = cutter->pilot_radius;
  double top = -cutter->pilot_length;

  cairo_rectangle (cr, -half, top, 2 * half, cutter->pilot_length);
  paint (cr, look, TONE_SHANK, THIN_LINE);
  cairo_move_to (cr, -half, top);
  cairo_line_to (cr, half, 0);
  cairo_move_to (cr, half, top);
  cairo_line_to (cr, -half, 0);
  cairo_stroke (cr);
}

/* Dash and dot, as axes are drawn. */
static void
paint_axis (cairo_t *cr, const CavToolLook *look, double top, double bottom)
{
  double unit = 1 / look->scale;
  const double dashes[] = { 6 * unit, 2 * unit, 1 * unit, 2 * unit };

  cairo_save (cr);
  set_tone (cr, look, TONE_AXIS);
  cairo_set_line_width (cr, THIN_LINE * unit);
  cairo_set_dash (cr, dashes, G_N_ELEMENTS (dashes), 0);
  cairo_move_to (cr, 0, top);
  cairo_line_to (cr, 0, bottom);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
begin (cairo_t *cr, const CavToolLook *look)
{
  cairo_save (cr);
  cairo_scale (cr, look->scale, look->scale);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_new_path (cr);
}

void
cav_cutter_draw_picture (cairo_t *cr, const CavCutter *cutter, const CavToolLook *look)
{
  g_autoptr (CavPath) path = NULL;
  CavBox box;

  g_return_if_fail (cr != NULL && cutter != NULL && look != NULL && look->scale > 0.0);

  path = cav_cutter_create_picture_path (cutter);
  box = cav_cutter_get_picture_box (cutter);
  begin (cr, look);
  paint_broken (cr, look, get_shank (cutter) / 2.0, cutter->length, box.y1, TONE_SHANK);
  if (cutter->has_pilot)
    paint_bearing (cr, look, cutter);
  cav_path_trace (cr, path);
  paint (cr, look, TONE_BODY, LINE);
  paint_axis (cr, look, box.y0, box.y1);
  cairo_restore (cr);
}

void
cav_blade_draw_picture (cairo_t *cr, const CavBlade *blade, const CavToolLook *look)
{
  g_autoptr (CavPath) path = NULL;

  g_return_if_fail (cr != NULL && blade != NULL && look != NULL && look->scale > 0.0);

  path = cav_blade_create_picture_path (blade);
  begin (cr, look);
  cav_path_trace (cr, path);
  paint (cr, look, TONE_BODY, LINE);
  cairo_restore (cr);
}
