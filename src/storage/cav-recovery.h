/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-storage.h"

G_BEGIN_DECLS

/*
 * Unsaved work, kept where a crash does not reach it. Each open document has a place of its own in
 * one folder: a file, written whole or not at all, and a lock beside it that the system lets go
 * when the program ends, however it ends. A place whose lock is free was left behind. The file is
 * an ordinary project file with a comment that holds the original's address and the time.
 *
 * Reference counted; a place may be written from another thread.
 */
typedef struct _CavRecovery CavRecovery;

/* (transfer full) The folder of this user, below what XDG calls the state. */
char *cav_recovery_dup_folder (void) G_GNUC_WARN_UNUSED_RESULT;

/* A new place; nothing is on disk until something is kept. (nullable) folder: that of the user. */
CavRecovery *cav_recovery_new (const char *folder) G_GNUC_WARN_UNUSED_RESULT;
CavRecovery *cav_recovery_ref (CavRecovery *self);
/* The last one lets go of the lock; what is kept then counts as left behind. */
void cav_recovery_unref (CavRecovery *self);

/* Keeps the bytes of a project file instead of what was kept before; uri (nullable) is that of the
 * document's file. Blocks. */
gboolean cav_recovery_keep (CavRecovery *self, GBytes *bytes, const char *uri, GError **error);
/* The work is safe, or not wanted: removes what is kept. */
void cav_recovery_drop (CavRecovery *self);
/* The same for good: what another thread is writing just now goes as well. */
void cav_recovery_end (CavRecovery *self);

/* (transfer full) Places (CavRecovery) left behind by programs that have ended, the latest first;
 * they are ours from then on. Also clears away what broken-off writes have left. Blocks. (nullable)
 * folder: that of the user. */
GPtrArray *cav_recovery_find_lost (const char *folder) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) Path of the kept project. */
const char *cav_recovery_get_path (CavRecovery *self);
/* (transfer full) (nullable) Address of the file that it was opened from. */
char *cav_recovery_dup_uri (CavRecovery *self) G_GNUC_WARN_UNUSED_RESULT;
/* When it was kept, microseconds since 1970; 0 where nothing is. */
gint64 cav_recovery_get_time (CavRecovery *self);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRecovery, cav_recovery_unref)

G_END_DECLS
