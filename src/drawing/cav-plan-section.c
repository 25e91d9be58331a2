/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-plan-section.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-hand-words.h"

/* mm */
#define NAME_ROOM 5.2 /* for the names of the sides around the section */
#define RING_SPACING 2.6

static void
name_sides (CavScene *scene, CavBox box)
{
  CavTextStyle style
      = { .height = CAV_LETTER_SMALL, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_MIDDLE };
  double x = (box.x0 + box.x1) / 2;
  double y = (box.y0 + box.y1) / 2;

  cav_scene_add_text (scene, C_ ("side in a sentence", "face"), CAV_POINT (x, box.y0 - 1.4),
                      &style);
  cav_scene_add_text (scene, C_ ("side in a sentence", "back"),
                      CAV_POINT (x, box.y1 + 1 + style.height), &style);
  style.turned = TRUE;
  cav_scene_add_text (scene, C_ ("side in a sentence", "inside"), CAV_POINT (box.x0 - 1.4, y),
                      &style);
  cav_scene_add_text (scene, C_ ("side in a sentence", "outside"),
                      CAV_POINT (box.x1 + 1 + style.height, y), &style);
}

void
cav_plan_section_draw (CavScene *scene, const CavPlan *plan, const CavEndMark *mark, CavBox box)
{
  g_return_if_fail (scene != NULL && plan != NULL);

  const CavBlank *blank = &plan->blank;
  double scale = fmin ((box.x1 - box.x0 - 2 * NAME_ROOM) / blank->width,
                       (box.y1 - box.y0 - 2 * NAME_ROOM) / blank->thickness);
  double x = (box.x0 + box.x1 - blank->width * scale) / 2;
  double y = (box.y0 + box.y1 - blank->thickness * scale) / 2;
  CavBox wood = cav_box (x, y, x + blank->width * scale, y + blank->thickness * scale);
  CavTransform map = { scale, 0, x, 0, -scale, wood.y1 };
  g_autoptr (CavRegion) whole = cav_blank_create_region (blank);

  cav_scene_add_region (scene, whole, map, CAV_STYLE_WASTE);
  cav_scene_add_region (scene, whole, map, CAV_STYLE_BLANK);
  cav_end_grain_draw (scene, plan->profile, blank, map, RING_SPACING);
  if (mark == NULL && plan->leftover != NULL)
    cav_scene_add_region (scene, plan->leftover, map, CAV_STYLE_BADGE);
  cav_scene_add_region (scene, plan->profile, map, CAV_STYLE_OUTLINE);
  name_sides (scene, wood);
  if (mark != NULL)
    cav_end_mark_draw (scene, *mark, map);
  else
    cav_hand_marks_draw (scene, plan, map, wood);
}
