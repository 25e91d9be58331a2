/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "milling/cav-task.h"

G_BEGIN_DECLS

/* A tool as it stands, on the axis of the low fence. */
typedef struct
{
  const CavConfig *config;
  const CavTool *tool;
  double u; /* near face or axis at the table */
  double height;
  double sense;    /* +1: leans toward greater u, -1: toward smaller */
  double sin_turn; /* of the tilt or the angle */
  double cos_turn;
} CavStand;

/* Half width of a crossed blade's ellipse at height v. */
double cav_stand_get_cove_half_width (const CavStand *stand, double v);
/* Distance along a tilted blade from the table to the square end of its kerf; the highest corner
 * is the near one where it leans away from the fence, the far one where it leans toward it. */
double cav_stand_get_blade_end (const CavStand *stand);
/* Fills in what a candidate takes, in the blank's rows, with its key and area. */
void cav_stand_fill_rows (CavTask *task, const CavStand *stand, CavCandidate *candidate);

G_END_DECLS
