/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-section-view.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-end-grain.h"
#include "geometry/cav-tolerance.h"

/* On the page, mm. */
#define FIRST_LANE 8.5
#define LANE 7.0
#define N_LANES 4
#define NAME_GAP 3.6
#define RING_SPACING 2.4
#define AIR 0.9 /* between a text and anything else */

typedef struct
{
  const char *text;
  CavPoint point;
  CavTextStyle style;
} Name;

static void
dimension_free (gpointer data)
{
  CavDimension *dimension = data;

  g_free ((char *)dimension->text);
  g_free (dimension);
}

/* Texts keep clear of everything, dimension lines of their own kind. */
static gboolean
rooms_collide (const CavDimensionRoom *a,
               gboolean a_upright,
               const CavDimensionRoom *b,
               gboolean b_upright)
{
  CavBox a_text = cav_box_grow (a->text, AIR);
  CavBox b_text = cav_box_grow (b->text, AIR);

  if (cav_box_overlaps (a_text, b->text) || cav_box_overlaps (a_text, cav_box_grow (b->line, 0.01))
      || cav_box_overlaps (b_text, cav_box_grow (a->line, 0.01)))
    return TRUE;
  for (guint i = 0; i < 2; i++)
    if (cav_box_overlaps (a->text, cav_box_grow (b->extensions[i], 0.2))
        || cav_box_overlaps (b->text, cav_box_grow (a->extensions[i], 0.2)))
      return TRUE;
  return a_upright == b_upright
         && cav_box_overlaps (cav_box_grow (a->line, a_upright ? 0.01 : -0.2),
                              cav_box_grow (b->line, a_upright ? 0.01 : -0.2))
         && cav_box_overlaps (cav_box_grow (a->line, 0.01), cav_box_grow (b->line, 0.01));
}

static gboolean
is_free (CavSectionView *view, const CavDimension *dimension)
{
  CavDimensionRoom room = cav_dimension_get_room (view->scene, dimension);

  for (guint i = 0; i < view->dimensions->len; i++)
    {
      const CavDimension *other = g_ptr_array_index (view->dimensions, i);
      const CavDimensionRoom *other_room = &g_array_index (view->rooms, CavDimensionRoom, i);

      if (rooms_collide (&room, dimension->upright, other_room, other->upright))
        return FALSE;
    }
  return TRUE;
}

static CavDimension *
create_dimension (CavSectionView *view, const CavMeasured *measured, char *text)
{
  CavDimension *dimension = g_new0 (CavDimension, 1);
  double thickness = view->profile->blank.thickness;
  double scale = view->scale;

  dimension->upright = measured->upright;
  dimension->text = text;
  dimension->height = view->letters;
  if (measured->upright)
    {
      dimension->from = (thickness - measured->to) * scale;
      dimension->to = (thickness - measured->from) * scale;
      dimension->start_from = measured->start_to * scale;
      dimension->start_to = measured->start_from * scale;
      dimension->beyond_low = TRUE;
    }
  else
    {
      dimension->from = measured->from * scale;
      dimension->to = measured->to * scale;
      dimension->start_from = (thickness - measured->start_from) * scale;
      dimension->start_to = (thickness - measured->start_to) * scale;
    }
  return dimension;
}

/* Where a lane runs: beside the back or face, the inside or outside. */
static double
get_lane (CavSectionView *view, const CavMeasured *measured, int lane)
{
  double away = FIRST_LANE + lane * LANE;
  const CavBlank *blank = &view->profile->blank;

  if (measured->upright)
    return measured->high ? blank->width * view->scale + away : -away;
  return measured->high ? -away : blank->thickness * view->scale + away;
}

static void
take_dimension (CavSectionView *view, CavDimension *dimension)
{
  CavDimensionRoom room = cav_dimension_get_room (view->scene, dimension);

  g_ptr_array_add (view->dimensions, dimension);
  g_array_append_val (view->rooms, room);
}

/* Takes the nearest lane that is free; without one the dimension is left out, unless it must be:
 * overall dimensions stand outside of all others. */
static void
place (
    CavSectionView *view, const CavMeasured *measured, gboolean must, CavUnit unit, int denominator)
{
  int *used = &view->n_lanes[measured->upright ? 1 : 0][measured->high ? 1 : 0];
  /* What boolean operations move by a rounding is not to show in the second decimal. */
  double length = round ((measured->to - measured->from) * 1e4) / 1e4;
  CavDimension *dimension
      = create_dimension (view, measured, cav_length_format_bare (length, unit, denominator));

  for (int lane = must ? *used : 0; lane < (must ? 2 * N_LANES : N_LANES); lane++)
    {
      dimension->line = get_lane (view, measured, lane);
      if (is_free (view, dimension))
        {
          *used = MAX (*used, lane + 1);
          take_dimension (view, dimension);
          return;
        }
    }
  if (must)
    take_dimension (view, dimension);
  else
    dimension_free (dimension);
}

static int
compare_measures (gconstpointer a, gconstpointer b)
{
  const CavMeasured *one = a;
  const CavMeasured *other = b;
  double difference = (one->to - one->from) - (other->to - other->from);

  if (one->crosses != other->crosses)
    return one->crosses ? 1 : -1;
  if (fabs (difference) > CAV_TOLERANCE_POINT)
    return difference < 0 ? -1 : 1;
  if (one->upright != other->upright)
    return one->upright ? 1 : -1;
  return one->from < other->from ? -1 : one->from > other->from ? 1 : 0;
}

static void
place_all (CavSectionView *view, CavProject *project, CavUnit unit, int denominator)
{
  const CavBlank *blank = &view->profile->blank;
  g_autoptr (GArray) measures = cav_section_find_measures (project);
  CavMeasured overall[] = { { .to = blank->width },
                            { .upright = TRUE,
                              .to = blank->thickness,
                              .start_from = blank->width,
                              .start_to = blank->width,
                              .high = TRUE } };

  /* Short ones stand nearest to the part, so that extension lines cross no dimension line. */
  g_array_sort (measures, compare_measures);
  for (guint i = 0; i < measures->len; i++)
    place (view, &g_array_index (measures, CavMeasured, i), FALSE, unit, denominator);
  for (guint i = 0; i < G_N_ELEMENTS (overall); i++)
    place (view, &overall[i], TRUE, unit, denominator);
}

static CavBox
get_room_box (const CavDimensionRoom *room)
{
  CavBox box = room->text;

  box = cav_box_join (box, room->line);
  box = cav_box_join (box, room->extensions[0]);
  box = cav_box_join (box, room->extensions[1]);
  return box;
}

static void
add_name (CavSectionView *view, const char *text, CavPoint point, gboolean turned)
{
  Name *name = g_new0 (Name, 1);

  name->text = text;
  name->point = point;
  name->style = (CavTextStyle){
    .height = view->letters, .ink = CAV_INK_GREY, .align = CAV_ALIGN_MIDDLE, .turned = turned
  };
  g_ptr_array_add (view->names, name);
}

static void
add_names (CavSectionView *view)
{
  double width = view->profile->blank.width * view->scale;
  double height = view->profile->blank.thickness * view->scale;
  CavBox box = view->extent;

  add_name (view, C_ ("name of a side", "face"), CAV_POINT (width / 2, box.y0 - NAME_GAP), FALSE);
  add_name (view, C_ ("name of a side", "back, to the wall"),
            CAV_POINT (width / 2, box.y1 + NAME_GAP + view->letters), FALSE);
  add_name (view, C_ ("name of a side", "sight edge, inside"),
            CAV_POINT (box.x0 - NAME_GAP, height / 2), TRUE);
  add_name (view, C_ ("name of a side", "outside"),
            CAV_POINT (box.x1 + NAME_GAP + view->letters, height / 2), TRUE);
  for (guint i = 0; i < view->names->len; i++)
    {
      const Name *name = g_ptr_array_index (view->names, i);

      view->extent
          = cav_box_join (view->extent, cav_scene_get_text_box (view->scene, name->text,
                                                                name->point, &name->style));
    }
}

CavSectionView *
cav_section_view_new (CavScene *scene,
                      CavProject *project,
                      double scale,
                      gboolean bare,
                      CavUnit unit,
                      int denominator)
{
  CavSectionView *view = g_new0 (CavSectionView, 1);
  const CavBlank *blank;

  view->scene = scene;
  view->profile = cav_project_get_profile (project);
  view->scale = scale;
  view->letters = CAV_LETTER_VALUE;
  view->dimensions = g_ptr_array_new_with_free_func (dimension_free);
  view->rooms = g_array_new (FALSE, FALSE, sizeof (CavDimensionRoom));
  view->names = g_ptr_array_new_with_free_func (g_free);
  blank = &view->profile->blank;
  view->map = (CavTransform){ scale, 0, 0, 0, -scale, blank->thickness * scale };
  view->extent = cav_box (0, 0, blank->width * scale, blank->thickness * scale);
  if (bare)
    return view;
  place_all (view, project, unit, denominator);
  for (guint i = 0; i < view->rooms->len; i++)
    view->extent = cav_box_join (view->extent,
                                 get_room_box (&g_array_index (view->rooms, CavDimensionRoom, i)));
  add_names (view);
  return view;
}

void
cav_section_view_free (CavSectionView *view)
{
  if (view == NULL)
    return;
  g_ptr_array_unref (view->dimensions);
  g_array_unref (view->rooms);
  g_ptr_array_unref (view->names);
  g_free (view);
}

static void
draw_dimensions (CavSectionView *view, CavPoint origin)
{
  for (guint i = 0; i < view->dimensions->len; i++)
    {
      CavDimension moved = *(const CavDimension *)g_ptr_array_index (view->dimensions, i);
      double along = moved.upright ? origin.y : origin.x;
      double across = moved.upright ? origin.x : origin.y;

      moved.from += along;
      moved.to += along;
      moved.line += across;
      moved.start_from += across;
      moved.start_to += across;
      cav_dimension_draw (view->scene, &moved);
    }
}

static void
draw_names (CavSectionView *view, CavPoint origin)
{
  for (guint i = 0; i < view->names->len; i++)
    {
      const Name *name = g_ptr_array_index (view->names, i);

      cav_scene_add_text (view->scene, name->text,
                          CAV_POINT (name->point.x + origin.x, name->point.y + origin.y),
                          &name->style);
    }
}

void
cav_section_view_draw (CavSectionView *view, CavPoint origin, CavUnit unit, int denominator)
{
  CavScene *scene = view->scene;
  const CavProfile *profile = view->profile;
  CavTransform map
      = cav_transform_compose (view->map, cav_transform_translation (origin.x, origin.y));
  g_autoptr (CavRegion) blank = cav_blank_create_region (&profile->blank);

  cav_scene_begin_layer (scene, "waste");
  cav_scene_add_region (scene, cav_profile_get_waste (profile), map, CAV_STYLE_WASTE);
  cav_scene_end_layer (scene);
  cav_scene_begin_layer (scene, "blank");
  cav_scene_add_region (scene, blank, map, CAV_STYLE_BLANK);
  cav_scene_end_layer (scene);
  cav_scene_begin_layer (scene, "end-grain");
  cav_end_grain_draw (scene, profile->region, &profile->blank, map, RING_SPACING);
  cav_scene_end_layer (scene);
  cav_scene_begin_layer (scene, "profile");
  cav_scene_add_region (scene, profile->region, map, CAV_STYLE_OUTLINE);
  cav_scene_end_layer (scene);
  cav_scene_begin_layer (scene, "names");
  draw_names (view, origin);
  cav_scene_end_layer (scene);
  cav_scene_begin_layer (scene, "dimensions");
  draw_dimensions (view, origin);
  if (view->names->len > 0)
    cav_section_draw_radii (view, origin, map, unit, denominator);
  cav_scene_end_layer (scene);
}
