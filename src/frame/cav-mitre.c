/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-mitre.h"

#include "geometry/cav-unit.h"

#include <math.h>

double
cav_mitre_get_angle (int sides)
{
  g_return_val_if_fail (sides >= 3, 45.0);
  return 180.0 / sides;
}

double
cav_mitre_get_length (double width, int sides)
{
  return width / cos (CAV_RADIANS (cav_mitre_get_angle (sides)));
}

double
cav_mitre_get_run (double width, int sides)
{
  return width * tan (CAV_RADIANS (cav_mitre_get_angle (sides)));
}

double
cav_mitre_get_gap (double width, int sides, double degrees)
{
  return cav_mitre_get_length (width, sides) * CAV_RADIANS (degrees);
}

double
cav_mitre_get_season_error (int sides, double fraction)
{
  double angle = CAV_RADIANS (cav_mitre_get_angle (sides));

  g_return_val_if_fail (fraction > -1.0, 0.0);
  return 2.0 * CAV_DEGREES (angle - atan (tan (angle) / (1.0 + fraction)));
}

double
cav_mitre_get_pair_error (double difference, double other)
{
  if (!(other > 0.0))
    return 0.0;
  return CAV_DEGREES (asin (CLAMP (difference / 2.0 / other, -1.0, 1.0)));
}
