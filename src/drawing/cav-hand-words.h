/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "drawing/cav-scene.h"

G_BEGIN_DECLS

/*
 * (transfer full) Sentences, translated: what is left to scraper and sandpaper. First the surfaces
 * on which the plan leaves wood, then the curves of the profile with what their blocks are made
 * from. (nullable) plan: NULL where there is none yet.
 */
GPtrArray *cav_hand_words_list (CavProject *project,
                                const CavPlan *plan,
                                const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

/* The first part of it alone: the surfaces, each by the cut that it belongs to and its side, behind
 * the number that marks it in pictures (by the order of cav_hand_work_find()). */
GPtrArray *cav_hand_words_list_places (CavProject *project,
                                       const CavPlan *plan,
                                       const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* Whether it would list any. */
gboolean cav_hand_words_has_places (const CavPlan *plan);
/* More places are not listed and not marked. */
#define CAV_HAND_PLACES_MAX 6u
/* The numbers of these places, each in a circle beside the wood that stays: white with a black rim
 * and a line to its place. map: of the prepared blank onto the page; box: of the blank there. */
void cav_hand_marks_draw (CavScene *scene, const CavPlan *plan, CavTransform map, CavBox box);
/* (transfer full) One place where more stays than is allowed, why, and what would reach it. */
char *cav_hand_words_describe_place (CavProject *project,
                                     const CavPlan *plan,
                                     const CavLeftoverPlace *place,
                                     const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
