/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-end-grain.h"
#include "drawing/cav-scene.h"
#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* The finished section in the blank of a plan, its sides named, as large as fits into a box. With a
 * mark it is the end of a rail as it is pencilled; with NULL it shows in black what is left by
 * hand, each place with the number that it has in cav_hand_words_list_places(). */
void
cav_plan_section_draw (CavScene *scene, const CavPlan *plan, const CavEndMark *mark, CavBox box);

G_END_DECLS
