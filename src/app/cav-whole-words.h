/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Titles of groups and chosen values of rows, which libadwaita ends with dots where letters are
 * large, break into lines instead; lists of choices are as wide as their longest. For every widget
 * from now on. */
void cav_whole_words_install (void);

G_END_DECLS
