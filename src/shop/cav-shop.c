/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

#include "geometry/cav-tolerance.h"
#include "shop/cav-cutter-private.h"

#include <math.h>
#include <string.h>

/* All rates are common practice without a source. */
void
cav_rates_init_usual (CavRates *rates)
{
  g_return_if_fail (rates != NULL);

  *rates = (CavRates){
    .saw_setup = 3.0,
    .tilt_setup = 6.0,
    .cove_setup = 12.0,
    .blade_change = 4.0,
    .router_setup = 5.0,
    .router_return = 2.0,
    .turn = 1.0,
    .move = 0.5,
    .metre = 1.0 / 3.0,
    .cove_metre = 1.0,
    .rail = 0.25,
    .scrape_metre = 1.0,
    .hand_volume = 0.25,
    .hand_surface = 0.1,
  };
}

/* 1.6 a coving pass is 1/16 in, which six magazine articles agree on; the rest is common practice
 * without a source. */
void
cav_limits_init_usual (CavLimits *limits)
{
  g_return_if_fail (limits != NULL);

  *limits = (CavLimits){
    .step = 0.05,
    .leftover = 1.5,
    .push_gap = 20.0,
    .cove_layer = 1.6,
    .light_layer = 0.8,
    .carrier = 40.0,
  };
}

CavShop *
cav_shop_new (void)
{
  CavShop *shop = g_new0 (CavShop, 1);

  shop->name = g_strdup ("");
  shop->has_saw = TRUE;
  shop->coving = TRUE;
  shop->has_router = TRUE;
  shop->blades = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_blade_free);
  shop->cutters = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cutter_free);
  cav_rates_init_usual (&shop->rates);
  cav_limits_init_usual (&shop->limits);
  return shop;
}

static gpointer
copy_blade_cb (gconstpointer blade, gpointer user_data)
{
  return cav_blade_copy (blade);
}

static gpointer
copy_cutter_cb (gconstpointer cutter, gpointer user_data)
{
  return cav_cutter_copy (cutter);
}

CavShop *
cav_shop_copy (const CavShop *shop)
{
  g_return_val_if_fail (shop != NULL, NULL);

  CavShop *copy = g_memdup2 (shop, sizeof *shop);
  copy->name = g_strdup (shop->name);
  copy->blades = g_ptr_array_copy (shop->blades, copy_blade_cb, NULL);
  copy->cutters = g_ptr_array_copy (shop->cutters, copy_cutter_cb, NULL);
  return copy;
}

void
cav_shop_free (CavShop *shop)
{
  if (shop == NULL)
    return;
  g_free (shop->name);
  g_ptr_array_unref (shop->blades);
  g_ptr_array_unref (shop->cutters);
  g_free (shop);
}

/* TRUE where a tool may be called this. */
static gboolean
id_is_valid (const char *id)
{
  if (id == NULL || *id == '\0' || strlen (id) > 64)
    return FALSE;
  for (const char *c = id; *c != '\0'; c++)
    if (!g_ascii_isalnum (*c) && strchr ("-._", *c) == NULL)
      return FALSE;
  return TRUE;
}

static gboolean
check_id (const CavShop *shop, const char *kind, const char *id, GError **error)
{
  if (!id_is_valid (id))
    {
      g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE,
                   "“%s” cannot be the id of a %s: use 1 to 64 letters, digits, '-', '.' and '_'.",
                   id != NULL ? id : "", kind);
      return FALSE;
    }
  if (cav_shop_find_blade (shop, id) == NULL && cav_shop_find_cutter (shop, id) == NULL)
    return TRUE;
  g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_DUPLICATE,
               "The shop already has a tool “%s”: give this %s another id.", id, kind);
  return FALSE;
}

static gboolean
check_number (const char *kind,
              const char *id,
              const char *what,
              double value,
              double minimum,
              double maximum,
              const char *unit,
              GError **error)
{
  if (isfinite (value) && value >= minimum && value <= maximum)
    return TRUE;
  g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE,
               "The %s of %s “%s” is %s %s: enter a value from %s to %s %s.", what, kind, id,
               CAV_NUMBER_TEXT ("%g", value), unit, CAV_NUMBER_TEXT ("%g", minimum),
               CAV_NUMBER_TEXT ("%g", maximum), unit);
  return FALSE;
}

static gboolean
check_blade (const CavBlade *blade, GError **error)
{
  const char *id = blade->id;

  return check_number ("blade", id, "diameter", blade->diameter, 50.0, 500.0, "mm", error)
         && check_number ("blade", id, "kerf", blade->kerf, 0.5, 40.0, "mm", error)
         && check_number ("blade", id, "height", blade->height, 1.0, blade->diameter / 2.0, "mm",
                          error)
         && check_number ("blade", id, "tilt", blade->tilt, 0.0, 60.0, "degrees", error)
         && check_number ("blade", id, "bite", blade->bite, 1.0, 1000.0, "mm²", error);
}

static gboolean
check_cutter (const CavCutter *cutter, GError **error)
{
  const char *id = cutter->id;

  if (!check_number ("cutter", id, "bite", cutter->bite, 1.0, 1000.0, "mm²", error)
      || !check_number ("cutter", id, "marked speed", cutter->speed, 100.0, 60000.0, "a minute",
                        error)
      || !check_number ("cutter", id, "shank", cutter->shank, 0.0, 25.4, "mm", error))
    return FALSE;
  if (!cutter->has_pilot)
    return TRUE;
  return check_number ("cutter", id, "pilot's radius", cutter->pilot_radius, 1.0, 50.0, "mm", error)
         && check_number ("cutter", id, "pilot's length", cutter->pilot_length, 0.5, 50.0, "mm",
                          error);
}

gboolean
cav_shop_add_blade (CavShop *shop, CavBlade *blade, GError **error)
{
  g_return_val_if_fail (shop != NULL, FALSE);
  g_return_val_if_fail (blade != NULL, FALSE);

  if (!check_id (shop, "blade", blade->id, error) || !check_blade (blade, error))
    {
      cav_blade_free (blade);
      return FALSE;
    }
  g_ptr_array_add (shop->blades, blade);
  return TRUE;
}

gboolean
cav_shop_add_cutter (CavShop *shop, CavCutter *cutter, GError **error)
{
  g_return_val_if_fail (shop != NULL, FALSE);
  g_return_val_if_fail (cutter != NULL, FALSE);

  if (!check_id (shop, "cutter", cutter->id, error) || !check_cutter (cutter, error))
    {
      cav_cutter_free (cutter);
      return FALSE;
    }
  g_ptr_array_add (shop->cutters, cutter);
  return TRUE;
}

CavBlade *
cav_shop_find_blade (const CavShop *shop, const char *id)
{
  g_return_val_if_fail (shop != NULL, NULL);

  for (guint i = 0; i < shop->blades->len; i++)
    {
      CavBlade *blade = g_ptr_array_index (shop->blades, i);
      if (g_strcmp0 (blade->id, id) == 0)
        return blade;
    }
  return NULL;
}

CavCutter *
cav_shop_find_cutter (const CavShop *shop, const char *id)
{
  g_return_val_if_fail (shop != NULL, NULL);

  for (guint i = 0; i < shop->cutters->len; i++)
    {
      CavCutter *cutter = g_ptr_array_index (shop->cutters, i);
      if (g_strcmp0 (cutter->id, id) == 0)
        return cutter;
    }
  return NULL;
}

/* The table that router manuals and workshop pages repeat, in inches 1, 2, 2-1/2 and 3-1/2;
 * sources differ beyond that, 10,000 is the most careful of them. The cutter's own marking
 * governs where it is lower. */
double
cav_shop_get_greatest_speed (double diameter)
{
  static const struct
  {
    double diameter;
    double speed;
  } rows[] = { { 25.4, 24000.0 }, { 50.8, 18000.0 }, { 63.5, 16000.0 }, { 89.0, 12000.0 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    if (diameter <= rows[i].diameter + CAV_TOLERANCE_POINT)
      return rows[i].speed;
  return 10000.0;
}

char *
cav_shop_explain_cutter (const CavShop *shop, const CavCutter *cutter)
{
  g_return_val_if_fail (shop != NULL, NULL);
  g_return_val_if_fail (cutter != NULL, NULL);

  double diameter = 2.0 * cav_cutter_get_greatest_radius (cutter);
  double speed = cav_shop_get_greatest_speed (diameter);

  if (!shop->has_router)
    return g_strdup_printf ("Cutter “%s” needs a router table, and this shop has none.",
                            cutter->id);
  if (shop->collet > 0.0 && cutter->shank > shop->collet + CAV_TOLERANCE_POINT)
    return g_strdup_printf ("The shank of cutter “%s” is %s mm thick; the largest collet of "
                            "this shop takes %s mm.",
                            cutter->id, CAV_NUMBER_TEXT ("%.4g", cutter->shank),
                            CAV_NUMBER_TEXT ("%.4g", shop->collet));
  if (shop->opening > 0.0 && diameter > shop->opening + CAV_TOLERANCE_POINT)
    return g_strdup_printf ("Cutter “%s” is %s mm wide; the opening of this router table lets "
                            "%s mm through.",
                            cutter->id, CAV_NUMBER_TEXT ("%.4g", diameter),
                            CAV_NUMBER_TEXT ("%.4g", shop->opening));
  if (cutter->speed > speed)
    return g_strdup_printf ("Cutter “%s” is down for %.0f a minute; a cutter %s mm wide runs "
                            "at %.0f at most. Enter the speed it is run at, %.0f or less.",
                            cutter->id, cutter->speed, CAV_NUMBER_TEXT ("%.4g", diameter), speed,
                            speed);
  return NULL;
}

char *
cav_shop_explain_blade (const CavShop *shop, const CavBlade *blade)
{
  g_return_val_if_fail (shop != NULL, NULL);
  g_return_val_if_fail (blade != NULL, NULL);

  if (!shop->has_saw)
    return g_strdup_printf ("Blade “%s” needs a table saw, and this shop has none.", blade->id);
  return NULL;
}
