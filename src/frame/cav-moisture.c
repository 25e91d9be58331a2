/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-moisture.h"

#include <math.h>

double
cav_moisture_get (CavClimate climate)
{
  double t = climate.temperature;
  double h = climate.humidity / 100.0;
  double w = 349.0 + 1.29 * t + 0.0135 * t * t;
  double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  double kh = k * h;
  double first = k1 * kh;
  double second = k1 * k2 * kh * kh;

  g_return_val_if_fail (isfinite (t) && isfinite (h), 0.0);
  return 1800.0 / w * (kh / (1.0 - kh) + (first + 2.0 * second) / (1.0 + first + second));
}

static gboolean
is_in_middle (double moisture)
{
  return moisture >= 6.0 && moisture <= 14.0;
}

double
cav_movement_get (const CavWood *wood, CavSawn sawn, double from, double to)
{
  g_return_val_if_fail (wood != NULL, 0.0);

  double coefficient = sawn == CAV_SAWN_QUARTER ? wood->radial : wood->tangential;
  double start = CLAMP (from, 0.0, CAV_MOISTURE_FULL);
  double end = CLAMP (to, 0.0, CAV_MOISTURE_FULL);

  if (coefficient <= 0.0)
    return 0.0;
  if (is_in_middle (start) && is_in_middle (end))
    return coefficient * (end - start);
  /* (13-3) is (end - start) / (3000 / S - 30 + start), 30 being where the fibres are full, and from
   * 10 % it gives the coefficient: 3000 / S = 1 / C + 20. */
  return (end - start) / (1.0 / coefficient + 20.0 - CAV_MOISTURE_FULL + start);
}
