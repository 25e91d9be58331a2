/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/*
 * Unsaved work in the user's state folder, for after a crash. Each document has a place of its own
 * there: its content, and a lock that holds the address of its file and is held for as long as the
 * program lives. A place whose lock nobody holds was left behind.
 *
 * Reference counted; a place may be written from another thread.
 */
typedef struct _CavRecovery CavRecovery;

/* A new place; nothing is on disk until something is kept. */
CavRecovery *cav_recovery_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavRecovery *cav_recovery_ref (CavRecovery *self);
void cav_recovery_unref (CavRecovery *self);

/* Writes bytes whole or not at all; uri (nullable) is that of the document's file. Blocks. */
gboolean cav_recovery_keep (CavRecovery *self, GBytes *bytes, const char *uri, GError **error);
/* The work is safe, or not wanted: removes what is kept. */
void cav_recovery_drop (CavRecovery *self);
/* The same for good: what another thread is writing just now goes as well. */
void cav_recovery_end (CavRecovery *self);

/* (transfer full) Places (CavRecovery) left behind by a program that has died, newest first; they
 * are ours from then on. Blocks. */
GPtrArray *cav_recovery_find_lost (void) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) Path of the kept project. */
const char *cav_recovery_get_path (CavRecovery *self);
/* (transfer full) (nullable) Address of the file that it was opened from. */
char *cav_recovery_dup_uri (CavRecovery *self) G_GNUC_WARN_UNUSED_RESULT;

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRecovery, cav_recovery_unref)

G_END_DECLS
