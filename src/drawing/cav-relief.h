/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"

G_BEGIN_DECLS

/* How many slices of its height stand for a molding when it throws a shadow. */
#define CAV_RELIEF_SLICES 22

/* Wood at one height, by distance from the molding's outer edge. */
typedef struct
{
  float height;
  float outer; /* where it begins */
  float inner; /* where it ends */
} CavReliefSlice;

/*
 * A profile as it is seen from the front: for each place across, from the outside (0) to the sight
 * edge, how high its face stands above the wall. mm.
 */
typedef struct
{
  int n_samples;
  double width; /* of the profile; sample i lies at (i + 0.5) width / n_samples */
  double outer; /* x of its outer edge in the blank's coordinates */
  double top;   /* greatest height */
  float *heights;
  float *slopes;   /* rise toward the sight edge, mm for each mm */
  float *open_sky; /* share of the light from all around that reaches the place, 0 to 1 */
  CavReliefSlice slices[CAV_RELIEF_SLICES];
} CavRelief;

/* (nullable) NULL where the profile has no wood. */
CavRelief *cav_relief_new (const CavProfile *profile, int n_samples) G_GNUC_WARN_UNUSED_RESULT;
void cav_relief_free (CavRelief *relief);

/*
 * How much of a lamp's light passes what stands before each place, 0 to 1, as far as the section
 * knows. rise is how fast its rays climb for each mm across; toward_inside: the lamp stands at the
 * sight edge's side, so that wood there is in the way. softness: the lamp's size, as a share of the
 * way.
 */
void cav_relief_fill_shadow (const CavRelief *relief,
                             double rise,
                             gboolean toward_inside,
                             double softness,
                             float *out_light);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRelief, cav_relief_free)

G_END_DECLS
