/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-project-boards.h"

G_BEGIN_DECLS

/* Left on a piece beyond its rails, as far as the strip has it, where snipe and checks are, mm;
 * common practice, no source. */
#define CAV_PIECE_TRIM 25.0

/* Pieces of wood that are alike and that go past the tools, each in one length. */
typedef struct
{
  int count;
  double length; /* to prepare, a full number of mm */
  int rails;     /* in each */
} CavMilledPiece;

/*
 * (transfer full) Array of CavMilledPiece: what is cut off before milling for all rails of the
 * project's own frames, and so what the mitres still cut apart afterwards; trial and spare lengths
 * are not among them. From the (nullable) layout where all has a place there: rails that are cut
 * square first are pieces of their own, else what lies side by side in a strip stays together.
 * Without a layout from the frame, and without a frame by the number and length of the rails.
 */
GArray *cav_project_list_milled_pieces (CavProject *self,
                                        const CavBoardLayout *layout) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
