/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <glib/gi18n-lib.h>
#include <math.h>
#include <string.h>

#include <cairo-pdf.h>

#include "drawing/cav-byte-stream-private.h"
#include "drawing/cav-scene-private.h"
#include "drawing/cav-trace.h"
#include "geometry/cav-unit.h"

#define POINTS_PER_MM (72.0 / CAV_INCH)

static void
set_ink (cairo_t *cr, CavLight light, CavInk ink)
{
  CavColour colour = cav_light_get_ink (light, ink);

  cairo_set_source_rgb (cr, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
}

static void
trace_paths (cairo_t *cr, const GPtrArray *paths)
{
  cairo_new_path (cr);
  for (guint i = 0; i < paths->len; i++)
    cav_path_trace (cr, g_ptr_array_index (paths, i));
}

static void
render_path (cairo_t *cr, CavLight light, const CavItem *item)
{
  const CavStyle *style = cav_style_get (item->style);
  const double *lengths;
  guint n_lengths = cav_dash_get_pattern (style->dash, &lengths);

  trace_paths (cr, item->paths);
  if (style->fill != CAV_INK_NONE)
    {
      set_ink (cr, light, style->fill);
      cairo_fill_preserve (cr);
    }
  if (style->line != CAV_INK_NONE)
    {
      set_ink (cr, light, style->line);
      cairo_set_line_width (cr, style->width);
      cairo_set_dash (cr, lengths, (int)n_lengths, 0);
      cairo_stroke_preserve (cr);
    }
  cairo_new_path (cr);
}

static void
render_gradient (cairo_t *cr, const CavItem *item)
{
  cairo_pattern_t *pattern
      = cairo_pattern_create_linear (item->point.x, item->point.y, item->end.x, item->end.y);

  for (guint i = 0; i < item->stops->len; i++)
    {
      const CavStop *stop = &g_array_index (item->stops, CavStop, i);

      cairo_pattern_add_color_stop_rgba (pattern, stop->share, stop->colour.red / 255.0,
                                         stop->colour.green / 255.0, stop->colour.blue / 255.0,
                                         1.0 - stop->clear);
    }
  trace_paths (cr, item->paths);
  cairo_set_source (cr, pattern);
  cairo_fill (cr);
  cairo_pattern_destroy (pattern);
}

static void
render_image (cairo_t *cr, const CavItem *item)
{
  double width = cairo_image_surface_get_width (item->surface);
  double height = cairo_image_surface_get_height (item->surface);

  if (width < 1 || height < 1)
    return;
  cairo_save (cr);
  cairo_translate (cr, item->box.x0, item->box.y0);
  cairo_scale (cr, (item->box.x1 - item->box.x0) / width, (item->box.y1 - item->box.y0) / height);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  cairo_set_source_surface (cr, item->surface, 0, 0);
  cairo_pattern_set_extend (cairo_get_source (cr), CAIRO_EXTEND_PAD);
  cairo_paint (cr);
  cairo_restore (cr);
}

static void
render_text (CavScene *self, cairo_t *cr, CavLight light, PangoLayout *layout, const CavItem *item)
{
  const CavTextStyle *style = &item->text_style;

  cairo_save (cr);
  set_ink (cr, light, style->ink);
  /* The box already knows where the text begins, whatever its alignment. */
  if (style->turned)
    cairo_translate (cr, item->point.x, item->box.y1);
  else
    cairo_translate (cr, item->box.x0, item->point.y);
  if (style->turned)
    cairo_rotate (cr, -G_PI / 2);
  cairo_move_to (cr, 0, 0);
  cav_lettering_show (self->lettering, layout, cr, item->text, style->height, style->bold);
  cairo_restore (cr);
}

static void
render_item (CavScene *self, cairo_t *cr, CavLight light, PangoLayout *layout, const CavItem *item)
{
  switch (item->kind)
    {
    case CAV_ITEM_PATH:
      render_path (cr, light, item);
      break;
    case CAV_ITEM_GRADIENT:
      render_gradient (cr, item);
      break;
    case CAV_ITEM_IMAGE:
      render_image (cr, item);
      break;
    case CAV_ITEM_TEXT:
      render_text (self, cr, light, layout, item);
      break;
    case CAV_ITEM_CLIP:
      cairo_save (cr);
      trace_paths (cr, item->paths);
      cairo_clip (cr);
      break;
    case CAV_ITEM_END_CLIP:
      cairo_restore (cr);
      break;
    case CAV_ITEM_LAYER:
    case CAV_ITEM_END_LAYER:
      break;
    }
}

void
cav_scene_render (CavScene *self, cairo_t *cr)
{
  cav_scene_render_in (self, cr, CAV_LIGHT_PAPER);
}

void
cav_scene_render_in (CavScene *self, cairo_t *cr, CavLight light)
{
  g_autoptr (PangoLayout) layout = NULL;

  g_return_if_fail (self != NULL && cr != NULL);

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  /* Of the device's unit, a point or a pixel: on paper an arc is drawn within 0.02 mm. */
  cairo_set_tolerance (cr, MIN (cairo_get_tolerance (cr), 0.05));
  layout = cav_lettering_create_layout (self->lettering, cr);
  for (guint i = 0; i < self->items->len; i++)
    render_item (self, cr, light, layout, g_ptr_array_index (self->items, i));
  cairo_restore (cr);
}

static gboolean
check_status (cairo_status_t status, gboolean is_sheet, GError **error)
{
  if (status == CAIRO_STATUS_SUCCESS)
    return TRUE;
  g_set_error (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED,
               is_sheet
                   ? _ ("the sheet could not be drawn (%s); try again with less else running")
                   : _ ("the picture could not be drawn (%s); try again with less else running"),
               cairo_status_to_string (status));
  return FALSE;
}

GBytes *
cav_scene_create_png (CavScene *self, double dots_per_inch, GError **error)
{
  double scale = dots_per_inch / CAV_INCH;
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_t *cr;
  cairo_status_t status;

  g_return_val_if_fail (self != NULL, NULL);

  surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)lround (self->width * scale),
                                        (int)lround (self->height * scale));
  cr = cairo_create (surface);
  set_ink (cr, CAV_LIGHT_PAPER, CAV_INK_WHITE);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  cav_scene_render (self, cr);
  status = cairo_status (cr);
  cairo_destroy (cr);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, cav_byte_stream_append_cb, bytes);
  cairo_surface_destroy (surface);
  if (!check_status (status, FALSE, error))
    return NULL;
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}

/* The moment that goes into the file, as ISO 8601: never the clock's. */
static char *
create_file_date (const char *date)
{
  const char *epoch = g_getenv ("SOURCE_DATE_EPOCH");
  gint64 seconds = 0;
  int year, month, day, length = 0;

  if (date != NULL && sscanf (date, "%4d-%2d-%2d%n", &year, &month, &day, &length) == 3
      && (gsize)length == strlen (date) && year > 0 && month > 0 && day > 0
      && g_date_valid_dmy ((GDateDay)day, (GDateMonth)month, (GDateYear)year))
    return g_strdup_printf ("%04d-%02d-%02dT00:00:00Z", year, month, day);
  if (epoch != NULL
      && g_ascii_string_to_signed (epoch, 10, 0, G_GINT64_CONSTANT (253402300799), &seconds, NULL))
    {
      g_autoptr (GDateTime) moment = g_date_time_new_from_unix_utc (seconds);

      return g_date_time_format (moment, "%Y-%m-%dT%H:%M:%SZ");
    }
  return g_strdup ("2000-01-01T00:00:00Z");
}

static void
set_metadata (cairo_surface_t *surface, const char *title, const char *subject, const char *date)
{
  g_autofree char *clean_title = cav_lettering_clean (title);
  g_autofree char *file_date = create_file_date (date);

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, clean_title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, subject);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Cavetto " CAV_VERSION);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, file_date);
}

GBytes *
cav_scene_create_pdf (const GPtrArray *pages,
                      const char *title,
                      const char *subject,
                      const char *date,
                      GError **error)
{
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  cairo_surface_t *surface;
  cairo_t *cr;
  cairo_status_t status;

  g_return_val_if_fail (pages != NULL && pages->len > 0, NULL);

  surface = cairo_pdf_surface_create_for_stream (cav_byte_stream_append_cb, bytes, 100, 100);
  set_metadata (surface, title, subject, date);
  cr = cairo_create (surface);
  for (guint i = 0; i < pages->len; i++)
    {
      CavScene *page = g_ptr_array_index (pages, i);

      cairo_pdf_surface_set_size (surface, page->width * POINTS_PER_MM,
                                  page->height * POINTS_PER_MM);
      cairo_save (cr);
      cairo_scale (cr, POINTS_PER_MM, POINTS_PER_MM);
      cav_scene_render (page, cr);
      cairo_restore (cr);
      cairo_show_page (cr);
    }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (!check_status (status, TRUE, error))
    return NULL;
  return g_byte_array_free_to_bytes (g_steal_pointer (&bytes));
}
