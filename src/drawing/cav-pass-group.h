/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* Settings nearer than this are the same, mm or degrees: far below the finest step of a machine. */
#define CAV_SETTING_SAME 1e-6

/* What moves from pass to pass of a group. */
typedef enum
{
  CAV_LADDER_NONE,   /* a group of one pass */
  CAV_LADDER_FENCE,  /* the fence alone, one way */
  CAV_LADDER_HEIGHT, /* the height alone, one way */
} CavLadder;

/* Passes of a setup that are shown in one panel: one pass, or a run of them in which the rails lie
 * the same way and one setting climbs. */
typedef struct
{
  guint setup; /* within the plan */
  guint first; /* pass within the setup */
  guint count;
  guint number; /* of the first pass in the whole plan, from 1 */
  CavLadder ladder;
} CavPassGroup;

/* Passes from which on a run is a ladder: fewer are seen better each for itself. */
#define CAV_LADDER_LEAST 3u
/* Longer runs go on in a second panel, so that any panel fits on a page. */
#define CAV_LADDER_MOST 24u

/* (transfer full) CavPassGroup array of the whole plan, in order. */
GArray *cav_pass_group_collect (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
const CavPass *
cav_pass_group_get_pass (const CavPlan *plan, const CavPassGroup *group, guint index);
const CavPass *cav_pass_group_get_last (const CavPlan *plan, const CavPassGroup *group);
/* The pass before the group on the same setup, or NULL. */
const CavPass *cav_pass_group_get_before (const CavPlan *plan, const CavPassGroup *group);
/* TRUE where every step of a ladder but the last is the same; out_step is that step, signed. */
gboolean cav_pass_group_get_step (const CavPlan *plan, const CavPassGroup *group, double *out_step);
/* TRUE where the fence stays while the height climbs and still measures otherwise at the end: a
 * cutter shows more where it is wider. What it measures at the first and at the last height. */
gboolean cav_pass_group_get_turned (const CavPlan *plan,
                                    const CavPassGroup *group,
                                    double *out_first,
                                    double *out_last);
/* Cautions of all its passes. */
guint cav_pass_group_get_cautions (const CavPlan *plan, const CavPassGroup *group);
/* Those of all passes of a plan. */
guint cav_plan_collect_cautions (const CavPlan *plan);
/* Deepest bite of its passes. */
double cav_pass_group_get_bite (const CavPlan *plan, const CavPassGroup *group);

/* What happens to the sacrificial fence before a pass. */
typedef enum
{
  CAV_FENCE_BOARD_STAYS, /* on or off as it was */
  CAV_FENCE_BOARD_ON,
  CAV_FENCE_BOARD_OFF,
} CavFenceBoard;

/* TRUE for a pass at the saw for which a sacrificial fence is on: the blade stands in it or against
 * it. */
gboolean cav_pass_has_board (const CavSetup *setup, const CavPass *pass);
/* Looks at the pass at the saw before this one, in whatever setup that was. */
CavFenceBoard cav_pass_find_board (const CavPlan *plan, guint setup, guint pass);

G_END_DECLS
