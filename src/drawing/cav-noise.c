/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-noise.h"

/* Three large odd numbers and two rounds of multiply and shift; enough that no pattern is seen. */
float
cav_noise_hash (gint32 x, gint32 y, gint32 z)
{
  guint32 h = (guint32)x * 0x8da6b343u ^ (guint32)y * 0xd8163841u ^ (guint32)z * 0xcb1ab31fu;

  h = (h ^ (h >> 15)) * 0x2c1b3c6du;
  h = (h ^ (h >> 12)) * 0x297a2d39u;
  h ^= h >> 15;
  return (float)(h >> 8) * (1.0f / 16777216.0f);
}

static inline gint32
get_floor (float value)
{
  gint32 whole = (gint32)value;

  return (float)whole > value ? whole - 1 : whole;
}

static inline float
ease (float t)
{
  return t * t * (3.0f - 2.0f * t);
}

static inline float
blend (float a, float b, float t)
{
  return a + (b - a) * t;
}

float
cav_noise_get (float x, float y, float z)
{
  gint32 i = get_floor (x);
  gint32 j = get_floor (y);
  gint32 k = get_floor (z);
  float u = ease (x - (float)i);
  float v = ease (y - (float)j);
  float w = ease (z - (float)k);
  float near = blend (blend (cav_noise_hash (i, j, k), cav_noise_hash (i + 1, j, k), u),
                      blend (cav_noise_hash (i, j + 1, k), cav_noise_hash (i + 1, j + 1, k), u), v);
  float far = blend (
      blend (cav_noise_hash (i, j, k + 1), cav_noise_hash (i + 1, j, k + 1), u),
      blend (cav_noise_hash (i, j + 1, k + 1), cav_noise_hash (i + 1, j + 1, k + 1), u), v);

  return blend (near, far, w);
}
