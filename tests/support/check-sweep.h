/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "plan-checker.h"

G_BEGIN_DECLS

/* u from the fence, v above the table, and back: the model's table of placements. */
CheckPoint check_to_machine (const CheckPlan *plan, const CheckPass *pass, CheckPoint point);
CheckPoint check_from_machine (const CheckPlan *plan, const CheckPass *pass, CheckPoint point);

/* What the tool passes through, a closed outline in (u, v); what lies below the table is in it
 * too and meets no wood. Curves are chords within 0.001. (transfer full) */
GArray *check_sweep_outline (const CheckSetup *setup,
                             const CheckPass *pass,
                             const CheckTool *tool) G_GNUC_WARN_UNUSED_RESULT;
/* Where the pilot bearing stands, smaller by aside all around, or NULL. (transfer full) */
GArray *check_sweep_pilot (const CheckPass *pass,
                           const CheckTool *tool,
                           double aside) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) One ring in the blank's coordinates. */
GPtrArray *check_sweep_to_blank (const CheckPlan *plan,
                                 const CheckPass *pass,
                                 const GArray *outline) G_GNUC_WARN_UNUSED_RESULT;

/* u of the tool's middle at height v: of a kerf, leaning with it; of a cove; a cutter's axis. */
double
check_tool_middle (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool, double v);
/* u of what stands nearest to the fence at the table: blade or cove. */
double check_tool_near (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool);
/* Least u of a tilted blade above the table. */
double check_blade_least (const CheckSetup *setup, const CheckPass *pass, const CheckTool *tool);
double check_cutter_radius (const CheckTool *tool);

G_END_DECLS
