/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-project-xml.h"

#include <glib/gi18n-lib.h>
#include "project/cav-import.h"
#include "storage/cav-cut-xml.h"
#include "storage/cav-frame-xml.h"
#include "storage/cav-lumber-xml.h"
#include "storage/cav-shop-xml.h"
#include "storage/cav-xml-write.h"

#define MOST_RAILS 10000
#define LEAST_LENGTH 1.0
#define MOST_LENGTH 1e7
#define MOST_CUTS 1000

static gboolean
read_text (const CavXml *xml,
           const xmlNode *node,
           void (*set) (CavProject *project, const char *text),
           CavProject *project,
           GError **error)
{
  static const char *const names[] = { NULL };

  if (!cav_xml_check_attributes (xml, node, names, error))
    return FALSE;
  g_autofree char *text = cav_xml_dup_text (xml, node, error);
  if (text == NULL)
    return FALSE;
  set (project, text);
  return TRUE;
}

static gboolean
read_title (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  return read_text (xml, node, cav_project_set_title, project, error);
}

static gboolean
read_notes (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  return read_text (xml, node, cav_project_set_notes, project, error);
}

static gboolean
read_blank (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  static const char *const names[] = { "width", "thickness", NULL };
  CavBlank blank;

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error)
      || !cav_xml_require_number (xml, node, "width", CAV_IMPORT_BLANK_MIN, CAV_BLANK_MAX,
                                  &blank.width, error)
      || !cav_xml_require_number (xml, node, "thickness", CAV_IMPORT_BLANK_MIN, CAV_BLANK_MAX,
                                  &blank.thickness, error))
    return FALSE;
  cav_project_set_blank (project, blank);
  return TRUE;
}

static gboolean
read_wood (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  static const char *const names[] = { "id", NULL };

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error))
    return FALSE;
  g_autofree char *id = cav_xml_require_text (xml, node, "id", error);
  if (id == NULL)
    return FALSE;
  const CavWood *wood = cav_wood_find (id);
  if (wood == NULL)
    {
      g_autofree char *shown = cav_xml_dup_printable_value (id);
      return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("the wood \"%s\" is not known; leave <wood> out or name another"),
                           shown);
    }
  cav_project_set_wood (project, wood);
  return TRUE;
}

static gboolean
read_rails (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  static const char *const names[] = { "count", "length", NULL };
  int count;
  double length;

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, NULL, NULL, error)
      || !cav_xml_require_integer (xml, node, "count", 1, MOST_RAILS, &count, error)
      || !cav_xml_require_number (xml, node, "length", LEAST_LENGTH, MOST_LENGTH, &length, error))
    return FALSE;
  cav_project_set_rails (project, count, length);
  return TRUE;
}

static gboolean
cut_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  GPtrArray *cuts = data;

  if (cuts->len == MOST_CUTS)
    return cav_xml_fail (xml, child, CAV_STORAGE_ERROR_TOO_LARGE, error,
                         _ ("a profile of more than %d cuts; make it from fewer"), MOST_CUTS);
  CavCut *cut = cav_cut_xml_read (xml, child, error);
  if (cut == NULL)
    return FALSE;
  g_ptr_array_add (cuts, cut);
  return TRUE;
}

static gboolean
read_cuts (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  static const char *const names[] = { NULL };
  g_autoptr (GPtrArray) cuts = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_cut_free);

  if (!cav_xml_check_attributes (xml, node, names, error)
      || !cav_xml_foreach_child (xml, node, cut_cb, cuts, error))
    return FALSE;
  cav_project_add_cuts (project, cuts);
  return TRUE;
}

static gboolean
read_shop (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  g_autoptr (CavShop) shop = cav_shop_xml_read (xml, node, FALSE, error);

  if (shop == NULL)
    return FALSE;
  cav_project_set_shop (project, shop);
  return TRUE;
}

static gboolean
read_frame (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  g_autoptr (CavFrameSettings) settings = cav_frame_xml_read (xml, node, error);

  if (settings == NULL)
    return FALSE;
  cav_project_set_frame_settings (project, settings);
  return TRUE;
}

static gboolean
read_lumber (const CavXml *xml, xmlNode *node, CavProject *project, GError **error)
{
  g_autoptr (CavLumber) lumber = cav_lumber_xml_read (xml, node, error);

  if (lumber == NULL)
    return FALSE;
  cav_project_set_lumber (project, lumber);
  return TRUE;
}

static gboolean
project_child_cb (const CavXml *xml, xmlNode *child, gpointer data, GError **error)
{
  static const struct
  {
    const char *name;
    int version;
    gboolean (*read) (const CavXml *xml, xmlNode *node, CavProject *project, GError **error);
  } parts[] = {
    { "title", 1, read_title }, { "notes", 1, read_notes }, { "blank", 1, read_blank },
    { "wood", 1, read_wood },   { "rails", 1, read_rails }, { "cuts", 1, read_cuts },
    { "shop", 1, read_shop },   { "frame", 2, read_frame }, { "lumber", 2, read_lumber },
  };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (cav_xml_is (child, parts[i].name))
      return cav_xml_check_first (xml, child, error)
             && cav_xml_check_since (xml, child, parts[i].version, error)
             && parts[i].read (xml, child, data, error);
  return cav_xml_fail_unknown_child (xml, child, error);
}

static gboolean
check_complete (const CavXml *xml, const xmlNode *root, GError **error)
{
  static const char *const needed[] = { "blank", "rails" };

  for (guint i = 0; i < G_N_ELEMENTS (needed); i++)
    {
      const xmlNode *child = root->children;

      while (child != NULL && !(child->type == XML_ELEMENT_NODE && cav_xml_is (child, needed[i])))
        child = child->next;
      if (child == NULL)
        return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                             _ ("the project has no <%s>; add it"), needed[i]);
    }
  return TRUE;
}

CavProject *
cav_project_xml_read (const CavXml *xml, GError **error)
{
  static const char *const names[] = { "version", "unit", NULL };
  const xmlNode *root = cav_xml_get_root (xml);
  g_autoptr (CavProject) project = cav_project_new ();

  if (!cav_xml_check_attributes (xml, root, names, error)
      || !cav_xml_foreach_child (xml, root, project_child_cb, project, error)
      || !check_complete (xml, root, error))
    return NULL;
  /* Reading is no editing: nothing of it can be undone. */
  return cav_project_copy_snapshot (project);
}

static void
write_stock (GString *text, CavProject *project)
{
  CavBlank blank = cav_project_get_blank (project);
  const CavWood *wood = cav_project_get_wood (project);

  cav_xml_write_begin (text, 1, "blank");
  cav_xml_write_number (text, "width", blank.width);
  cav_xml_write_number (text, "thickness", blank.thickness);
  cav_xml_write_end (text);
  if (wood != NULL)
    {
      cav_xml_write_begin (text, 1, "wood");
      cav_xml_write_attribute (text, "id", wood->id);
      cav_xml_write_end (text);
    }
  cav_xml_write_begin (text, 1, "rails");
  cav_xml_write_number (text, "count", cav_project_get_rails (project));
  cav_xml_write_number (text, "length", cav_project_get_length (project));
  cav_xml_write_end (text);
}

void
cav_project_xml_write (GString *text, CavProject *project)
{
  const char *notes = cav_project_get_notes (project);
  const CavLumber *lumber = cav_project_get_lumber (project);
  g_autoptr (CavLumber) usual = cav_lumber_new ();
  gboolean has_lumber = !cav_lumber_equal (lumber, usual);
  gboolean has_frame = cav_project_has_frame (project);

  cav_xml_write_begin (text, 0, "cavetto");
  cav_xml_write_attribute (text, "version",
                           lumber->joined->len > 0   ? "3"
                           : has_frame || has_lumber ? "2"
                                                     : "1");
  cav_xml_write_attribute (text, "unit", "mm");
  cav_xml_write_open (text);

  cav_xml_write_text (text, 1, "title", cav_project_get_title (project));
  if (*notes != '\0')
    cav_xml_write_text (text, 1, "notes", notes);
  write_stock (text, project);

  cav_xml_write_begin (text, 1, "cuts");
  cav_xml_write_open (text);
  for (guint i = 0; i < cav_project_get_cut_count (project); i++)
    cav_cut_xml_write (text, 2, cav_project_get_cut (project, i));
  cav_xml_write_close (text, 1, "cuts");

  if (has_frame)
    cav_frame_xml_write (text, 1, cav_project_get_frame_settings (project));
  if (has_lumber)
    cav_lumber_xml_write (text, 1, lumber);
  cav_shop_xml_write (text, 1, cav_project_get_shop (project), FALSE);
  cav_xml_write_close (text, 0, "cavetto");
}
