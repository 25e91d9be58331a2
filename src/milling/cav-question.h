/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-planner.h"

G_BEGIN_DECLS

/*
 * What is asked, and how the search looks at it. The model does not care whether a rail is seen
 * from one end or the other, nor how a figure came about; a bounded search would. So it sees every
 * section from the same end and with round figures, and like questions get like plans. What it
 * finds is proved on the section that was asked for.
 */
typedef struct
{
  const CavPlanRequest *asked;
  CavPlanRequest seen;
  gboolean mirrored;  /* seen from the other end: inside and outside have changed places */
  CavRegion *profile; /* that seen points to */
} CavQuestion;

/* Keeps a pointer to the request, which has been checked. */
void cav_question_init (CavQuestion *question, const CavPlanRequest *request);
void cav_question_clear (CavQuestion *question);
/* From what is seen to what was asked, and back. */
CavSide cav_question_get_side (const CavQuestion *question, CavSide side);
CavPoint cav_question_get_place (const CavQuestion *question, CavPoint place, double width);

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CavQuestion, cav_question_clear)

G_END_DECLS
