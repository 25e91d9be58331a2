/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame-settings.h"
#include "shop/cav-wood.h"

G_BEGIN_DECLS

/* A colour in light's own measure is not needed here: 0 to 1 as screens have it. */
typedef struct
{
  float red;
  float green;
  float blue;
} CavTint;

static inline CavTint
cav_tint_mix (CavTint a, CavTint b, float share)
{
  return (CavTint){ a.red + (b.red - a.red) * share, a.green + (b.green - a.green) * share,
                    a.blue + (b.blue - a.blue) * share };
}

/*
 * What makes one wood look like itself. All lengths mm. Values by eye, from boards: no source.
 */
typedef struct
{
  CavTint early;     /* wood of spring */
  CavTint late;      /* wood of summer, at the end of each ring */
  CavTint pore;      /* of pores, rays that are cut across, streaks */
  float ring;        /* width of a growth ring */
  float late_share;  /* part of a ring that is late wood */
  float late_edge;   /* how sharply it sets in: 0 soft to 1 hard */
  float pores;       /* how dark pores stand out, 0 to 1 */
  float ring_porous; /* 1: pores only at the beginning of a ring; 0: everywhere */
  float pore_width;
  float pore_length;
  float ray;       /* how far rays show, 0 to 1 */
  float ray_width; /* across a flat sawn face */
  float ray_length;
  float ray_shine; /* lighter (above 0) or darker on a quarter sawn face */
  float streak;    /* broad stripes of the pore's colour, 0 to 1 */
  float streak_width;
  float curl;   /* waves across the grain that shine, 0 to 1 */
  float mottle; /* uneven colour over hand's breadths, 0 to 1 */
} CavWoodLook;

/* (nullable) wood; a plain pale wood stands for none. */
const CavWoodLook *cav_wood_look_get (const CavWood *wood);

/* How a finished surface throws light back. */
typedef struct
{
  float shine;    /* strength of the highlight */
  float hardness; /* exponent: how small the highlight is */
  float scatter;  /* part of the light that goes everywhere, 1 for wood and paint, less for metal */
  CavTint tint;   /* of the highlight */
} CavGloss;

/* What a finish makes of bare wood's colour. place: mm along and across, for leaf and brush. */
CavTint cav_finish_get_tint (CavFinish finish, CavTint bare, float along, float across);
CavGloss cav_finish_get_gloss (CavFinish finish);

G_END_DECLS
