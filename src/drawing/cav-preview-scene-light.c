/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-preview-scene-private.h"

#include <math.h>

/* The falling off of the shadow where two things meet, as a gradient over three times its measure:
 * exp (-3 t) in a few stops. */
#define CONTACT_REACH 3.0

static const CavColour black = { 0, 0, 0 };

/* How far darkness reaches beyond a side, and the slice of the molding that throws it. */
typedef struct
{
  double inset; /* of the slice's edge */
  double way;   /* along the light, mm, on the ground */
  double soft;  /* width of the shadow's edge */
} Throw;

static double
get_toward (const CavScenePainter *painter, int side)
{
  return painter->face.across[side].x * painter->lamp.x
         + painter->face.across[side].y * painter->lamp.y;
}

/* The slice whose shadow comes out farthest beyond the sides that face the light straight on. */
static Throw
find_throw (const CavScenePainter *painter, double level, gboolean hole)
{
  const CavRelief *relief = painter->relief;
  Throw best = { 0 };
  double farthest = -INFINITY;
  double most = 0.0;

  for (int i = 0; i < painter->face.sides; i++)
    most = fmax (most, hole ? get_toward (painter, i) : -get_toward (painter, i));
  for (int k = 0; k < CAV_RELIEF_SLICES; k++)
    {
      const CavReliefSlice *slice = &relief->slices[k];
      double above = slice->height - level;
      double way = above * painter->lamp.cosine / painter->lamp.sine;
      double out = most * way - (hole ? relief->width - slice->inner : slice->outer);

      if (above <= 0.0 || out <= farthest)
        continue;
      farthest = out;
      best = (Throw){ .inset = hole ? slice->inner : slice->outer,
                      .way = way,
                      .soft = cav_lamp_get_softness (relief, painter->lamp, above) };
    }
  return best;
}

/* One side's part of a shadow: from the edge that is seen to the slice's edge moved by the light.
 * Neighbours meet in the moved corner. */
static void
draw_side (const CavScenePainter *painter, int side, Throw thrown, double edge)
{
  CavPoint across = painter->face.across[side];
  double toward = get_toward (painter, side);
  double outward = toward < 0.0 ? 1.0 : -1.0;
  /* From the edge to the middle of the shadow's soft end. */
  double way = fabs (toward) * thrown.way - outward * (thrown.inset - edge);
  double end = way + 0.5 * thrown.soft;
  double inset = thrown.inset - outward * 0.5 * thrown.soft;
  double dark = 1.0 - CAV_AMBIENT;
  CavPoint shift = CAV_POINT (-painter->lamp.x * thrown.way, -painter->lamp.y * thrown.way);
  CavPoint points[4];
  CavPoint moved[4];

  if (way <= 0.0)
    return;
  const CavStop stops[] = { { 0.0, black, 1.0 - dark },
                            { fmax (end - thrown.soft, 0.0) / end, black, 1.0 - dark },
                            { 1.0, black, 1.0 } };
  cav_scene_painter_get_side (&painter->face, side, edge, edge, points);
  cav_scene_painter_get_side (&painter->face, side, inset, inset, moved);
  points[2] = CAV_POINT (moved[1].x + shift.x, moved[1].y + shift.y);
  points[3] = CAV_POINT (moved[0].x + shift.x, moved[0].y + shift.y);
  cav_scene_painter_fill_across (painter, points, across, outward * end, stops,
                                 G_N_ELEMENTS (stops));
}

void
cav_scene_painter_draw_contact (const CavScenePainter *painter,
                                const CavFrameFace *face,
                                double edge,
                                double measure,
                                double strength)
{
  double reach = CONTACT_REACH * measure;
  static const double shares[] = { 0.0, 0.12, 0.25, 0.45, 0.7, 1.0 };
  CavStop stops[G_N_ELEMENTS (shares)];
  CavPoint points[4];

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    stops[i] = (CavStop){ shares[i], black,
                          1.0 - strength * (1.0 - shares[i]) * exp (-CONTACT_REACH * shares[i]) };
  for (int i = 0; i < face->sides; i++)
    {
      cav_scene_painter_get_side (face, i, edge, edge + reach, points);
      cav_scene_painter_fill_across (painter, points, face->across[i], -reach, stops,
                                     G_N_ELEMENTS (stops));
    }
}

void
cav_scene_painter_draw_wall_shadow (const CavScenePainter *painter)
{
  Throw thrown = find_throw (painter, 0.0, FALSE);

  cav_scene_painter_draw_contact (painter, &painter->face, 0.0, -CAV_CONTACT_WALL, CAV_CONTACT);
  for (int i = 0; i < painter->face.sides; i++)
    if (get_toward (painter, i) < 0.0)
      draw_side (painter, i, thrown, 0.0);
}

void
cav_scene_painter_draw_mat_shadow (const CavScenePainter *painter, double height)
{
  double width = painter->relief->width;
  Throw thrown = find_throw (painter, height, TRUE);

  cav_scene_painter_draw_contact (painter, &painter->face, width, CAV_CONTACT_MAT, CAV_CONTACT);
  for (int i = 0; i < painter->face.sides; i++)
    if (get_toward (painter, i) > 0.0)
      draw_side (painter, i, thrown, width);
}

/* The slanting stripes of cav-preview-paint.c, as one gradient over the sight opening. */
void
cav_scene_painter_draw_reflection (const CavScenePainter *painter)
{
  static const double stripes[][2]
      = { { -0.19, 0.05 },  { -0.1667, 0.21 }, { -0.0733, 0.21 }, { -0.05, 0.05 },
          { -0.005, 0.05 }, { 0.0033, 0.15 },  { 0.0367, 0.15 },  { 0.045, 0.05 } };
  const CavFrameSizes *sizes = &painter->frame->sizes;
  double half = 0.5 * (sizes->sight.width + sizes->sight.height) / (1.0 + 0.55 * 0.55);
  CavStop stops[G_N_ELEMENTS (stripes)];
  CavPoint points[CAV_FRAME_SIDES_MAX];

  for (guint i = 0; i < G_N_ELEMENTS (stripes); i++)
    stops[i] = (CavStop){ stripes[i][0] + 0.5, { 0xf4, 0xf8, 0xfc }, 1.0 - stripes[i][1] };
  for (int i = 0; i < painter->face.sides; i++)
    points[i] = cav_scene_painter_map (
        painter, cav_frame_face_get_corner (&painter->face, i, painter->relief->width));
  cav_scene_add_gradient (painter->scene, points, (guint)painter->face.sides,
                          cav_scene_painter_map (painter, CAV_POINT (-half, -0.55 * half)),
                          cav_scene_painter_map (painter, CAV_POINT (half, 0.55 * half)), stops,
                          G_N_ELEMENTS (stops));
}
