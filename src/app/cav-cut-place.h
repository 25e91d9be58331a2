/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/* A corner or side that a cut can be anchored to, to choose from. */
typedef struct
{
  CavAnchorKind anchor;
  CavCorner corner;
  CavSide side;
} CavCutPlace;

/* (transfer full) CavCutPlace, all that a kind of cut knows: corners first; none of a drawn cut. */
GArray *cav_cut_place_list (CavCutKind kind) G_GNUC_WARN_UNUSED_RESULT;
/* Translated. */
const char *cav_cut_place_get_name (const CavCutPlace *place);
gboolean cav_cut_place_is_of (const CavCutPlace *place, const CavCut *cut);
/* Anchors the cut there. One that comes to a side has its middle somewhere on it. */
void cav_cut_place_move (const CavCutPlace *place, CavCut *cut, const CavBlank *blank);

G_END_DECLS
