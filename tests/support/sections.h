/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-planner.h"
#include "plan-checker.h"
#include "profile/cav-profile.h"

G_BEGIN_DECLS

/* Sections of many kinds to plan, made with the cuts, and the short way from one to a plan. */

#define SECTION_CUTS 10

typedef struct
{
  CavCutKind kind;
  CavAnchorKind anchor;
  int place; /* CavCorner or CavSide */
  CavCutForm form;
  double numbers[CAV_N_CUT_NUMBERS];
} SectionCut;

typedef struct
{
  const char *name;
  double width;
  double thickness;
  guint n_cuts;
  SectionCut cuts[SECTION_CUTS];
} Section;

typedef enum
{
  SECTION_SHOP_DEFAULT,
  SECTION_SHOP_SAW,
  SECTION_SHOP_ROUTER,
  SECTION_SHOP_GROOVING,
  SECTION_N_SHOPS,
} SectionShop;

guint section_get_count (void);
const Section *section_get (guint index);
const Section *section_find (const char *name);
/* Exits the test where the section is not sound. */
CavProfile *section_create_profile (const Section *section) G_GNUC_WARN_UNUSED_RESULT;
CavCut *section_cut_create (const SectionCut *cut) G_GNUC_WARN_UNUSED_RESULT;
const char *section_shop_get_name (SectionShop shop);
CavShop *section_shop_create (SectionShop shop) G_GNUC_WARN_UNUSED_RESULT;

/* Four rails, 3200 in all. */
CavPlan *section_plan (const CavProfile *profile,
                       const CavShop *shop,
                       CavEffort effort,
                       GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* What the checker holds against a plan, one a line, "" where nothing: rules, and whether what
 * is claimed of severed pieces holds, and leftover + removed + severed + profile = blank. */
char *section_check (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
