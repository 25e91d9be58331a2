/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Begins the names of files that are being written. One stays behind where writing was broken off.
 */
#define CAV_WRITE_TEMPORARY ".cavetto-"

/* Takes such a file away where nobody can be writing it any more; TRUE where the name is one of
 * them. name is in folder. */
gboolean cav_write_clear_temporary (const char *folder, const char *name);

G_END_DECLS
