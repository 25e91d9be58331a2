/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-pane.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-pen-private.h"
#include "drawing/cav-ruler.h"
#include "drawing/cav-trace.h"

/* Pixels. */
#define OUTLINE 1.6
#define GLOW 3
#define HATCH 5.0
/* How far an outline, at its sharpest corner, and a glow reach beyond the blank. */
#define REACH 9.0
/* How far a sign reaches beyond post and place. */
#define MARK_REACH (1.3 * CAV_PANE_MARK + 4)
#define MARK_RISE 20.0 /* of a finding's mark over its place */
#define TICK_FINE 4.0
#define TICK_MIDDLE 7.0
#define TICK_COARSE 12.0

static CavBox
get_blank_box (const CavPane *pane, const CavBlank *blank)
{
  return cav_view_box_to_pixels (&pane->view, (CavBox){ 0, 0, blank->width, blank->thickness });
}

static CavBox
get_wider (CavBox box, double reach)
{
  return (CavBox){ box.x0 - reach, box.y0 - reach, box.x1 + reach, box.y1 + reach };
}

CavBox
cav_section_pane_get_area (const CavPane *pane, const CavSectionContent *content)
{
  CavBox area = get_wider (get_blank_box (pane, &content->blank), REACH);

  for (guint i = 0; content->findings != NULL && i < content->findings->len; i++)
    {
      CavPoint at;
      CavBox mark;

      if (!cav_section_pane_get_mark (pane, g_ptr_array_index (content->findings, i), &at))
        continue;
      mark = get_wider ((CavBox){ at.x, at.y, at.x, at.y + MARK_RISE }, MARK_REACH);
      area = (CavBox){ fmin (area.x0, mark.x0), fmin (area.y0, mark.y0), fmax (area.x1, mark.x1),
                       fmax (area.y1, mark.y1) };
    }
  return area;
}

/* Lines of what cr paints of the pane, and no longer than that. */
static void
add_grid (CavPen *pen, const CavPane *pane, double step, double skip)
{
  CavBox part;
  CavBox seen;
  gint64 every = skip > 0 ? (gint64)lround (skip / step) : G_MAXINT64;

  cairo_clip_extents (pen->cr, &part.x0, &part.y0, &part.x1, &part.y1);
  part = (CavBox){ fmax (part.x0, 0), fmax (part.y0, 0), fmin (part.x1, pane->width),
                   fmin (part.y1, pane->height) };
  seen = cav_view_box_to_wood (&pane->view, get_wider (part, 1));
  for (gint64 i = (gint64)ceil (seen.x0 / step); i * step <= seen.x1; i++)
    if (i % every != 0)
      cav_pen_add_upright_line (pen, pane->view.x + i * step * pane->view.scale, part.y0, part.y1,
                                1 / pen->device);
  for (gint64 i = (gint64)ceil (seen.y0 / step); i * step <= seen.y1; i++)
    if (i % every != 0)
      cav_pen_add_level_line (pen, part.x0, part.x1, pane->view.y - i * step * pane->view.scale,
                              1 / pen->device);
}

/* Larger letters need more room from one figure to the next. */
static CavRulerSteps
get_steps (const CavPane *pane, CavUnit unit)
{
  return cav_ruler_get_steps (unit, pane->view.scale / cav_pane_get_letters (pane));
}

double
cav_pane_get_ruler (const CavPane *pane)
{
  return round (CAV_PANE_RULER * cav_pane_get_letters (pane));
}

/* The fine grid fades in as one comes nearer. */
static void
draw_grid (CavPen *pen, const CavPane *pane, CavUnit unit)
{
  CavRulerSteps steps = get_steps (pane, unit);

  cairo_set_antialias (pen->cr, CAIRO_ANTIALIAS_NONE);
  cairo_set_line_width (pen->cr, 1 / pen->device);
  cav_pen_set_tone (pen, CAV_TONE_GRID, CLAMP ((steps.fine * pane->view.scale - 5) / 6, 0, 1));
  add_grid (pen, pane, steps.fine, steps.coarse);
  cairo_stroke (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_GRID_MAIN, 1);
  add_grid (pen, pane, steps.coarse, 0);
  cairo_stroke (pen->cr);
  cairo_set_antialias (pen->cr, CAIRO_ANTIALIAS_DEFAULT);
}

static void
draw_blank (CavPen *pen, CavBox box)
{
  cav_pen_add_box (pen, box, 1);
  cav_pen_set_tone (pen, CAV_TONE_WASTE, 0.86);
  cairo_fill_preserve (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_EDGE, 1);
  cairo_set_line_width (pen->cr, 1);
  cairo_stroke (pen->cr);
}

void
cav_section_pane_draw_ground (cairo_t *cr, const CavPane *pane, const CavSectionContent *content)
{
  CavBox box = get_blank_box (pane, &content->blank);
  CavPen pen;

  cav_pen_begin (&pen, cr, pane);
  cav_pen_set_tone (&pen, CAV_TONE_GROUND, 1);
  cairo_paint (cr);
  draw_grid (&pen, pane, content->unit);
  draw_blank (&pen, box);
  cav_pen_end (&pen);
}

static void
draw_profile (CavPen *pen,
              const CavPane *pane,
              const CavSectionContent *content,
              cairo_surface_t *grain)
{
  cairo_t *cr = pen->cr;

  cav_region_trace (cr, content->profile, cav_view_get_transform (&pane->view));
  if (grain != NULL)
    {
      cairo_set_source_surface (cr, grain, 0, 0);
      cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_NEAREST);
    }
  else
    cav_pen_set_tone (pen, CAV_TONE_WOOD, 1);
  cairo_fill (cr);
  /* A mitre of the line is at most ten times as long as the line is wide. */
  cav_region_trace_shown (cr, content->profile, cav_view_get_transform (&pane->view), 10 * OUTLINE);
  cav_pen_set_tone (pen, CAV_TONE_OUTLINE, 1);
  cairo_set_line_width (cr, OUTLINE);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_stroke (cr);
}

/* A glow around it, a hatch over it and a firm line: seen in every light and by every eye. */
static void
draw_leftover (CavPen *pen, const CavPane *pane, const CavRegion *leftover)
{
  cairo_t *cr = pen->cr;
  CavTransform map = cav_view_get_transform (&pane->view);
  CavBox box = cav_view_box_to_pixels (&pane->view, cav_region_get_bounds (leftover));

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cav_region_trace (cr, leftover, map);
  for (int i = GLOW; i >= 1; i--)
    {
      cav_pen_set_tone (pen, CAV_TONE_MARK, 0.10);
      cairo_set_line_width (cr, 5.0 * i);
      cairo_stroke_preserve (cr);
    }
  cav_pen_set_tone (pen, CAV_TONE_MARK, 0.16);
  cairo_fill_preserve (cr);
  cairo_save (cr);
  cairo_clip_preserve (cr);
  cairo_new_path (cr);
  cav_pen_set_tone (pen, CAV_TONE_MARK, 0.9);
  cav_pen_hatch (pen, (CavBox){ floor (box.x0), floor (box.y0), ceil (box.x1), ceil (box.y1) },
                 HATCH, 1);
  cairo_restore (cr);
  cav_region_trace (cr, leftover, map);
  cav_pen_set_tone (pen, CAV_TONE_MARK, 1);
  cairo_set_line_width (cr, 1.2);
  cairo_stroke (cr);
}

gboolean
cav_section_pane_get_mark (const CavPane *pane, const CavFinding *finding, CavPoint *out_pixel)
{
  if (!finding->has_place)
    return FALSE;
  *out_pixel = cav_view_to_pixel (&pane->view, finding->place);
  out_pixel->y -= MARK_RISE;
  return TRUE;
}

/* A sign on a thin post over the place: a triangle for what is wrong or can hurt, a disc else. */
static void
draw_mark (CavPen *pen, CavPoint at, CavFindingSeverity severity)
{
  cairo_t *cr = pen->cr;
  double r = CAV_PANE_MARK;
  CavTone tone = severity == CAV_FINDING_NOTE ? CAV_TONE_QUIET : CAV_TONE_MARK;
  const CavPenText style = { .size = CAV_PEN_SMALL,
                             .tone = CAV_TONE_PLATE,
                             .bold = TRUE,
                             .x = CAV_PEN_MIDDLE,
                             .y = CAV_PEN_MIDDLE };

  cav_pen_set_tone (pen, tone, 1);
  cairo_set_line_width (cr, 1);
  cav_pen_add_upright_line (pen, at.x, at.y + r, at.y + MARK_RISE, 1);
  cairo_stroke (cr);
  cairo_arc (cr, at.x, at.y + MARK_RISE, 2, 0, 2 * G_PI);
  cairo_fill (cr);
  if (severity == CAV_FINDING_NOTE)
    cairo_arc (cr, at.x, at.y, r, 0, 2 * G_PI);
  else
    {
      cairo_move_to (cr, at.x, at.y - 1.3 * r);
      cairo_line_to (cr, at.x + 1.25 * r, at.y + r);
      cairo_line_to (cr, at.x - 1.25 * r, at.y + r);
      cairo_close_path (cr);
    }
  cairo_fill_preserve (cr);
  cav_pen_set_tone (pen, CAV_TONE_PLATE, 1);
  cairo_stroke (cr);
  cav_pen_draw_text (pen, severity == CAV_FINDING_NOTE ? "i" : "!",
                     CAV_POINT (at.x, at.y + (severity == CAV_FINDING_NOTE ? 0 : 1.5)), &style);
}

void
cav_section_pane_draw_wood (cairo_t *cr,
                            const CavPane *pane,
                            const CavSectionContent *content,
                            cairo_surface_t *grain)
{
  CavPen pen;

  cav_pen_begin (&pen, cr, pane);
  if (content->profile != NULL && !cav_region_is_empty (content->profile))
    draw_profile (&pen, pane, content, grain);
  if (content->leftover != NULL && !cav_region_is_empty (content->leftover))
    draw_leftover (&pen, pane, content->leftover);
  for (guint i = 0; content->findings != NULL && i < content->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (content->findings, i);
      CavPoint at;

      if (cav_section_pane_get_mark (pane, finding, &at))
        draw_mark (&pen, at, finding->severity);
    }
  cav_pen_end (&pen);
}

static double
get_tick (const CavRulerSteps *steps, gint64 i)
{
  if (i % (gint64)lround (steps->coarse / steps->fine) == 0)
    return TICK_COARSE;
  return i % (gint64)lround (steps->middle / steps->fine) == 0 ? TICK_MIDDLE : TICK_FINE;
}

static void
draw_level_ruler (CavPen *pen, const CavPane *pane, const CavRulerSteps *steps, CavUnit unit)
{
  const CavPenText style = { .size = CAV_PEN_RULER, .tone = CAV_TONE_QUIET, .x = CAV_PEN_START };
  double ruler = cav_pane_get_ruler (pane);
  CavBox seen = cav_view_box_to_wood (&pane->view, (CavBox){ 0, 0, pane->width, 1 });

  for (gint64 i = (gint64)floor (seen.x0 / steps->fine) - 1; i * steps->fine <= seen.x1; i++)
    {
      double x = pane->view.x + i * steps->fine * pane->view.scale;
      double tick = get_tick (steps, i);

      cav_pen_add_upright_line (pen, x, ruler - tick, ruler, 1);
      cav_pen_set_tone (pen, CAV_TONE_EDGE, 1);
      cairo_stroke (pen->cr);
      if (tick >= TICK_COARSE)
        {
          g_autofree char *text = cav_ruler_format (i * steps->fine, unit);

          cav_pen_draw_text (pen, text, CAV_POINT (x + 3, 1), &style);
        }
    }
}

static void
draw_upright_ruler (CavPen *pen, const CavPane *pane, const CavRulerSteps *steps, CavUnit unit)
{
  const CavPenText style = { .size = CAV_PEN_RULER,
                             .tone = CAV_TONE_QUIET,
                             .x = CAV_PEN_START,
                             .y = CAV_PEN_END,
                             .turned = TRUE };
  double ruler = cav_pane_get_ruler (pane);
  CavBox seen = cav_view_box_to_wood (&pane->view, (CavBox){ 0, 0, 1, pane->height });

  for (gint64 i = (gint64)floor (seen.y0 / steps->fine) - 1; i * steps->fine <= seen.y1; i++)
    {
      double y = pane->view.y - i * steps->fine * pane->view.scale;
      double tick = get_tick (steps, i);

      cav_pen_add_level_line (pen, ruler - tick, ruler, y, 1);
      cav_pen_set_tone (pen, CAV_TONE_EDGE, 1);
      cairo_stroke (pen->cr);
      if (tick >= TICK_COARSE)
        {
          g_autofree char *text = cav_ruler_format (i * steps->fine, unit);

          cav_pen_draw_text (pen, text, CAV_POINT (1, y - 3), &style);
        }
    }
}

static void
draw_corner (CavPen *pen, double ruler, CavUnit unit)
{
  const CavPenText style
      = { .size = CAV_PEN_RULER, .tone = CAV_TONE_QUIET, .x = CAV_PEN_MIDDLE, .y = CAV_PEN_MIDDLE };

  cav_pen_set_tone (pen, CAV_TONE_RULER, 1);
  cairo_rectangle (pen->cr, 0, 0, ruler, ruler);
  cairo_fill (pen->cr);
  cav_pen_draw_text (pen, unit == CAV_UNIT_INCH ? C_ ("unit", "in") : C_ ("unit", "mm"),
                     CAV_POINT (ruler / 2, ruler / 2), &style);
}

void
cav_section_pane_draw_rulers (cairo_t *cr, const CavPane *pane, CavUnit unit)
{
  CavRulerSteps steps = get_steps (pane, unit);
  double ruler = cav_pane_get_ruler (pane);
  CavPen pen;

  cav_pen_begin (&pen, cr, pane);
  cav_pen_set_tone (&pen, CAV_TONE_RULER, 1);
  cairo_rectangle (cr, 0, 0, pane->width, ruler);
  cairo_rectangle (cr, 0, ruler, ruler, pane->height - ruler);
  cairo_fill (cr);
  cairo_set_line_width (cr, 1);
  draw_level_ruler (&pen, pane, &steps, unit);
  draw_upright_ruler (&pen, pane, &steps, unit);
  draw_corner (&pen, ruler, unit);
  cav_pen_set_tone (&pen, CAV_TONE_GRID_MAIN, 1);
  cav_pen_add_level_line (&pen, ruler, pane->width, ruler, 1);
  cav_pen_add_upright_line (&pen, ruler, ruler, pane->height, 1);
  cairo_stroke (cr);
  cav_pen_end (&pen);
}
