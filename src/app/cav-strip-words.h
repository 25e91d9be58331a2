/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* What the strip says of a plan, in the unit of the settings, translated. (transfer full) */

/* "face down": how the rail lies. */
char *cav_strip_words_new_lie (const CavPass *pass) G_GNUC_WARN_UNUSED_RESULT;
/* "fence 12.4" above "height 10": what is set, on two lines, to stand under a picture. */
char *cav_strip_words_new_figures (const CavPlan *plan,
                                   const CavSetup *setup,
                                   const CavPass *pass) G_GNUC_WARN_UNUSED_RESULT;
/* "Setup 2, pass 1: table saw, face down, fence 12.4 mm, height 10 mm", for who cannot see the
 * picture. Both count from 0. */
char *
cav_strip_words_new_name (const CavPlan *plan, guint setup, guint pass) G_GNUC_WARN_UNUSED_RESULT;
/* "Setup 2: table saw, rip blade, tilted 45°". */
char *cav_strip_words_new_setup (const CavPlan *plan, guint setup) G_GNUC_WARN_UNUSED_RESULT;
/* The same in two: number and machine; tool and how it is set. */
char *cav_strip_words_new_setup_heading (const CavPlan *plan,
                                         guint setup) G_GNUC_WARN_UNUSED_RESULT;
char *cav_strip_words_new_setup_tool (const CavPlan *plan, guint setup) G_GNUC_WARN_UNUSED_RESULT;
/* "2 setups, 7 passes, 33 minutes". */
char *cav_strip_words_new_totals (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;
/* "Leaves 10.1 mm², at most 1.44 mm thick, for hand work". */
char *cav_strip_words_new_leftover (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
