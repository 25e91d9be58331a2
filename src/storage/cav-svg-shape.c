/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg-shape.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "storage/cav-number.h"
#include "storage/cav-svg-path.h"
#include "storage/cav-svg-viewport.h"

typedef gboolean (*ShapeFunc) (const xmlNode *node, CavOutlineBuilder *builder, GError **error);

static gboolean
fail (GError **error, const char *what)
{
  g_set_error (error, CAV_STORAGE_ERROR, CAV_STORAGE_ERROR_CONTENT,
               _ ("%s; turn the shape into a path in the drawing program"), what);
  return FALSE;
}

/* A length in user units; value stays where the attribute is missing. */
static gboolean
get_length (const xmlNode *node, const char *name, double *value, GError **error)
{
  g_autofree char *text = cav_xml_dup_attribute (node, name);

  if (text == NULL)
    return TRUE;
  if (cav_svg_length_parse (text, value, NULL) && fabs (*value) <= CAV_SVG_LARGEST_NUMBER)
    return TRUE;
  g_autofree char *shown = cav_xml_dup_printable_value (text);
  g_autofree char *what = g_strdup_printf (_ ("%s=\"%s\" of <%s> is not a length"), name, shown,
                                           (const char *)node->name);
  return fail (error, what);
}

static gboolean
draw_path (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  g_autofree char *data = cav_xml_dup_attribute (node, "d");

  return data == NULL || cav_svg_path_draw (data, builder, error);
}

static gboolean
draw_polygon (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  g_autofree char *text = cav_xml_dup_attribute (node, "points");
  const char *at = text != NULL ? text : "";

  for (int i = 0;; i++)
    {
      CavPoint point;

      while (g_ascii_isspace (*at) || *at == ',')
        at++;
      if (*at == '\0')
        break;
      if (!cav_number_scan (&at, &point.x))
        return fail (error, _ ("the points are not pairs of numbers"));
      while (g_ascii_isspace (*at) || *at == ',')
        at++;
      if (!cav_number_scan (&at, &point.y))
        return fail (error, _ ("the points are not pairs of numbers"));
      if (i == 0)
        cav_outline_builder_move_to (builder, point);
      else if (!cav_outline_builder_line_to (builder, point, error))
        return FALSE;
    }
  if (strcmp ((const char *)node->name, "polygon") == 0)
    return cav_outline_builder_close (builder, error);
  cav_outline_builder_finish (builder);
  return TRUE;
}

static gboolean
draw_line (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  CavPoint from = { 0, 0 }, to = { 0, 0 };

  if (!get_length (node, "x1", &from.x, error) || !get_length (node, "y1", &from.y, error)
      || !get_length (node, "x2", &to.x, error) || !get_length (node, "y2", &to.y, error))
    return FALSE;
  cav_outline_builder_move_to (builder, from);
  if (!cav_outline_builder_line_to (builder, to, error))
    return FALSE;
  cav_outline_builder_finish (builder);
  return TRUE;
}

static gboolean
draw_oval (CavOutlineBuilder *builder, CavPoint centre, double rx, double ry, GError **error)
{
  CavPoint right = CAV_POINT (centre.x + rx, centre.y);
  CavPoint left = CAV_POINT (centre.x - rx, centre.y);

  if (rx <= 0.0 || ry <= 0.0)
    return TRUE;
  cav_outline_builder_move_to (builder, right);
  return cav_outline_builder_arc_to (builder, rx, ry, 0, FALSE, TRUE, left, error)
         && cav_outline_builder_arc_to (builder, rx, ry, 0, FALSE, TRUE, right, error)
         && cav_outline_builder_close (builder, error);
}

static gboolean
draw_circle (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  CavPoint centre = { 0, 0 };
  double r = 0;

  return get_length (node, "cx", &centre.x, error) && get_length (node, "cy", &centre.y, error)
         && get_length (node, "r", &r, error) && draw_oval (builder, centre, r, r, error);
}

static gboolean
draw_ellipse (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  CavPoint centre = { 0, 0 };
  double rx = 0, ry = 0;

  return get_length (node, "cx", &centre.x, error) && get_length (node, "cy", &centre.y, error)
         && get_length (node, "rx", &rx, error) && get_length (node, "ry", &ry, error)
         && draw_oval (builder, centre, rx, ry, error);
}

typedef struct
{
  double x, y, width, height;
  double rx, ry;
} Rectangle;

/* Clockwise on the page from the top left, by SVG 1.1, section 9.2. */
static gboolean
draw_corners (CavOutlineBuilder *builder, const Rectangle *r, GError **error)
{
  double x0 = r->x, x1 = r->x + r->width, y0 = r->y, y1 = r->y + r->height;
  double rx = r->rx, ry = r->ry;

#define LINE(x, y) cav_outline_builder_line_to (builder, CAV_POINT (x, y), error)
#define CORNER(x, y)                                                                               \
  cav_outline_builder_arc_to (builder, rx, ry, 0, FALSE, TRUE, CAV_POINT (x, y), error)
  cav_outline_builder_move_to (builder, CAV_POINT (x0 + rx, y0));
  return LINE (x1 - rx, y0) && CORNER (x1, y0 + ry) && LINE (x1, y1 - ry) && CORNER (x1 - rx, y1)
         && LINE (x0 + rx, y1) && CORNER (x0, y1 - ry) && LINE (x0, y0 + ry) && CORNER (x0 + rx, y0)
         && cav_outline_builder_close (builder, error);
#undef LINE
#undef CORNER
}

static gboolean
draw_rectangle (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  Rectangle r = { 0 };

  if (!get_length (node, "x", &r.x, error) || !get_length (node, "y", &r.y, error)
      || !get_length (node, "width", &r.width, error)
      || !get_length (node, "height", &r.height, error) || !get_length (node, "rx", &r.rx, error)
      || !get_length (node, "ry", &r.ry, error))
    return FALSE;
  if (r.width <= 0.0 || r.height <= 0.0)
    return TRUE;
  /* One radius alone stands for both. */
  if (!cav_xml_has (node, "rx"))
    r.rx = r.ry;
  if (!cav_xml_has (node, "ry"))
    r.ry = r.rx;
  r.rx = CLAMP (r.rx, 0.0, r.width / 2.0);
  r.ry = CLAMP (r.ry, 0.0, r.height / 2.0);
  if (r.rx <= 0.0 || r.ry <= 0.0)
    r.rx = r.ry = 0.0;
  return draw_corners (builder, &r, error);
}

static ShapeFunc
find_shape (const xmlNode *node)
{
  static const struct
  {
    const char *name;
    ShapeFunc draw;
  } shapes[] = {
    { "path", draw_path },       { "rect", draw_rectangle }, { "circle", draw_circle },
    { "ellipse", draw_ellipse }, { "line", draw_line },      { "polyline", draw_polygon },
    { "polygon", draw_polygon },
  };

  for (guint i = 0; i < G_N_ELEMENTS (shapes); i++)
    if (strcmp ((const char *)node->name, shapes[i].name) == 0)
      return shapes[i].draw;
  return NULL;
}

gboolean
cav_svg_shape_is_known (const xmlNode *node)
{
  return find_shape (node) != NULL;
}

gboolean
cav_svg_shape_draw (const xmlNode *node, CavOutlineBuilder *builder, GError **error)
{
  ShapeFunc draw = find_shape (node);

  g_return_val_if_fail (draw != NULL, FALSE);

  return draw (node, builder, error);
}
