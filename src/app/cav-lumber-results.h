/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <adwaita.h>

#include "boards/cav-board-layout.h"

G_BEGIN_DECLS

/* What a layout of boards comes to, and what is wrong or worth a look in it, as lines that lead to
 * their places by the action "lumber.show-finding". */
#define CAV_TYPE_LUMBER_RESULTS (cav_lumber_results_get_type ())
G_DECLARE_FINAL_TYPE (CavLumberResults, cav_lumber_results, CAV, LUMBER_RESULTS, GtkBox)

/* (nullable) layout. */
void cav_lumber_results_show (CavLumberResults *self, const CavBoardLayout *layout);

G_END_DECLS
