/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/* Whether two numbers that were typed or read are the very same, for finding out what has changed;
 * what is no number is like its own kind alone. Numbers that were computed are compared with a
 * tolerance instead. */
static inline gboolean
cav_same (double a, double b)
{
  return (a <= b && a >= b) || (isnan (a) && isnan (b));
}

G_END_DECLS
