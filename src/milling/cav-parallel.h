/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* One of several jobs that do not know of each other. */
typedef void (*CavJobFunc) (gpointer data, int job);

/* Does jobs 0 to n - 1, on several processors where there are some. Who does which is not said, so
 * every job writes to a place of its own. */
void cav_parallel_run (int n, CavJobFunc func, gpointer data);

G_END_DECLS
