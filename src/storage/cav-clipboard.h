/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "storage/cav-storage.h"

G_BEGIN_DECLS

/* Cuts as text, to be carried from window to window: the element <cuts> of a project file with
 * version and unit of its own. */

/* The most cuts that are taken from a text. */
#define CAV_CLIPBOARD_MOST_CUTS 1000

/* (transfer full) cuts: CavCut. */
char *cav_clipboard_cuts_to_text (const GPtrArray *cuts) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) CavCut, at least one. Text may come from anywhere: errors are those of a project
 * file, in the name of the clipboard. */
GPtrArray *cav_clipboard_cuts_from_text (const char *text,
                                         GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
