/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-length.h"
#include "project/cav-project.h"

G_BEGIN_DECLS

/* (transfer full) The whole plan as a table to read at the machine. */
char *cav_pass_text_create (CavProject *project,
                            const CavPlan *plan,
                            CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;
/* "wrong", "caution" or "note". */
const char *cav_finding_text_get_word (const CavFinding *finding);
/* (transfer full) "at 12.4, 8: What it is and what to do." on one line. */
char *cav_finding_text_create (const CavFinding *finding, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
