/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/* (transfer full) What the project asks of its boards: the blank of the plan (nullable: the blank
 * as it is drawn), and the rails of the frame; where no frame was set, rails that share the total
 * length evenly stand in. */
CavBoardJob *cav_project_create_board_job (CavProject *self,
                                           const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) CavBoardJob: that one, and those of the projects that were joined. (nullable)
 * plan. */
GPtrArray *cav_project_create_board_jobs (CavProject *self,
                                          const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The layout of those jobs on the project's boards; the only error is that it was
 * cancelled. (nullable) cancelled. */
CavBoardLayout *cav_project_lay_out_boards (CavProject *self,
                                            const CavPlan *plan,
                                            const int *cancelled,
                                            GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Puts copies of what is wrong or worth a look in a layout among findings that stand gravest first,
 * as cav_project_create_findings() gives them. What only tells how it was laid stays out.
 * (nullable) layout. */
void cav_project_join_layout_findings (GPtrArray *findings, const CavBoardLayout *layout);
/* Whether anybody has begun to think about boards: there are some, or some that could be bought, or
 * other projects that are to come from them. */
gboolean cav_project_has_lumber (CavProject *self);

G_END_DECLS
