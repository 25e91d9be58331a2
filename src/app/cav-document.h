/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gio/gio.h>

#include "app/cav-board-runner.h"
#include "app/cav-file-watch.h"
#include "app/cav-plan-runner.h"
#include "storage/cav-recovery.h"
#include "app/cav-selection.h"

G_BEGIN_DECLS

/*
 * What a window shows: a project with the file that it lives in, what is selected in it, its plan
 * and the layout of its boards. The four it holds are the same objects for its whole life. What is
 * not saved is kept in the user's state folder every few seconds, for as long as the document
 * lives.
 *
 * Emits "status" when name, file, unsaved, saving or the file's state may be another.
 */
#define CAV_TYPE_DOCUMENT (cav_document_get_type ())
G_DECLARE_FINAL_TYPE (CavDocument, cav_document, CAV, DOCUMENT, GObject)

/* A new, empty one. */
CavDocument *cav_document_new (void) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer none) project; file nullable. */
CavDocument *cav_document_new_for_project (CavProject *project,
                                           GFile *file) G_GNUC_WARN_UNUSED_RESULT;
/* What was kept before a crash, which is kept on at that place. Blocks. */
CavDocument *cav_document_new_from_recovery (CavRecovery *recovery,
                                             GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* (transfer none) */
CavProject *cav_document_get_project (CavDocument *self);
CavSelection *cav_document_get_selection (CavDocument *self);
CavPlanRunner *cav_document_get_runner (CavDocument *self);
CavBoardRunner *cav_document_get_board_runner (CavDocument *self);
/* (transfer none) (nullable) NULL: not saved yet. */
GFile *cav_document_get_file (CavDocument *self);

/* For titles and questions: the file's name without its ending, else the project's title. */
char *cav_document_dup_name (CavDocument *self) G_GNUC_WARN_UNUSED_RESULT;
/* What a document is called that lies in that file. */
char *cav_document_dup_name_of_file (GFile *file) G_GNUC_WARN_UNUSED_RESULT;
/* Whether closing would lose something. */
gboolean cav_document_is_unsaved (CavDocument *self);
/* New and never touched: something else may be opened in its place. */
gboolean cav_document_is_fresh (CavDocument *self);
gboolean cav_document_is_saving (CavDocument *self);
CavFileState cav_document_get_file_state (CavDocument *self);
/* The file was changed by somebody else, and is to be overwritten when this is saved. */
void cav_document_keep_mine (CavDocument *self);
/* The content is on no disk, as after a crash: it counts as unsaved until it is saved. */
void cav_document_mark_unsaved (CavDocument *self);

/* Reads a file on a worker thread, into a document that is fresh, or over what is there. The error
 * is a sentence that names the file; then nothing has changed. */
void cav_document_load_async (CavDocument *self,
                              GFile *file,
                              GCancellable *cancellable,
                              GAsyncReadyCallback callback,
                              gpointer user_data);
gboolean cav_document_load_finish (CavDocument *self,
                                   GAsyncResult *result,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;

/* Writes a snapshot on a worker thread, whole or not at all; editing may go on. To another file it
 * moves there. G_IO_ERROR_WRONG_ETAG: somebody else has changed the file meanwhile. */
void cav_document_save_async (CavDocument *self,
                              GFile *file,
                              GCancellable *cancellable,
                              GAsyncReadyCallback callback,
                              gpointer user_data);
gboolean cav_document_save_finish (CavDocument *self,
                                   GAsyncResult *result,
                                   GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
