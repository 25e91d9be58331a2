/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

#include <glib/gi18n-lib.h>

/* The shops that come with the program. Sizes are those that cutters are commonly sold in, and
 * bearings are off: on a table the fence guides the rail. Names go into files in English, and are
 * translated where they are shown. */

typedef struct
{
  const char *id;
  const char *name;
  CavCutterFamily family;
  double shank;
  double numbers[CAV_N_CUTTER_NUMBERS];
} StockCutter;

#define STRAIGHT(size, name, diameter, length, shank)                                              \
  {                                                                                                \
    "straight-" size, name, CAV_CUTTER_STRAIGHT, shank,                                            \
    {                                                                                              \
      [CAV_CUTTER_DIAMETER] = (diameter), [CAV_CUTTER_CUTTING_LENGTH] = (length)                   \
    }                                                                                              \
  }
#define ROUND_NOSE(size, name, radius, length, shank)                                              \
  {                                                                                                \
    "round-nose-" size, name, CAV_CUTTER_ROUND_NOSE, shank,                                        \
    {                                                                                              \
      [CAV_CUTTER_DIAMETER] = 2.0 * (radius), [CAV_CUTTER_CUTTING_LENGTH] = (length)               \
    }                                                                                              \
  }
/* Cove and round-over: tip 6.4 wide, a straight 3 mm below the curve. */
#define CURVED(id, name, family, radius, shank)                                                    \
  {                                                                                                \
    id, name, family, shank,                                                                       \
    {                                                                                              \
      [CAV_CUTTER_RADIUS] = (radius), [CAV_CUTTER_TIP_DIAMETER] = 6.4,                             \
      [CAV_CUTTER_CUTTING_LENGTH] = (radius) + 3.0                                                 \
    }                                                                                              \
  }
#define COVE(size, name, radius, shank) CURVED ("cove-" size, name, CAV_CUTTER_COVE, radius, shank)
#define ROUND_OVER(size, name, radius, shank)                                                      \
  CURVED ("round-over-" size, name, CAV_CUTTER_ROUND_OVER, radius, shank)

static const StockCutter stock_cutters[] = {
  STRAIGHT ("6.35", NC_ ("stock tool", "Straight 6.35"), 6.35, 20.0, 6.35),
  STRAIGHT ("12.7", NC_ ("stock tool", "Straight 12.7"), 12.7, 32.0, 12.7),
  STRAIGHT ("19.05", NC_ ("stock tool", "Straight 19.05"), 19.05, 32.0, 12.7),
  ROUND_NOSE ("3.2", NC_ ("stock tool", "Round nose, radius 3.2"), 3.2, 12.0, 6.35),
  ROUND_NOSE ("6.35", NC_ ("stock tool", "Round nose, radius 6.35"), 6.35, 20.0, 12.7),
  ROUND_NOSE ("9.5", NC_ ("stock tool", "Round nose, radius 9.5"), 9.5, 25.0, 12.7),
  COVE ("6.35", NC_ ("stock tool", "Cove, radius 6.35"), 6.35, 6.35),
  COVE ("9.5", NC_ ("stock tool", "Cove, radius 9.5"), 9.5, 12.7),
  COVE ("12.7", NC_ ("stock tool", "Cove, radius 12.7"), 12.7, 12.7),
  ROUND_OVER ("3.2", NC_ ("stock tool", "Round-over, radius 3.2"), 3.2, 6.35),
  ROUND_OVER ("6.35", NC_ ("stock tool", "Round-over, radius 6.35"), 6.35, 6.35),
  ROUND_OVER ("9.5", NC_ ("stock tool", "Round-over, radius 9.5"), 9.5, 12.7),
  ROUND_OVER ("12.7", NC_ ("stock tool", "Round-over, radius 12.7"), 12.7, 12.7),
  { "chamfer-45",
    NC_ ("stock tool", "Chamfer, 45 degrees"),
    CAV_CUTTER_CHAMFER,
    12.7,
    { [CAV_CUTTER_ANGLE] = 45.0,
      [CAV_CUTTER_TIP_DIAMETER] = 4.0,
      [CAV_CUTTER_DIAMETER] = 28.0,
      [CAV_CUTTER_CUTTING_LENGTH] = 14.0 } },
  { "ogee-4",
    NC_ ("stock tool", "Ogee, two radii of 4"),
    CAV_CUTTER_OGEE,
    6.35,
    { [CAV_CUTTER_RADIUS] = 4.0,
      [CAV_CUTTER_TIP_DIAMETER] = 6.4,
      [CAV_CUTTER_CUTTING_LENGTH] = 10.0 } },
  { "bead-3.2",
    NC_ ("stock tool", "Edge bead, radius 3.2"),
    CAV_CUTTER_BEAD,
    6.35,
    { [CAV_CUTTER_RADIUS] = 3.2,
      [CAV_CUTTER_DIAMETER] = 16.0,
      [CAV_CUTTER_CUTTING_LENGTH] = 9.6 } },
  { "vee-90",
    NC_ ("stock tool", "V, 90 degrees"),
    CAV_CUTTER_VEE,
    6.35,
    { [CAV_CUTTER_ANGLE] = 90.0,
      [CAV_CUTTER_DIAMETER] = 19.0,
      [CAV_CUTTER_CUTTING_LENGTH] = 12.0 } },
  /* Its hollow is an arc of radius 38: depth 38 (1 - cos 30 degrees). */
  { "large-cove-38",
    NC_ ("stock tool", "Large cove, 38 wide"),
    CAV_CUTTER_LARGE_COVE,
    12.7,
    { [CAV_CUTTER_DIAMETER] = 38.0, [CAV_CUTTER_WIDTH] = 38.0, [CAV_CUTTER_DEPTH] = 5.0910347 } },
};

static void
add_blade (CavShop *shop, const char *id, const char *name, double diameter, double kerf)
{
  g_autoptr (GError) error = NULL;
  CavBlade *blade = cav_blade_new (id, diameter, kerf);

  g_free (blade->name);
  blade->name = g_strdup (name);
  if (!cav_shop_add_blade (shop, blade, &error))
    g_error ("A stock blade is wrong: %s", error->message);
}

static void
add_stock_cutters (CavShop *shop)
{
  for (guint i = 0; i < G_N_ELEMENTS (stock_cutters); i++)
    {
      const StockCutter *stock = &stock_cutters[i];
      g_autoptr (GError) error = NULL;
      CavCutter *cutter = cav_cutter_new (stock->id, stock->family, stock->numbers, &error);

      if (cutter == NULL)
        g_error ("Stock cutter %s is wrong: %s", stock->id, error->message);
      g_free (cutter->name);
      cutter->name = g_strdup (stock->name);
      cutter->shank = stock->shank;
      if (!cav_shop_add_cutter (shop, cutter, &error))
        g_error ("Stock cutter %s is wrong: %s", stock->id, error->message);
    }
  shop->collet = 12.7;
  shop->opening = 60.0;
}

static CavShop *
new_named (const char *name)
{
  CavShop *shop = cav_shop_new ();

  g_free (shop->name);
  shop->name = g_strdup (name);
  return shop;
}

/* The names that shops and tools come with are in the catalogue, those that users give are not. */
const char *
cav_shop_translate_name (const char *name)
{
  const char *translated;

  g_return_val_if_fail (name != NULL, NULL);
  if (*name == '\0')
    return name;
  translated = g_dpgettext2 (GETTEXT_PACKAGE, "stock tool", name);
  return translated != name ? translated : g_dpgettext2 (GETTEXT_PACKAGE, "stock shop", name);
}

CavShop *
cav_shop_new_default (void)
{
  CavShop *shop = new_named (NC_ ("stock shop", "Hobby shop"));

  add_blade (shop, "rip", NC_ ("stock tool", "Rip blade"), 254.0, 3.2);
  add_stock_cutters (shop);
  return shop;
}

CavShop *
cav_shop_new_saw_only (void)
{
  CavShop *shop = new_named (NC_ ("stock shop", "Table saw alone"));

  shop->has_router = FALSE;
  add_blade (shop, "rip", NC_ ("stock tool", "Rip blade"), 254.0, 3.2);
  return shop;
}

CavShop *
cav_shop_new_router_only (void)
{
  CavShop *shop = new_named (NC_ ("stock shop", "Router table alone"));

  shop->has_saw = FALSE;
  shop->coving = FALSE;
  add_stock_cutters (shop);
  return shop;
}

CavShop *
cav_shop_new_grooving (void)
{
  CavShop *shop = new_named (NC_ ("stock shop", "Table saw with grooving heads"));

  shop->has_router = FALSE;
  add_blade (shop, "rip", NC_ ("stock tool", "Rip blade"), 254.0, 3.2);
  add_blade (shop, "groove-6.35", NC_ ("stock tool", "Grooving head, 6.35 wide"), 203.2, 6.35);
  add_blade (shop, "groove-12.7", NC_ ("stock tool", "Grooving head, 12.7 wide"), 203.2, 12.7);
  add_blade (shop, "groove-19.05", NC_ ("stock tool", "Grooving head, 19.05 wide"), 203.2, 19.05);
  return shop;
}
