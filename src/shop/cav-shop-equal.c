/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "shop/cav-shop.h"

#include <string.h>

#include "geometry/cav-same.h"

static gboolean
all_same (const double *a, const double *b, gsize n)
{
  for (gsize i = 0; i < n; i++)
    if (!cav_same (a[i], b[i]))
      return FALSE;
  return TRUE;
}

/* Rates and limits hold nothing but numbers. */
G_STATIC_ASSERT (sizeof (CavRates) % sizeof (double) == 0);
G_STATIC_ASSERT (sizeof (CavLimits) % sizeof (double) == 0);
G_STATIC_ASSERT (sizeof (CavSilhouettePoint) == 2 * sizeof (double));
#define ALL_SAME(a, b)                                                                             \
  all_same ((const double *)(gconstpointer)(a), (const double *)(gconstpointer)(b),                \
            sizeof *(a) / sizeof (double))

static gboolean
blades_equal (const CavBlade *a, const CavBlade *b)
{
  return g_strcmp0 (a->id, b->id) == 0 && g_strcmp0 (a->name, b->name) == 0 && a->grind == b->grind
         && cav_same (a->diameter, b->diameter) && cav_same (a->kerf, b->kerf)
         && cav_same (a->height, b->height) && cav_same (a->tilt, b->tilt)
         && cav_same (a->bite, b->bite);
}

static gboolean
silhouettes_equal (const GArray *a, const GArray *b)
{
  return a->len == b->len
         && all_same ((const double *)(gconstpointer)a->data,
                      (const double *)(gconstpointer)b->data, 2 * (gsize)a->len);
}

/* The outline follows from family and numbers, or else the silhouette is the outline. */
static gboolean
cutters_equal (const CavCutter *a, const CavCutter *b)
{
  return g_strcmp0 (a->id, b->id) == 0 && g_strcmp0 (a->name, b->name) == 0
         && a->family == b->family && all_same (a->numbers, b->numbers, CAV_N_CUTTER_NUMBERS)
         && cav_same (a->length, b->length) && cav_same (a->shank, b->shank)
         && cav_same (a->bite, b->bite) && cav_same (a->speed, b->speed)
         && a->has_pilot == b->has_pilot && cav_same (a->pilot_radius, b->pilot_radius)
         && cav_same (a->pilot_length, b->pilot_length)
         && silhouettes_equal (a->silhouette, b->silhouette);
}

gboolean
cav_shop_equal (const CavShop *a, const CavShop *b)
{
  g_return_val_if_fail (a != NULL, FALSE);
  g_return_val_if_fail (b != NULL, FALSE);

  if (a == b)
    return TRUE;
  if (g_strcmp0 (a->name, b->name) != 0 || a->has_saw != b->has_saw || a->coving != b->coving
      || a->has_router != b->has_router || !cav_same (a->collet, b->collet)
      || !cav_same (a->opening, b->opening) || a->blades->len != b->blades->len
      || a->cutters->len != b->cutters->len || !ALL_SAME (&a->rates, &b->rates)
      || !ALL_SAME (&a->limits, &b->limits) || a->light_finish != b->light_finish)
    return FALSE;
  for (guint i = 0; i < a->blades->len; i++)
    if (!blades_equal (g_ptr_array_index (a->blades, i), g_ptr_array_index (b->blades, i)))
      return FALSE;
  for (guint i = 0; i < a->cutters->len; i++)
    if (!cutters_equal (g_ptr_array_index (a->cutters, i), g_ptr_array_index (b->cutters, i)))
      return FALSE;
  return TRUE;
}
