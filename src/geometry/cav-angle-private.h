/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/* Sine and cosine of an angle in degrees, exact at multiples of 90. */
void cav_angle_sincos (double degrees, double *out_sin, double *out_cos);

/* The angle that differs by whole turns and lies in [0, 360). */
static inline double
cav_angle_wrap (double degrees)
{
  double wrapped = fmod (degrees, 360.0);

  if (wrapped < 0.0)
    wrapped += 360.0;
  /* Adding 0 turns a negative zero into a plain one. */
  return wrapped >= 360.0 ? 0.0 : wrapped + 0.0;
}

/* The angle that differs by whole turns and lies in [-180, 180]. */
static inline double
cav_angle_wrap_signed (double degrees)
{
  return remainder (degrees, 360.0);
}

G_END_DECLS
