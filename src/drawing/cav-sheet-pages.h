/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-layout.h"
#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/* Sheets as pages, for a printer: the same pages that the PDF has. (transfer full) CavScene, one a
 * page, each as large as its paper lying on its long side. */
GPtrArray *cav_pass_sheet_create_scenes (CavProject *project,
                                         const CavPlan *plan,
                                         const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

GPtrArray *cav_board_sheet_create_scenes (CavProject *project,
                                         const CavBoardLayout *layout,
                                         const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
