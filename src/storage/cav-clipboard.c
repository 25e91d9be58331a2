/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-clipboard.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#include "storage/cav-cut-xml.h"
#include "storage/cav-xml-write.h"
#include "storage/cav-xml.h"

char *
cav_clipboard_cuts_to_text (const GPtrArray *cuts)
{
  GString *text;

  g_return_val_if_fail (cuts != NULL, NULL);

  text = g_string_new (NULL);
  cav_xml_write_begin (text, 0, "cuts");
  cav_xml_write_attribute (text, "version", "1");
  cav_xml_write_attribute (text, "unit", "mm");
  cav_xml_write_open (text);
  for (guint i = 0; i < cuts->len; i++)
    cav_cut_xml_write (text, 1, g_ptr_array_index (cuts, i));
  cav_xml_write_close (text, 0, "cuts");
  return g_string_free (text, FALSE);
}

static gboolean
cut_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  GPtrArray *cuts = data;

  if (cuts->len == CAV_CLIPBOARD_MOST_CUTS)
    return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_TOO_LARGE, error,
                         _ ("more than %d cuts; copy fewer at a time"), CAV_CLIPBOARD_MOST_CUTS);
  CavCut *cut = cav_cut_xml_read (xml, child, error);
  if (cut == NULL)
    return FALSE;
  g_ptr_array_add (cuts, cut);
  return TRUE;
}

GPtrArray *
cav_clipboard_cuts_from_text (const char *text, GError **error)
{
  static const char *const names[] = { "version", "unit", NULL };

  g_return_val_if_fail (text != NULL, NULL);

  g_autoptr (GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);
  g_autoptr (CavXml) xml = cav_xml_parse (bytes, _ ("clipboard"), CAV_XML_STRICT, error);
  if (xml == NULL
      || !cav_xml_check_root (xml, "cuts", C_ ("kind of file", "copy of cuts"), 1, error))
    return NULL;

  const xmlNode *root = cav_xml_get_root (xml);
  if (!cav_xml_check_attributes (xml, root, names, error)
      || !cav_xml_foreach_child (xml, root, cut_cb, cuts, error))
    return NULL;
  if (cuts->len == 0)
    {
      cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                    _ ("there is no cut in it; copy one first"));
      return NULL;
    }
  return g_steal_pointer (&cuts);
}
