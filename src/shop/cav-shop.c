/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

#include "geometry/cav-number-text.h"
#include "geometry/cav-tolerance.h"
#include "shop/cav-cutter-private.h"

#include <glib/gi18n-lib.h>
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
check_id (const CavShop *shop, gboolean is_blade, const char *id, GError **error)
{
  if (!id_is_valid (id))
    {
      g_set_error (
          error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE,
          is_blade ? _ (
              "“%s” cannot be the id of a blade: use 1 to 64 letters, digits, '-', '.' and '_'.")
                   : _ ("“%s” cannot be the id of a cutter: use 1 to 64 letters, digits, '-', '.' "
                        "and '_'."),
          id != NULL ? id : "");
      return FALSE;
    }
  if (cav_shop_find_blade (shop, id) == NULL && cav_shop_find_cutter (shop, id) == NULL)
    return TRUE;
  g_set_error (error, CAV_SHOP_ERROR, CAV_SHOP_ERROR_DUPLICATE,
               is_blade ? _ ("The shop already has a tool “%s”: give this blade another id.")
                        : _ ("The shop already has a tool “%s”: give this cutter another id."),
               id);
  return FALSE;
}

static gboolean G_GNUC_PRINTF (2, 3) fail (GError **error, const char *sentence, ...)
{
  va_list arguments;

  va_start (arguments, sentence);
  g_propagate_error (
      error, g_error_new_valist (CAV_SHOP_ERROR, CAV_SHOP_ERROR_RANGE, sentence, arguments));
  va_end (arguments);
  return FALSE;
}

/* A sentence with the tool's id, the value and its limits. */
#define CHECK(value, minimum, maximum, sentence)                                                   \
  ((isfinite (value) && (value) >= (minimum) && (value) <= (maximum))                              \
   || fail (error, sentence, id, CAV_NUMBER_TEXT ("%g", value), CAV_NUMBER_TEXT ("%g", minimum),   \
            CAV_NUMBER_TEXT ("%g", maximum)))

static gboolean
check_blade (const CavBlade *blade, GError **error)
{
  const char *id = blade->id;

  return CHECK (blade->diameter, 50.0, 500.0,
                _ ("The diameter of blade “%s” is %s mm: enter a value from %s to %s mm."))
         && CHECK (blade->kerf, 0.5, 40.0,
                   _ ("The kerf of blade “%s” is %s mm: enter a value from %s to %s mm."))
         && CHECK (blade->height, 1.0, blade->diameter / 2.0,
                   _ ("The height of blade “%s” is %s mm: enter a value from %s to %s mm."))
         && CHECK (blade->tilt, 0.0, 60.0,
                   _ ("The tilt of blade “%s” is %s degrees: enter a value from %s to %s degrees."))
         /* Translators: the bite is the most chips that one pass may take, as the area of its
            section. */
         && CHECK (blade->bite, 1.0, 1000.0,
                   _ ("The bite of blade “%s” is %s mm²: enter a value from %s to %s mm²."));
}

static gboolean
check_cutter (const CavCutter *cutter, GError **error)
{
  const char *id = cutter->id;

  if (!CHECK (cutter->bite, 1.0, 1000.0,
              _ ("The bite of cutter “%s” is %s mm²: enter a value from %s to %s mm²."))
      || !CHECK (cutter->speed, 100.0, 60000.0,
                 _ ("The marked speed of cutter “%s” is %s a minute: enter a value from %s to %s a "
                    "minute."))
      || !CHECK (cutter->shank, 0.0, 25.4,
                 _ ("The shank of cutter “%s” is %s mm: enter a value from %s to %s mm.")))
    return FALSE;
  if (!cutter->has_pilot)
    return TRUE;
  return CHECK (cutter->pilot_radius, 1.0, 50.0,
                _ ("The pilot's radius of cutter “%s” is %s mm: enter a value from %s to %s mm."))
         && CHECK (
             cutter->pilot_length, 0.5, 50.0,
             _ ("The pilot's length of cutter “%s” is %s mm: enter a value from %s to %s mm."));
}

gboolean
cav_shop_add_blade (CavShop *shop, CavBlade *blade, GError **error)
{
  g_return_val_if_fail (shop != NULL, FALSE);
  g_return_val_if_fail (blade != NULL, FALSE);

  if (!check_id (shop, TRUE, blade->id, error) || !check_blade (blade, error))
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

  if (!check_id (shop, FALSE, cutter->id, error) || !check_cutter (cutter, error))
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
    return g_strdup_printf (_ ("Cutter “%s” needs a router table, and this shop has none."),
                            cutter->id);
  if (shop->collet > 0.0 && cutter->shank > shop->collet + CAV_TOLERANCE_POINT)
    return g_strdup_printf (_ ("The shank of cutter “%s” is %s mm thick; the largest collet of "
                               "this shop takes %s mm."),
                            cutter->id, CAV_NUMBER_TEXT ("%.4g", cutter->shank),
                            CAV_NUMBER_TEXT ("%.4g", shop->collet));
  if (shop->opening > 0.0 && diameter > shop->opening + CAV_TOLERANCE_POINT)
    return g_strdup_printf (_ ("Cutter “%s” is %s mm wide; the opening of this router table lets "
                               "%s mm through."),
                            cutter->id, CAV_NUMBER_TEXT ("%.4g", diameter),
                            CAV_NUMBER_TEXT ("%.4g", shop->opening));
  if (cutter->speed > speed)
    return g_strdup_printf (_ ("Cutter “%s” is down for %.0f a minute; a cutter %s mm wide runs "
                               "at %.0f at most. Enter the speed it is run at, %.0f or less."),
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
    return g_strdup_printf (_ ("Blade “%s” needs a table saw, and this shop has none."), blade->id);
  return NULL;
}
