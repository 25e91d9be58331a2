/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-plan-runner.h"
#include "boards/cav-board-layout.h"

G_BEGIN_DECLS

/*
 * Lays a project's rails out on its boards again whenever project or plan change, on a worker
 * thread, the newest state first: at once while somebody looks at it, else when the project has
 * come to rest and has boards. Keeps the last layout that came in. Emits "laid" when there is
 * another one, and "notify::progress": from 0 to 1 while it works, 1 when it is done.
 */
#define CAV_TYPE_BOARD_RUNNER (cav_board_runner_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardRunner, cav_board_runner, CAV, BOARD_RUNNER, GObject)

CavBoardRunner *cav_board_runner_new (CavProject *project,
                                      CavPlanRunner *plans) G_GNUC_WARN_UNUSED_RESULT;
/* Counted: somebody looks at it, and looks away again. */
void cav_board_runner_watch (CavBoardRunner *self);
void cav_board_runner_unwatch (CavBoardRunner *self);
/* Gives up what it is at; the layout stays as it was until something changes. */
void cav_board_runner_cancel (CavBoardRunner *self);
/* (transfer none) (nullable) */
CavBoardLayout *cav_board_runner_get_layout (CavBoardRunner *self);
/* (transfer none) (nullable) That layout where it is of the project as it stands, and of rails that
 * are milled from the blank of this (nullable) plan. */
CavBoardLayout *cav_board_runner_get_layout_for (CavBoardRunner *self, const CavPlan *plan);
double cav_board_runner_get_progress (CavBoardRunner *self);

G_END_DECLS
