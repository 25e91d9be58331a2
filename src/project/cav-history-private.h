/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-content-private.h"

G_BEGIN_DECLS

/* The moments of a document, from the oldest that is known to the newest, with the names of the
 * steps between them. */
typedef struct _CavHistory CavHistory;

CavHistory *cav_history_new (void) G_GNUC_WARN_UNUSED_RESULT;
void cav_history_free (CavHistory *history);
void cav_history_clear (CavHistory *history);
/* A step away from before; what could be redone is forgotten. (transfer none) */
void cav_history_push (CavHistory *history, const char *name, const CavContent *before);
/* (transfer full) (nullable) The moment to go to, given the one now; NULL where there is none. */
CavContent *cav_history_undo (CavHistory *history, const CavContent *now);
CavContent *cav_history_redo (CavHistory *history, const CavContent *now);
/* (transfer none) (nullable) */
const char *cav_history_get_undo_name (const CavHistory *history);
const char *cav_history_get_redo_name (const CavHistory *history);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavHistory, cav_history_free)

G_END_DECLS
