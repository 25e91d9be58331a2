/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

/* Every tool of every stock shop must be usable in it. */
static void
assert_usable (const CavShop *shop)
{
  for (guint i = 0; i < shop->cutters->len; i++)
    {
      g_autofree char *why = cav_shop_explain_cutter (shop, g_ptr_array_index (shop->cutters, i));
      g_assert_cmpstr (why, ==, NULL);
    }
  for (guint i = 0; i < shop->blades->len; i++)
    {
      g_autofree char *why = cav_shop_explain_blade (shop, g_ptr_array_index (shop->blades, i));
      g_assert_cmpstr (why, ==, NULL);
    }
}

static void
test_default (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  static const struct
  {
    const char *id;
    double radius, length, bite;
  } rows[] = {
    { "straight-6.35", 3.175, 20, 20 },
    { "straight-12.7", 6.35, 32, 40 },
    { "straight-19.05", 9.525, 32, 50 },
    { "round-nose-3.2", 3.2, 12, 15 },
    { "round-nose-6.35", 6.35, 20, 30 },
    { "round-nose-9.5", 9.5, 25, 40 },
    { "cove-6.35", 9.55, 9.35, 30 },
    { "cove-9.5", 12.7, 12.5, 40 },
    { "cove-12.7", 15.9, 15.7, 50 },
    { "round-over-3.2", 6.4, 6.2, 15 },
    { "round-over-6.35", 9.55, 9.35, 30 },
    { "round-over-9.5", 12.7, 12.5, 40 },
    { "round-over-12.7", 15.9, 15.7, 50 },
    { "chamfer-45", 14, 14, 40 },
    { "ogee-4", 11.2, 10, 40 },
    { "bead-3.2", 8, 9.6, 25 },
    { "vee-90", 9.5, 12, 30 },
    { "large-cove-38", 19, 38, 60 },
  };

  g_assert_true (shop->has_saw && shop->coving && shop->has_router);
  g_assert_cmpuint (shop->blades->len, ==, 1);
  const CavBlade *rip = cav_shop_find_blade (shop, "rip");
  g_assert_cmpfloat_with_epsilon (rip->diameter, 254.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rip->kerf, 3.2, 1e-9);
  g_assert_cmpfloat_with_epsilon (rip->height, 75.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rip->tilt, 45.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (rip->bite, 80.0, 1e-9);
  g_assert_cmpint (rip->grind, ==, CAV_GRIND_FLAT);

  g_assert_cmpuint (shop->cutters->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavCutter *cutter = cav_shop_find_cutter (shop, rows[i].id);
      g_test_message ("%s", rows[i].id);
      g_assert_nonnull (cutter);
      g_assert_cmpstr (cutter->name, !=, cutter->id);
      g_assert_cmpfloat_with_epsilon (cav_cutter_get_greatest_radius (cutter), rows[i].radius,
                                      1e-6);
      g_assert_cmpfloat_with_epsilon (cutter->length, rows[i].length, 1e-9);
      g_assert_cmpfloat_with_epsilon (cutter->bite, rows[i].bite, 1e-9);
      g_assert_false (cutter->has_pilot);
      g_assert_cmpfloat (cutter->shank, >, 0.0);
    }
  assert_usable (shop);
}

/* The hollow of the large cove cutter is an arc of its own width's radius: 13.909 at its ends. */
static void
test_large_cove (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  const CavCutter *cutter = cav_shop_find_cutter (shop, "large-cove-38");
  const CavSegment *arc = cav_path_get_segment (cutter->outline, 0);

  g_assert_cmpuint (cav_path_get_segment_count (cutter->outline), ==, 1);
  g_assert_cmpfloat_with_epsilon (arc->rx, 38.0, 1e-4);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 0.0), 13.90897, 1e-4);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 19.0), 19.0, 0.005);
  g_assert_cmpfloat_with_epsilon (cav_cutter_get_radius_at (cutter, 38.0), 13.90897, 1e-4);
}

static void
test_poorer (void)
{
  g_autoptr (CavShop) saw = cav_shop_new_saw_only ();
  g_autoptr (CavShop) router = cav_shop_new_router_only ();
  g_autoptr (CavShop) grooving = cav_shop_new_grooving ();

  g_assert_true (saw->has_saw && saw->coving);
  g_assert_false (saw->has_router);
  g_assert_cmpuint (saw->blades->len, ==, 1);
  g_assert_cmpuint (saw->cutters->len, ==, 0);

  g_assert_true (router->has_router);
  g_assert_false (router->has_saw || router->coving);
  g_assert_cmpuint (router->blades->len, ==, 0);
  g_assert_cmpuint (router->cutters->len, ==, 18);

  g_assert_false (grooving->has_router);
  g_assert_cmpuint (grooving->blades->len, ==, 4);
  const CavBlade *head = cav_shop_find_blade (grooving, "groove-19.05");
  g_assert_cmpfloat_with_epsilon (head->kerf, 19.05, 1e-9);
  g_assert_cmpfloat_with_epsilon (head->tilt, 0.0, 1e-12);

  assert_usable (saw);
  assert_usable (router);
  assert_usable (grooving);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shop/shop-stock/default", test_default);
  g_test_add_func ("/shop/shop-stock/large-cove", test_large_cove);
  g_test_add_func ("/shop/shop-stock/poorer", test_poorer);
  return g_test_run ();
}
