/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>

#include <libxml/xmlwriter.h>

#include "drawing/cav-byte-stream-private.h"
#include "drawing/cav-scene-private.h"

/* A ten thousandth of a millimetre on paper: finer than any plotter, and arcs still close. */
#define DECIMALS "%.4f"

static void
append_number (GString *out, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];
  char *end;

  g_ascii_formatd (buffer, sizeof buffer, DECIMALS, value);
  end = buffer + strlen (buffer) - 1;
  while (*end == '0')
    *end-- = '\0';
  if (*end == '.')
    *end = '\0';
  g_string_append (out, g_str_equal (buffer, "-0") ? "0" : buffer);
}

static void
append_point (GString *out, char letter, CavPoint point)
{
  if (letter != '\0')
    g_string_append_c (out, letter);
  append_number (out, point.x);
  g_string_append_c (out, ' ');
  append_number (out, point.y);
}

static void
append_arc_part (GString *out, const CavSegment *arc, double sweep, CavPoint to)
{
  g_string_append_c (out, 'A');
  append_number (out, arc->rx);
  g_string_append_c (out, ' ');
  append_number (out, arc->ry);
  g_string_append_c (out, ' ');
  append_number (out, arc->rotation);
  g_string_append_printf (out, " %d %d ", fabs (sweep) > 180 ? 1 : 0, sweep > 0 ? 1 : 0);
  append_point (out, '\0', to);
}

/* The command A says nothing where its ends are near each other, so a wide arc goes in halves. */
static void
append_arc (GString *out, const CavSegment *arc)
{
  if (fabs (arc->sweep) > 270)
    {
      append_arc_part (out, arc, arc->sweep / 2, cav_segment_point_at (arc, 0.5));
      append_arc_part (out, arc, arc->sweep / 2, arc->to);
    }
  else
    append_arc_part (out, arc, arc->sweep, arc->to);
}

static void
append_path (GString *out, const CavPath *path)
{
  guint n_segments = cav_path_get_segment_count (path);

  /* The last line of a closed path is Z's to draw. */
  append_point (out, 'M', cav_path_get_start (path));
  for (guint i = 0; i < n_segments; i++)
    {
      const CavSegment *segment = cav_path_get_segment (path, i);

      if (segment->kind == CAV_SEGMENT_ARC)
        append_arc (out, segment);
      else if (i + 1 < n_segments || !cav_path_is_closed (path))
        append_point (out, 'L', segment->to);
    }
  if (cav_path_is_closed (path))
    g_string_append_c (out, 'Z');
}

typedef struct
{
  CavScene *scene;
  xmlTextWriter *writer;
  guint n_clips;
  guint n_gradients;
  gboolean has_failed; /* something is missing in it */
} Svg;

static void
start (Svg *svg, const char *name)
{
  xmlTextWriterStartElement (svg->writer, BAD_CAST name);
}

static void
end (Svg *svg)
{
  xmlTextWriterEndElement (svg->writer);
}

static void
attribute (Svg *svg, const char *name, const char *value)
{
  xmlTextWriterWriteAttribute (svg->writer, BAD_CAST name, BAD_CAST value);
}

static void
attribute_number (Svg *svg, const char *name, double value, const char *unit)
{
  g_autoptr (GString) text = g_string_new (NULL);

  append_number (text, value);
  g_string_append (text, unit);
  attribute (svg, name, text->str);
}

static void
attribute_ink (Svg *svg, const char *name, CavInk ink)
{
  CavColour colour = cav_ink_get_colour (ink);
  g_autofree char *text = g_strdup_printf ("#%02x%02x%02x", colour.red, colour.green, colour.blue);

  attribute (svg, name, ink == CAV_INK_NONE ? "none" : text);
}

static void
attribute_paths (Svg *svg, const GPtrArray *paths)
{
  g_autoptr (GString) data = g_string_new (NULL);

  for (guint i = 0; i < paths->len; i++)
    append_path (data, g_ptr_array_index (paths, i));
  attribute (svg, "d", data->str);
}

static void
write_path (Svg *svg, const CavItem *item)
{
  const CavStyle *style = cav_style_get (item->style);
  const double *lengths;
  guint n_lengths = cav_dash_get_pattern (style->dash, &lengths);

  start (svg, "path");
  attribute_paths (svg, item->paths);
  attribute_ink (svg, "fill", style->fill);
  if (item->paths->len > 1)
    attribute (svg, "fill-rule", "evenodd");
  if (style->line != CAV_INK_NONE)
    {
      attribute_ink (svg, "stroke", style->line);
      attribute_number (svg, "stroke-width", style->width, "");
    }
  if (n_lengths > 0)
    {
      g_autoptr (GString) dashes = g_string_new (NULL);

      for (guint i = 0; i < n_lengths; i++)
        {
          append_number (dashes, lengths[i]);
          g_string_append (dashes, i + 1 < n_lengths ? " " : "");
        }
      attribute (svg, "stroke-dasharray", dashes->str);
    }
  end (svg);
}

static void
write_stop (Svg *svg, const CavStop *stop)
{
  g_autofree char *colour
      = g_strdup_printf ("#%02x%02x%02x", stop->colour.red, stop->colour.green, stop->colour.blue);

  start (svg, "stop");
  attribute_number (svg, "offset", stop->share, "");
  attribute (svg, "stop-color", colour);
  if (stop->clear > 0.0)
    attribute_number (svg, "stop-opacity", 1.0 - stop->clear, "");
  end (svg);
}

static void
write_gradient (Svg *svg, const CavItem *item)
{
  g_autofree char *id = g_strdup_printf ("gradient-%u", ++svg->n_gradients);
  g_autofree char *reference = g_strdup_printf ("url(#%s)", id);

  start (svg, "linearGradient");
  attribute (svg, "id", id);
  attribute (svg, "gradientUnits", "userSpaceOnUse");
  attribute_number (svg, "x1", item->point.x, "");
  attribute_number (svg, "y1", item->point.y, "");
  attribute_number (svg, "x2", item->end.x, "");
  attribute_number (svg, "y2", item->end.y, "");
  for (guint i = 0; i < item->stops->len; i++)
    write_stop (svg, &g_array_index (item->stops, CavStop, i));
  end (svg);
  start (svg, "path");
  attribute_paths (svg, item->paths);
  attribute (svg, "fill", reference);
  end (svg);
}

/* As PNG within the file, so that it stays one file. */
static void
write_image (Svg *svg, const CavItem *item)
{
  g_autoptr (GByteArray) png = g_byte_array_new ();
  g_autofree char *base64 = NULL;
  g_autofree char *link = NULL;

  if (cairo_surface_write_to_png_stream (item->surface, cav_byte_stream_append_cb, png)
      != CAIRO_STATUS_SUCCESS)
    {
      svg->has_failed = TRUE;
      return;
    }
  base64 = g_base64_encode (png->data, png->len);
  link = g_strconcat ("data:image/png;base64,", base64, NULL);
  start (svg, "image");
  attribute_number (svg, "x", item->box.x0, "");
  attribute_number (svg, "y", item->box.y0, "");
  attribute_number (svg, "width", item->box.x1 - item->box.x0, "");
  attribute_number (svg, "height", item->box.y1 - item->box.y0, "");
  attribute (svg, "preserveAspectRatio", "none");
  /* The older name is the one that every reader knows. */
  attribute (svg, "xlink:href", link);
  end (svg);
}

static void
write_text (Svg *svg, const CavItem *item)
{
  static const char *const anchors[] = { "start", "middle", "end" };
  const CavTextStyle *style = &item->text_style;

  start (svg, "text");
  if (style->turned)
    {
      g_autoptr (GString) transform = g_string_new ("translate(");

      append_point (transform, '\0', item->point);
      g_string_append (transform, ") rotate(-90)");
      attribute (svg, "transform", transform->str);
    }
  else
    {
      attribute_number (svg, "x", item->point.x, "");
      attribute_number (svg, "y", item->point.y, "");
    }
  attribute_number (svg, "font-size",
                    cav_lettering_get_font_size (svg->scene->lettering, style->height), "");
  if (style->bold)
    attribute (svg, "font-weight", "bold");
  if (style->align != CAV_ALIGN_START)
    attribute (svg, "text-anchor", anchors[style->align]);
  attribute_ink (svg, "fill", style->ink);
  xmlTextWriterWriteString (svg->writer, BAD_CAST item->text);
  end (svg);
}

static void
write_clip (Svg *svg, const CavItem *item)
{
  g_autofree char *id = g_strdup_printf ("clip-%u", ++svg->n_clips);
  g_autofree char *reference = g_strdup_printf ("url(#%s)", id);

  start (svg, "clipPath");
  attribute (svg, "id", id);
  start (svg, "path");
  attribute_paths (svg, item->paths);
  attribute (svg, "clip-rule", "evenodd");
  end (svg);
  end (svg);
  start (svg, "g");
  attribute (svg, "clip-path", reference);
}

static void
write_element (Svg *svg, const char *name, const char *text)
{
  start (svg, name);
  xmlTextWriterWriteString (svg->writer, BAD_CAST text);
  end (svg);
}

static void
write_layer (Svg *svg, const CavItem *item)
{
  start (svg, "g");
  attribute (svg, "id", item->text);
  if (item->title != NULL)
    write_element (svg, "title", item->title);
  if (item->description != NULL)
    write_element (svg, "desc", item->description);
}

static void
write_item (Svg *svg, const CavItem *item)
{
  switch (item->kind)
    {
    case CAV_ITEM_PATH:
      write_path (svg, item);
      break;
    case CAV_ITEM_TEXT:
      write_text (svg, item);
      break;
    case CAV_ITEM_LAYER:
      write_layer (svg, item);
      break;
    case CAV_ITEM_GRADIENT:
      write_gradient (svg, item);
      break;
    case CAV_ITEM_IMAGE:
      write_image (svg, item);
      break;
    case CAV_ITEM_CLIP:
      write_clip (svg, item);
      break;
    case CAV_ITEM_END_LAYER:
    case CAV_ITEM_END_CLIP:
      end (svg);
      break;
    }
}

static gboolean
has_image (const CavScene *scene)
{
  for (guint i = 0; i < scene->items->len; i++)
    if (((const CavItem *)g_ptr_array_index (scene->items, i))->kind == CAV_ITEM_IMAGE)
      return TRUE;
  return FALSE;
}

static void
write_document (Svg *svg)
{
  CavScene *scene = svg->scene;
  g_autoptr (GString) view = g_string_new ("0 0 ");

  append_point (view, '\0', CAV_POINT (scene->width, scene->height));
  xmlTextWriterSetIndent (svg->writer, 1);
  xmlTextWriterSetIndentString (svg->writer, BAD_CAST " ");
  xmlTextWriterStartDocument (svg->writer, NULL, "UTF-8", NULL);
  start (svg, "svg");
  attribute (svg, "xmlns", "http://www.w3.org/2000/svg");
  if (has_image (scene))
    attribute (svg, "xmlns:xlink", "http://www.w3.org/1999/xlink");
  attribute (svg, "version", "1.1");
  attribute_number (svg, "width", scene->width, "mm");
  attribute_number (svg, "height", scene->height, "mm");
  attribute (svg, "viewBox", view->str);
  attribute (svg, "font-family", CAV_LETTERING_FAMILY);
  write_element (svg, "title", scene->title);
  write_element (svg, "desc", scene->description);
  for (guint i = 0; i < scene->items->len; i++)
    write_item (svg, g_ptr_array_index (scene->items, i));
  if (xmlTextWriterEndDocument (svg->writer) < 0)
    svg->has_failed = TRUE;
}

GBytes *
cav_scene_create_svg (CavScene *self, GError **error)
{
  Svg svg = { .scene = self };
  xmlBuffer *buffer;
  GBytes *bytes = NULL;

  g_return_val_if_fail (self != NULL, NULL);

  buffer = xmlBufferCreate ();
  svg.writer = buffer != NULL ? xmlNewTextWriterMemory (buffer, 0) : NULL;
  if (svg.writer != NULL)
    {
      write_document (&svg);
      xmlFreeTextWriter (svg.writer);
      if (!svg.has_failed)
        bytes = g_bytes_new (xmlBufferContent (buffer), (gsize)xmlBufferLength (buffer));
    }
  g_clear_pointer (&buffer, xmlBufferFree);
  if (bytes == NULL)
    g_set_error_literal (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
                         _ ("the drawing could not be written for want of memory; try again with "
                            "less else running"));
  return bytes;
}
