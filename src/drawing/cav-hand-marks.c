/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-hand-words.h"
#include "milling/cav-hand-work.h"

/* mm */
#define RADIUS 2.3
#define APART (2 * RADIUS + 0.5)
#define INWARD 8.5 /* from the place toward the middle of the wood */
#define TRIES 36u

/* Round enough for print. */
static CavPath *
create_circle (CavPoint centre)
{
  CavPath *path = cav_path_new ();
  const guint n = 24;

  for (guint i = 0; i < n; i++)
    {
      double angle = 2 * G_PI * i / n;
      CavPoint p = CAV_POINT (centre.x + RADIUS * cos (angle), centre.y + RADIUS * sin (angle));

      if (i == 0)
        cav_path_move_to (path, p);
      else
        cav_path_line_to (path, p);
    }
  cav_path_close (path);
  return path;
}

/* On the wood, where no side's name is, and clear of other numbers. */
static gboolean
is_free (const GArray *centres, CavPoint point, CavBox box)
{
  if (point.x < box.x0 + RADIUS || point.x > box.x1 - RADIUS || point.y < box.y0 + RADIUS
      || point.y > box.y1 - RADIUS)
    return FALSE;
  for (guint i = 0; i < centres->len; i++)
    if (cav_point_distance (g_array_index (centres, CavPoint, i), point) < APART)
      return FALSE;
  return TRUE;
}

/* Toward the middle of the blank, and turned aside where another number stands. */
static CavPoint
find_centre (const GArray *centres, CavPoint place, CavBox box)
{
  CavPoint middle = CAV_POINT ((box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2);
  double angle = atan2 (middle.y - place.y, middle.x - place.x);
  CavPoint first = CAV_POINT (place.x + INWARD * cos (angle), place.y + INWARD * sin (angle));

  for (guint i = 0; i < TRIES; i++)
    {
      double turn = (i % 2 == 0 ? 1 : -1) * ((i + 1) / 2) * 20.0 * G_PI / 180;
      double reach = INWARD + (i / 12) * APART;
      CavPoint point
          = CAV_POINT (place.x + reach * cos (angle + turn), place.y + reach * sin (angle + turn));

      if (is_free (centres, point, box))
        return point;
    }
  return first;
}

static void
draw_mark (CavScene *scene, guint number, CavPoint place, CavPoint centre)
{
  const CavTextStyle style = {
    .height = CAV_LETTER_SMALL, .bold = TRUE, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_MIDDLE
  };
  g_autofree char *text = g_strdup_printf ("%u", number);
  g_autoptr (CavPath) circle = create_circle (centre);

  cav_scene_add_line (scene, place, centre, CAV_STYLE_DIMENSION);
  cav_scene_add_path (scene, circle, CAV_STYLE_TICK_BOX);
  cav_scene_add_text (scene, text, CAV_POINT (centre.x, centre.y + style.height / 2), &style);
}

void
cav_hand_marks_draw (CavScene *scene, const CavPlan *plan, CavTransform map, CavBox box)
{
  g_autoptr (GArray) surfaces = NULL;
  g_autoptr (GArray) centres = g_array_new (FALSE, FALSE, sizeof (CavPoint));

  g_return_if_fail (scene != NULL && plan != NULL);

  surfaces = cav_hand_work_find (plan);
  for (guint i = 0; i < MIN (surfaces->len, CAV_HAND_PLACES_MAX); i++)
    {
      CavPoint own = g_array_index (surfaces, CavHandSurface, i).place;
      CavPoint place = cav_transform_point (map, CAV_POINT (own.x + plan->carrier_inside, own.y));
      CavPoint centre = find_centre (centres, place, box);

      g_array_append_val (centres, centre);
      draw_mark (scene, i + 1, place, centre);
    }
}
