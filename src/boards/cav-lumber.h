/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "boards/cav-board-job.h"
#include "boards/cav-board.h"
#include "profile/cav-blank.h"

G_BEGIN_DECLS

/*
 * What a project stores about its lumber: boards at hand, boards that can be bought, and how they
 * are sawn. Lengths are mm. A value: copy it, compare it, free it.
 */
struct _CavLumber
{
  GPtrArray *boards; /* CavBoard at hand */
  GPtrArray *stock;  /* CavBoard that can be bought */
  GArray *pins;      /* CavBoardPin */
  GPtrArray *joined; /* CavBoardJob, copies: other projects whose rails come from this pile too */

  int frames;          /* equal frames to make, at least 1 */
  CavGrainOrder order; /* of the grain */
  int run_start;       /* the rail that a run begins with; the corner before it does not match */

  double kerf;        /* ripping, crosscutting and mitring */
  double jointing;    /* off one long edge of a board before it is ripped */
  double strip_extra; /* each strip wider than the blank, to be planed or jointed off */
  double planing;     /* off the thickness of a rough board, both faces together */

  gboolean resaw; /* thick boards may give several layers */
  double resaw_kerf;
  double resaw_planing; /* off each resawn face */
  gboolean glue_up;     /* thin strips may be glued to the thickness that is needed */

  gboolean square_first; /* rails are cut to length square before they are milled */
  double square_extra;   /* and that much longer than their long point */
  double spare;          /* length of molding to make besides the rails; 0: none */
  double test;           /* length of blank for trying settings; 0: none */
  double shortest;       /* shorter pieces are not milled alone */
  double useful;         /* shorter offcuts are waste */
};

/* No boards; one frame, grain running on, and allowances of common practice (no source). */
CavLumber *cav_lumber_new (void) G_GNUC_WARN_UNUSED_RESULT;
CavLumber *cav_lumber_copy (const CavLumber *lumber) G_GNUC_WARN_UNUSED_RESULT;
void cav_lumber_free (CavLumber *lumber);
/* Every word and every number the same. */
gboolean cav_lumber_equal (const CavLumber *a, const CavLumber *b);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (CavLumber, cav_lumber_free)
/* A rough board to begin with: of a usual length and width, and no thinner than what leaves the
 * blank when it has been planed. */
CavBoard *cav_lumber_create_board (const CavLumber *lumber,
                                   const CavBlank *blank) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
