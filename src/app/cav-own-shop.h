/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "shop/cav-shop.h"

G_BEGIN_DECLS

/* The user's own shop: a shop file in the folder of their settings. Projects carry copies. */

/* (transfer full) Where it is kept. */
char *cav_own_shop_get_file_name (void) G_GNUC_WARN_UNUSED_RESULT;
gboolean cav_own_shop_exists (void);
/* (transfer full) The hobby shop that comes with the program where nothing has been kept yet.
 * Errors of storage. */
CavShop *cav_own_shop_load (GError **error) G_GNUC_WARN_UNUSED_RESULT;
/* Whole or not at all. */
gboolean cav_own_shop_save (const CavShop *shop, GError **error) G_GNUC_WARN_UNUSED_RESULT;

G_END_DECLS
