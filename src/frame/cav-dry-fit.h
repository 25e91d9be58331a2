/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "frame/cav-frame-settings.h"

G_BEGIN_DECLS

typedef enum
{
  CAV_RAILS_TOP_BOTTOM,
  CAV_RAILS_LEFT_RIGHT,
  CAV_RAILS_ALL,
} CavRailPair;

/* One thing to do after the dry fit. */
typedef struct
{
  CavRailPair rails;
  double take_off; /* of each of these rails' length, mm; 0: none */
  double missing;  /* by which they are too short, mm; 0: they are not */
  double turn;     /* of the saw's mitre setting, degrees, positive: further from a square cut */
  double setting;  /* the mitre setting after it, degrees from square */
  char sentence[2048];
} CavCorrection;

/* Sizes that the frame was meant to have, as far as the dry fit needs them, mm. */
typedef struct
{
  int sides;
  double allowance;
  double outside_width;
  double outside_height;
  double molding; /* width of the rail */
} CavDryFitFrame;

/* Differences that are none: half a millimetre in lengths and diagonals, two hundredths of a
 * degree; common practice, no source. */
#define CAV_DRY_FIT_LENGTH 0.5
#define CAV_DRY_FIT_DEGREES 0.02

/*
 * (transfer full) Array of CavCorrection for what was measured; empty where nothing was, or where
 * the frame has no size.
 *
 * Gaps: the play across is left + right; what it has more than the allowance comes off the top and
 * bottom rails, each by all of it. Diagonals d, e of a rectangle a × b that leans by p:
 * d² - e² = 4 a b sin p; each cut of its closed corners is p / 2 off, further from square at the
 * ends of the longer diagonal. An open corner: gap over the mitre's length is the error in radians,
 * of two cuts, or of all cuts where the others were closed; open at the toe means cut too near to
 * square.
 */
GArray *cav_dry_fit_create_corrections (const CavDryFit *dry_fit,
                                        const CavDryFitFrame *frame) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
