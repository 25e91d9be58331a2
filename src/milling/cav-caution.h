/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-plan.h"

G_BEGIN_DECLS

/* All that the cautions of one pass look at. Lengths in mm. */
typedef struct
{
  CavMachine machine;
  gboolean sacrificial;   /* the blade stands partly in the fence, or touches it */
  gboolean severs;        /* a piece comes off */
  gboolean hidden;        /* the tool stays below the top of the rail */
  gboolean tips;          /* the rail's weight lies beyond where it rests */
  gboolean thin_wall;     /* wood under 2 mm beside the cut that the profile does not ask for */
  gboolean ridged;        /* a blade whose teeth are not flat leaves the bottom of its kerf */
  double cutter_diameter; /* at the widest; 0: no cutter */
  double section_width;   /* of what is left of the rail */
  double section_thickness;
  double rail_length;
} CavCautionFacts;

/* When a caution is shown, what it says, and who says so. */
typedef struct
{
  CavCaution caution;
  const char *name;
  gboolean (*applies) (const CavCautionFacts *facts);
  const char *sentence;
  const char *source;
} CavCautionRule;

/* The rule of every caution, in the order of their bits. */
const CavCautionRule *cav_caution_get_rules (guint *out_n_rules);
/* The bits of all that apply. */
guint cav_caution_find (const CavCautionFacts *facts);

G_END_DECLS
