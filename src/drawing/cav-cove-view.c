/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-cove-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "drawing/cav-dimension.h"
#include "geometry/cav-unit.h"
#include "milling/cav-placement.h"

/*
 * The front teeth of the blade come down and toward the operator, so the fence stands in front of
 * the blade: what pushes the rail back pushes it to the fence as well. With the fence at the right
 * the rail runs from the near left to the far right, as the pictures of the passes have it, which
 * are seen from the outfeed side. In the plane of the table, x to the right and y away from the
 * operator, the blade stands in the middle along y.
 */

#define FENCE_DEPTH 4.0 /* on the page, mm */
#define WORD_ROOM 10.2  /* for two lines under the picture */
#define ARROW_LENGTH 11.0
#define ABOUT "≈ "

typedef struct
{
  CavScene *scene;
  CavBox box;
  double scale;
  double sine;
  double cosine;
  double fence; /* from the fence's face to the middle of the blade, square to the fence, mm */
  double rail;  /* width of the rail on the table */
} View;

/* From millimetres of the table to the page. */
static CavPoint
place (const View *view, double x, double y)
{
  return CAV_POINT ((view->box.x0 + view->box.x1) / 2 + x * view->scale,
                    (view->box.y0 + view->box.y1) / 2 - y * view->scale);
}

/* u away from the fence's face, s along it from the foot of the blade's middle. */
static CavPoint
place_along (const View *view, double u, double s)
{
  double away = u - view->fence;

  return place (view, -away * view->cosine + s * view->sine, away * view->sine + s * view->cosine);
}

static CavRegion *
create_page_region (CavBox box)
{
  return cav_region_new_box (box.x0, box.y0, box.x1, box.y1);
}

static void
draw_band (const View *view, double from, double to, CavStyleName style)
{
  double far = 2 * hypot (view->box.x1 - view->box.x0, view->box.y1 - view->box.y0) / view->scale;
  const CavPoint corners[] = { place_along (view, from, -far), place_along (view, from, far),
                               place_along (view, to, far), place_along (view, to, -far) };

  cav_scene_add_polygon (view->scene, corners, G_N_ELEMENTS (corners), style);
}

static void
draw_blade (const View *view, const CavBlade *blade, double height)
{
  double half = sqrt (fmax (height * (blade->diameter - height), 1));
  double kerf = fmax (blade->kerf / 2, 0.5 / view->scale);
  CavPoint low = place (view, -kerf, -half);
  CavPoint high = place (view, kerf, half);

  cav_scene_add_box (view->scene, cav_box (low.x, high.y, high.x, low.y), CAV_STYLE_CHIPS);
}

static void
draw_feed (const View *view)
{
  double long_mm = ARROW_LENGTH / view->scale;
  double u = view->rail > 2.2 * view->fence ? view->rail * 0.8 : view->rail * 0.2;
  CavPoint from = place_along (view, u, -1.6 * long_mm);
  CavPoint to = place_along (view, u, -0.6 * long_mm);

  cav_scene_add_line (view->scene, from, to, CAV_STYLE_TOOL_OUTLINE);
  cav_arrow_draw (view->scene, to, view->sine, -view->cosine);
}

/* The distance from the fence's face to the middle of the blade, square to the fence; its figure
 * stands on the other side of the blade. */
static void
draw_measure (const View *view, const char *text)
{
  const CavTextStyle style
      = { .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_END };
  CavPoint face = place_along (view, 0, 0);
  CavPoint middle = place_along (view, view->fence, 0);

  cav_scene_add_line (view->scene, face, middle, CAV_STYLE_TOOL_OUTLINE);
  if (view->fence * view->scale > 6)
    {
      cav_arrow_draw (view->scene, face, view->cosine, view->sine);
      cav_arrow_draw (view->scene, middle, -view->cosine, -view->sine);
    }
  cav_scene_add_text (view->scene, text, CAV_POINT (middle.x - 2, middle.y + 1), &style);
}

static void
init_view (View *view, const CavPlan *plan, const CavSetup *setup, const CavBlade *blade)
{
  const CavPass *first = g_ptr_array_index (setup->passes, 0);
  const CavPass *last = g_ptr_array_index (setup->passes, setup->passes->len - 1);
  double half = sqrt (fmax (last->height * (blade->diameter - last->height), 1));
  double size = fmin (view->box.x1 - view->box.x0, view->box.y1 - view->box.y0);

  view->sine = sin (CAV_RADIANS (setup->angle));
  view->cosine = cos (CAV_RADIANS (setup->angle));
  /* As it is set at the beginning. */
  view->fence = first->fence;
  view->rail = cav_placement_get_reach (&plan->blank, last->down);
  view->scale = size / (2.5 * fmax (half, fmax (view->fence, view->rail - view->fence)));
}

void
cav_cove_view_draw (CavScene *scene,
                    const CavPlan *plan,
                    const CavSetup *setup,
                    CavBox box,
                    CavUnit unit,
                    int denominator)
{
  const CavBlade *blade = cav_shop_find_blade (plan->shop, setup->tool);
  const CavTextStyle word
      = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_MIDDLE };
  View view = { .scene = scene, .box = box };
  g_autoptr (CavRegion) frame = NULL;
  g_autofree char *text = NULL;
  CavPoint at = CAV_POINT ((box.x0 + box.x1) / 2, box.y1 - WORD_ROOM);

  if (blade == NULL || setup->passes->len == 0)
    return;
  view.box.y1 -= WORD_ROOM;
  init_view (&view, plan, setup, blade);
  frame = create_page_region (view.box);
  text = cav_length_format_bare (view.fence, unit, denominator);
  cav_scene_begin_clip (scene, frame, cav_transform_identity ());
  draw_band (&view, 0, view.rail, CAV_STYLE_BEFORE);
  draw_band (&view, -FENCE_DEPTH / view.scale, 0, CAV_STYLE_BADGE);
  draw_blade (&view, blade,
              ((const CavPass *)g_ptr_array_index (setup->passes, setup->passes->len - 1))->height);
  draw_feed (&view);
  cav_scene_end_clip (scene);
  draw_measure (&view, g_str_has_prefix (text, ABOUT) ? text + strlen (ABOUT) : text);
  cav_scene_add_box (scene, view.box, CAV_STYLE_BLANK);
  at.y += 1 + word.height;
  cav_scene_add_text_within (scene, _ ("you stand here"), at, &word, view.box.x1 - view.box.x0);
  at.y += word.height * CAV_LETTER_LEADING;
  cav_scene_add_text_within (scene, _ ("black: the fence"), at, &word, view.box.x1 - view.box.x0);
}
