/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "project/cav-length.h"

G_BEGIN_DECLS

/*
 * The divisions of rulers and grid at a scale: steps that somebody at the bench knows from a
 * ruler of steel (1, 5 and 10 mm; halves down to 1/64 in), fine enough to read by and never so
 * fine that they run together. All in millimetres; each is a multiple of the one before.
 */
typedef struct
{
  double fine;   /* short ticks and pale lines */
  double middle; /* longer ticks */
  double coarse; /* ticks with figures, stronger lines */
} CavRulerSteps;

/* scale: pixels a millimetre. */
CavRulerSteps cav_ruler_get_steps (CavUnit unit, double scale);
/* (transfer full) The figure at a tick: "40", "1 1/4"; without the unit. */
char *cav_ruler_format (double mm, CavUnit unit) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
