/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-ruler.h"

#include <math.h>

static gboolean
is_multiple (double a, double b)
{
  double ratio = a / b;

  return ratio >= 1 - 1e-9 && fabs (ratio - round (ratio)) < 1e-9;
}

static void
test_steps_fit (void)
{
  for (double scale = 0.2; scale <= 400; scale *= 1.07)
    for (int unit = CAV_UNIT_MM; unit <= CAV_UNIT_INCH; unit++)
      {
        CavRulerSteps steps = cav_ruler_get_steps ((CavUnit)unit, scale);

        g_assert_true (is_multiple (steps.middle, steps.fine));
        g_assert_true (is_multiple (steps.coarse, steps.middle));
        g_assert_cmpfloat (steps.fine * scale, >=, 7.0 - 1e-9);
        g_assert_cmpfloat (steps.coarse * scale, >=, 56.0 - 1e-9);
      }
}

static void
test_known_scales (void)
{
  static const struct
  {
    const char *desc;
    CavUnit unit;
    double scale;
    double fine, middle, coarse;
  } rows[] = {
    { "mm, section fills a window", CAV_UNIT_MM, 16, 0.5, 1, 5 },
    { "mm, half of that", CAV_UNIT_MM, 8, 1, 5, 10 },
    { "mm, far away", CAV_UNIT_MM, 1, 10, 50, 100 },
    { "mm, near", CAV_UNIT_MM, 100, 0.1, 0.5, 1 },
    { "inch, section fills a window", CAV_UNIT_INCH, 16, 25.4 / 32, 25.4 / 8, 25.4 / 4 },
    { "inch, half of that", CAV_UNIT_INCH, 8, 25.4 / 16, 25.4 / 4, 25.4 / 2 },
    { "inch, far away", CAV_UNIT_INCH, 1, 25.4 / 2, 2 * 25.4, 4 * 25.4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavRulerSteps steps = cav_ruler_get_steps (rows[i].unit, rows[i].scale);

      g_test_message ("%s: %g %g %g", rows[i].desc, steps.fine, steps.middle, steps.coarse);
      g_assert_cmpfloat_with_epsilon (steps.fine, rows[i].fine, 1e-9);
      g_assert_cmpfloat_with_epsilon (steps.middle, rows[i].middle, 1e-9);
      g_assert_cmpfloat_with_epsilon (steps.coarse, rows[i].coarse, 1e-9);
    }
}

static void
test_figures (void)
{
  static const struct
  {
    double mm;
    CavUnit unit;
    const char *text;
  } rows[] = {
    { 0, CAV_UNIT_MM, "0" },
    { 0.1 + 0.2, CAV_UNIT_MM, "0.3" },
    { -5, CAV_UNIT_MM, "-5" },
    { 31.75, CAV_UNIT_INCH, "1 1/4" },
    { 25.4 / 64 * 3, CAV_UNIT_INCH, "3/64" },
    { -1e-12, CAV_UNIT_INCH, "0" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = cav_ruler_format (rows[i].mm, rows[i].unit);

      g_assert_cmpstr (text, ==, rows[i].text);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/ruler/steps-fit", test_steps_fit);
  g_test_add_func ("/drawing/ruler/known-scales", test_known_scales);
  g_test_add_func ("/drawing/ruler/figures", test_figures);
  return g_test_run ();
}
