/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-shop-tables.h"

#define RATE(name, field)                                                                          \
  {                                                                                                \
    name, G_STRUCT_OFFSET (CavRates, field), 0, 10000                                              \
  }
#define LIMIT(name, field, low, high)                                                              \
  {                                                                                                \
    name, G_STRUCT_OFFSET (CavLimits, field), low, high                                            \
  }

const CavShopNumber cav_shop_tables_rates[CAV_N_RATES] = {
  RATE ("saw-setup", saw_setup),
  RATE ("tilt-setup", tilt_setup),
  RATE ("cove-setup", cove_setup),
  RATE ("blade-change", blade_change),
  RATE ("router-setup", router_setup),
  RATE ("router-return", router_return),
  RATE ("turn", turn),
  RATE ("move", move),
  RATE ("metre", metre),
  RATE ("cove-metre", cove_metre),
  RATE ("rail", rail),
  RATE ("scrape-metre", scrape_metre),
  RATE ("hand-volume", hand_volume),
  RATE ("hand-surface", hand_surface),
};

const CavShopNumber cav_shop_tables_limits[CAV_N_LIMITS] = {
  LIMIT ("step", step, 0.001, 5),
  LIMIT ("leftover", leftover, 0, 100),
  LIMIT ("push-gap", push_gap, 0, 500),
  LIMIT ("cove-layer", cove_layer, 0.05, 100),
  LIMIT ("light-layer", light_layer, 0.05, 100),
  LIMIT ("carrier", carrier, 0, 500),
};

const char **
cav_shop_tables_create_cutter_names (const CavCutterFamilyInfo *info)
{
  static const char *const common[]
      = { "id", "name", "family", "bite", "speed", "shank", "pilot-radius", "pilot-length" };
  guint n_names = G_N_ELEMENTS (common);
  const char **names = g_new0 (const char *, n_names + info->n_numbers + 2);

  for (guint i = 0; i < n_names; i++)
    names[i] = common[i];
  for (guint i = 0; i < info->n_numbers; i++)
    names[n_names++] = info->numbers[i].name;
  if (info->family == CAV_CUTTER_DRAWN)
    names[n_names++] = "length";
  return names;
}
