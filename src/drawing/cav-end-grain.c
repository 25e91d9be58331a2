/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-end-grain.h"

#include "geometry/cav-unit.h"

#include <math.h>

/* The heart's place, as shares of the blank's size: aside of the middle, well below the back. */
#define HEART_X 0.36
#define HEART_Y -0.9
/* Places that are looked at for the mark, each way. */
#define MARK_STEPS 28

/* How much a map of the plane enlarges; ours only shift, turn, mirror and scale evenly. */
static double
get_scale (CavTransform map)
{
  return sqrt (fabs (map.xx * map.yy - map.xy * map.yx));
}

static void
draw_ring (CavScene *scene, CavPoint heart, double radius, CavBox bounds, CavTransform map)
{
  double right = CAV_DEGREES (atan2 (bounds.y0 - heart.y, bounds.x1 - heart.x)) - 5;
  double left = CAV_DEGREES (atan2 (bounds.y0 - heart.y, bounds.x0 - heart.x)) + 5;
  g_autoptr (CavPath) ring = cav_path_new ();
  g_autoptr (CavPath) mapped = NULL;
  /* Trees are not compasses. */
  CavSegment arc = cav_segment_arc (heart, radius * 1.04, radius, 0, right, left - right);

  cav_path_append (ring, &arc);
  mapped = cav_path_transformed (ring, map);
  cav_scene_add_path (scene, mapped, CAV_STYLE_RING);
}

CavPoint
cav_end_grain_get_heart (const CavBlank *blank)
{
  return CAV_POINT (HEART_X * blank->width, HEART_Y * fmax (blank->thickness, 0.6 * blank->width));
}

void
cav_end_grain_draw (CavScene *scene,
                    const CavRegion *region,
                    const CavBlank *blank,
                    CavTransform map,
                    double spacing)
{
  CavPoint heart = cav_end_grain_get_heart (blank);
  CavBox bounds = { 0, 0, blank->width, blank->thickness };
  double reach = hypot (fmax (heart.x, blank->width - heart.x), blank->thickness - heart.y);
  double gap = spacing / fmax (get_scale (map), 1e-6);
  guint32 state = 7;

  if (cav_region_is_empty (region))
    return;
  cav_scene_add_region (scene, region, map, CAV_STYLE_WOOD);
  cav_scene_begin_clip (scene, region, map);
  for (double radius = -heart.y + gap / 2; radius < reach;)
    {
      draw_ring (scene, heart, radius, bounds, map);
      /* Good and bad years, the same ones each time. */
      state = state * 1664525u + 1013904223u;
      radius += gap * (0.6 + 0.8 * (state >> 16) / 65536.0);
    }
  cav_scene_end_clip (scene);
}

CavEndMark
cav_end_mark_find (const CavRegion *profile, double size)
{
  CavBox bounds = cav_region_get_bounds (profile);
  /* Radius of the circle around the triangle's middle that holds it, and some air. */
  double wanted = size * 0.8;
  CavEndMark mark = { { (bounds.x0 + bounds.x1) / 2, (bounds.y0 + bounds.y1) / 2 }, size };
  double best_room = 0;
  double best_distance = G_MAXDOUBLE;

  if (cav_region_is_empty (profile))
    return mark;
  for (int i = 1; i < MARK_STEPS; i++)
    for (int j = 1; j < MARK_STEPS; j++)
      {
        CavPoint place = { bounds.x0 + (bounds.x1 - bounds.x0) * i / MARK_STEPS,
                           bounds.y1 - (bounds.y1 - bounds.y0) * j / MARK_STEPS };
        double room;
        double distance;

        if (!cav_region_contains (profile, place))
          continue;
        room = fmin (cav_region_get_distance (profile, place), wanted);
        distance = hypot (place.x - bounds.x0, place.y - bounds.y1);
        if (room > best_room + 1e-9 || (room > best_room - 1e-9 && distance < best_distance - 1e-9))
          {
            mark.centre = place;
            best_room = fmax (room, best_room);
            best_distance = distance;
          }
      }
  if (best_room > 0)
    mark.size = best_room / 0.8;
  return mark;
}

void
cav_end_mark_draw (CavScene *scene, CavEndMark mark, CavTransform map)
{
  double half = mark.size / 2;
  const CavPoint corners[] = { { mark.centre.x - half, mark.centre.y + half },
                               { mark.centre.x + half, mark.centre.y + half },
                               { mark.centre.x - half, mark.centre.y - half } };
  CavPoint mapped[G_N_ELEMENTS (corners)];

  for (guint i = 0; i < G_N_ELEMENTS (corners); i++)
    mapped[i] = cav_transform_point (map, corners[i]);
  cav_scene_add_polygon (scene, mapped, G_N_ELEMENTS (mapped), CAV_STYLE_MARK);
}
