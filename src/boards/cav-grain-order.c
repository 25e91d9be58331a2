/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "boards/cav-grain-order.h"

#include <string.h>

static const char *const ORDERS[CAV_N_GRAIN_ORDERS] = {
  [CAV_GRAIN_FREE] = "free",
  [CAV_GRAIN_PAIRS] = "pairs",
  [CAV_GRAIN_RUNNING] = "running",
  [CAV_GRAIN_BOOK] = "book",
};

const char *
cav_grain_order_to_string (CavGrainOrder order)
{
  g_return_val_if_fail ((guint)order < CAV_N_GRAIN_ORDERS, NULL);

  return ORDERS[order];
}

gboolean
cav_grain_order_from_string (const char *string, CavGrainOrder *out_order)
{
  g_return_val_if_fail (string != NULL, FALSE);
  g_return_val_if_fail (out_order != NULL, FALSE);

  for (guint i = 0; i < CAV_N_GRAIN_ORDERS; i++)
    if (strcmp (ORDERS[i], string) == 0)
      {
        *out_order = (CavGrainOrder)i;
        return TRUE;
      }
  return FALSE;
}
