/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-document.h"
#include "boards/cav-board-layout.h"

G_BEGIN_DECLS

/*
 * Lays the document's rails out on its boards again whenever project or plan change, on a worker
 * thread, the newest state first. Keeps the last layout that came in. Emits "laid" when there is
 * another one, and "notify::progress": from 0 to 1 while it works, 1 when it is done.
 */
#define CAV_TYPE_BOARD_RUNNER (cav_board_runner_get_type ())
G_DECLARE_FINAL_TYPE (CavBoardRunner, cav_board_runner, CAV, BOARD_RUNNER, GObject)

/* Lays nothing until it is started. */
CavBoardRunner *cav_board_runner_new (CavDocument *document) G_GNUC_WARN_UNUSED_RESULT;
void cav_board_runner_start (CavBoardRunner *self);
/* Gives up what it is at, and lays nothing until it is started again. */
void cav_board_runner_stop (CavBoardRunner *self);
/* (transfer none) (nullable) */
CavBoardLayout *cav_board_runner_get_layout (CavBoardRunner *self);
double cav_board_runner_get_progress (CavBoardRunner *self);

G_END_DECLS
