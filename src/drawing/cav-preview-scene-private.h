/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-preview-private.h"

G_BEGIN_DECLS

/* Colours across a rail. */
#define CAV_RAIL_TONES 120

/* What the parts of a preview made of lines share. */
typedef struct
{
  CavScene *scene;
  const CavFrame *frame;
  const CavProfile *profile;
  CavFrameGrain grain;
  CavRelief *relief; /* of CAV_RAIL_TONES samples */
  CavFrameFace face;
  CavLamp lamp;
  double scale; /* of the drawing */
  CavPoint middle;
} CavScenePainter;

/* A rail's wood and light at each place across it, from the outside to the sight edge. */
typedef struct
{
  CavTint tints[CAV_RAIL_TONES]; /* mean of the wood along the rail, as the finish leaves it */
  CavShade shades[CAV_RAIL_TONES];
  CavColour colours[CAV_RAIL_TONES]; /* tints in their light */
} CavRailTones;

CavPoint cav_scene_painter_map (const CavScenePainter *painter, CavPoint point);
/* The stretch of one side between two insets: a trapezium with mitred ends. */
void cav_scene_painter_get_side (
    const CavFrameFace *face, int side, double outer, double inner, CavPoint *points);
/* Paints four points in colours that change square to a side, from its first point on for way mm.
 */
void cav_scene_painter_fill_across (const CavScenePainter *painter,
                                    const CavPoint *points,
                                    CavPoint across,
                                    double way,
                                    const CavStop *stops,
                                    guint n_stops);

/* Darkness where things meet, from an inset of a face on: inward, or outward where measure is below
 * 0, fading within some times of measure. */
void cav_scene_painter_draw_contact (const CavScenePainter *painter,
                                     const CavFrameFace *face,
                                     double edge,
                                     double measure,
                                     double strength);
/* What the lamp does to wall and mat. */
void cav_scene_painter_draw_wall_shadow (const CavScenePainter *painter);
void cav_scene_painter_draw_mat_shadow (const CavScenePainter *painter, double height);
void cav_scene_painter_draw_reflection (const CavScenePainter *painter);

void cav_scene_painter_fill_tones (const CavScenePainter *painter, int side, CavRailTones *tones);
/*
 * (transfer full) (nullable) What the wood's figure adds to rails painted in their tones, one for
 * each side: a picture of the frame's whole outline, clear where there is no wood. fineness: its
 * pixels for each mm of wood.
 */
cairo_surface_t *cav_scene_painter_create_figure (const CavScenePainter *painter,
                                                  const CavRailTones *tones,
                                                  double fineness);

G_END_DECLS
