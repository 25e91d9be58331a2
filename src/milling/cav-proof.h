/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-rail.h"
#include "milling/cav-sweep.h"

G_BEGIN_DECLS

/* The simulation of a sequence with exact regions; it knows nothing of the search. */
typedef struct
{
  CavBlank blank;
  const CavRegion *profile;
  const CavShop *shop;
  CavRows *profile_rows[2]; /* along x, along y */
  CavPoint seed;            /* wood that always stays */
  CavRegion *rail;          /* as it stands */
  CavStanding standing;
  gboolean freed;
  double gouge;       /* deepest so far */
  double rail_length; /* mm, for the cautions alone; init has it long, the caller may set it */
} CavProof;

void cav_proof_init (CavProof *proof,
                     const CavBlank *blank,
                     const CavRegion *profile,
                     const CavShop *shop,
                     CavPoint seed);
void cav_proof_clear (CavProof *proof);

/*
 * Does one pass after the other, each checked by every rule of the model. Fills everything of
 * pass but side, fence and height, which the caller has set. FALSE with a static word for the
 * rule that it breaks; the rail is then as it was.
 */
gboolean
cav_proof_do_pass (CavProof *proof, const CavSetup *setup, CavPass *pass, const char **out_rule);

/* The model's measures of a rail as an exact region. */
void
cav_standing_init_region (CavStanding *standing, const CavRegion *region, const CavBlank *blank);

G_END_DECLS
