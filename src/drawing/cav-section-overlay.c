/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-overlay.h"

#include <math.h>
#include <string.h>

#include "drawing/cav-handle-mark-private.h"
#include "drawing/cav-pen-private.h"
#include "drawing/cav-section-pane.h"
#include "drawing/cav-trace.h"
#include "geometry/cav-tolerance.h"

/* Pixels. */
#define NAME_GAP 7.0
#define FIRM 2.0
#define THIN 1.2
#define HATCH 7.0
#define LANE_FIRST 34.0
#define LANE 24.0
#define ARROW 8.0
#define ARROW_HALF 2.6
#define PASS 5.0 /* of an extension line over the dimension line */
#define CORNER_LIGHT 11.0
#define HOLD_GAP 14.0 /* of a word from where a level line ends, which may be a handle */
#define FIGURE_AWAY 18.0
#define FIGURE_LEAST 80.0 /* a line of the plate at the pointer, however narrow the pane */
#define FIGURE_MOST 380.0
#define KNOT 3.2     /* of a point of a path */
#define WORD_GAP 4.0 /* between a plate and the edge of the pane */

static void
trace (CavPen *pen, const CavPane *pane, const CavRegion *region)
{
  cav_region_trace (pen->cr, region, cav_view_get_transform (&pane->view));
}

static void
hatch_inside (CavPen *pen, const CavPane *pane, const CavRegion *region, double alpha)
{
  CavBox box = cav_view_box_to_pixels (&pane->view, cav_region_get_bounds (region));

  cairo_save (pen->cr);
  trace (pen, pane, region);
  cairo_clip (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, alpha);
  cav_pen_hatch (pen,
                 (CavBox){ fmax (box.x0, 0), fmax (box.y0, 0), fmin (box.x1, pane->width),
                           fmin (box.y1, pane->height) },
                 HATCH, 1 / pen->device);
  cairo_restore (pen->cr);
}

static void
draw_shape (CavPen *pen, const CavPane *pane, const CavOverlayShape *shape, CavTone tone)
{
  static const double dashes[] = { 5, 3 };
  static const double dots[] = { 1.5, 3 };
  cairo_t *cr = pen->cr;
  gboolean thin = shape->role == CAV_SHAPE_HOVERED || shape->role == CAV_SHAPE_PROPOSED;

  if (cav_region_is_empty (shape->region))
    return;
  if (shape->role == CAV_SHAPE_DRAWN || shape->role == CAV_SHAPE_PROPOSED)
    {
      trace (pen, pane, shape->region);
      cav_pen_set_tone (pen, tone, 0.14);
      cairo_fill (cr);
    }
  if (shape->role == CAV_SHAPE_DRAWN || shape->role == CAV_SHAPE_SELECTED)
    hatch_inside (pen, pane, shape->region, shape->role == CAV_SHAPE_DRAWN ? 0.6 : 0.38);
  trace (pen, pane, shape->region);
  cav_pen_set_tone (pen, tone, 1);
  cairo_set_line_width (cr, thin ? THIN : FIRM);
  if (shape->role == CAV_SHAPE_HOVERED)
    cairo_set_dash (cr, dashes, 2, 0);
  if (shape->role == CAV_SHAPE_PROPOSED)
    cairo_set_dash (cr, dots, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

/* The corner or the edge where a proposed cut would stand. */
static void
draw_place (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  CavPoint from = cav_view_to_pixel (&pane->view, overlay->place_from);
  CavPoint to = cav_view_to_pixel (&pane->view, overlay->place_to);
  cairo_t *cr = pen->cr;

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  if (cav_point_near (from, to, 0.5))
    {
      cairo_arc (cr, from.x, from.y, CORNER_LIGHT, 0, 2 * G_PI);
      cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.2);
      cairo_fill_preserve (cr);
      cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
      cairo_set_line_width (cr, FIRM);
      cairo_stroke (cr);
    }
  else
    {
      cairo_move_to (cr, from.x, from.y);
      cairo_line_to (cr, to.x, to.y);
      cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.25);
      cairo_set_line_width (cr, 9);
      cairo_stroke_preserve (cr);
      cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
      cairo_set_line_width (cr, FIRM);
      cairo_stroke (cr);
    }
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

/* Moved so far that the pane has all of it. */
static void
draw_word_within (
    CavPen *pen, const CavPane *pane, const char *word, CavPoint at, const CavPenText *style)
{
  CavBox room = cav_pen_get_text_box (pen, word, at, style);
  double least = cav_pane_get_ruler (pane) + WORD_GAP;

  at.x += fmin (pane->width - WORD_GAP - room.x1, 0);
  at.x += fmax (least - fmin (room.x0, pane->width - WORD_GAP - (room.x1 - room.x0)), 0);
  at.y += fmin (pane->height - WORD_GAP - room.y1, 0);
  at.y += fmax (least - fmin (room.y0, pane->height - WORD_GAP - (room.y1 - room.y0)), 0);
  cav_pen_draw_text (pen, word, at, style);
}

/* The cutter stands where it would make the cut: its half outline and its mirror, dashed. */
static void
draw_cutter (CavPen *pen, const CavPane *pane, const CavSnap *snap)
{
  static const double dashes[] = { 7, 3 };
  CavTransform whole = cav_transform_compose (snap->place, cav_view_get_transform (&pane->view));
  CavTransform mirrored = cav_transform_compose (cav_transform_scale (-1, 1), whole);
  CavPoint tip = cav_transform_point (whole, CAV_POINT (0, 0));
  CavPoint foot = cav_transform_point (whole, CAV_POINT (0, -snap->tool->length));
  const CavPenText style = { .size = CAV_PEN_SMALL,
                             .tone = CAV_TONE_PENCIL,
                             .x = CAV_PEN_MIDDLE,
                             .y = CAV_PEN_MIDDLE,
                             .plated = TRUE };
  cairo_t *cr = pen->cr;

  cairo_set_line_width (cr, THIN);
  cairo_set_dash (cr, dashes, 2, 0);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.95);
  cav_path_trace_mapped (cr, snap->tool->outline, whole);
  cav_path_trace_mapped (cr, snap->tool->outline, mirrored);
  cairo_move_to (cr, tip.x, tip.y);
  cairo_line_to (cr, foot.x, foot.y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
  if (snap->tool->name != NULL)
    draw_word_within (pen, pane, cav_shop_translate_name (snap->tool->name), foot, &style);
}

static void
draw_hold (CavPen *pen, const CavPane *pane, const CavSnapHold *hold, gboolean along_x)
{
  static const double dashes[] = { 4, 3 };
  CavPoint from = cav_view_to_pixel (&pane->view, hold->from);
  CavPoint to = cav_view_to_pixel (&pane->view, hold->to);
  CavPoint word = along_x ? CAV_POINT (from.x, fmin (from.y, to.y) - 6)
                          : CAV_POINT (fmax (from.x, to.x) + HOLD_GAP, from.y);
  const CavPenText style = { .size = CAV_PEN_SMALL,
                             .tone = CAV_TONE_PENCIL,
                             .x = along_x ? CAV_PEN_MIDDLE : CAV_PEN_START,
                             .y = along_x ? CAV_PEN_END : CAV_PEN_MIDDLE,
                             .plated = TRUE };

  /* The grid is seen as it is, and says nothing. */
  if (hold->kind == CAV_SNAP_NONE || hold->kind == CAV_SNAP_GRID || hold->kind == CAV_SNAP_CUTTER)
    return;
  cairo_set_dash (pen->cr, dashes, 2, 0);
  cairo_set_line_width (pen->cr, 1);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  if (along_x)
    cav_pen_add_upright_line (pen, from.x, from.y, to.y, 1);
  else
    cav_pen_add_level_line (pen, from.x, to.x, from.y, 1);
  cairo_stroke (pen->cr);
  cairo_set_dash (pen->cr, NULL, 0, 0);
  draw_word_within (pen, pane, hold->label, word, &style);
}

static void
add_arrow (CavPen *pen, CavPoint tip, double dx, double dy)
{
  CavPoint root = CAV_POINT (tip.x - ARROW * dx, tip.y - ARROW * dy);

  cairo_move_to (pen->cr, tip.x, tip.y);
  cairo_line_to (pen->cr, root.x - ARROW_HALF * dy, root.y + ARROW_HALF * dx);
  cairo_line_to (pen->cr, root.x + ARROW_HALF * dy, root.y - ARROW_HALF * dx);
  cairo_close_path (pen->cr);
}

/* Where a dimension line runs across, pixels; kept within the pane while the wood is. */
static double
get_lane (const CavPane *pane, const CavBlank *blank, const CavOverlayMeasure *measure)
{
  CavBox box
      = cav_view_box_to_pixels (&pane->view, (CavBox){ 0, 0, blank->width, blank->thickness });
  double letters = cav_pane_get_letters (pane);
  double away = LANE_FIRST + (LANE * measure->lane + 12) * letters - 12;

  if (measure->upright)
    return CLAMP (measure->high ? box.x1 + away : box.x0 - away,
                  cav_pane_get_ruler (pane) + 14 * letters,
                  fmax (pane->width - 14 * letters, cav_pane_get_ruler (pane) + 14 * letters));
  return CLAMP (measure->high ? box.y0 - away : box.y1 + away,
                cav_pane_get_ruler (pane) + 14 * letters,
                fmax (pane->height - 14 * letters, cav_pane_get_ruler (pane) + 14 * letters));
}

static void
add_line (CavPen *pen, gboolean upright, double from, double to, double across)
{
  if (upright)
    cav_pen_add_upright_line (pen, across, from, to, 1);
  else
    cav_pen_add_level_line (pen, from, to, across, 1);
}

static void
draw_measure (CavPen *pen,
              const CavPane *pane,
              const CavBlank *blank,
              const CavOverlayMeasure *measure)
{
  const CavView *view = &pane->view;
  gboolean upright = measure->upright;
  double a = upright ? view->y - measure->to * view->scale : view->x + measure->from * view->scale;
  double b = upright ? view->y - measure->from * view->scale : view->x + measure->to * view->scale;
  double part_a = upright ? view->x + measure->part_to * view->scale
                          : view->y - measure->part_from * view->scale;
  double part_b = upright ? view->x + measure->part_from * view->scale
                          : view->y - measure->part_to * view->scale;
  double lane = cav_pen_snap (pen, get_lane (pane, blank, measure), 1);
  double pass = upright == measure->high ? PASS : -PASS;
  gboolean inside = b - a > 2 * ARROW + 4;
  CavPenText style = { .size = measure->live ? CAV_PEN_FIGURE : CAV_PEN_USUAL,
                       .tone = CAV_TONE_PENCIL,
                       .bold = measure->live,
                       .x = CAV_PEN_MIDDLE,
                       .y = CAV_PEN_MIDDLE,
                       .turned = upright,
                       .plated = TRUE };
  CavBox room = cav_pen_get_text_box (pen, measure->text, CAV_POINT (0, 0), &style);
  double length = upright ? room.y1 - room.y0 : room.x1 - room.x0;
  double text = (a + b) / 2;

  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.9);
  cairo_set_line_width (pen->cr, 1);
  add_line (pen, !upright, part_a, lane + pass, a);
  add_line (pen, !upright, part_b, lane + pass, b);
  if (length + 2 * ARROW + 6 > b - a)
    text = upright ? a - ARROW - 6 - length / 2 : b + ARROW + 6 + length / 2;
  add_line (pen, upright, fmin (a - (inside ? 0 : ARROW + 4), text),
            fmax (b + (inside ? 0 : ARROW + 4), text), lane);
  cairo_stroke (pen->cr);
  add_arrow (pen, upright ? CAV_POINT (lane, a) : CAV_POINT (a, lane),
             upright ? 0 : (inside ? -1 : 1), upright ? (inside ? -1 : 1) : 0);
  add_arrow (pen, upright ? CAV_POINT (lane, b) : CAV_POINT (b, lane),
             upright ? 0 : (inside ? 1 : -1), upright ? (inside ? 1 : -1) : 0);
  cairo_fill (pen->cr);
  cav_pen_draw_text (pen, measure->text, upright ? CAV_POINT (lane, text) : CAV_POINT (text, lane),
                     &style);
}

static void
draw_path (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  CavTransform map = cav_view_get_transform (&pane->view);
  cairo_t *cr = pen->cr;
  guint n_segments = cav_path_get_segment_count (overlay->path);
  g_autoptr (CavPath) next = cav_path_new ();

  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  cairo_set_line_width (cr, FIRM);
  cav_path_trace_mapped (cr, overlay->path, map);
  cairo_stroke (cr);
  if (!cav_point_near (overlay->next.from, overlay->next.to, CAV_TOLERANCE_POINT))
    {
      static const double dashes[] = { 5, 3 };

      cav_path_append (next, &overlay->next);
      cav_path_trace_mapped (cr, next, map);
      cairo_set_dash (cr, dashes, 2, 0);
      cairo_set_line_width (cr, THIN);
      cairo_stroke (cr);
      cairo_set_dash (cr, NULL, 0, 0);
    }
  for (guint i = 0; i <= n_segments; i++)
    {
      CavPoint knot = cav_view_to_pixel (&pane->view,
                                         i == 0 ? cav_path_get_start (overlay->path)
                                                : cav_path_get_segment (overlay->path, i - 1)->to);

      cairo_rectangle (cr, knot.x - KNOT, knot.y - KNOT, 2 * KNOT, 2 * KNOT);
      cav_pen_set_tone (pen, CAV_TONE_HANDLE, 1);
      cairo_fill_preserve (cr);
      cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
      cairo_set_line_width (cr, 1.5);
      cairo_stroke (cr);
      if (i == 0 && overlay->closes)
        {
          cairo_arc (cr, knot.x, knot.y, CORNER_LIGHT, 0, 2 * G_PI);
          cairo_stroke (cr);
        }
    }
}

/* Where the middle of a word of that length stands along an edge: in the middle of what is seen of
 * it, or of its freer part where measures stand there. FALSE where there is no room. */
static gboolean
find_name_place (CavBox seen, gboolean upright, double length, const CavBox *taken, double *out_at)
{
  double low = upright ? seen.y0 : seen.x0;
  double high = upright ? seen.y1 : seen.x1;

  if (taken != NULL)
    {
      double from = upright ? taken->y0 : taken->x0;
      double to = upright ? taken->y1 : taken->x1;
      double middle = (low + high) / 2;

      if (from < middle + length && to > middle - length)
        {
          if (from - low > high - to)
            high = from;
          else
            low = to;
        }
    }
  *out_at = (low + high) / 2;
  return high - low > length + 8;
}

static gboolean
try_name (CavPen *pen,
          const CavPane *pane,
          const CavSectionOverlay *overlay,
          CavSide side,
          const char *name)
{
  gboolean upright = side == CAV_SIDE_INSIDE || side == CAV_SIDE_OUTSIDE;
  CavPenText style = { .size = CAV_PEN_USUAL,
                       .tone = CAV_TONE_QUIET,
                       .x = CAV_PEN_MIDDLE,
                       .y = CAV_PEN_MIDDLE,
                       .turned = upright };
  CavBox blank = cav_view_box_to_pixels (
      &pane->view, (CavBox){ 0, 0, overlay->blank.width, overlay->blank.thickness });
  CavBox seen
      = { fmax (blank.x0, cav_pane_get_ruler (pane)), fmax (blank.y0, cav_pane_get_ruler (pane)),
          fmin (blank.x1, pane->width), fmin (blank.y1, pane->height) };
  CavBox taken = cav_view_box_to_pixels (&pane->view, overlay->bounds);
  CavBox text = cav_pen_get_text_box (pen, name, CAV_POINT (0, 0), &style);
  double length = upright ? text.y1 - text.y0 : text.x1 - text.x0;
  double half = (upright ? text.x1 - text.x0 : text.y1 - text.y0) / 2;
  gboolean low = side == CAV_SIDE_INSIDE || side == CAV_SIDE_FACE;
  double edge = upright ? (low ? blank.x0 : blank.x1) : (low ? blank.y0 : blank.y1);
  double across = low ? edge - NAME_GAP - half : edge + NAME_GAP + half;
  double along;

  if (!find_name_place (seen, upright, length,
                        overlay->has_bounds && overlay->measures != NULL ? &taken : NULL, &along))
    return FALSE;
  cav_pen_draw_text (pen, name, upright ? CAV_POINT (across, along) : CAV_POINT (along, across),
                     &style);
  return TRUE;
}

/* Where there is no room for all of it, what stands before the comma. */
static void
draw_name (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay, CavSide side)
{
  g_auto (GStrv) parts = g_strsplit (overlay->names[side], ",", 2);

  if (!try_name (pen, pane, overlay, side, overlay->names[side]))
    try_name (pen, pane, overlay, side, parts[0]);
}

static void
draw_on_level_ruler (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  CavBox box = cav_view_box_to_pixels (&pane->view, overlay->bounds);
  double from = fmax (box.x0, cav_pane_get_ruler (pane));

  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.22);
  if (overlay->has_bounds)
    cairo_rectangle (pen->cr, from, 0, fmax (box.x1 - from, 0), cav_pane_get_ruler (pane));
  cairo_fill (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  cairo_set_line_width (pen->cr, 1);
  if (overlay->has_pointer && overlay->pointer.x > cav_pane_get_ruler (pane))
    cav_pen_add_upright_line (pen, overlay->pointer.x, 0, cav_pane_get_ruler (pane), 1);
  cairo_stroke (pen->cr);
}

static void
draw_on_upright_ruler (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  CavBox box = cav_view_box_to_pixels (&pane->view, overlay->bounds);
  double from = fmax (box.y0, cav_pane_get_ruler (pane));

  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.22);
  if (overlay->has_bounds)
    cairo_rectangle (pen->cr, 0, from, cav_pane_get_ruler (pane), fmax (box.y1 - from, 0));
  cairo_fill (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  cairo_set_line_width (pen->cr, 1);
  if (overlay->has_pointer && overlay->pointer.y > cav_pane_get_ruler (pane))
    cav_pen_add_level_line (pen, 0, cav_pane_get_ruler (pane), overlay->pointer.y, 1);
  cairo_stroke (pen->cr);
}

static void
draw_band (CavPen *pen, CavBox band)
{
  static const double dashes[] = { 4, 3 };

  cav_pen_add_box (pen, band, 1);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 0.1);
  cairo_fill_preserve (pen->cr);
  cav_pen_set_tone (pen, CAV_TONE_PENCIL, 1);
  cairo_set_line_width (pen->cr, 1);
  cairo_set_dash (pen->cr, dashes, 2, 0);
  cairo_stroke (pen->cr);
  cairo_set_dash (pen->cr, NULL, 0, 0);
}

/* Beside the pointer, and on the other side of it where the pane ends; long sentences in lines. */
static void
draw_figure (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  double room = pane->width - cav_pane_get_ruler (pane) - 6 * WORD_GAP;
  CavPenText style = { .size = CAV_PEN_USUAL,
                       .tone = overlay->is_refused ? CAV_TONE_MARK : CAV_TONE_TEXT,
                       .plated = TRUE,
                       .broken = CLAMP (room, FIGURE_LEAST, FIGURE_MOST * pen->letters) };
  CavPoint at = CAV_POINT (overlay->figure_at.x + FIGURE_AWAY, overlay->figure_at.y + FIGURE_AWAY);
  CavBox box = cav_pen_get_text_box (pen, overlay->figure, at, &style);

  if (box.x1 > pane->width - WORD_GAP)
    {
      style.x = CAV_PEN_END;
      at.x = overlay->figure_at.x - FIGURE_AWAY;
    }
  if (box.y1 > pane->height - WORD_GAP)
    {
      style.y = CAV_PEN_END;
      at.y = overlay->figure_at.y - FIGURE_AWAY;
    }
  draw_word_within (pen, pane, overlay->figure, at, &style);
}

static void
draw_handles (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay)
{
  for (guint i = overlay->handles->len; i-- > 0;)
    {
      const CavHandle *handle = &g_array_index (overlay->handles, CavHandle, i);
      guint state = 0;

      if ((int)i == overlay->hovered_handle)
        state |= CAV_HANDLE_MARK_HOVERED;
      if ((int)i == overlay->held_handle)
        state |= CAV_HANDLE_MARK_HELD;
      if ((int)i == overlay->focused_handle)
        state |= CAV_HANDLE_MARK_FOCUSED;
      cav_handle_mark_draw (pen, handle, cav_view_to_pixel (&pane->view, handle->point), state);
    }
}

/* Parts, from the lowest up; between them shapes and measures stand, as many as there are. */
typedef enum
{
  PART_LEVEL_RULER,
  PART_UPRIGHT_RULER,
  PART_NAMES, /* a part for each side */
  PART_PLACE = PART_NAMES + CAV_N_SIDES,
  PART_SHAPES, /* a part for each */
  PART_PATH,
  PART_MEASURES, /* a part for each */
  PART_SNAP_X,
  PART_SNAP_Y,
  PART_CUTTER,
  PART_HANDLES,
  PART_BAND,
  PART_FIGURE,
  N_PARTS,
} Part;

static guint
get_measure_count (const CavSectionOverlay *overlay)
{
  return overlay->measures != NULL ? overlay->measures->len : 0;
}

/* Which of its kind the part with a number is. */
static Part
find_part (const CavSectionOverlay *overlay, guint number, guint *out_which)
{
  guint counts[N_PARTS];

  for (guint part = 0; part < N_PARTS; part++)
    counts[part] = 1;
  for (guint part = PART_NAMES + 1; part < PART_PLACE; part++)
    counts[part] = 0;
  counts[PART_NAMES] = CAV_N_SIDES;
  counts[PART_SHAPES] = overlay->n_shapes;
  counts[PART_MEASURES] = get_measure_count (overlay);
  for (guint part = 0; part < N_PARTS; part++)
    {
      if (number < counts[part])
        {
          *out_which = number;
          return (Part)part;
        }
      number -= counts[part];
    }
  return N_PARTS;
}

guint
cav_section_overlay_get_part_count (const CavSectionOverlay *overlay)
{
  g_return_val_if_fail (overlay != NULL, 0);
  return N_PARTS - 2 + overlay->n_shapes + get_measure_count (overlay);
}

static void
draw_shape_of (CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay, guint which)
{
  const CavOverlayShape *shape = &overlay->shapes[which];
  gboolean refused = overlay->is_refused && shape->role == CAV_SHAPE_DRAWN;

  draw_shape (pen, pane, shape, refused ? CAV_TONE_MARK : CAV_TONE_PENCIL);
}

static void
draw_over_wood (
    CavPen *pen, const CavPane *pane, const CavSectionOverlay *overlay, Part part, guint which)
{
  cairo_rectangle (pen->cr, cav_pane_get_ruler (pane), cav_pane_get_ruler (pane),
                   fmax (pane->width - cav_pane_get_ruler (pane), 0),
                   fmax (pane->height - cav_pane_get_ruler (pane), 0));
  cairo_clip (pen->cr);
  if (part == PART_NAMES && overlay->names[which] != NULL)
    draw_name (pen, pane, overlay, (CavSide)which);
  else if (part == PART_PLACE && overlay->has_place)
    draw_place (pen, pane, overlay);
  else if (part == PART_SHAPES)
    draw_shape_of (pen, pane, overlay, which);
  else if (part == PART_PATH && overlay->path != NULL)
    draw_path (pen, pane, overlay);
  else if (part == PART_SNAP_X && overlay->snap != NULL)
    draw_hold (pen, pane, &overlay->snap->x, TRUE);
  else if (part == PART_SNAP_Y && overlay->snap != NULL)
    draw_hold (pen, pane, &overlay->snap->y, FALSE);
  else if (part == PART_CUTTER && overlay->snap != NULL
           && overlay->snap->size.kind == CAV_SNAP_CUTTER && overlay->snap->tool != NULL)
    draw_cutter (pen, pane, overlay->snap);
  else if (part == PART_MEASURES)
    draw_measure (pen, pane, &overlay->blank,
                  &g_array_index (overlay->measures, CavOverlayMeasure, which));
  else if (part == PART_HANDLES && overlay->handles != NULL)
    draw_handles (pen, pane, overlay);
  else if (part == PART_BAND && overlay->has_band)
    draw_band (pen, overlay->band);
  else if (part == PART_FIGURE && overlay->figure != NULL)
    draw_figure (pen, pane, overlay);
}

void
cav_section_overlay_draw_part (cairo_t *cr,
                               const CavPane *pane,
                               const CavSectionOverlay *overlay,
                               guint number)
{
  CavPen pen;
  guint which = 0;
  Part part;

  g_return_if_fail (overlay != NULL);
  part = find_part (overlay, number, &which);
  g_return_if_fail (part < N_PARTS);

  cav_pen_begin (&pen, cr, pane);
  if (part == PART_LEVEL_RULER)
    draw_on_level_ruler (&pen, pane, overlay);
  else if (part == PART_UPRIGHT_RULER)
    draw_on_upright_ruler (&pen, pane, overlay);
  else
    draw_over_wood (&pen, pane, overlay, part, which);
  cav_pen_end (&pen);
}
