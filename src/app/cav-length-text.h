/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Lengths (mm) as the window shows them, in the unit of the settings. */

/* (transfer full) "12.4", "≈ 3/8", "0.375"; and the same with its unit. */
char *cav_length_text_new_bare (double mm) G_GNUC_WARN_UNUSED_RESULT;
char *cav_length_text_new (double mm) G_GNUC_WARN_UNUSED_RESULT;
/* "mm" or "in". */
const char *cav_length_text_get_unit (void);
/* What the arrow keys add to a length, mm: the grid of the unit. */
double cav_length_text_get_step (void);

G_END_DECLS
