/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "storage/cav-shop-tables.h"
#include "storage/cav-shop-xml.h"
#include "storage/cav-xml-write.h"

/* Chords of silhouettes stand within 0.005 mm; six decimals add nothing to that. */
#define POINT_DECIMALS 6

static void
write_machines (GString *text, int depth, const CavShop *shop)
{
  cav_xml_write_begin (text, depth, "machines");
  cav_xml_write_boolean (text, "saw", shop->has_saw);
  cav_xml_write_boolean (text, "coving", shop->coving);
  cav_xml_write_boolean (text, "router", shop->has_router);
  cav_xml_write_number (text, "collet", shop->collet);
  cav_xml_write_number (text, "opening", shop->opening);
  cav_xml_write_end (text);
}

/* A tool without a name of its own is called by its id. */
static void
write_name (GString *text, const char *name, const char *id)
{
  if (name != NULL && *name != '\0' && strcmp (name, id) != 0)
    cav_xml_write_attribute (text, "name", name);
}

static void
write_blade_numbers (GString *text, const CavBlade *blade)
{
  cav_xml_write_number (text, "diameter", blade->diameter);
  cav_xml_write_number (text, "kerf", blade->kerf);
  cav_xml_write_number (text, "height", blade->height);
  cav_xml_write_number (text, "tilt", blade->tilt);
  cav_xml_write_number (text, "bite", blade->bite);
  cav_xml_write_attribute (text, "grind", cav_grind_to_string (blade->grind));
}

static void
write_blade (GString *text, int depth, const CavBlade *blade)
{
  cav_xml_write_begin (text, depth, "blade");
  cav_xml_write_attribute (text, "id", blade->id);
  write_name (text, blade->name, blade->id);
  write_blade_numbers (text, blade);
  cav_xml_write_end (text);
}

static void
write_pilot (GString *text, const CavCutter *cutter)
{
  if (!cutter->has_pilot)
    return;
  cav_xml_write_number (text, "pilot-radius", cutter->pilot_radius);
  cav_xml_write_number (text, "pilot-length", cutter->pilot_length);
}

static void
write_family (GString *text, const CavCutter *cutter)
{
  const CavCutterFamilyInfo *info = cav_cutter_family_get_info (cutter->family);

  cav_xml_write_attribute (text, "family", info->name);
  for (guint i = 0; i < info->n_numbers; i++)
    cav_xml_write_number (text, info->numbers[i].name, cutter->numbers[info->numbers[i].number]);
}

/* Points with so many decimals, or exactly where decimals is negative. */
static void
write_points (GString *text, int depth, const CavCutter *cutter, int decimals)
{
  for (guint i = 0; i < cutter->silhouette->len; i++)
    {
      CavSilhouettePoint point = g_array_index (cutter->silhouette, CavSilhouettePoint, i);

      cav_xml_write_begin (text, depth, "point");
      if (decimals < 0)
        {
          cav_xml_write_number (text, "r", point.r);
          cav_xml_write_number (text, "z", point.z);
        }
      else
        {
          cav_xml_write_rounded (text, "r", point.r, decimals);
          cav_xml_write_rounded (text, "z", point.z, decimals);
        }
      cav_xml_write_end (text);
    }
}

static void
write_cutter (GString *text, int depth, const CavCutter *cutter)
{
  gboolean is_drawn = cutter->family == CAV_CUTTER_DRAWN;

  cav_xml_write_begin (text, depth, "cutter");
  cav_xml_write_attribute (text, "id", cutter->id);
  write_name (text, cutter->name, cutter->id);
  if (is_drawn)
    cav_xml_write_number (text, "length", cutter->length);
  else
    write_family (text, cutter);
  cav_xml_write_number (text, "bite", cutter->bite);
  cav_xml_write_number (text, "speed", cutter->speed);
  if (cutter->shank > 0.0)
    cav_xml_write_number (text, "shank", cutter->shank);
  write_pilot (text, cutter);
  if (!is_drawn)
    {
      cav_xml_write_end (text);
      return;
    }
  cav_xml_write_open (text);
  write_points (text, depth + 1, cutter, -1);
  cav_xml_write_close (text, depth, "cutter");
}

static void
write_numbers (GString *text,
               int depth,
               const char *name,
               const CavShopNumber *table,
               guint n_numbers,
               gconstpointer values,
               gboolean light_finish)
{
  cav_xml_write_begin (text, depth, name);
  for (guint i = 0; i < n_numbers; i++)
    cav_xml_write_number (text, table[i].name,
                          *(const double *)((const char *)values + table[i].offset));
  /* A choice that nobody made is left out, so that older programs read the file. */
  if (light_finish)
    cav_xml_write_boolean (text, CAV_SHOP_LIGHT_FINISH, TRUE);
  cav_xml_write_end (text);
}

void
cav_shop_xml_write (GString *text, int depth, const CavShop *shop, gboolean is_root)
{
  cav_xml_write_begin (text, depth, "shop");
  if (is_root)
    {
      cav_xml_write_attribute (text, "version", "1");
      cav_xml_write_attribute (text, "unit", "mm");
    }
  if (shop->name != NULL && *shop->name != '\0')
    cav_xml_write_attribute (text, "name", shop->name);
  cav_xml_write_open (text);

  write_machines (text, depth + 1, shop);
  for (guint i = 0; i < shop->blades->len; i++)
    write_blade (text, depth + 1, g_ptr_array_index (shop->blades, i));
  for (guint i = 0; i < shop->cutters->len; i++)
    write_cutter (text, depth + 1, g_ptr_array_index (shop->cutters, i));
  write_numbers (text, depth + 1, "rates", cav_shop_tables_rates, CAV_N_RATES, &shop->rates, FALSE);
  write_numbers (text, depth + 1, "limits", cav_shop_tables_limits, CAV_N_LIMITS, &shop->limits,
                 shop->light_finish);

  cav_xml_write_close (text, depth, "shop");
}

void
cav_shop_xml_write_plan_blade (GString *text, int depth, const CavBlade *blade)
{
  cav_xml_write_begin (text, depth, "blade");
  cav_xml_write_attribute (text, "id", blade->id);
  write_blade_numbers (text, blade);
  cav_xml_write_end (text);
}

void
cav_shop_xml_write_plan_cutter (GString *text, int depth, const CavCutter *cutter)
{
  cav_xml_write_begin (text, depth, "cutter");
  cav_xml_write_attribute (text, "id", cutter->id);
  cav_xml_write_number (text, "length", cutter->length);
  cav_xml_write_number (text, "bite", cutter->bite);
  cav_xml_write_number (text, "speed", cutter->speed);
  write_pilot (text, cutter);
  cav_xml_write_open (text);
  write_points (text, depth + 1, cutter, POINT_DECIMALS);
  cav_xml_write_close (text, depth, "cutter");
}
