/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-blade.h"

static void
test_usual (void)
{
  static const struct
  {
    const char *desc;
    double diameter, kerf, height, tilt, bite;
  } rows[] = {
    { "a rip blade", 254.0, 3.2, 75.0, 45.0, 80.0 },
    { "a smaller blade stands lower", 127.0, 2.4, 37.5, 45.0, 80.0 },
    { "a grooving head is never tilted", 254.0, 12.7, 75.0, 0.0, 120.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].desc);
      g_autoptr (CavBlade) blade = cav_blade_new ("b", rows[i].diameter, rows[i].kerf);
      g_assert_cmpstr (blade->id, ==, "b");
      g_assert_cmpstr (blade->name, ==, "b");
      g_assert_cmpfloat_with_epsilon (blade->diameter, rows[i].diameter, 1e-12);
      g_assert_cmpfloat_with_epsilon (blade->kerf, rows[i].kerf, 1e-12);
      g_assert_cmpfloat_with_epsilon (blade->height, rows[i].height, 1e-9);
      g_assert_cmpfloat_with_epsilon (blade->tilt, rows[i].tilt, 1e-12);
      g_assert_cmpfloat_with_epsilon (blade->bite, rows[i].bite, 1e-12);
      g_assert_cmpint (blade->grind, ==, CAV_GRIND_FLAT);
    }
}

static void
test_copy (void)
{
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254.0, 3.2);
  blade->grind = CAV_GRIND_ALTERNATE;
  g_autoptr (CavBlade) copy = cav_blade_copy (blade);

  g_assert_true (copy->id != blade->id);
  g_assert_true (copy->name != blade->name);
  g_assert_cmpstr (copy->id, ==, "rip");
  g_assert_cmpstr (copy->name, ==, "rip");
  g_assert_cmpint (copy->grind, ==, CAV_GRIND_ALTERNATE);
  g_assert_cmpfloat_with_epsilon (copy->kerf, 3.2, 1e-12);
  cav_blade_free (NULL);
}

static void
test_grinds (void)
{
  for (int i = CAV_GRIND_FLAT; i <= CAV_GRIND_ALTERNATE; i++)
    {
      CavGrind grind = CAV_GRIND_FLAT;
      g_assert_true (cav_grind_from_string (cav_grind_to_string ((CavGrind)i), &grind));
      g_assert_cmpint (grind, ==, i);
    }

  CavGrind grind = CAV_GRIND_ALTERNATE;
  g_assert_false (cav_grind_from_string ("Flat", &grind));
  g_assert_false (cav_grind_from_string (NULL, &grind));
  g_assert_cmpint (grind, ==, CAV_GRIND_ALTERNATE);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shop/blade/usual", test_usual);
  g_test_add_func ("/shop/blade/copy", test_copy);
  g_test_add_func ("/shop/blade/grinds", test_grinds);
  return g_test_run ();
}
