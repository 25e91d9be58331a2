/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-storage.h"

G_BEGIN_DECLS

/*
 * Unsaved work, kept where a crash does not reach it. Each open document has a file of its own in
 * one folder, written whole or not at all, and a lock beside it that the system lets go when the
 * program ends, however it ends. A file whose lock is free was left behind. It is an ordinary
 * project file with a comment that names the original and the time.
 */

/* (transfer full) The folder of this user, below what XDG calls the state. */
char *cav_recovery_dup_folder (void) G_GNUC_WARN_UNUSED_RESULT;

/* The place of one open document. Not to be used by two threads at once. */
typedef struct _CavRecovery CavRecovery;

/* (transfer full) Makes the folder where it is missing; nothing is written yet. */
CavRecovery *cav_recovery_new (const char *folder, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Clean close: nothing is left behind. */
void cav_recovery_free (CavRecovery *recovery);
/* Closes and leaves the file for the next start. */
void cav_recovery_leave (CavRecovery *recovery);
/* Replaces what was kept before. (nullable) original: the file that the document was read from or
 * saved to. For a worker thread hand in a snapshot. */
gboolean cav_recovery_save (CavRecovery *recovery,
                            CavProject *project,
                            const char *original,
                            GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* The document has been saved: there is nothing to be kept for now. */
void cav_recovery_forget (CavRecovery *recovery);
gboolean cav_recovery_has_file (const CavRecovery *recovery);

/* What was left behind. It is locked while the entry lives, so that no other program offers it. */
typedef struct
{
  char *file;
  char *original; /* nullable; not yet saved under any name */
  gint64 time;    /* when it was written, microseconds since 1970 */
  int lock;
} CavRecoveryEntry;

/* (transfer full) CavRecoveryEntry, the latest first; empty where there is nothing or no folder.
 * Also clears away what broken-off writes have left. */
GPtrArray *cav_recovery_list (const char *folder) G_GNUC_WARN_UNUSED_RESULT;
void cav_recovery_entry_free (CavRecoveryEntry *entry);
/* (transfer full) The document as it was kept; modified, for it is not in its file. */
CavProject *cav_recovery_entry_load (const CavRecoveryEntry *entry,
                                     GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) The place of the document that has been loaded from the entry, which must not be
 * used for anything but to be freed after. */
CavRecovery *cav_recovery_adopt (CavRecoveryEntry *entry) G_GNUC_WARN_UNUSED_RESULT;
/* Deletes what was left behind; the entry is to be freed after. */
void cav_recovery_entry_discard (CavRecoveryEntry *entry);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRecovery, cav_recovery_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavRecoveryEntry, cav_recovery_entry_free)

G_END_DECLS
