/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What the program holds of the machine's memory beyond what it uses. Where the C library has no
 * say in that, these do nothing. */

/** Keeps threads to few pools of memory of their own. Before the first of them is started. */
void cav_memory_share_pools (void);

/** Gives back, once nothing has called for a while, what the work that has just ended needed. Of
 * the main thread. */
void cav_memory_give_back_soon (void);

G_END_DECLS
