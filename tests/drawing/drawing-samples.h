/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* Hand-made projects and plans, so that drawings are tested apart from the planner. */

/* 60 x 22: rabbet 6.35 x 9.5, cove of radius 9.525, bead, chamfer. */
CavProject *sample_project_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* A blank with nothing cut away. */
CavProject *sample_project_new_plain (double width, double thickness) G_GNUC_WARN_UNUSED_RESULT;

/* A plan for that project without any pass. */
CavPlan *sample_plan_new_empty (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
/* Saw, tilted saw, sacrificial fence, coving and router: one of each kind of pass. */
CavPlan *sample_plan_new (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
/* n_passes of small steps in setups of at most per_setup passes. */
CavPlan *sample_plan_new_long (CavProject *project,
                               guint n_passes,
                               guint per_setup) G_GNUC_WARN_UNUSED_RESULT;

/* Appends a setup, and a pass to the last setup, whose sweep and rail are worked out here. */
CavSetup *
sample_plan_add_setup (CavPlan *plan, CavMachine machine, const char *tool, double degrees);
CavPass *sample_plan_add_pass (
    CavPlan *plan, CavSide down, CavSide against, double fence, double height, guint cautions);

CavSheetOptions sample_options (CavUnit unit, CavPaper paper);

G_END_DECLS
