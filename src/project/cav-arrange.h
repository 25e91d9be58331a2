/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "profile/cav-cut.h"

G_BEGIN_DECLS

/*
 * Edits of several cuts at once. Cuts come in as an array of CavCut, and as many new ones come out
 * in the same order, for cav_project_set_cuts() or cav_project_add_cuts().
 */

typedef enum
{
  CAV_MIRROR_ACROSS,  /* inside and outside change places */
  CAV_MIRROR_THROUGH, /* face and back change places */
} CavMirror;

typedef enum
{
  CAV_ALIGN_INSIDE,
  CAV_ALIGN_OUTSIDE,
  CAV_ALIGN_BACK,
  CAV_ALIGN_FACE,
  CAV_ALIGN_MIDDLE_X, /* half way from inside to outside */
  CAV_ALIGN_MIDDLE_Y, /* half way from back to face */
} CavAlignment;

/* The box of all that the cuts take away, within the blank or not. FALSE where no cut can be made
 * as it is. */
gboolean cav_arrange_get_bounds (const GPtrArray *cuts, const CavBlank *blank, CavBox *out_bounds);
/* (transfer full) Moved by so many mm along x and y. Along its side a cut changes its position;
 * what cannot move that way (a bevel along its side) stays. */
GPtrArray *cav_arrange_move (const GPtrArray *cuts, const CavBlank *blank, double dx, double dy)
    G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Mirrored about the middle of the blank. */
GPtrArray *cav_arrange_mirror (const GPtrArray *cuts,
                               const CavBlank *blank,
                               CavMirror mirror) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Copies, moved together by step (mm) toward the middle of the blank, so that they
 * do not hide under what they copy. */
GPtrArray *cav_arrange_duplicate (const GPtrArray *cuts,
                                  const CavBlank *blank,
                                  double step) G_GNUC_WARN_UNUSED_RESULT;
/* (transfer full) Several cuts aligned to the box around them, one alone to the blank. */
GPtrArray *cav_arrange_align (const GPtrArray *cuts,
                              const CavBlank *blank,
                              CavAlignment align) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
