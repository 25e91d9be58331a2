/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "geometry/cav-tolerance.h"
#include "storage/cav-number.h"
#include "storage/cav-svg-path.h"
#include "storage/cav-svg-shape.h"
#include "storage/cav-svg-transform.h"
#include "storage/cav-svg-viewport.h"
#include "storage/cav-xml.h"

#define SVG_NAMESPACE "http://www.w3.org/2000/svg"

typedef struct
{
  const CavXml *xml;
  CavOutlineBuilder builder;
} Reader;

/* Elements without a namespace count as well: hand-written pictures often forget it. */
static gboolean
is_svg_element (const xmlNode *node)
{
  return node->type == XML_ELEMENT_NODE
         && (node->ns == NULL || strcmp ((const char *)node->ns->href, SVG_NAMESPACE) == 0);
}

static gboolean
is_one_of (const xmlNode *node, const char *const *names)
{
  return g_strv_contains (names, (const char *)node->name);
}

static gboolean
style_has (const char *style, const char *declaration)
{
  g_autoptr (GString) bare = g_string_new (";");

  for (const char *at = style; *at != '\0'; at++)
    if (!g_ascii_isspace (*at))
      g_string_append_c (bare, *at);
  g_string_append_c (bare, ';');
  return strstr (bare->str, declaration) != NULL;
}

/* display="none" hides an element with all that it holds. */
static gboolean
is_hidden (const xmlNode *node)
{
  g_autofree char *display = cav_xml_dup_attribute (node, "display");
  g_autofree char *style = cav_xml_dup_attribute (node, "style");

  return g_strcmp0 (display, "none") == 0 || (style != NULL && style_has (style, ";display:none;"));
}

/* visibility goes down to what an element holds, which may say otherwise. */
static gboolean
is_visible (const xmlNode *node, gboolean inherited)
{
  g_autofree char *visibility = cav_xml_dup_attribute (node, "visibility");
  g_autofree char *style = cav_xml_dup_attribute (node, "style");

  if (style != NULL
      && (style_has (style, ";visibility:hidden;") || style_has (style, ";visibility:collapse;")))
    return FALSE;
  if (style != NULL && style_has (style, ";visibility:visible;"))
    return TRUE;
  if (visibility == NULL || strcmp (visibility, "inherit") == 0)
    return inherited;
  return strcmp (visibility, "visible") == 0;
}

static gboolean
get_map (Reader *reader, const xmlNode *node, CavTransform outer, CavTransform *out, GError **error)
{
  CavTransform own;
  g_autofree char *text = cav_xml_dup_attribute (node, "transform");

  *out = outer;
  if (text == NULL)
    return TRUE;
  if (!cav_svg_transform_parse (text, &own))
    {
      g_autofree char *shown = cav_xml_dup_printable_value (text);
      return cav_xml_fail (reader->xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("transform=\"%s\" of <%s> cannot be used; apply transforms in the "
                              "drawing program and save anew"),
                           shown, (const char *)node->name);
    }
  *out = cav_transform_compose (own, outer);
  return TRUE;
}

static gboolean
draw (Reader *reader, const xmlNode *node, CavTransform map, GError **error)
{
  GError *cause = NULL;

  reader->builder.transform = map;
  reader->builder.line = (int)xmlGetLineNo (node);
  return cav_svg_shape_draw (node, &reader->builder, &cause)
         || cav_xml_fail_with (reader->xml, node, cause, error);
}

static gboolean read_children (
    Reader *reader, const xmlNode *node, CavTransform map, gboolean visible, GError **error);

static gboolean
read_element (
    Reader *reader, const xmlNode *node, CavTransform outer, gboolean visible, GError **error)
{
  static const char *const groups[] = { "g", "a", "switch", NULL };
  static const char *const not_read[] = { "use", "svg", NULL };
  CavTransform map;

  if (is_hidden (node))
    return TRUE;
  visible = is_visible (node, visible);
  if (is_one_of (node, groups))
    return get_map (reader, node, outer, &map, error)
           && read_children (reader, node, map, visible, error);
  if (!visible)
    return TRUE;
  if (is_one_of (node, not_read))
    return cav_xml_fail (reader->xml, node, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("<%s> inside the picture is not read; turn it into a path"),
                         (const char *)node->name);
  /* Definitions, descriptions, text and images draw no outline. */
  if (!cav_svg_shape_is_known (node))
    return TRUE;
  return get_map (reader, node, outer, &map, error) && draw (reader, node, map, error);
}

static gboolean
read_children (
    Reader *reader, const xmlNode *node, CavTransform map, gboolean visible, GError **error)
{
  for (const xmlNode *child = node->children; child != NULL; child = child->next)
    if (is_svg_element (child) && !read_element (reader, child, map, visible, error))
      return FALSE;
  return TRUE;
}

static gboolean
fail_open (
    const Reader *reader, const CavOutline *outline, double gap, CavPoint end, GError **error)
{
  g_autoptr (GString) width = g_string_new (NULL);
  g_autoptr (GString) x = g_string_new (NULL);
  g_autoptr (GString) y = g_string_new (NULL);

  cav_number_append_rounded (width, gap, 2);
  cav_number_append_rounded (x, end.x, 2);
  cav_number_append_rounded (y, end.y, 2);
  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
               /* Translators: file and line; then the gap and the place of the path's end. */
               _ ("%s:%d: the path does not close: a gap of %s mm from its end at (%s, %s) to its "
                  "start; join the ends"),
               reader->xml->name, outline->line, width->str, x->str, y->str);
  return FALSE;
}

/* The one closed outline, or an error that says what there is instead. */
static const CavOutline *
get_only_outline (const Reader *reader, GError **error)
{
  const GPtrArray *outlines = reader->builder.outlines;
  const xmlNode *root = cav_xml_get_root (reader->xml);
  CavPoint end;

  if (outlines->len == 0)
    {
      cav_xml_fail (reader->xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                    _ ("no outline in the picture; draw the molding's edge as one closed path"));
      return NULL;
    }
  const CavOutline *first = g_ptr_array_index (outlines, 0);
  if (outlines->len > 1)
    {
      const CavOutline *second = g_ptr_array_index (outlines, 1);

      g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
                   g_dngettext (GETTEXT_PACKAGE,
                                "%s:%d: %u outline in the picture; combine them into one closed "
                                "path that follows the molding's edge",
                                "%s:%d: %u outlines in the picture; combine them into one closed "
                                "path that follows the molding's edge",
                                outlines->len),
                   reader->xml->name, second->line, outlines->len);
      return NULL;
    }
  double gap = cav_outline_get_gap (first, &end);
  if (!first->closed && gap > CAV_OUTLINE_CLOSE)
    {
      fail_open (reader, first, gap, end, error);
      return NULL;
    }
  return first;
}

static CavPath *
read_outline (Reader *reader, CavTransform map, GError **error)
{
  const xmlNode *root = cav_xml_get_root (reader->xml);

  if (!read_children (reader, root, map, TRUE, error))
    return NULL;
  const CavOutline *outline = get_only_outline (reader, error);
  if (outline == NULL)
    return NULL;

  g_autoptr (CavPath) path = cav_outline_create_path (outline);
  if (cav_path_get_segment_count (path) < 2
      || fabs (cav_path_get_signed_area (path)) <= CAV_TOLERANCE_CHORD)
    {
      g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
                   _ ("%s:%d: the outline encloses nothing; draw the molding's edge all around"),
                   reader->xml->name, outline->line);
      return NULL;
    }
  return g_steal_pointer (&path);
}

CavPath *
cav_svg_read_outline (const CavXml *xml, double *out_width, double *out_height, GError **error)
{
  Reader reader = { .xml = xml };
  CavTransform map;
  const xmlNode *root = cav_xml_get_root (xml);

  if (!is_svg_element (root) || strcmp ((const char *)root->name, "svg") != 0)
    {
      g_autofree char *shown = cav_xml_dup_printable_value ((const char *)root->name);
      cav_xml_fail (
          xml, root, CAV_STORAGE_ERROR_WRONG_KIND, error,
          _ ("not an SVG picture: it begins with <%s>, not with <svg>; choose another file"),
          shown);
      return NULL;
    }
  if (!cav_svg_viewport_read (xml, root, out_width, out_height, &map, error))
    return NULL;

  cav_outline_builder_init (&reader.builder);
  CavPath *path = read_outline (&reader, map, error);
  cav_outline_builder_clear (&reader.builder);
  return path;
}
