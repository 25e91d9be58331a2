/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/* What the window calls cuts, their places and their numbers, translated. */
const char *cav_cut_words_get_kind (CavCutKind kind);
const char *cav_cut_words_get_corner (CavCorner corner);
const char *cav_cut_words_get_side (CavSide side);
const char *cav_cut_words_get_form (CavCutForm form);
/* Of a number of this cut: some say from where they are measured. */
const char *cav_cut_words_get_number (const CavCut *cut, const CavCutNumberInfo *number);
/* FALSE where a number has no meaning at the place where the cut is anchored. */
gboolean cav_cut_words_has_number (const CavCut *cut, CavCutNumber number);
/* (nullable) NULL where the cut has no such number, or it means nothing where the cut is anchored.
 */
const CavCutNumberInfo *cav_cut_words_find_number (const CavCut *cut, CavCutNumber number);

G_END_DECLS
