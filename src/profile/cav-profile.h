/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"
#include "profile/cav-finding.h"

G_BEGIN_DECLS

/*
 * The finished section: the blank minus all cuts, in the blank's coordinates. Where the cuts
 * leave several pieces, region is the largest and findings say so; region is never NULL but may
 * be empty.
 */
typedef struct
{
  CavBlank blank;
  CavRegion *region;
  CavRegion *waste;    /* cav_profile_get_waste (); NULL until somebody asks */
  GPtrArray *findings; /* CavFinding */
} CavProfile;

/* Evaluates an array of CavCut; never fails: what is wrong stands in the findings. */
CavProfile *cav_profile_new (const CavBlank *blank,
                             const GPtrArray *cuts) G_GNUC_WARN_UNUSED_RESULT;
void cav_profile_free (CavProfile *profile);
/* (transfer none) Blank minus region. Two threads do not ask at once. */
const CavRegion *cav_profile_get_waste (const CavProfile *profile);
/* TRUE where the profile can be milled and framed at all: one piece, not empty, no wrong cut. */
gboolean cav_profile_is_sound (const CavProfile *profile);
/* Width and depth of the rabbet at the back and inside, as the package meets it: the largest
 * rectangle that is free of wood at that corner. FALSE where there is none. */
gboolean cav_profile_get_rabbet (const CavProfile *profile, double *out_width, double *out_depth);

/*
 * All cuts but a few, worked out once, so that the profile can follow while these are dragged: its
 * cost grows with the outline, and not with what it takes to unite all cuts.
 */
typedef struct _CavProfileRest CavProfileRest;
/* indices: of the few, ascending. NULL where the blank is none. */
CavProfileRest *cav_profile_rest_new (const CavBlank *blank,
                                      const GPtrArray *cuts,
                                      const guint *indices,
                                      guint n_indices) G_GNUC_WARN_UNUSED_RESULT;
void cav_profile_rest_free (CavProfileRest *rest);
/* (transfer full) What cav_profile_new() gives for cuts, of which only those at the indices are not
 * as they were, but for rounding. */
CavProfile *cav_profile_rest_complete (const CavProfileRest *rest,
                                       const GPtrArray *cuts) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavProfile, cav_profile_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavProfileRest, cav_profile_rest_free)

G_END_DECLS
