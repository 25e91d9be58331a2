/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "plan-checker.h"

G_BEGIN_DECLS

/* Small plans made by hand, to try the checker on. */

#define BACK CHECK_SIDE_BACK
#define FACE CHECK_SIDE_FACE
#define INSIDE CHECK_SIDE_INSIDE
#define OUTSIDE CHECK_SIDE_OUTSIDE
#define SAW CHECK_MACHINE_SAW
#define COVE CHECK_MACHINE_COVE
#define ROUTER CHECK_MACHINE_ROUTER

#define RIG_PASSES 6

typedef struct
{
  const char *tool; /* NULL ends the list */
  CheckMachine machine;
  double degrees; /* tilt or angle */
  CheckSide down;
  CheckSide against;
  double fence;
  double height;
} RigPass;

/* A blank, and tools for every rule: blades rip (bite 400), dado (19 wide), weak (bite 32);
 * cutters straight (12.7 across, bite 40), strong (the same, bite 400), slim (6 across), stub (5
 * long), fast and slow (30 across, at 20,000 and 18,000), chamfer (with a bearing) and waisted. */
CheckPlan *rig_create_plan (double width, double thickness) G_GNUC_WARN_UNUSED_RESULT;
/* The profile: a box, or all of the blank but a rabbet at back and inside. */
void rig_add_box (CheckPlan *plan, double x0, double y0, double x1, double y1);
void rig_add_rabbet (CheckPlan *plan, double width, double depth);
/* RIG_PASSES rows; a setup for each run of the same machine, tool and tilt or angle. */
void rig_add_passes (CheckPlan *plan, const RigPass *rows);
/* Runs a plan that claims what the checker itself measures, so that only the rules of passes
 * speak. */
CheckReport *rig_run_honest (CheckPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
