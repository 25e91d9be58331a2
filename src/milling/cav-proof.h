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
  GArray *stretches;        /* of the profile's outline, see cav-proof-gouge.c */
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

/* One pass in the making. */
typedef struct
{
  CavSweepSetting setting;
  CavPass *pass;      /* borrowed */
  CavStanding before; /* the rail before it */
  CavRegion *whole;   /* the same as a region */
  CavRegion *swept;
  CavRegion *left;        /* all pieces after it */
  CavRegion *rail;        /* of them the rail; NULL where a rule is broken */
  CavStanding standing;   /* of it */
  CavStanding carrier;    /* where the rail falls free */
  const char *first_rule; /* that it breaks before anything is cut */
  const char *last_rule;  /* that what it leaves breaks */
  double gouge;           /* mm */
} CavProofStep;

/*
 * The same in parts, for passes that are judged while later ones are already under way. Starting
 * works out what is left; FALSE where that alone breaks a rule. Finishing makes it the rail.
 * Judging says which rule the pass breaks, of all that it breaks the first, or NULL; it fills the
 * rest of the pass, touches nothing else and may be done at any time after the start, in any
 * thread.
 */
gboolean cav_proof_start_pass (const CavProof *proof,
                               const CavSetup *setup,
                               CavPass *pass,
                               CavProofStep *step);
void cav_proof_finish_pass (CavProof *proof, CavProofStep *step);
const char *cav_proof_judge_pass (const CavProof *proof, CavProofStep *step);
void cav_proof_step_clear (CavProofStep *step);

/* The model's measures of a rail as an exact region. */
void
cav_standing_init_region (CavStanding *standing, const CavRegion *region, const CavBlank *blank);

G_END_DECLS
