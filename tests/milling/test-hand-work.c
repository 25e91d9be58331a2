/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-hand-work.h"

/* A rail of 40 x 20 whose blank has a carrier of 10 on the inside, and some leftover. */
static void
plan_init (CavPlan *plan, CavRegion *leftover)
{
  *plan = (CavPlan){ .blank = { 50, 20 },
                     .carrier_inside = 10,
                     .profile = cav_region_new_box (10, 0, 50, 18),
                     .leftover = leftover,
                     .setups = g_ptr_array_new () };
}

static void
plan_clear (CavPlan *plan)
{
  cav_region_unref (plan->profile);
  g_clear_pointer (&plan->leftover, cav_region_unref);
  g_ptr_array_unref (plan->setups);
}

/* Two strips and a film on the face: thickness, width and place of each, from the inside outward.
 */
static void
test_surfaces (void)
{
  g_autoptr (CavRegion) thick = cav_region_new_box (40, 18, 46, 19.2);
  g_autoptr (CavRegion) thin = cav_region_new_box (12, 18, 15, 18.4);
  g_autoptr (CavRegion) film = cav_region_new_box (20, 18, 30, 18.06);
  g_autoptr (CavRegion) both = cav_region_union (thick, thin, NULL);
  CavPlan plan;

  plan_init (&plan, cav_region_union (both, film, NULL));
  g_autoptr (GArray) surfaces = cav_hand_work_find (&plan);
  g_assert_cmpuint (surfaces->len, ==, 2);
  const CavHandSurface *first = &g_array_index (surfaces, CavHandSurface, 0);
  const CavHandSurface *second = &g_array_index (surfaces, CavHandSurface, 1);
  g_assert_cmpfloat_with_epsilon (first->thickness, 0.4, 1e-6);
  g_assert_cmpfloat_with_epsilon (first->length, 3, 1e-6);
  g_assert_true (cav_point_near (first->place, CAV_POINT (3.5, 18.2), 1e-6));
  g_assert_cmpfloat_with_epsilon (second->thickness, 1.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (second->length, 6, 1e-6);
  g_assert_true (cav_point_near (second->place, CAV_POINT (33, 18.6), 1e-6));
  plan_clear (&plan);
}

/* In a corner the surface goes around it, and the farthest point is the corner of the wood left. */
static void
test_corner (void)
{
  g_autoptr (CavRegion) whole = cav_region_new_box (9, 12, 13, 19);
  CavPlan plan;

  plan_init (&plan, NULL);
  plan.leftover = cav_region_difference (whole, plan.profile, NULL);
  g_autoptr (GArray) surfaces = cav_hand_work_find (&plan);
  g_assert_cmpuint (surfaces->len, ==, 1);
  const CavHandSurface *surface = &g_array_index (surfaces, CavHandSurface, 0);
  g_assert_cmpfloat_with_epsilon (surface->thickness, G_SQRT2, 1e-6);
  g_assert_cmpfloat_with_epsilon (surface->length, 6 + 3, 1e-6);
  plan_clear (&plan);
}

static void
test_nothing (void)
{
  CavPlan plan;

  plan_init (&plan, NULL);
  g_autoptr (GArray) none = cav_hand_work_find (&plan);
  g_assert_cmpuint (none->len, ==, 0);
  plan.leftover = cav_region_new_empty ();
  g_autoptr (GArray) empty = cav_hand_work_find (&plan);
  g_assert_cmpuint (empty->len, ==, 0);
  plan_clear (&plan);
}

/* Ridges come from the blade that is crossed at an angle, and from nothing else. */
static void
test_ridges (void)
{
  CavSetup setup = { .machine = CAV_MACHINE_SAW };
  CavPlan plan;

  plan_init (&plan, NULL);
  g_assert_false (cav_hand_work_has_ridges (&plan));
  g_ptr_array_add (plan.setups, &setup);
  g_assert_false (cav_hand_work_has_ridges (&plan));
  setup.machine = CAV_MACHINE_ROUTER;
  g_assert_false (cav_hand_work_has_ridges (&plan));
  setup.machine = CAV_MACHINE_COVE;
  g_assert_true (cav_hand_work_has_ridges (&plan));
  plan_clear (&plan);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/hand-work/surfaces", test_surfaces);
  g_test_add_func ("/milling/hand-work/corner", test_corner);
  g_test_add_func ("/milling/hand-work/nothing", test_nothing);
  g_test_add_func ("/milling/hand-work/ridges", test_ridges);
  return g_test_run ();
}
