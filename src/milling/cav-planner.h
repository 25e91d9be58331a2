/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_EFFORT_QUICK,    /* fast enough to follow a drag */
  CAV_EFFORT_THOROUGH, /* what is printed and milled */
} CavEffort;

/* What is to be planned: a snapshot that nobody changes while the planner works. */
typedef struct
{
  CavBlank blank;
  const CavRegion *profile; /* in the blank's coordinates, one piece */
  const CavShop *shop;
  int rails;     /* at least 1 */
  double length; /* of all rails together, mm, above 0 */
  CavEffort effort;
  const int *cancelled; /* nullable; read atomically, not 0: give up */
  GVariant *known;      /* nullable; trace of a plan of this section for other tools or rails: where
                           it still holds, the answer takes no more minutes than it */
} CavPlanRequest;

typedef enum
{
  CAV_MILLING_ERROR_CANCELLED = 1,
  CAV_MILLING_ERROR_INPUT, /* blank, profile, rails or length make no sense */
} CavMillingError;
#define CAV_MILLING_ERROR (cav_milling_error_quark ())
GQuark cav_milling_error_quark (void);

/* The same request gives the same plan, bit for bit. Never touches anything but its arguments. */
CavPlan *cav_planner_plan (const CavPlanRequest *request, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
