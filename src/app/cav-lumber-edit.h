/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-document.h"

G_BEGIN_DECLS

/* (transfer full) A copy of the project's lumber, to be changed and handed to
 * cav_lumber_edit_end(). */
CavLumber *cav_lumber_edit_begin (CavProject *project) G_GNUC_WARN_UNUSED_RESULT;
/* One step of the history under this name; none where nothing is different, or where a board or a
 * joined project cannot be as it is. (transfer full) lumber. */
void cav_lumber_edit_end (CavProject *project, CavLumber *lumber, const char *name);

/* Takes a row of boards off the list, with the places that were wished for on it. */
void cav_lumber_edit_remove_board (CavLumber *lumber, guint row);
/* job: 0 is the project itself, others those that it has joined. A run is one: it loses the pin of
 * whatever rail. */
void cav_lumber_edit_remove_pins (CavLumber *lumber, int job, int frame, int rail);
void cav_lumber_edit_add_pin (CavLumber *lumber, int job, const CavBoardPin *pin);
void cav_lumber_edit_remove_all_pins (CavLumber *lumber);
gboolean cav_lumber_edit_has_pins (const CavLumber *lumber);

G_END_DECLS
