/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-proof.h"

G_BEGIN_DECLS

/* How deep a pass may enter the profile, mm. */
#define CAV_GOUGE_MOST 0.02

/* The outline of a profile, which has to stay, in stretches that are found quickly. */
GArray *cav_proof_create_stretches (const CavRegion *profile) G_GNUC_WARN_UNUSED_RESULT;
/* How deep a sweep enters the profile, mm. */
double cav_proof_get_gouge (const CavProof *proof, const CavRegion *swept);
/* Rows along x, or along y where turned; only those that the box reaches are filled. */
CavRows *cav_proof_create_rows (const CavProof *proof,
                                const CavRegion *region,
                                gboolean turned,
                                CavBox within) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
