/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-own-shop.h"

#include <errno.h>
#include <glib/gi18n.h>
#include <glib/gstdio.h>

#include "storage/cav-storage.h"

static char *
get_folder (void)
{
  return g_build_filename (g_get_user_config_dir (), "cavetto", NULL);
}

char *
cav_own_shop_get_file_name (void)
{
  return g_build_filename (g_get_user_config_dir (), "cavetto", "shop.xml", NULL);
}

gboolean
cav_own_shop_exists (void)
{
  g_autofree char *file_name = cav_own_shop_get_file_name ();

  return g_file_test (file_name, G_FILE_TEST_EXISTS);
}

CavShop *
cav_own_shop_load (GError **error)
{
  g_autofree char *file_name = cav_own_shop_get_file_name ();

  if (!g_file_test (file_name, G_FILE_TEST_EXISTS))
    return cav_shop_new_default ();
  return cav_storage_load_shop (file_name, error);
}

gboolean
cav_own_shop_save (const CavShop *shop, GError **error)
{
  g_autofree char *file_name = cav_own_shop_get_file_name ();
  g_autofree char *folder = get_folder ();

  g_return_val_if_fail (shop != NULL, FALSE);

  if (g_mkdir_with_parents (folder, 0700) != 0)
    {
      int code = errno;

      g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_WRITE,
                   _ ("The folder “%s” cannot be made (%s): make it yourself, or free it."), folder,
                   g_strerror (code));
      return FALSE;
    }
  return cav_storage_save_shop (shop, file_name, error);
}
