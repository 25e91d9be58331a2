/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-pass-group.h"
#include "drawing/cav-pass-words.h"

G_BEGIN_DECLS

/* What helps at a pass beside its settings. All (transfer full) or const. */

/* When the sacrificial fence goes on or comes off; NULL where it stays as it is. */
const char *cav_words_get_board (CavFenceBoard board);
/* In which order to set a pass where height first, then fence, will not do: a blade that stands in
 * a sacrificial fence is raised into it, running. NULL else. before is NULL at the beginning of a
 * setup. Common practice, no source. */
char *cav_words_describe_order (const CavPlan *plan,
                                const CavSetup *setup,
                                const CavPass *before,
                                const CavPass *pass,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* The same before the later settings of a ladder, whose fence moves; NULL else. */
const char *cav_words_get_ladder_order (const CavPlan *plan, const CavPassGroup *group);
/* From where to where the fence of a coving setup is measured; NULL for other machines. */
const char *cav_words_get_middle (const CavSetup *setup);
/* How a fence that is clamped at an angle is moved and stays parallel; NULL where it does not move
 * from one of these passes to the next. */
const char *
cav_words_get_parallel (const CavSetup *setup, const CavPass *before, const CavPass *pass);
/* What to expect where the rail itself falls free; NULL else. */
const char *cav_words_get_release (const CavPass *pass);
/* The wall that a pass leaves too thin to be pressed on: where, how high and thick, and what to do.
 * NULL where the plan has no caution for one. */
char *cav_words_describe_wall (const CavPlan *plan,
                               const CavPassGroup *group,
                               const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* What a trial cut on the spare piece must measure: where the cut begins or ends, from the side at
 * the fence, and how deep it is. NULL where the cut leaves no edge that could be measured. */
char *cav_words_describe_trial (const CavPlan *plan,
                                const CavSetup *setup,
                                const CavPass *pass,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* "8 settings: height + 1.6 each time, all pieces at each". */
char *cav_words_describe_ladder (const CavPlan *plan,
                                 const CavPassGroup *group,
                                 const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* Which setting of a ladder the picture shows, and what else there is other than the figure says;
 * NULL for a single pass. */
char *cav_words_describe_shown (const CavPlan *plan,
                                const CavPassGroup *group,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* That nobody is to move the fence although its figure changes, for that is by the height alone: a
 * cutter shows more where it is wider. NULL where it does not. */
const char *cav_words_get_stays (const CavPlan *plan, const CavPassGroup *group);

/* Legs of a right triangle that sets the fence across the blade: along the blade's plane and square
 * to it, mm, the longer one a round figure of the unit. */
void cav_cove_get_legs (double angle, CavUnit unit, double *out_along, double *out_across);
char *cav_words_describe_legs (double angle,
                               const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* Things to have at hand beside the tools: featherboard, push blocks, sacrificial fence. */
char *cav_words_list_helpers (const CavPlan *plan) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
