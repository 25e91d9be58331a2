/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-svg-viewport.h"

#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include "geometry/cav-tolerance.h"
#include "storage/cav-number.h"

#define LEAST_SIZE 0.01

gboolean
cav_svg_length_parse (const char *text, double *out_units, gboolean *out_has_unit)
{
  static const struct
  {
    const char *word;
    double units;
  } units[] = {
    { "", 1.0 },
    { "px", 1.0 },
    { "mm", CAV_SVG_UNITS_PER_MM },
    { "cm", 10.0 * CAV_SVG_UNITS_PER_MM },
    { "in", CAV_SVG_UNITS_PER_INCH },
    { "pt", CAV_SVG_UNITS_PER_INCH / 72.0 },
    { "pc", CAV_SVG_UNITS_PER_INCH / 6.0 },
  };
  double number;

  while (g_ascii_isspace (*text))
    text++;
  if (!cav_number_scan (&text, &number))
    return FALSE;
  g_autofree char *word = g_strstrip (g_strdup (text));
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (strcmp (word, units[i].word) == 0)
      {
        *out_units = number * units[i].units;
        if (out_has_unit != NULL)
          *out_has_unit = i > 0;
        return isfinite (*out_units);
      }
  return FALSE;
}

/* A side of the picture in millimetres; without a unit nobody knows how large it is. */
static gboolean
read_size (const CavXml *xml, const xmlNode *root, const char *name, double *out_mm, GError **error)
{
  double units;
  gboolean has_unit;
  g_autofree char *text = cav_xml_dup_attribute (root, name);

  if (text == NULL)
    return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("the picture has no %s, so that its size is not known; set width and "
                            "height in millimetres, like %s=\"60mm\""),
                         name, name);
  g_autofree char *shown = cav_xml_dup_printable_value (text);
  if (!cav_svg_length_parse (text, &units, &has_unit) || !has_unit)
    return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                         _ ("the picture's %s is \"%s\", without a unit of length; set width and "
                            "height in millimetres, like %s=\"60mm\""),
                         name, shown, name);
  *out_mm = units / CAV_SVG_UNITS_PER_MM;
  if (*out_mm < LEAST_SIZE || *out_mm > CAV_COORDINATE_MAX)
    return cav_xml_fail (
        xml, root, CAV_STORAGE_ERROR_CONTENT, error,
        _ ("the picture's %s is \"%s\", which no molding has; set width and height "
           "in millimetres, like %s=\"60mm\""),
        name, shown, name);
  return TRUE;
}

static gboolean
parse_view_box (const char *text, double box[4])
{
  for (int i = 0; i < 4; i++)
    {
      while (g_ascii_isspace (*text) || (i > 0 && *text == ','))
        text++;
      if (!cav_number_scan (&text, &box[i]) || fabs (box[i]) > CAV_SVG_LARGEST_NUMBER)
        return FALSE;
    }
  while (g_ascii_isspace (*text))
    text++;
  return *text == '\0' && box[2] > 1e-9 && box[3] > 1e-9;
}

/* Share of the room left over that goes before the picture: "xMid" is half of it. */
static double
get_share (const char *align, const char *minimum, const char *maximum)
{
  if (strstr (align, minimum) != NULL)
    return 0.0;
  return strstr (align, maximum) != NULL ? 1.0 : 0.5;
}

static CavTransform
fit_box (const double box[4], double width, double height, const char *align)
{
  double sx = width / box[2];
  double sy = height / box[3];

  if (strstr (align, "none") == NULL)
    sx = sy = strstr (align, "slice") != NULL ? fmax (sx, sy) : fmin (sx, sy);

  double x = (width - sx * box[2]) * get_share (align, "xMin", "xMax");
  double y = (height - sy * box[3]) * get_share (align, "YMin", "YMax");
  return (CavTransform){ .xx = sx, .x0 = x - sx * box[0], .yy = sy, .y0 = y - sy * box[1] };
}

gboolean
cav_svg_viewport_read (const CavXml *xml,
                       const xmlNode *root,
                       double *out_width,
                       double *out_height,
                       CavTransform *out_map,
                       GError **error)
{
  double box[4];

  if (!read_size (xml, root, "width", out_width, error)
      || !read_size (xml, root, "height", out_height, error))
    return FALSE;

  g_autofree char *view_box = cav_xml_dup_attribute (root, "viewBox");
  g_autofree char *align = cav_xml_dup_attribute (root, "preserveAspectRatio");
  if (view_box == NULL)
    {
      *out_map = cav_transform_scale (1.0 / CAV_SVG_UNITS_PER_MM, 1.0 / CAV_SVG_UNITS_PER_MM);
      return TRUE;
    }
  if (!parse_view_box (view_box, box))
    {
      g_autofree char *shown = cav_xml_dup_printable_value (view_box);
      return cav_xml_fail (xml, root, CAV_STORAGE_ERROR_CONTENT, error,
                           _ ("viewBox=\"%s\" is not left, top, width and height; save the picture "
                              "anew with a page as large as the blank"),
                           shown);
    }
  *out_map = fit_box (box, *out_width, *out_height, align != NULL ? align : "xMidYMid meet");
  return TRUE;
}
