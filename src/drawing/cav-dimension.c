/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-dimension.h"

#include <math.h>

/* On paper, mm. */
#define ARROW_LENGTH 2.4
#define ARROW_HALF 0.45
#define EXTENSION_GAP 0.8
#define EXTENSION_PASS 1.8
#define TEXT_GAP 0.9  /* between line and value */
#define TEXT_ROOM 1.2 /* at either end of a value */

typedef struct
{
  double text_width;
  gboolean arrows_inside;
  double line_from; /* with what sticks out */
  double line_to;
  double text_middle;
} Plan;

static Plan
make_plan (CavScene *scene, const CavDimension *dimension)
{
  double length = dimension->to - dimension->from;
  Plan plan = { .line_from = dimension->from, .line_to = dimension->to };
  double tail;

  plan.text_width = cav_lettering_get_width (cav_scene_get_lettering (scene), dimension->text,
                                             dimension->height, FALSE);
  plan.arrows_inside = length >= 2 * ARROW_LENGTH + 1;
  if (plan.arrows_inside && plan.text_width + 2 * TEXT_ROOM <= length)
    {
      plan.text_middle = (dimension->from + dimension->to) / 2;
      return plan;
    }
  tail = (plan.arrows_inside ? 0 : ARROW_LENGTH) + plan.text_width + 2 * TEXT_ROOM;
  if (!plan.arrows_inside)
    {
      plan.line_from -= ARROW_LENGTH + 1.5;
      plan.line_to += ARROW_LENGTH + 1.5;
    }
  if (dimension->beyond_low)
    {
      plan.line_from = dimension->from - tail;
      plan.text_middle = plan.line_from + plan.text_width / 2 + TEXT_ROOM / 2;
    }
  else
    {
      plan.line_to = dimension->to + tail;
      plan.text_middle = plan.line_to - plan.text_width / 2 - TEXT_ROOM / 2;
    }
  return plan;
}

static CavPoint
at (const CavDimension *dimension, double along, double across)
{
  return dimension->upright ? CAV_POINT (across, along) : CAV_POINT (along, across);
}

static CavBox
box_between (CavPoint a, CavPoint b)
{
  return cav_box (fmin (a.x, b.x), fmin (a.y, b.y), fmax (a.x, b.x), fmax (a.y, b.y));
}

static CavTextStyle
get_text_style (const CavDimension *dimension)
{
  return (CavTextStyle){ .height = dimension->height,
                         .ink = CAV_INK_BLACK,
                         .align = CAV_ALIGN_MIDDLE,
                         .turned = dimension->upright };
}

static CavPoint
get_text_point (const CavDimension *dimension, const Plan *plan)
{
  return at (dimension, plan->text_middle, dimension->line - TEXT_GAP);
}

/* Both ends of an extension line; FALSE where the part reaches up to the dimension line. */
static gboolean
get_extension (const CavDimension *dimension, guint end, CavPoint *out_from, CavPoint *out_to)
{
  double along = end == 0 ? dimension->from : dimension->to;
  double start = end == 0 ? dimension->start_from : dimension->start_to;
  double sign = dimension->line > start ? 1 : -1;

  *out_from = at (dimension, along, start + sign * EXTENSION_GAP);
  *out_to = at (dimension, along, dimension->line + sign * EXTENSION_PASS);
  return fabs (dimension->line - start) > EXTENSION_GAP;
}

CavDimensionRoom
cav_dimension_get_room (CavScene *scene, const CavDimension *dimension)
{
  Plan plan = make_plan (scene, dimension);
  CavTextStyle style = get_text_style (dimension);
  CavDimensionRoom room;

  room.text
      = cav_scene_get_text_box (scene, dimension->text, get_text_point (dimension, &plan), &style);
  room.line = box_between (at (dimension, plan.line_from, dimension->line),
                           at (dimension, plan.line_to, dimension->line));
  for (guint i = 0; i < 2; i++)
    {
      CavPoint from;
      CavPoint to;

      get_extension (dimension, i, &from, &to);
      room.extensions[i] = box_between (from, to);
    }
  return room;
}

void
cav_arrow_draw (CavScene *scene, CavPoint tip, double dx, double dy)
{
  CavPoint root = CAV_POINT (tip.x - ARROW_LENGTH * dx, tip.y - ARROW_LENGTH * dy);
  const CavPoint points[] = { tip, CAV_POINT (root.x - ARROW_HALF * dy, root.y + ARROW_HALF * dx),
                              CAV_POINT (root.x + ARROW_HALF * dy, root.y - ARROW_HALF * dx) };

  cav_scene_add_polygon (scene, points, G_N_ELEMENTS (points), CAV_STYLE_ARROW);
}

void
cav_dimension_draw (CavScene *scene, const CavDimension *dimension)
{
  Plan plan = make_plan (scene, dimension);
  CavTextStyle style = get_text_style (dimension);
  double sign = plan.arrows_inside ? -1 : 1;
  CavPoint outward = at (dimension, sign, 0);

  for (guint i = 0; i < 2; i++)
    {
      CavPoint from;
      CavPoint to;

      if (get_extension (dimension, i, &from, &to))
        cav_scene_add_line (scene, from, to, CAV_STYLE_DIMENSION);
    }
  cav_scene_add_line (scene, at (dimension, plan.line_from, dimension->line),
                      at (dimension, plan.line_to, dimension->line), CAV_STYLE_DIMENSION);
  cav_arrow_draw (scene, at (dimension, dimension->from, dimension->line), outward.x, outward.y);
  cav_arrow_draw (scene, at (dimension, dimension->to, dimension->line), -outward.x, -outward.y);
  cav_scene_add_text (scene, dimension->text, get_text_point (dimension, &plan), &style);
}
