/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/* What the pass sheet says of a plan. All (transfer full) unless they are const. */

const char *cav_words_get_machine (CavMachine machine);
/* The tool's name, or its id where it has none. */
char *cav_words_dup_tool (const CavPlan *plan, const CavSetup *setup) G_GNUC_WARN_UNUSED_RESULT;
/* "254 mm, kerf 3.2", "25.4 mm, at most 22000 turns a minute". */
char *cav_words_describe_tool (const CavPlan *plan,
                               const CavSetup *setup,
                               const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* Tilt, or the angle of the fence across the table; NULL where there is nothing to say. */
char *cav_words_describe_setting (const CavSetup *setup,
                                  gboolean in_line) G_GNUC_WARN_UNUSED_RESULT;
/* "face down" and "outside to the fence". */
const char *cav_words_get_down (CavSide side);
const char *cav_words_get_against (CavSide side);
/* Over the figure of the fence. */
const char *cav_words_get_measure (CavMeasure measure);
/* What to change since the pass before (NULL: the first of its setup). */
char *cav_words_describe_change (const CavPlan *plan,
                                 const CavSetup *setup,
                                 const CavPass *before,
                                 const CavPass *pass,
                                 const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* A few words for a panel; the whole sentence is cav_caution_get_sentence(). */
const char *cav_words_get_caution (CavCaution caution);

/* That nobody entered the tools of this plan; NULL where somebody did. */
const char *cav_words_get_assumed (const CavPlan *plan);
/* Sentences that always hold: which way to feed, when to set the fence, how to read the pictures,
 * and what comes before everything that is printed. */
const char *cav_words_get_feed (void);
const char *cav_words_get_fence (const CavPlan *plan);
const char *cav_words_get_pictures (void);
const char *cav_words_get_foot (void);

/* The head of the sheet. */
char *cav_words_describe_blank (CavProject *project,
                                const CavPlan *plan,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
char *cav_words_list_tools (const CavPlan *plan,
                            const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
char *cav_words_describe_amount (const CavPlan *plan,
                                 const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
char *cav_words_describe_leftover (const CavPlan *plan,
                                   const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
