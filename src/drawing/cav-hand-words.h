/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"

G_BEGIN_DECLS

/*
 * (transfer full) Sentences, translated: what is left to scraper and sandpaper. First the surfaces
 * on which the plan leaves wood, then the curves of the profile with what their blocks are made
 * from. (nullable) plan: NULL where there is none yet.
 */
GPtrArray *cav_hand_words_list (const CavProfile *profile,
                                const CavPlan *plan,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
