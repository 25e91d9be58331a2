/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-wood-texture.h"

#include <math.h>

#include "drawing/cav-noise.h"

/* The seven woods that have to be told apart at a glance. */
static const char *const woods[]
    = { "ash-white",   "oak-red",       "walnut-black",  "cherry-black",
        "maple-sugar", "yellow-poplar", "pine-ponderosa" };

typedef struct
{
  double red, green, blue;
  double contrast; /* standard deviation of lightness */
} Look;

static double
get_lightness (CavTint tint)
{
  return 0.3 * tint.red + 0.59 * tint.green + 0.11 * tint.blue;
}

static Look
measure (const char *id, CavSawn sawn)
{
  CavWoodTexture texture;
  Look look = { 0 };
  double sum = 0, squares = 0;
  int n = 0;

  cav_wood_texture_init (&texture, cav_wood_find (id), sawn, 60, 22, 0.4);
  for (float along = 0; along < 400; along += 1.7f)
    for (float across = 0; across < 60; across += 0.9f, n++)
      {
        CavTint tint = cav_wood_texture_get (&texture, along, across, 22);

        g_assert_true (isfinite (tint.red) && isfinite (tint.green) && isfinite (tint.blue));
        g_assert_true (tint.red >= 0 && tint.red <= 1 && tint.blue >= 0 && tint.blue <= 1);
        look.red += tint.red;
        look.green += tint.green;
        look.blue += tint.blue;
        sum += get_lightness (tint);
        squares += get_lightness (tint) * get_lightness (tint);
      }
  look.red /= n;
  look.green /= n;
  look.blue /= n;
  look.contrast = sqrt (squares / n - sum / n * sum / n);
  return look;
}

/* No two of them have the same colour (a distance that eyes see, of 255: 8 and more), or else one
 * has figure and the other none. */
static void
test_apart (void)
{
  Look looks[G_N_ELEMENTS (woods)];

  for (guint i = 0; i < G_N_ELEMENTS (woods); i++)
    {
      looks[i] = measure (woods[i], CAV_SAWN_FLAT);
      g_test_message ("%s: %.0f %.0f %.0f, contrast %.1f", woods[i], 255 * looks[i].red,
                      255 * looks[i].green, 255 * looks[i].blue, 255 * looks[i].contrast);
    }
  for (guint i = 0; i < G_N_ELEMENTS (woods); i++)
    for (guint k = 0; k < i; k++)
      {
        double distance = 255
                          * sqrt (pow (looks[i].red - looks[k].red, 2)
                                  + pow (looks[i].green - looks[k].green, 2)
                                  + pow (looks[i].blue - looks[k].blue, 2));
        double contrast = 255 * fabs (looks[i].contrast - looks[k].contrast);

        g_test_message ("%s and %s: %.1f, %.1f", woods[i], woods[k], distance, contrast);
        g_assert_true (distance > 14 || contrast > 4);
      }
  /* What everybody knows of them: walnut is the darkest, maple the lightest, poplar the greenest.
   */
  for (guint i = 0; i < G_N_ELEMENTS (woods); i++)
    {
      g_assert_true (i == 2 || looks[2].green < looks[i].green - 0.1);
      g_assert_true (i == 4 || looks[4].blue > looks[i].blue - 0.02);
      g_assert_true (i == 5 || looks[5].green - looks[5].red > looks[i].green - looks[i].red);
    }
}

/* Figure is a solid: the same place has the same colour, and a deeper cut shows another one. */
static void
test_solid (void)
{
  CavWoodTexture texture;
  int n_different = 0;

  cav_wood_texture_init (&texture, cav_wood_find ("pine-ponderosa"), CAV_SAWN_FLAT, 60, 22, 0.4);
  for (int i = 0; i < 200; i++)
    {
      CavTint first = cav_wood_texture_get (&texture, (float)i, 30, 22);
      CavTint again = cav_wood_texture_get (&texture, (float)i, 30, 22);
      CavTint deeper = cav_wood_texture_get (&texture, (float)i, 30, 18);

      g_assert_cmpmem (&first, sizeof first, &again, sizeof again);
      n_different += fabsf (first.green - deeper.green) > 0.03f;
    }
  g_assert_cmpint (n_different, >, 40);
}

/* Grain runs along the rail: colours change faster across than along. */
static void
test_direction (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (woods); i++)
    {
      CavWoodTexture texture;
      double along = 0, across = 0;

      cav_wood_texture_init (&texture, cav_wood_find (woods[i]), CAV_SAWN_QUARTER, 60, 22, 0.4);
      for (int k = 0; k < 1000; k++)
        {
          float s = (float)(k * 0.37);
          float x = (float)(fmod (k * 7.13, 55));
          double here = get_lightness (cav_wood_texture_get (&texture, s, x, 22));

          along += fabs (get_lightness (cav_wood_texture_get (&texture, s + 1, x, 22)) - here);
          across += fabs (get_lightness (cav_wood_texture_get (&texture, s, x + 1, 22)) - here);
        }
      g_test_message ("%s: %.1f along, %.1f across", woods[i], along, across);
      g_assert_cmpfloat (across, >, 1.2 * along);
    }
}

/* Quarter sawn oak shows its rays as bright flecks; flat sawn it does not. */
static void
test_rays (void)
{
  CavWoodTexture quarter, flat;
  int n_quarter = 0, n_flat = 0;
  const CavWood *oak = cav_wood_find ("oak-white");
  float early = cav_wood_look_get (oak)->early.green;

  cav_wood_texture_init (&quarter, oak, CAV_SAWN_QUARTER, 60, 22, 0.4);
  cav_wood_texture_init (&flat, oak, CAV_SAWN_FLAT, 60, 22, 0.4);
  for (int i = 0; i < 4000; i++)
    {
      float s = (float)(i % 80) * 3, x = (float)i / 80;

      n_quarter += cav_wood_texture_get (&quarter, s, x, 22).green > early * 1.12f;
      n_flat += cav_wood_texture_get (&flat, s, x, 22).green > early * 1.12f;
    }
  g_assert_cmpint (n_quarter, >, 150);
  g_assert_cmpint (n_flat, <, n_quarter / 5);
}

static void
test_finishes (void)
{
  const CavTint bare = { 0.8f, 0.7f, 0.5f };
  float last = 2;

  /* The more a finish wets the wood, the deeper it gets. */
  for (int i = 0; i < 3; i++)
    {
      const CavFinish order[] = { CAV_FINISH_WAX, CAV_FINISH_OIL, CAV_FINISH_VARNISH };
      CavTint tint = cav_finish_get_tint (order[i], bare, 10, 10);

      g_assert_cmpfloat (tint.green, <, bare.green);
      g_assert_cmpfloat (tint.green, <, last);
      g_assert_cmpfloat (tint.red - tint.blue, >, bare.red - bare.blue);
      last = tint.green;
    }
  g_assert_cmpfloat (cav_finish_get_tint (CAV_FINISH_BLACK, bare, 0, 0).red, <, 0.25);
  g_assert_cmpfloat (cav_finish_get_tint (CAV_FINISH_WHITE, bare, 0, 0).blue, >, 0.85);
  CavTint gilt = cav_finish_get_tint (CAV_FINISH_GILT, bare, 20, 10);
  g_assert_cmpfloat (gilt.red, >, gilt.green);
  g_assert_cmpfloat (gilt.green, >, gilt.blue + 0.2);
  g_assert_cmpfloat_with_epsilon (cav_finish_get_tint (CAV_FINISH_BARE, bare, 0, 0).red, bare.red,
                                  1e-7);
  g_assert_cmpfloat (cav_finish_get_gloss (CAV_FINISH_VARNISH).hardness, >,
                     cav_finish_get_gloss (CAV_FINISH_WAX).hardness);
  g_assert_cmpfloat (cav_finish_get_gloss (CAV_FINISH_GILT).shine, >,
                     cav_finish_get_gloss (CAV_FINISH_VARNISH).shine);
  g_assert_cmpfloat (cav_finish_get_gloss ((CavFinish)99).shine, <, 0.05);
}

/* Every wood of the table has a look, and no wood at all has one. */
static void
test_all (void)
{
  const CavWoodLook *none = cav_wood_look_get (NULL);

  for (guint i = 0; i < cav_wood_get_count (); i++)
    {
      g_test_message ("%s", cav_wood_get (i)->id);
      g_assert_true (cav_wood_look_get (cav_wood_get (i)) != none);
    }
}

static void
test_noise (void)
{
  double sum = 0;

  for (int i = 0; i < 5000; i++)
    {
      float here = cav_noise_get ((float)i * 0.73f, (float)-i * 0.31f, 4.5f);
      float near = cav_noise_get ((float)i * 0.73f + 0.001f, (float)-i * 0.31f, 4.5f);

      g_assert_true (here >= 0 && here <= 1);
      g_assert_cmpfloat (fabsf (here - near), <, 0.003f);
      sum += cav_noise_hash (i, -3, 7);
    }
  g_assert_cmpfloat_with_epsilon (sum / 5000, 0.5, 0.02);
  /* At a whole number it is the hash. */
  g_assert_cmpfloat_with_epsilon (cav_noise_get (-3, 5, 2), cav_noise_hash (-3, 5, 2), 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/wood-texture/apart", test_apart);
  g_test_add_func ("/drawing/wood-texture/solid", test_solid);
  g_test_add_func ("/drawing/wood-texture/direction", test_direction);
  g_test_add_func ("/drawing/wood-texture/rays", test_rays);
  g_test_add_func ("/drawing/wood-texture/finishes", test_finishes);
  g_test_add_func ("/drawing/wood-texture/all", test_all);
  g_test_add_func ("/drawing/wood-texture/noise", test_noise);
  return g_test_run ();
}
