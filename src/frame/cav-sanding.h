/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-profile.h"

G_BEGIN_DECLS

/* A curve of the profile and what its sanding block is made from. */
typedef struct
{
  gboolean hollow;   /* the wood is hollow here; else round */
  gboolean circular; /* else an ellipse, whose middle has this radius */
  double radius;
  CavPoint place;    /* its middle, in the blank's coordinates */
  int count;         /* how many curves of the profile are like this */
  const char *thing; /* (nullable) "dowel", untranslated, of the context "round thing" */
  double diameter;   /* of that thing */
} CavSandingBlock;

/* Sandpaper around a block, mm. */
#define CAV_SANDPAPER 0.5

/*
 * (transfer full) Array of CavSandingBlock, small radii first. For a hollow the thing is the
 * largest that goes in with paper around it; for a round it is the smallest that a block can be
 * rubbed hollow on, with paper around it, and then, lined with paper, not bear on its edges.
 */
GArray *cav_sanding_find (const CavProfile *profile) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
