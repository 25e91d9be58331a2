/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fuzz-target.h"
#include "storage/cav-storage.h"

/* Whatever is read as a shop is written, read again and written again: the same bytes. */
int
LLVMFuzzerTestOneInput (const guint8 *data, gsize size)
{
  g_autoptr (GBytes) bytes = g_bytes_new_static (data, size);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavShop) shop = cav_storage_shop_from_bytes (bytes, "fuzz", &error);
  g_autoptr (CavShop) again = NULL;
  g_autoptr (GBytes) written = NULL;
  g_autoptr (GBytes) rewritten = NULL;

  cav_fuzz_check_outcome (shop != NULL, error);
  if (shop == NULL)
    return 0;
  written = cav_storage_shop_to_bytes (shop);
  again = cav_storage_shop_from_bytes (written, "again", &error);
  g_assert_no_error (error);
  rewritten = cav_storage_shop_to_bytes (again);
  g_assert_true (g_bytes_equal (written, rewritten));
  return 0;
}
