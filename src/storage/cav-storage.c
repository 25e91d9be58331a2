/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-storage.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gi18n-lib.h>
#include <sys/stat.h>
#include <unistd.h>

#include "storage/cav-plan-xml.h"
#include "storage/cav-project-xml.h"
#include "storage/cav-shop-xml.h"
#include "storage/cav-svg.h"
#include "storage/cav-xml-write.h"
#include "storage/cav-xml.h"

/* The formatter takes the hyphens for subtractions. */
/* clang-format off */
G_DEFINE_QUARK (cav-storage-error-quark, cav_storage_error)
/* clang-format on */

static void
set_read_error (GError **error, const char *file_name, int code)
{
  g_autofree char *shown = cav_xml_dup_printable_name (file_name);

  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_READ, _ ("%s: cannot be read (%s); %s"),
               shown, g_strerror (code),
               code == ENOENT || code == ENOTDIR ? _ ("check the name")
               : code == EISDIR                  ? _ ("name a file in it")
                                                 : _ ("check who may read it"));
}

/* Reads until the end or one byte more than we take, so that an endless file ends, too. */
static gboolean
read_all (int fd, GByteArray *bytes)
{
  guint8 buffer[65536];

  while (bytes->len <= CAV_STORAGE_MAX_BYTES)
    {
      ssize_t n = read (fd, buffer, sizeof buffer);

      if (n == 0)
        return TRUE;
      if (n < 0 && errno != EINTR)
        return FALSE;
      if (n > 0)
        g_byte_array_append (bytes, buffer, (guint)n);
    }
  return TRUE;
}

static GBytes *
load_bytes (const char *file_name, GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  int fd = open (file_name, O_RDONLY | O_CLOEXEC);

  if (fd < 0)
    {
      set_read_error (error, file_name, errno);
      return NULL;
    }
  gboolean good = read_all (fd, bytes);
  int code = errno;
  close (fd);
  if (!good)
    {
      set_read_error (error, file_name, code);
      return NULL;
    }
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

CavProject *
cav_storage_project_from_bytes (GBytes *bytes, const char *name, GError **error)
{
  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);

  g_autoptr (CavXml) xml = cav_xml_parse (bytes, name, CAV_XML_STRICT, error);
  if (xml == NULL
      || !cav_xml_check_root (xml, "cavetto", C_ ("kind of file", "Cavetto project"),
                              CAV_PROJECT_XML_NEWEST, error))
    return NULL;
  return cav_project_xml_read (xml, error);
}

CavShop *
cav_storage_shop_from_bytes (GBytes *bytes, const char *name, GError **error)
{
  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);

  g_autoptr (CavXml) xml = cav_xml_parse (bytes, name, CAV_XML_STRICT, error);
  if (xml == NULL || !cav_xml_check_root (xml, "shop", C_ ("kind of file", "shop file"), 1, error))
    return NULL;
  return cav_shop_xml_read (xml, cav_xml_get_root (xml), TRUE, error);
}

CavPath *
cav_storage_outline_from_bytes (
    GBytes *bytes, const char *name, double *out_width, double *out_height, GError **error)
{
  g_return_val_if_fail (bytes != NULL && name != NULL, NULL);
  g_return_val_if_fail (out_width != NULL && out_height != NULL, NULL);

  g_autoptr (CavXml) xml = cav_xml_parse (bytes, name, CAV_XML_ALLOW_DOCTYPE, error);
  if (xml == NULL)
    return NULL;
  return cav_svg_read_outline (xml, out_width, out_height, error);
}

GBytes *
cav_storage_project_to_bytes (CavProject *project)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project), NULL);

  GString *text = g_string_new (NULL);
  cav_xml_write_declaration (text);
  cav_project_xml_write (text, project);
  return g_string_free_to_bytes (text);
}

GBytes *
cav_storage_shop_to_bytes (const CavShop *shop)
{
  g_return_val_if_fail (shop != NULL, NULL);

  GString *text = g_string_new (NULL);
  cav_xml_write_declaration (text);
  cav_shop_xml_write (text, 0, shop, TRUE);
  return g_string_free_to_bytes (text);
}

GBytes *
cav_storage_plan_to_bytes (const CavPlan *plan, GError **error)
{
  g_return_val_if_fail (plan != NULL, NULL);

  GString *text = g_string_new (NULL);
  cav_xml_write_declaration (text);
  if (!cav_plan_xml_write (text, plan, error))
    {
      g_string_free (text, TRUE);
      return NULL;
    }
  return g_string_free_to_bytes (text);
}

CavProject *
cav_storage_load_project (const char *file_name, GError **error)
{
  g_return_val_if_fail (file_name != NULL, NULL);

  g_autoptr (GBytes) bytes = load_bytes (file_name, error);
  return bytes == NULL ? NULL : cav_storage_project_from_bytes (bytes, file_name, error);
}

CavShop *
cav_storage_load_shop (const char *file_name, GError **error)
{
  g_return_val_if_fail (file_name != NULL, NULL);

  g_autoptr (GBytes) bytes = load_bytes (file_name, error);
  return bytes == NULL ? NULL : cav_storage_shop_from_bytes (bytes, file_name, error);
}

CavPath *
cav_storage_load_outline (const char *file_name,
                          double *out_width,
                          double *out_height,
                          GError **error)
{
  g_return_val_if_fail (file_name != NULL, NULL);

  g_autoptr (GBytes) bytes = load_bytes (file_name, error);
  return bytes == NULL
             ? NULL
             : cav_storage_outline_from_bytes (bytes, file_name, out_width, out_height, error);
}

/* What could not be read back is not written. */
static gboolean
save_bytes (const char *file_name, GBytes *bytes, gboolean must_read_back, GError **error)
{
  gsize length;
  const void *data = g_bytes_get_data (bytes, &length);

  if (must_read_back && length > CAV_STORAGE_MAX_BYTES)
    {
      g_autofree char *shown = cav_xml_dup_printable_name (file_name);

      g_set_error (
          error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_TOO_LARGE,
          _ ("%s: not written, for it would be larger than %d MB; draw its paths with fewer "
             "pieces"),
          shown, CAV_STORAGE_MAX_MEGABYTES);
      return FALSE;
    }
  return cav_storage_write (file_name, data, length, error);
}

gboolean
cav_storage_save_project (CavProject *project, const char *file_name, GError **error)
{
  g_return_val_if_fail (CAV_IS_PROJECT (project) && file_name != NULL, FALSE);

  g_autoptr (GBytes) bytes = cav_storage_project_to_bytes (project);
  return save_bytes (file_name, bytes, TRUE, error);
}

gboolean
cav_storage_save_shop (const CavShop *shop, const char *file_name, GError **error)
{
  g_return_val_if_fail (shop != NULL && file_name != NULL, FALSE);

  g_autoptr (GBytes) bytes = cav_storage_shop_to_bytes (shop);
  return save_bytes (file_name, bytes, TRUE, error);
}

gboolean
cav_storage_save_plan (const CavPlan *plan, const char *file_name, GError **error)
{
  g_return_val_if_fail (plan != NULL && file_name != NULL, FALSE);

  g_autoptr (GError) cause = NULL;
  g_autoptr (GBytes) bytes = cav_storage_plan_to_bytes (plan, &cause);
  if (bytes == NULL)
    {
      g_autofree char *shown = cav_xml_dup_printable_name (file_name);

      g_set_error (error, cause->domain, cause->code, _ ("%s: not written: %s"), shown,
                   cause->message);
      return FALSE;
    }
  return save_bytes (file_name, bytes, FALSE, error);
}
