/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-section-view.h"

/* Between a value and anything else, mm on the page. */
#define AIR 0.9
/* Radii that are named at most. */
#define N_RADII 10
/* Points at which a leader is looked at. */
#define LEADER_STEPS 60

/* An arrow to an arc and the value of its radius in the air beside it. */

typedef struct
{
  CavSectionView *view;
  CavTransform map; /* onto the page */
  CavBox room;      /* on the page, of the section with its words and dimensions */
  CavPoint tip;
  CavPoint tail;
  CavPoint text_point;
  CavTextStyle style;
} Leader;

static gboolean
is_in_wood (const Leader *leader, CavPoint page)
{
  CavTransform map = leader->map;

  return cav_region_contains (leader->view->profile->region,
                              CAV_POINT ((page.x - map.x0) / map.xx, (page.y - map.y0) / map.yy));
}

/* Whether a box lies wholly inside the blank or wholly outside it. */
static gboolean
keeps_off_blank (const Leader *leader, CavBox box)
{
  const CavBlank *blank = &leader->view->profile->blank;
  CavTransform map = leader->map;
  CavBox drawn = cav_box (map.x0, map.y0 + map.yy * blank->thickness,
                          map.x0 + map.xx * blank->width, map.y0);

  return !cav_box_overlaps (cav_box_grow (drawn, AIR), box)
         || (box.x0 > drawn.x0 + AIR && box.x1 < drawn.x1 - AIR && box.y0 > drawn.y0 + AIR
             && box.y1 < drawn.y1 - AIR);
}

static gboolean
leader_is_free (Leader *leader, const char *text)
{
  CavScene *scene = leader->view->scene;
  CavBox box = cav_scene_get_text_box (scene, text, leader->text_point, &leader->style);
  CavBox line
      = cav_box (fmin (leader->tip.x, leader->tail.x), fmin (leader->tip.y, leader->tail.y),
                 fmax (leader->tip.x, leader->tail.x), fmax (leader->tip.y, leader->tail.y));

  if (!keeps_off_blank (leader, box) || box.x0 < leader->room.x0 || box.x1 > leader->room.x1
      || box.y0 < leader->room.y0 || box.y1 > leader->room.y1)
    return FALSE;
  for (int i = 0; i <= 4; i++)
    {
      double x = box.x0 + (box.x1 - box.x0) * i / 4;
      double share = 0.2 + 0.2 * i;

      if (is_in_wood (leader, CAV_POINT (x, box.y0 - AIR))
          || is_in_wood (leader, CAV_POINT (x, box.y1 + AIR))
          || is_in_wood (leader,
                         CAV_POINT (leader->tip.x + share * (leader->tail.x - leader->tip.x),
                                    leader->tip.y + share * (leader->tail.y - leader->tip.y))))
        return FALSE;
    }
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *other;
      const CavTextStyle *style;
      CavBox other_box = cav_scene_get_text (scene, i, &other, &style);

      if (cav_box_overlaps (cav_box_grow (box, AIR), other_box)
          || cav_box_overlaps (cav_box_grow (line, 0.1), other_box))
        return FALSE;
    }
  return TRUE;
}

/* Whether the leader's line runs into a box, its very ends aside. */
static gboolean
runs_into (const Leader *leader, CavBox box)
{
  for (int i = 1; i < LEADER_STEPS; i++)
    {
      double share = (double)i / LEADER_STEPS;
      double x = leader->tip.x + share * (leader->tail.x - leader->tip.x);
      double y = leader->tip.y + share * (leader->tail.y - leader->tip.y);

      if (x > box.x0 && x < box.x1 && y > box.y0 && y < box.y1)
        return TRUE;
    }
  return FALSE;
}

/* The value keeps off the lines of the dimensions; the leader too, where that can be had. */
static gboolean
crosses_dimensions (const Leader *leader, const char *text, CavPoint origin, gboolean leader_too)
{
  CavSectionView *view = leader->view;
  CavBox box = cav_box_grow (
      cav_scene_get_text_box (view->scene, text, leader->text_point, &leader->style), 0.4);

  for (guint i = 0; i < view->rooms->len; i++)
    {
      const CavDimensionRoom *room = &g_array_index (view->rooms, CavDimensionRoom, i);
      const CavBox lines[] = { room->line, room->extensions[0], room->extensions[1] };

      for (guint j = 0; j < G_N_ELEMENTS (lines); j++)
        {
          CavBox moved = cav_box (lines[j].x0 + origin.x, lines[j].y0 + origin.y,
                                  lines[j].x1 + origin.x, lines[j].y1 + origin.y);

          if (cav_box_overlaps (box, cav_box_grow (moved, 0.01))
              || (leader_too && runs_into (leader, cav_box_grow (moved, 0.25))))
            return TRUE;
        }
    }
  return FALSE;
}

static void
aim (Leader *leader, double angle, double length)
{
  double dx = cos (angle);
  double dy = sin (angle);

  leader->tail = CAV_POINT (leader->tip.x + length * dx, leader->tip.y + length * dy);
  leader->style.align = dx < 0 ? CAV_ALIGN_END : CAV_ALIGN_START;
  leader->text_point = CAV_POINT (leader->tail.x + (dx < 0 ? -0.8 : 0.8),
                                  leader->tail.y + leader->style.height / 2);
}

/* Turns the leader to the nearest place where the value can stand. */
static gboolean
find_place (Leader *leader, const char *text, double angle, CavPoint origin, gboolean strict)
{
  static const double turns[] = { 0, 0.45, -0.45, 0.8, -0.8, 1.15, -1.15 };
  static const double lengths[] = { 5, 8, 12, 17, 24 };

  for (guint i = 0; i < G_N_ELEMENTS (lengths); i++)
    for (guint j = 0; j < G_N_ELEMENTS (turns); j++)
      {
        aim (leader, angle + turns[j], lengths[i]);
        if (leader_is_free (leader, text) && !crosses_dimensions (leader, text, origin, strict))
          return TRUE;
      }
  return FALSE;
}

static void
draw_radius (CavSectionView *view,
             const CavSegment *arc,
             const char *text,
             CavTransform map,
             CavPoint origin)
{
  CavPoint middle = cav_segment_point_at (arc, 0.5);
  Leader leader = { .view = view,
                    .map = map,
                    .room = cav_box (view->extent.x0 + origin.x, view->extent.y0 + origin.y,
                                     view->extent.x1 + origin.x, view->extent.y1 + origin.y),
                    .tip = cav_transform_point (map, middle) };
  CavPoint centre = cav_transform_point (map, arc->centre);
  double angle = atan2 (centre.y - leader.tip.y, centre.x - leader.tip.x);
  double length;

  leader.style = (CavTextStyle){ .height = view->letters, .ink = CAV_INK_BLACK };
  aim (&leader, angle, 0.8);
  if (is_in_wood (&leader, leader.tail))
    angle += G_PI;
  if (!find_place (&leader, text, angle, origin, TRUE)
      && !find_place (&leader, text, angle, origin, FALSE))
    return;
  length = hypot (leader.tip.x - leader.tail.x, leader.tip.y - leader.tail.y);
  cav_scene_add_line (view->scene, leader.tail, leader.tip, CAV_STYLE_DIMENSION);
  cav_arrow_draw (view->scene, leader.tip, (leader.tip.x - leader.tail.x) / length,
                  (leader.tip.y - leader.tail.y) / length);
  cav_scene_add_text (view->scene, text, leader.text_point, &leader.style);
}

static gboolean
is_new_arc (GArray *drawn, const CavSegment *arc)
{
  for (guint i = 0; i < drawn->len; i++)
    {
      const CavSegment *other = &g_array_index (drawn, CavSegment, i);

      if (fabs (other->rx - arc->rx) < 0.01 && cav_point_near (other->centre, arc->centre, 0.05))
        return FALSE;
    }
  return TRUE;
}

void
cav_section_draw_radii (
    CavSectionView *view, CavPoint origin, CavTransform map, CavUnit unit, int denominator)
{
  const CavRegion *region = view->profile->region;
  g_autoptr (GArray) drawn = g_array_new (FALSE, FALSE, sizeof (CavSegment));

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *ring = cav_region_get_ring (region, i);

      for (guint j = 0; j < cav_path_get_segment_count (ring) && drawn->len < N_RADII; j++)
        {
          const CavSegment *arc = cav_path_get_segment (ring, j);
          g_autofree char *value = NULL;
          g_autofree char *text = NULL;

          if (arc->kind != CAV_SEGMENT_ARC || fabs (arc->rx - arc->ry) > 0.005
              || fabs (arc->sweep) < 15 || !is_new_arc (drawn, arc))
            continue;
          g_array_append_val (drawn, *arc);
          value = cav_length_format_bare (arc->rx, unit, denominator);
          text = g_strconcat ("R ", value, NULL);
          draw_radius (view, arc, text, map, origin);
        }
    }
}
