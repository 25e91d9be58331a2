/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "drawing/cav-drawing.h"
#include "project/cav-project-pieces.h"

G_BEGIN_DECLS

/* What goes past the tools, said alike on every sheet. */

/* (transfer full) CavMilledPiece, by the layout that the sheets show. (nullable) plan. */
GArray *cav_words_list_pieces (CavProject *project,
                               const CavPlan *plan,
                               const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* How many they are together. */
int cav_words_count_pieces (const GArray *pieces);
/* Whether rails are still to be cut apart after milling. */
gboolean cav_words_has_several (const GArray *pieces);
/* (transfer full) "4 pieces of 585 mm; 1 spare piece of 300 mm for trial cuts". */
char *cav_words_describe_pieces (const GArray *pieces,
                                 CavProject *project,
                                 const CavSheetOptions *options) G_GNUC_WARN_UNUSED_RESULT;
/* A sentence: when the rails are cut off or apart. */
const char *cav_words_get_parting (const GArray *pieces);
/* (transfer full) The same of one kind of piece, for a remark. */
char *cav_words_describe_parting (const CavMilledPiece *piece) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
