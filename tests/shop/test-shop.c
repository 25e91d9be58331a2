/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

#include <locale.h>
#include <math.h>
#include <string.h>

static CavCutter *
new_straight (const char *id, double diameter)
{
  const double numbers[CAV_N_CUTTER_NUMBERS]
      = { [CAV_CUTTER_DIAMETER] = diameter, [CAV_CUTTER_CUTTING_LENGTH] = 20.0 };
  return cav_cutter_new (id, CAV_CUTTER_STRAIGHT, numbers, NULL);
}

/* The table that router manuals repeat: to 1 in 24,000 a minute, to 2 in 18,000, to 2-1/2 in
 * 16,000, to 3-1/2 in 12,000; larger ones 10,000. */
static void
test_speeds (void)
{
  static const struct
  {
    double diameter, speed;
  } rows[] = {
    { 3.0, 24000 },  { 25.4, 24000 }, { 2.0 * (3.2 + 9.5), 24000 },
    { 25.5, 18000 }, { 50.8, 18000 }, { 50.9, 16000 },
    { 63.5, 16000 }, { 64.0, 12000 }, { 89.0, 12000 },
    { 89.1, 10000 }, { 1e9, 10000 },  { INFINITY, 10000 },
    { NAN, 10000 },  { 0.0, 24000 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("diameter %g", rows[i].diameter);
      g_assert_cmpfloat_with_epsilon (cav_shop_get_greatest_speed (rows[i].diameter), rows[i].speed,
                                      1e-9);
    }
}

static void
test_rates (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();
  const struct
  {
    const char *desc;
    double value, expected;
  } rows[] = {
    { "saw setup", shop->rates.saw_setup, 3 },
    { "tilt setup", shop->rates.tilt_setup, 6 },
    { "cove setup", shop->rates.cove_setup, 12 },
    { "blade change", shop->rates.blade_change, 4 },
    { "router setup", shop->rates.router_setup, 5 },
    { "router return", shop->rates.router_return, 2 },
    { "turn", shop->rates.turn, 1 },
    { "move", shop->rates.move, 0.5 },
    { "metre", shop->rates.metre, 1.0 / 3.0 },
    { "cove metre", shop->rates.cove_metre, 1 },
    { "rail", shop->rates.rail, 0.25 },
    { "scrape metre", shop->rates.scrape_metre, 1 },
    { "hand volume", shop->rates.hand_volume, 0.25 },
    { "hand surface", shop->rates.hand_surface, 0.1 },
    { "step", shop->limits.step, 0.05 },
    { "leftover", shop->limits.leftover, 1.5 },
    { "push gap", shop->limits.push_gap, 20 },
    { "cove layer", shop->limits.cove_layer, 1.6 },
    { "light layer", shop->limits.light_layer, 0.8 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("%s", rows[i].desc);
      g_assert_cmpfloat_with_epsilon (rows[i].value, rows[i].expected, 1e-12);
    }
  g_assert_true (shop->has_saw && shop->coving && shop->has_router);
  g_assert_cmpuint (shop->blades->len + shop->cutters->len, ==, 0);
}

static void
test_add (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (GError) error = NULL;

  g_assert_true (cav_shop_add_blade (shop, cav_blade_new ("rip", 254.0, 3.2), &error));
  g_assert_true (cav_shop_add_cutter (shop, new_straight ("straight-6.35", 6.35), &error));
  g_assert_no_error (error);
  g_assert_cmpstr (cav_shop_find_blade (shop, "rip")->id, ==, "rip");
  g_assert_cmpstr (cav_shop_find_cutter (shop, "straight-6.35")->id, ==, "straight-6.35");
  g_assert_null (cav_shop_find_blade (shop, "straight-6.35"));
  g_assert_null (cav_shop_find_cutter (shop, "rip"));
  g_assert_null (cav_shop_find_cutter (shop, NULL));
}

static void
test_duplicates (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_assert_true (cav_shop_add_blade (shop, cav_blade_new ("one", 254.0, 3.2), NULL));
  g_assert_true (cav_shop_add_cutter (shop, new_straight ("two", 6.35), NULL));

  const char *const taken[] = { "one", "two" };
  for (guint i = 0; i < G_N_ELEMENTS (taken); i++)
    {
      g_autoptr (GError) blade_error = NULL;
      g_autoptr (GError) cutter_error = NULL;
      g_assert_false (
          cav_shop_add_blade (shop, cav_blade_new (taken[i], 254.0, 3.2), &blade_error));
      g_assert_error (blade_error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_DUPLICATE);
      g_assert_nonnull (strstr (blade_error->message, taken[i]));
      g_assert_false (cav_shop_add_cutter (shop, new_straight (taken[i], 6.35), &cutter_error));
      g_assert_error (cutter_error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_DUPLICATE);
    }
  g_assert_cmpuint (shop->blades->len, ==, 1);
  g_assert_cmpuint (shop->cutters->len, ==, 1);
}

static void
test_ids (void)
{
  static const char *const bad[] = { "", "a b", "ä", "a/b", "<x>", "a\"b", "a\n" };
  g_autoptr (CavShop) shop = cav_shop_new ();

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_false (cav_shop_add_cutter (shop, new_straight (bad[i], 6.35), &error));
      g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE);
    }
  g_autofree char *longest = g_strnfill (64, 'x');
  g_autofree char *longer = g_strnfill (65, 'x');
  g_assert_true (cav_shop_add_cutter (shop, new_straight (longest, 6.35), NULL));
  g_assert_false (cav_shop_add_cutter (shop, new_straight (longer, 6.35), NULL));
}

typedef void (*ChangeBlade) (CavBlade *blade, double value);

static void
set_diameter (CavBlade *blade, double value)
{
  blade->diameter = value;
}

static void
set_kerf (CavBlade *blade, double value)
{
  blade->kerf = value;
}

static void
set_height (CavBlade *blade, double value)
{
  blade->height = value;
}

static void
set_tilt (CavBlade *blade, double value)
{
  blade->tilt = value;
}

static void
set_bite (CavBlade *blade, double value)
{
  blade->bite = value;
}

static void
test_blade_range (void)
{
  const struct
  {
    const char *names;
    ChangeBlade change;
    double value;
  } rows[] = {
    { "diameter", set_diameter, NAN }, { "diameter", set_diameter, 0.0 },
    { "diameter", set_diameter, 1e4 }, { "kerf", set_kerf, -3.2 },
    { "kerf", set_kerf, INFINITY },    { "height", set_height, 200.0 },
    { "height", set_height, 0.0 },     { "tilt", set_tilt, 90.0 },
    { "bite", set_bite, 0.0 },
  };
  g_autoptr (CavShop) shop = cav_shop_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      CavBlade *blade = cav_blade_new ("rip", 254.0, 3.2);
      rows[i].change (blade, rows[i].value);
      g_test_message ("%s %g", rows[i].names, rows[i].value);
      g_assert_false (cav_shop_add_blade (shop, blade, &error));
      g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, rows[i].names));
      g_assert_nonnull (strstr (error->message, "rip"));
    }
}

static void
test_cutter_range (void)
{
  const struct
  {
    const char *names;
    double bite, speed, shank, pilot_radius, pilot_length;
  } rows[] = {
    { "bite", 0.0, 18000, 6.35, 0, 0 },
    { "bite", NAN, 18000, 6.35, 0, 0 },
    { "speed", 20.0, 0.0, 6.35, 0, 0 },
    { "speed", 20.0, INFINITY, 6.35, 0, 0 },
    { "shank", 20.0, 18000, -1.0, 0, 0 },
    { "pilot's radius", 20.0, 18000, 6.35, 500.0, 5.0 },
    { "pilot's length", 20.0, 18000, 6.35, 5.0, 500.0 },
  };
  g_autoptr (CavShop) shop = cav_shop_new ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      CavCutter *cutter = new_straight ("it", 6.35);
      cutter->bite = rows[i].bite;
      cutter->speed = rows[i].speed;
      cutter->shank = rows[i].shank;
      cav_cutter_set_pilot (cutter, rows[i].pilot_radius, rows[i].pilot_length);
      g_assert_false (cav_shop_add_cutter (shop, cutter, &error));
      g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, rows[i].names));
    }

  CavCutter *fine = new_straight ("it", 6.35);
  cav_cutter_set_pilot (fine, 3.2, 5.0);
  g_assert_true (cav_shop_add_cutter (shop, fine, NULL));
}

static void
test_copy (void)
{
  g_autoptr (CavShop) shop = cav_shop_new_default ();
  shop->rates.turn = 7.0;
  g_autoptr (CavShop) copy = cav_shop_copy (shop);

  g_assert_true (copy->name != shop->name);
  g_assert_cmpstr (copy->name, ==, shop->name);
  g_assert_cmpuint (copy->cutters->len, ==, shop->cutters->len);
  g_assert_cmpuint (copy->blades->len, ==, shop->blades->len);
  g_assert_true (g_ptr_array_index (copy->cutters, 0) != g_ptr_array_index (shop->cutters, 0));
  g_assert_cmpfloat_with_epsilon (copy->rates.turn, 7.0, 1e-12);
  g_assert_true (cav_shop_add_cutter (copy, new_straight ("more", 8.0), NULL));
  g_assert_null (cav_shop_find_cutter (shop, "more"));
  cav_shop_free (NULL);
}

static void
test_explain_cutter (void)
{
  const struct
  {
    const char *desc;
    gboolean has_router;
    double collet, opening, diameter, shank, speed;
    const char *says;
  } rows[] = {
    { "fits", TRUE, 12.7, 40, 38, 12.7, 12000, NULL },
    { "any collet, any opening", TRUE, 0, 0, 90, 25, 10000, NULL },
    { "shank not known", TRUE, 6.35, 40, 38, 0, 18000, NULL },
    { "no router", FALSE, 0, 0, 12.7, 0, 18000, "needs a router table" },
    { "shank too thick", TRUE, 6.35, 0, 12.7, 12.7, 18000, "shank" },
    { "too wide for the table", TRUE, 0, 30, 38, 12.7, 12000, "opening" },
    { "just fits the table", TRUE, 0, 38, 38, 12.7, 12000, NULL },
    { "just slow enough", TRUE, 0, 0, 25.4, 12.7, 24000, NULL },
    { "too fast", TRUE, 0, 0, 25.5, 12.7, 18001, "18000 or less" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavShop) shop = cav_shop_new ();
      g_autoptr (CavCutter) cutter = new_straight ("it", rows[i].diameter);
      shop->has_router = rows[i].has_router;
      shop->collet = rows[i].collet;
      shop->opening = rows[i].opening;
      cutter->shank = rows[i].shank;
      cutter->speed = rows[i].speed;
      g_autofree char *why = cav_shop_explain_cutter (shop, cutter);
      g_test_message ("%s: %s", rows[i].desc, why != NULL ? why : "usable");
      if (rows[i].says == NULL)
        {
          g_assert_null (why);
          continue;
        }
      g_assert_nonnull (why);
      g_assert_nonnull (strstr (why, rows[i].says));
      g_assert_nonnull (strstr (why, "it"));
    }
}

static void
test_explain_blade (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (CavBlade) blade = cav_blade_new ("rip", 254.0, 3.2);

  g_assert_null (cav_shop_explain_blade (shop, blade));
  shop->has_saw = FALSE;
  g_autofree char *why = cav_shop_explain_blade (shop, blade);
  g_assert_nonnull (strstr (why, "table saw"));
  g_assert_nonnull (strstr (why, "rip"));
}

/* Sentences are English, and so are their numbers; test-locale.sh runs this where a comma is. */
static void
test_decimal_point (void)
{
  g_autoptr (CavShop) shop = cav_shop_new ();
  CavBlade *blade = cav_blade_new ("rip", 254.0, 3.2);
  g_autoptr (GError) error = NULL;

  setlocale (LC_NUMERIC, "");
  if (g_getenv ("CAV_TEST_COMMA") != NULL)
    g_assert_cmpstr (localeconv ()->decimal_point, ==, ",");
  set_kerf (blade, -3.25);
  g_assert_false (cav_shop_add_blade (shop, blade, &error));
  setlocale (LC_NUMERIC, "C");
  g_assert_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE);
  g_assert_nonnull (strstr (error->message, "is -3.25 mm: enter a value from 0."));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shop/shop/speeds", test_speeds);
  g_test_add_func ("/shop/shop/rates", test_rates);
  g_test_add_func ("/shop/shop/add", test_add);
  g_test_add_func ("/shop/shop/duplicates", test_duplicates);
  g_test_add_func ("/shop/shop/ids", test_ids);
  g_test_add_func ("/shop/shop/blade-range", test_blade_range);
  g_test_add_func ("/shop/shop/cutter-range", test_cutter_range);
  g_test_add_func ("/shop/shop/copy", test_copy);
  g_test_add_func ("/shop/shop/explain-cutter", test_explain_cutter);
  g_test_add_func ("/shop/shop/explain-blade", test_explain_blade);
  g_test_add_func ("/shop/shop/decimal-point", test_decimal_point);
  return g_test_run ();
}
