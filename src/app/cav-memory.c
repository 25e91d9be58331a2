/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-memory.h"

#ifdef __GLIBC__
#include <malloc.h>
#endif

/* Nothing is given back while somebody works: it would only be asked for again. Milliseconds. */
#define QUIET 1500
/* By itself, the C library makes eight pools a processor and keeps in each what it ever needed: the
 * search for a plan starts many short threads. One pool more than that of the window is as fast. */
#define MOST_POOLS 2

void
cav_memory_share_pools (void)
{
#ifdef M_ARENA_MAX
  mallopt (M_ARENA_MAX, MOST_POOLS);
#endif
}

static guint quiet_source;

static gboolean
give_back_cb (gpointer user_data)
{
  quiet_source = 0;
#ifdef __GLIBC__
  malloc_trim (0);
#endif
  return G_SOURCE_REMOVE;
}

void
cav_memory_give_back_soon (void)
{
  g_clear_handle_id (&quiet_source, g_source_remove);
  quiet_source = g_timeout_add_full (G_PRIORITY_LOW, QUIET, give_back_cb, NULL, NULL);
}
