/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-cut-xml.h"

#include <glib/gi18n-lib.h>
#include <math.h>

#include "storage/cav-path-xml.h"
#include "storage/cav-xml-write.h"

static gboolean
may_stand (const CavCutInfo *info, CavAnchorKind anchor)
{
  return (info->anchors & (1u << anchor)) != 0;
}

/* (transfer container) The attributes that a cut of this kind may have. */
static const char **
create_names (const CavCutInfo *info)
{
  const char **names = g_new0 (const char *, info->n_numbers + 4);
  guint n_names = 0;

  if (may_stand (info, CAV_ANCHOR_CORNER))
    names[n_names++] = "corner";
  if (may_stand (info, CAV_ANCHOR_SIDE))
    names[n_names++] = "side";
  if (info->n_forms > 1)
    names[n_names++] = "form";
  for (guint i = 0; i < info->n_numbers; i++)
    names[n_names++] = info->numbers[i].name;
  return names;
}

static CavCut *
read_anchored (const CavXml *xml, const xmlNode *node, const CavCutInfo *info, GError **error)
{
  g_autofree char *corner_word = cav_xml_dup_attribute (node, "corner");
  g_autofree char *side_word = cav_xml_dup_attribute (node, "side");
  CavCorner corner;
  CavSide side;

  if ((corner_word == NULL) == (side_word == NULL))
    {
      if (may_stand (info, CAV_ANCHOR_CORNER) && may_stand (info, CAV_ANCHOR_SIDE))
        cav_xml_fail (
            xml, node, CAV_STORAGE_ERROR_CONTENT, error,
            _ ("<%s> needs the attribute either \"corner\" or \"side\"; say where it stands"),
            info->name);
      else
        cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                      _ ("<%s> needs the attribute \"%s\"; say where it stands"), info->name,
                      may_stand (info, CAV_ANCHOR_CORNER) ? "corner" : "side");
      return NULL;
    }
  if (corner_word != NULL && cav_corner_from_string (corner_word, &corner))
    return cav_cut_new_at_corner (info->kind, corner);
  if (side_word != NULL && cav_side_from_string (side_word, &side))
    return cav_cut_new_on_side (info->kind, side);
  cav_xml_fail_word (xml, node, corner_word != NULL ? "corner" : "side", error);
  return NULL;
}

static gboolean
read_form (
    const CavXml *xml, const xmlNode *node, const CavCutInfo *info, CavCut *cut, GError **error)
{
  CavCutForm form;
  g_autofree char *word = cav_xml_dup_attribute (node, "form");

  if (word == NULL)
    return TRUE;
  if (cav_cut_form_from_string (word, &form))
    for (guint i = 0; i < info->n_forms; i++)
      if (info->forms[i] == form)
        {
          cut->form = form;
          return TRUE;
        }
  return cav_xml_fail_word (xml, node, "form", error);
}

static gboolean
read_number (const CavXml *xml,
             const xmlNode *node,
             const CavCutNumberInfo *info,
             CavCut *cut,
             GError **error)
{
  double *value = &cut->numbers[info->number];

  if (info->optional ? !cav_xml_optional_number (xml, node, info->name, info->minimum,
                                                 info->maximum, value, error)
                     : !cav_xml_require_number (xml, node, info->name, info->minimum, info->maximum,
                                                value, error))
    return FALSE;
  if (info->number == CAV_CUT_COUNT && fabs (*value - round (*value)) > 0.0)
    return cav_xml_fail (xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("%s of <%s> is not a whole number; write it without a fraction"),
                         info->name, (const char *)node->name);
  return TRUE;
}

static CavCut *
read_drawn (const CavXml *xml, const xmlNode *node, GError **error)
{
  g_autoptr (CavPath) path = cav_path_xml_read (xml, node, error);

  return path == NULL ? NULL : cav_cut_new_drawn (path);
}

CavCut *
cav_cut_xml_read (const CavXml *xml, const xmlNode *node, GError **error)
{
  CavCutKind kind;
  g_autoptr (CavCut) cut = NULL;
  g_autofree const char **names = NULL;

  if (node->ns != NULL || !cav_cut_kind_from_string ((const char *)node->name, &kind))
    {
      cav_xml_fail_unknown_child (xml, node, error);
      return NULL;
    }
  const CavCutInfo *info = cav_cut_kind_get_info (kind);
  names = create_names (info);
  if (!cav_xml_check_attributes (xml, node, names, error))
    return NULL;

  if (may_stand (info, CAV_ANCHOR_FREE))
    cut = read_drawn (xml, node, error);
  else if (cav_xml_foreach_child (xml, node, NULL, NULL, error))
    cut = read_anchored (xml, node, info, error);
  if (cut == NULL || !read_form (xml, node, info, cut, error))
    return NULL;
  for (guint i = 0; i < info->n_numbers; i++)
    if (!read_number (xml, node, &info->numbers[i], cut, error))
      return NULL;
  return g_steal_pointer (&cut);
}

void
cav_cut_xml_write (GString *text, int depth, const CavCut *cut)
{
  const CavCutInfo *info = cav_cut_kind_get_info (cut->kind);

  cav_xml_write_begin (text, depth, info->name);
  if (cut->anchor == CAV_ANCHOR_CORNER)
    cav_xml_write_attribute (text, "corner", cav_corner_to_string (cut->corner));
  if (cut->anchor == CAV_ANCHOR_SIDE)
    cav_xml_write_attribute (text, "side", cav_side_to_string (cut->side));
  if (info->n_forms > 1)
    cav_xml_write_attribute (text, "form", cav_cut_form_to_string (cut->form));
  for (guint i = 0; i < info->n_numbers; i++)
    cav_xml_write_number (text, info->numbers[i].name, cut->numbers[info->numbers[i].number]);
  if (cut->path == NULL)
    {
      cav_xml_write_end (text);
      return;
    }
  cav_xml_write_open (text);
  cav_path_xml_write (text, depth + 1, cut->path);
  cav_xml_write_close (text, depth, info->name);
}
