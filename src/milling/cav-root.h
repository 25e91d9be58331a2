/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The first of all that are joined with i, where parent leads from each to one before it; the way
 * is halved for those who ask next. */
static inline int
cav_find_root (int *parent, int i)
{
  while (parent[i] != i)
    i = parent[i] = parent[parent[i]];
  return i;
}

G_END_DECLS
