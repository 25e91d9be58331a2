/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-ruler.h"

#include "geometry/cav-unit.h"

#include <math.h>

/* Pixels that lines and figures keep from each other. */
#define FINE_GAP 7.0
#define COARSE_GAP 56.0

/* From fine to coarse; each ladder's rungs are multiples of all rungs below. */
static const double metric[] = { 0.1, 0.5, 1, 5, 10, 50, 100, 500, 1000 };
static const double imperial[]
    = { CAV_INCH / 64, CAV_INCH / 32, CAV_INCH / 16, CAV_INCH / 8, CAV_INCH / 4,  CAV_INCH / 2,
        CAV_INCH,      2 * CAV_INCH,  4 * CAV_INCH,  8 * CAV_INCH, 16 * CAV_INCH, 32 * CAV_INCH };

static guint
find_rung (const double *ladder, guint n_rungs, double least)
{
  guint rung = 0;

  while (rung + 1 < n_rungs && ladder[rung] < least)
    rung++;
  return rung;
}

CavRulerSteps
cav_ruler_get_steps (CavUnit unit, double scale)
{
  const double *ladder = unit == CAV_UNIT_INCH ? imperial : metric;
  guint n_rungs = unit == CAV_UNIT_INCH ? G_N_ELEMENTS (imperial) : G_N_ELEMENTS (metric);
  guint fine;
  guint coarse;

  g_return_val_if_fail (isfinite (scale) && scale > 0, (CavRulerSteps){ 0 });

  fine = find_rung (ladder, n_rungs, FINE_GAP / scale);
  coarse = MAX (find_rung (ladder, n_rungs, COARSE_GAP / scale), fine);
  return (CavRulerSteps){ ladder[fine], ladder[MAX (fine, coarse > 0 ? coarse - 1 : 0)],
                          ladder[coarse] };
}

char *
cav_ruler_format (double mm, CavUnit unit)
{
  /* Sums of steps are not to show their roundings. */
  double clean = round (mm * 1e6) / 1e6;

  return cav_length_format_bare (fabs (clean) < 1e-6 ? 0 : clean, unit, 64);
}
