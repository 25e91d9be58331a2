/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-noise.h"

/* Three large odd numbers and two rounds of multiply and shift; enough that no pattern is seen. */
#define STEP_X 0x8da6b343u
#define STEP_Y 0xd8163841u
#define STEP_Z 0xcb1ab31fu

static inline float
mix (guint32 h)
{
  h = (h ^ (h >> 15)) * 0x2c1b3c6du;
  h = (h ^ (h >> 12)) * 0x297a2d39u;
  h ^= h >> 15;
  return (float)(gint32)(h >> 8) * (1.0f / 16777216.0f);
}

float
cav_noise_hash (gint32 x, gint32 y, gint32 z)
{
  return mix ((guint32)x * STEP_X ^ (guint32)y * STEP_Y ^ (guint32)z * STEP_Z);
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
  /* The hashes of the eight corners of the cell, whose products differ by one step. */
  guint32 x0 = (guint32)i * STEP_X;
  guint32 y0 = (guint32)j * STEP_Y;
  guint32 z0 = (guint32)k * STEP_Z;
  guint32 x1 = x0 + STEP_X;
  guint32 y1 = y0 + STEP_Y;
  guint32 z1 = z0 + STEP_Z;
  float near = blend (blend (mix (x0 ^ y0 ^ z0), mix (x1 ^ y0 ^ z0), u),
                      blend (mix (x0 ^ y1 ^ z0), mix (x1 ^ y1 ^ z0), u), v);
  float far = blend (blend (mix (x0 ^ y0 ^ z1), mix (x1 ^ y0 ^ z1), u),
                     blend (mix (x0 ^ y1 ^ z1), mix (x1 ^ y1 ^ z1), u), v);

  return blend (near, far, w);
}
