/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-wood-texture.h"

#include <math.h>

#include "drawing/cav-noise.h"

/* How far the pith lies from the blank's middle, in blanks: below the back of a flat sawn board,
 * beside the edge of a quarter sawn one. */
#define PITH_FLAT 0.9f
#define PITH_QUARTER 2.2f
/* The pith leans against the board by this, which draws the arches of flat sawn faces. */
#define LEAN 0.022f

void
cav_wood_texture_init (CavWoodTexture *texture,
                       const CavWood *wood,
                       CavSawn sawn,
                       double width,
                       double thickness,
                       double detail)
{
  g_return_if_fail (texture != NULL);

  *texture = (CavWoodTexture){ .look = cav_wood_look_get (wood),
                               .sawn = sawn,
                               .width = (float)width,
                               .thickness = (float)thickness,
                               .detail = (float)detail };
}

static inline float
smooth (float low, float high, float value)
{
  float t = CLAMP ((value - low) / (high - low), 0.0f, 1.0f);

  return t * t * (3.0f - 2.0f * t);
}

/* The place seen from the pith: out along the rings' radius, and around. */
typedef struct
{
  float radius;
  float around; /* mm along the ring */
} Polar;

static Polar
find_polar (const CavWoodTexture *texture, float along, float across, float height)
{
  float wander = cav_noise_get (along * 0.004f, 3.0f, 1.0f) - 0.5f;
  float sway = cav_noise_get (along * 0.005f, 9.0f, 2.0f) - 0.5f;
  float lean = along * LEAN;
  float x;
  float y;

  if (texture->sawn == CAV_SAWN_QUARTER)
    {
      /* Rings stand upright in the section and run straight. */
      x = across + PITH_QUARTER * texture->width + 6.0f * wander;
      y = height - texture->thickness * 0.5f + 5.0f * sway;
    }
  else
    {
      x = across - texture->width * (0.68f + 0.5f * wander);
      y = height + PITH_FLAT * MAX (texture->thickness, 22.0f) + lean + 7.0f * sway;
    }
  /* Trees are not turned: rings bulge a little, differently at each height. */
  float bulge = cav_noise_get (x * 0.04f, y * 0.04f, along * 0.006f) - 0.5f;
  float ripple = cav_noise_get (x * 0.35f, y * 0.35f, along * 0.03f) - 0.5f;
  float radius = sqrtf (x * x + y * y) + 5.0f * bulge + 0.5f * ripple;
  return (Polar){ radius, texture->sawn == CAV_SAWN_QUARTER ? y : x };
}

/* 0 in spring wood, 1 in the late wood of a ring; within is how far out in the ring. */
static float
get_late (const CavWoodLook *look, float within, float blur)
{
  float start = 1.0f - look->late_share;
  float soft = (1.0f - look->late_edge) * 0.5f + 0.04f + blur;
  float rise = smooth (start - soft, start + 0.3f * look->late_share + blur * 0.5f, within);
  /* The next spring begins at once. */
  return rise * (1.0f - smooth (1.0f - 0.04f - 0.5f * blur, 1.0f, within));
}

/* Pores are cut lengthwise into dashes. What is finer than the picture's grain only darkens it. */
static float
get_pores (const CavWoodTexture *texture, Polar polar, float within, float along, float height)
{
  const CavWoodLook *look = texture->look;

  if (look->pores <= 0.0f)
    return 0.0f;
  float width = MAX (look->pore_width, texture->detail * 0.85f);
  float shown = look->pore_width / width;
  float u = polar.around / width;
  float v = polar.radius / width;
  float first = cav_noise_get (u, v, along / look->pore_length);
  float second
      = cav_noise_get (u * 1.7f + 31.0f, v * 1.7f, along / (0.6f * look->pore_length) + 0.5f);
  float third
      = cav_noise_get (u * 0.5f, v * 0.5f + height * 0.3f, along / (2.5f * look->pore_length));
  float dash = smooth (0.42f, 0.8f, 0.5f * first + 0.35f * second + 0.3f * (third - 0.2f));
  float place = 1.0f - smooth (0.10f, 0.42f, within);

  return look->pores * dash * (0.35f + 0.65f * shown)
         * (1.0f - look->ring_porous + look->ring_porous * place);
}

/* Rays run from the pith outward: spindles along the grain on a flat sawn face, ribbons on a
 * quarter sawn one. Positive is lighter, negative darker. */
static float
get_rays (const CavWoodTexture *texture, Polar polar, float along)
{
  const CavWoodLook *look = texture->look;

  if (look->ray <= 0.0f)
    return 0.0f;
  if (texture->sawn == CAV_SAWN_QUARTER)
    {
      float wave = cav_noise_get (along * 0.03f, polar.radius * 0.05f, 5.0f) * 9.0f;
      float ribbon = cav_noise_get (polar.radius / (look->ray_length * 0.45f) + wave,
                                    (along + 0.5f * polar.radius) / (look->ray_length * 0.3f),
                                    polar.around * 0.1f);
      float edge = cav_noise_get (polar.radius * 0.9f, along * 0.4f, 11.0f) - 0.5f;
      /* Flakes finer than the picture's grain run into one tone. */
      float shown = MIN (1.0f, 0.2f * look->ray_length / texture->detail);
      return look->ray * look->ray_shine * shown * smooth (0.62f, 0.74f, ribbon + 0.1f * edge);
    }
  float width = MAX (look->ray_width, texture->detail * 0.9f);
  float spindle = cav_noise_get (polar.around / width, along / look->ray_length, 7.0f);
  return -0.35f * look->ray * smooth (0.72f, 0.92f, spindle) * look->ray_width / width;
}

static CavTint
add_streaks (const CavWoodLook *look, CavTint tint, Polar polar, float along)
{
  if (look->streak <= 0.0f)
    return tint;
  float band = cav_noise_get (polar.radius / look->streak_width,
                              polar.around / (3.0f * look->streak_width), along * 0.004f);
  float fine = cav_noise_get (polar.radius * 0.8f, polar.around * 0.2f, along * 0.006f);
  return cav_tint_mix (tint, look->pore,
                       look->streak * 0.7f * smooth (0.45f, 0.85f, 0.8f * band + 0.25f * fine));
}

static CavTint
brighten (CavTint tint, float by)
{
  return (CavTint){ CLAMP (tint.red * (1.0f + by), 0.0f, 1.0f),
                    CLAMP (tint.green * (1.0f + by), 0.0f, 1.0f),
                    CLAMP (tint.blue * (1.0f + by), 0.0f, 1.0f) };
}

CavTint
cav_wood_texture_get (const CavWoodTexture *texture, float along, float across, float height)
{
  const CavWoodLook *look = texture->look;
  Polar polar = find_polar (texture, along, across, height);
  /* Rings are wide in good years. */
  float years = polar.radius / look->ring + 1.3f * cav_noise_get (polar.radius * 0.11f, 2.0f, 0.0f);
  float year = floorf (years);
  float within = years - year;
  float strength = 0.65f + 0.5f * cav_noise_hash ((gint32)year, 1, 4);
  float late = get_late (look, within, 0.12f * texture->detail / look->ring) * MIN (strength, 1.0f);
  CavTint tint = cav_tint_mix (look->early, look->late, late);
  float mottle = cav_noise_get (along * 0.012f, polar.around * 0.04f, polar.radius * 0.04f) - 0.5f;
  float fibre = cav_noise_get (along * 0.06f, polar.around * 1.3f, polar.radius * 1.3f) - 0.5f;
  float by = 0.22f * look->mottle * mottle + 0.05f * fibre + get_rays (texture, polar, along);

  tint = add_streaks (look, tint, polar, along);
  tint = cav_tint_mix (tint, look->pore, get_pores (texture, polar, within, along, height));
  if (look->curl > 0.0f)
    {
      float bend = 30.0f * cav_noise_get (along * 0.016f, across * 0.03f, 4.0f);
      by += 0.07f * look->curl * sinf (along * 0.75f + bend + 0.05f * across)
            * cav_noise_get (along * 0.02f, across * 0.06f, 8.0f);
    }
  return brighten (tint, by);
}
