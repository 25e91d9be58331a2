/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "app/cav-document.h"

G_BEGIN_DECLS

/* Reads another project's file on a worker thread, plans it, for its blank may need a carrier, and
 * makes of it what it asks of boards. own: (nullable) the file beside which its name is kept. */
void cav_join_read_async (GFile *file,
                          GFile *own,
                          GCancellable *cancellable,
                          GAsyncReadyCallback callback,
                          gpointer user_data);
/* (transfer full) The error is a sentence that names the file. */
CavBoardJob *cav_join_read_finish (GAsyncResult *result, GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Where a joined project's file is. */
GFile *cav_join_get_file (const CavBoardJob *job, GFile *own) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
