/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-question.h"

#include "geometry/cav-region-round.h"

#include "milling/cav-placement.h"

/* A section that leans by less is as good as symmetric, mm: far above rounding. */
#define LEAN_LEAST 1e-3

/* TRUE where the wood lies nearer to the inside than to the outside. */
static gboolean
leans_inside (const CavPlanRequest *request)
{
  CavPoint centroid;

  return cav_region_get_centroid (request->profile, &centroid)
         && centroid.x < request->blank.width / 2 - LEAN_LEAST;
}

void
cav_question_init (CavQuestion *question, const CavPlanRequest *request)
{
  g_autoptr (CavRegion) turned = NULL;
  CavTransform mirror = cav_transform_compose (cav_transform_scale (-1, 1),
                                               cav_transform_translation (request->blank.width, 0));

  question->asked = request;
  question->seen = *request;
  question->mirrored = leans_inside (request);
  if (question->mirrored)
    turned = cav_region_transformed (request->profile, mirror);
  question->profile = cav_region_rounded (question->mirrored ? turned : request->profile);
  question->seen.profile = question->profile;
  question->seen.blank.width = cav_round (request->blank.width);
  question->seen.blank.thickness = cav_round (request->blank.thickness);
}

void
cav_question_clear (CavQuestion *question)
{
  g_clear_pointer (&question->profile, cav_region_unref);
}

CavSide
cav_question_get_side (const CavQuestion *question, CavSide side)
{
  if (!question->mirrored || cav_side_is_flat (side))
    return side;
  return side == CAV_SIDE_INSIDE ? CAV_SIDE_OUTSIDE : CAV_SIDE_INSIDE;
}

CavPoint
cav_question_get_place (const CavQuestion *question, CavPoint place, double width)
{
  return question->mirrored ? CAV_POINT (width - place.x, place.y) : place;
}
