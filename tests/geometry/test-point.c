/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-angle-private.h"
#include "geometry/cav-point.h"

#include "geometry-shapes.h"

static void
test_finite (void)
{
  static const struct
  {
    const char *desc;
    double x, y;
    gboolean finite;
  } rows[] = {
    { "origin", 0.0, 0.0, TRUE },      { "huge", 1e300, -1e300, TRUE },
    { "x is NaN", NAN, 0.0, FALSE },   { "y is infinite", 0.0, INFINITY, FALSE },
    { "both", -INFINITY, NAN, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].desc);
      g_assert_true (cav_point_is_finite (CAV_POINT (rows[i].x, rows[i].y)) == rows[i].finite);
    }
}

static void
test_distance (void)
{
  CavPoint a = CAV_POINT (1.0, 2.0);
  CavPoint b = CAV_POINT (4.0, 6.0);

  shapes_assert_exact (cav_point_distance (a, b), 5.0);
  shapes_assert_exact (cav_point_distance (b, a), 5.0);
  shapes_assert_exact (cav_point_distance (a, a), 0.0);
  g_assert_true (cav_point_near (a, b, 5.0));
  g_assert_true (!cav_point_near (a, b, 4.999));
  g_assert_true (!cav_point_near (a, CAV_POINT (NAN, 0.0), 1e9));
}

static void
test_quarter_turns (void)
{
  static const struct
  {
    double degrees, x, y;
  } rows[] = {
    { 0.0, 3.0, 1.0 },    { 90.0, -1.0, 3.0 },   { 180.0, -3.0, -1.0 }, { 270.0, 1.0, -3.0 },
    { -90.0, 1.0, -3.0 }, { 360.0, 3.0, 1.0 },   { 450.0, -1.0, 3.0 },  { -540.0, -3.0, -1.0 },
    { 3600.0, 3.0, 1.0 }, { -270.0, -1.0, 3.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavPoint turned
          = cav_transform_point (cav_transform_rotation (rows[i].degrees), CAV_POINT (3.0, 1.0));

      shapes_assert_exact (turned.x, rows[i].x);
      shapes_assert_exact (turned.y, rows[i].y);
    }
}

static void
test_any_turn (void)
{
  for (double degrees = -400.0; degrees < 400.0; degrees += 7.3)
    {
      double s, c;

      cav_angle_sincos (degrees, &s, &c);
      shapes_assert_near (s, sin (degrees * RADIANS), 1e-14);
      shapes_assert_near (c, cos (degrees * RADIANS), 1e-14);
      shapes_assert_near (s * s + c * c, 1.0, 1e-15);
    }
}

/* No angle at all must not become a number that is none. */
static void
test_no_angle (void)
{
  double s, c;

  cav_angle_sincos (NAN, &s, &c);
  g_assert_true (isfinite (s) && isfinite (c));
  cav_angle_sincos (INFINITY, &s, &c);
  g_assert_true (isfinite (s) && isfinite (c));
}

static void
test_wrap (void)
{
  static const struct
  {
    double degrees, wrapped, wrapped_signed;
  } rows[] = {
    { 0.0, 0.0, 0.0 },       { 360.0, 0.0, 0.0 },      { -10.0, 350.0, -10.0 },
    { 370.0, 10.0, 10.0 },   { 190.0, 190.0, -170.0 }, { -350.0, 10.0, 10.0 },
    { -1e-20, 0.0, -1e-20 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      shapes_assert_exact (cav_angle_wrap (rows[i].degrees), rows[i].wrapped);
      shapes_assert_exact (cav_angle_wrap_signed (rows[i].degrees), rows[i].wrapped_signed);
    }
}

static void
test_translate_and_scale (void)
{
  CavPoint point = CAV_POINT (3.0, -4.0);

  shapes_assert_point (cav_transform_point (cav_transform_identity (), point), 3.0, -4.0, 0.0);
  shapes_assert_point (cav_transform_point (cav_transform_translation (10.0, 20.0), point), 13.0,
                       16.0, 0.0);
  shapes_assert_point (cav_transform_point (cav_transform_scale (2.0, -0.5), point), 6.0, 2.0, 0.0);
}

/* First one, then the other; the order counts. */
static void
test_compose (void)
{
  CavTransform move = cav_transform_translation (10.0, 0.0);
  CavTransform turn = cav_transform_rotation (90.0);
  CavPoint point = CAV_POINT (1.0, 0.0);

  shapes_assert_point (cav_transform_point (cav_transform_compose (move, turn), point), 0.0, 11.0,
                       0.0);
  shapes_assert_point (cav_transform_point (cav_transform_compose (turn, move), point), 10.0, 1.0,
                       0.0);
}

static void
test_compose_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (11));

  for (int i = 0; i < 200; i++)
    {
      double v[14];
      CavTransform a, b;
      CavPoint one, two;

      for (guint k = 0; k < G_N_ELEMENTS (v); k++)
        v[k] = g_rand_double_range (rand, -5.0, 5.0);
      a = (CavTransform){ v[0], v[1], v[2], v[3], v[4], v[5] };
      b = (CavTransform){ v[6], v[7], v[8], v[9], v[10], v[11] };
      one = cav_transform_point (b, cav_transform_point (a, CAV_POINT (v[12], v[13])));
      two = cav_transform_point (cav_transform_compose (a, b), CAV_POINT (v[12], v[13]));
      shapes_assert_point (one, two.x, two.y, 1e-11);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/point/finite", test_finite);
  g_test_add_func ("/geometry/point/distance", test_distance);
  g_test_add_func ("/geometry/angle/quarter-turns", test_quarter_turns);
  g_test_add_func ("/geometry/angle/any-turn", test_any_turn);
  g_test_add_func ("/geometry/angle/no-angle", test_no_angle);
  g_test_add_func ("/geometry/angle/wrap", test_wrap);
  g_test_add_func ("/geometry/transform/translate-and-scale", test_translate_and_scale);
  g_test_add_func ("/geometry/transform/compose", test_compose);
  g_test_add_func ("/geometry/transform/compose-random", test_compose_random);
  return g_test_run ();
}
