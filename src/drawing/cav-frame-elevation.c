/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-elevation.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "drawing/cav-dimension.h"
#include "drawing/cav-frame-face.h"
#include "drawing/cav-relief.h"

/* On the page, mm. */
#define LANE 7.0
#define FIRST_LANE 9.0
#define N_LANES 3
/* What the lines of the sizes take beside and below the frame. */
#define LANES (FIRST_LANE + (N_LANES - 1) * LANE + 4.0)
#define LINES_APART 0.6 /* nearer than this, arrises would run together */

/* A step on the face that is drawn as an edge, mm, or a bend, as a difference of slopes. */
#define EDGE_STEP 0.4
#define EDGE_BEND 0.35
#define EDGE_SAMPLES 900

/* Of the frame, mm of wood around its middle. */
static CavBox
get_bounds (const CavFrameElevation *self)
{
  CavFrameFace face;

  cav_frame_face_init (&face, self->frame->settings.sides, self->frame->sizes.outside);
  return cav_frame_face_get_bounds (&face);
}

static CavPoint
map (const CavFrameElevation *self, CavPoint point)
{
  return CAV_POINT (self->middle.x + point.x * self->scale, self->middle.y + point.y * self->scale);
}

/* The frame */

static void
draw_outline (const CavFrameElevation *self, CavSize size, CavPoint shift, CavStyleName style)
{
  CavFrameFace face;
  CavPoint points[CAV_FRAME_SIDES_MAX];

  cav_frame_face_init (&face, self->frame->settings.sides, size);
  for (int i = 0; i < face.sides; i++)
    {
      CavPoint corner = cav_frame_face_get_corner (&face, i, 0.0);

      points[i] = map (self, CAV_POINT (corner.x + shift.x, corner.y + shift.y));
    }
  cav_scene_add_polygon (self->scene, points, (guint)face.sides, style);
}

static gboolean
is_arris (const CavRelief *relief, int sample)
{
  return fabsf (relief->heights[sample] - relief->heights[sample - 1]) >= EDGE_STEP
         || fabsf (relief->slopes[sample] - relief->slopes[sample - 1]) >= EDGE_BEND;
}

/* The profile's arrises as lines that run around the frame: where the face steps or bends. */
static void
draw_arrises (const CavFrameElevation *self, const CavProfile *profile)
{
  g_autoptr (CavRelief) relief = cav_relief_new (profile, EDGE_SAMPLES);
  double last = 0;

  for (int i = 1; relief != NULL && i < EDGE_SAMPLES; i++)
    {
      double at = i * relief->width / EDGE_SAMPLES;
      CavSize size = self->frame->sizes.outside;

      if (!is_arris (relief, i) || (at - last) * self->scale < LINES_APART)
        continue;
      last = at;
      size.width -= 2.0 * at;
      size.height -= 2.0 * at;
      draw_outline (self, size, CAV_POINT (0, 0), CAV_STYLE_THIN_RULE);
    }
}

static void
draw_mitres (const CavFrameElevation *self)
{
  CavFrameFace face;

  cav_frame_face_init (&face, self->frame->settings.sides, self->frame->sizes.outside);
  for (int i = 0; i < face.sides; i++)
    cav_scene_add_line (
        self->scene, map (self, cav_frame_face_get_corner (&face, i, 0.0)),
        map (self, cav_frame_face_get_corner (&face, i, self->frame->sizes.molding)),
        CAV_STYLE_THIN_RULE);
}

void
cav_frame_elevation_draw_frame (const CavFrameElevation *self, const CavProfile *profile)
{
  g_return_if_fail (self != NULL && self->scene != NULL && profile != NULL);

  const CavFrameSizes *sizes = &self->frame->sizes;
  const CavFrameSettings *settings = &self->frame->settings;
  CavPoint shift = CAV_POINT ((sizes->borders.left - sizes->borders.right) / 2.0,
                              (sizes->borders.top - sizes->borders.bottom) / 2.0);

  draw_arrises (self, profile);
  draw_mitres (self);
  draw_outline (self, sizes->rabbet, CAV_POINT (0, 0), CAV_STYLE_HIDDEN);
  for (int i = 0; i < settings->n_mats && !settings->floated; i++)
    draw_outline (self, sizes->windows[i], shift, CAV_STYLE_THIN_RULE);
  draw_outline (self, sizes->sight, CAV_POINT (0, 0), CAV_STYLE_OUTLINE);
  draw_outline (self, sizes->outside, CAV_POINT (0, 0), CAV_STYLE_OUTLINE);
}

CavBox
cav_frame_elevation_get_core (const CavFrameElevation *self)
{
  g_return_val_if_fail (self != NULL && self->frame != NULL, cav_box (0, 0, 0, 0));

  CavBox bounds = get_bounds (self);
  CavPoint low = map (self, CAV_POINT (bounds.x0, bounds.y0));
  CavPoint high = map (self, CAV_POINT (bounds.x1, bounds.y1));

  return cav_box (low.x, low.y, high.x + LANES, high.y + LANES);
}

/* Its sizes */

typedef void (*TakeDimension) (const CavFrameElevation *self,
                               const CavDimension *dimension,
                               gpointer data);

/* lane 0 is nearest to the frame; upright sizes stand at its right. */
static void
visit_size (const CavFrameElevation *self,
            const char *name,
            double mm,
            int lane,
            gboolean upright,
            TakeDimension take,
            gpointer data)
{
  CavBox core = cav_frame_elevation_get_core (self);
  double half = mm / 2.0 * self->scale;
  double from = upright ? self->middle.y : self->middle.x;
  double edge = (upright ? core.x1 : core.y1) - LANES;
  g_autofree char *figure = cav_length_format_bare (mm, self->style.unit, self->style.denominator);
  g_autofree char *text = g_strdup_printf ("%s %s", name, figure);
  const CavDimension dimension = { .upright = upright,
                                   .from = from - half,
                                   .to = from + half,
                                   .line = edge + FIRST_LANE + lane * LANE,
                                   .start_from = edge,
                                   .start_to = edge,
                                   .text = text,
                                   .height = CAV_LETTER_VALUE,
                                   .beyond_low = upright };

  take (self, &dimension, data);
}

static void
visit_three (const CavFrameElevation *self,
             double sight,
             double rabbet,
             double outside,
             gboolean upright,
             TakeDimension take,
             gpointer data)
{
  visit_size (self, C_ ("size of a frame", "sight"), sight, 0, upright, take, data);
  visit_size (self, C_ ("size of a frame", "rabbet"), rabbet, 1, upright, take, data);
  visit_size (self, C_ ("size of a frame", "outside"), outside, 2, upright, take, data);
}

/* Of a rectangle both sizes, of another frame the length of a side, measured at the one below. */
static void
visit_sizes (const CavFrameElevation *self, TakeDimension take, gpointer data)
{
  const CavFrameSizes *sizes = &self->frame->sizes;
  const CavRailGroup *all = &self->frame->rails.groups[0];

  if (self->frame->rails.n_groups == 1)
    {
      visit_three (self, all->short_point, all->rabbet_line, all->long_point, FALSE, take, data);
      return;
    }
  visit_three (self, sizes->sight.width, sizes->rabbet.width, sizes->outside.width, FALSE, take,
               data);
  visit_three (self, sizes->sight.height, sizes->rabbet.height, sizes->outside.height, TRUE, take,
               data);
}

static void
join_room (const CavFrameElevation *self, const CavDimension *dimension, gpointer data)
{
  CavBox *extent = data;
  CavDimensionRoom room = cav_dimension_get_room (self->scene, dimension);

  *extent = cav_box_join (cav_box_join (*extent, room.text), room.line);
}

static void
draw_size (const CavFrameElevation *self, const CavDimension *dimension, gpointer data)
{
  cav_dimension_draw (self->scene, dimension);
}

CavBox
cav_frame_elevation_get_extent (const CavFrameElevation *self)
{
  g_return_val_if_fail (self != NULL && self->scene != NULL, cav_box (0, 0, 0, 0));

  CavBox extent = cav_frame_elevation_get_core (self);

  visit_sizes (self, join_room, &extent);
  return extent;
}

void
cav_frame_elevation_draw_sizes (const CavFrameElevation *self)
{
  g_return_if_fail (self != NULL && self->scene != NULL);

  visit_sizes (self, draw_size, NULL);
}
