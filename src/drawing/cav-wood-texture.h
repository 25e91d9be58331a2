/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-wood-look.h"

G_BEGIN_DECLS

/*
 * Wood as a solid: the colour inside of a board at any place, so that a hollow or a bead shows the
 * figure that it would cut open. Rings lie around a pith outside of the board, which wanders and
 * leans along it.
 */
typedef struct
{
  const CavWoodLook *look; /* borrowed */
  CavSawn sawn;
  float width; /* of the blank, mm */
  float thickness;
  float detail; /* finest thing to show, mm: about a pixel */
} CavWoodTexture;

void cav_wood_texture_init (CavWoodTexture *texture,
                            const CavWood *wood,
                            CavSawn sawn,
                            double width,
                            double thickness,
                            double detail);
/* Bare wood at a place in the board: mm along it, and in the blank's coordinates. */
CavTint
cav_wood_texture_get (const CavWoodTexture *texture, float along, float across, float height);

G_END_DECLS
