/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* A stretch of the finished surface that the passes leave wood on. */
typedef struct
{
  CavPoint place;   /* the middle of what is left, in the profile's coordinates without carrier */
  double thickness; /* most that stands over the surface */
  double length;    /* of the surface under it, across the grain */
  guint piece;      /* of the plan's leftover */
} CavHandSurface;

/* Thinner films go with the first strokes of sandpaper, mm. */
#define CAV_HAND_FILM 0.1

/* (transfer full) Array of CavHandSurface, from the sight edge outward; empty where the tools leave
 * the finished section. */
GArray *cav_hand_work_find (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* Whether a hollow is coved over the blade, which leaves ridges across it. */
gboolean cav_hand_work_has_ridges (const CavPlan *plan);

G_END_DECLS
