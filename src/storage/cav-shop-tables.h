/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "shop/cav-shop.h"

G_BEGIN_DECLS

/* One number of CavRates or CavLimits: its attribute, where it stands, what it may be. */
typedef struct
{
  const char *name;
  gsize offset;
  double minimum;
  double maximum;
} CavShopNumber;

#define CAV_N_RATES 14
#define CAV_N_LIMITS 6
/* The attribute of limits that says yes or no. */
#define CAV_SHOP_LIGHT_FINISH "light-finish"

extern const CavShopNumber cav_shop_tables_rates[CAV_N_RATES];
extern const CavShopNumber cav_shop_tables_limits[CAV_N_LIMITS];

/* (transfer container) The attributes that a <cutter> of that family may have. */
const char **cav_shop_tables_create_cutter_names (const CavCutterFamilyInfo *info);

G_END_DECLS
