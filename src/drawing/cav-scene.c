/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-scene.h"

#include "drawing/cav-scene-private.h"

#include <glib/gi18n-lib.h>

/* How far letters reach below their baseline, as a share of their capitals' height. */
#define DESCENDER 0.33

/* clang-format off */
G_DEFINE_QUARK (cav-drawing-error, cav_drawing_error)
/* clang-format on */

static void
item_free (gpointer data)
{
  CavItem *item = data;

  g_clear_pointer (&item->paths, g_ptr_array_unref);
  g_clear_pointer (&item->stops, g_array_unref);
  g_clear_pointer (&item->surface, cairo_surface_destroy);
  g_free (item->title);
  g_free (item->description);
  g_free (item->text);
  g_free (item);
}

CavScene *
cav_scene_new (double width, double height)
{
  CavScene *self = g_new0 (CavScene, 1);

  self->width = width;
  self->height = height;
  self->title = g_strdup ("");
  self->description = g_strdup ("");
  self->lettering = cav_lettering_new ();
  self->items = g_ptr_array_new_with_free_func (item_free);
  self->texts = g_ptr_array_new ();
  return self;
}

void
cav_scene_free (CavScene *self)
{
  if (self == NULL)
    return;
  g_ptr_array_unref (self->texts);
  g_ptr_array_unref (self->items);
  cav_lettering_free (self->lettering);
  g_free (self->description);
  g_free (self->title);
  g_free (self);
}

double
cav_scene_get_width (const CavScene *self)
{
  return self->width;
}

double
cav_scene_get_height (const CavScene *self)
{
  return self->height;
}

void
cav_scene_set_title (CavScene *self, const char *title, const char *description)
{
  g_return_if_fail (self != NULL);

  g_free (self->title);
  g_free (self->description);
  self->title = cav_lettering_clean (title);
  self->description = cav_lettering_clean (description);
}

static void
enlarge_item (CavItem *item, double factor)
{
  CavTransform scale = cav_transform_scale (factor, factor);

  item->point = cav_transform_point (scale, item->point);
  item->text_style.height *= factor;
  item->box = (CavBox){ item->box.x0 * factor, item->box.y0 * factor, item->box.x1 * factor,
                        item->box.y1 * factor };
  for (guint i = 0; item->paths != NULL && i < item->paths->len; i++)
    {
      CavPath *path = g_ptr_array_index (item->paths, i);

      item->paths->pdata[i] = cav_path_transformed (path, scale);
      cav_path_free (path);
    }
}

void
cav_scene_enlarge (CavScene *self, double factor)
{
  g_return_if_fail (self != NULL && factor > 0);

  self->width *= factor;
  self->height *= factor;
  for (guint i = 0; i < self->items->len; i++)
    enlarge_item (g_ptr_array_index (self->items, i), factor);
}

CavLettering *
cav_scene_get_lettering (CavScene *self)
{
  return self->lettering;
}

static CavItem *
add_item (CavScene *self, CavItemKind kind)
{
  CavItem *item = g_new0 (CavItem, 1);

  item->kind = kind;
  g_ptr_array_add (self->items, item);
  return item;
}

void
cav_scene_begin_layer (CavScene *self, const char *id)
{
  g_return_if_fail (self != NULL && id != NULL);

  add_item (self, CAV_ITEM_LAYER)->text = g_strdup (id);
}

void
cav_scene_begin_titled_layer (CavScene *self,
                              const char *id,
                              const char *title,
                              const char *description)
{
  CavItem *item;

  g_return_if_fail (self != NULL && id != NULL && title != NULL);

  item = add_item (self, CAV_ITEM_LAYER);
  item->text = g_strdup (id);
  item->title = cav_lettering_clean (title);
  item->description = description != NULL ? cav_lettering_clean (description) : NULL;
}

void
cav_scene_end_layer (CavScene *self)
{
  g_return_if_fail (self != NULL);

  add_item (self, CAV_ITEM_END_LAYER);
}

static GPtrArray *
create_paths (const CavRegion *region, CavTransform map)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_path_free);

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    g_ptr_array_add (paths, cav_path_transformed (cav_region_get_ring (region, i), map));
  return paths;
}

void
cav_scene_begin_clip (CavScene *self, const CavRegion *region, CavTransform map)
{
  g_return_if_fail (self != NULL && region != NULL);

  add_item (self, CAV_ITEM_CLIP)->paths = create_paths (region, map);
}

void
cav_scene_end_clip (CavScene *self)
{
  g_return_if_fail (self != NULL);

  add_item (self, CAV_ITEM_END_CLIP);
}

static void
take_path (CavScene *self, CavPath *path, CavStyleName style)
{
  CavItem *item = add_item (self, CAV_ITEM_PATH);

  item->style = style;
  item->paths = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_path_free);
  g_ptr_array_add (item->paths, path);
}

void
cav_scene_add_path (CavScene *self, const CavPath *path, CavStyleName style)
{
  g_return_if_fail (self != NULL && path != NULL);

  take_path (self, cav_path_copy (path), style);
}

void
cav_scene_add_region (CavScene *self, const CavRegion *region, CavTransform map, CavStyleName style)
{
  CavItem *item;

  g_return_if_fail (self != NULL && region != NULL);

  if (cav_region_is_empty (region))
    return;
  item = add_item (self, CAV_ITEM_PATH);
  item->style = style;
  item->paths = create_paths (region, map);
}

void
cav_scene_add_polygon (CavScene *self, const CavPoint *points, guint n_points, CavStyleName style)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, points[0]);
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  take_path (self, path, style);
}

void
cav_scene_add_gradient (CavScene *self,
                        const CavPoint *points,
                        guint n_points,
                        CavPoint from,
                        CavPoint to,
                        const CavStop *stops,
                        guint n_stops)
{
  CavItem *item;
  CavPath *path;

  g_return_if_fail (self != NULL && n_points > 2 && n_stops > 0);

  path = cav_path_new ();
  cav_path_move_to (path, points[0]);
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  item = add_item (self, CAV_ITEM_GRADIENT);
  item->paths = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_path_free);
  g_ptr_array_add (item->paths, path);
  item->point = from;
  item->end = to;
  item->stops = g_array_sized_new (FALSE, FALSE, sizeof (CavStop), n_stops);
  g_array_append_vals (item->stops, stops, n_stops);
}

void
cav_scene_add_image (CavScene *self, cairo_surface_t *surface, CavBox box)
{
  CavItem *item;

  g_return_if_fail (self != NULL && surface != NULL);

  item = add_item (self, CAV_ITEM_IMAGE);
  item->surface = cairo_surface_reference (surface);
  item->box = box;
}

void
cav_scene_add_line (CavScene *self, CavPoint from, CavPoint to, CavStyleName style)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, from);
  cav_path_line_to (path, to);
  take_path (self, path, style);
}

void
cav_scene_add_box (CavScene *self, CavBox box, CavStyleName style)
{
  const CavPoint corners[] = { CAV_POINT (box.x0, box.y0), CAV_POINT (box.x1, box.y0),
                               CAV_POINT (box.x1, box.y1), CAV_POINT (box.x0, box.y1) };

  cav_scene_add_polygon (self, corners, G_N_ELEMENTS (corners), style);
}

/* One line of a hatch: from where x + y (rising) or x - y (falling) is constant. */
static void
add_hatch_line (CavScene *self, CavBox box, double constant, gboolean rising)
{
  double sign = rising ? 1 : -1;
  double x0 = MAX (box.x0, rising ? constant - box.y1 : constant + box.y0);
  double x1 = MIN (box.x1, rising ? constant - box.y0 : constant + box.y1);

  if (x1 - x0 > 0.1)
    cav_scene_add_line (self, CAV_POINT (x0, sign * (constant - x0)),
                        CAV_POINT (x1, sign * (constant - x1)), CAV_STYLE_HATCH);
}

void
cav_scene_add_hatch (CavScene *self, CavBox box, double spacing, gboolean rising)
{
  double step = spacing * G_SQRT2;
  double first = rising ? box.x0 + box.y0 : box.x0 - box.y1;
  double last = rising ? box.x1 + box.y1 : box.x1 - box.y0;

  g_return_if_fail (self != NULL && spacing > 0.1);

  for (double constant = first + step / 2; constant < last; constant += step)
    add_hatch_line (self, box, constant, rising);
}

/* Where a text begins on its baseline, as a shift along it. */
static double
get_shift (const CavTextStyle *style, double width)
{
  return style->align == CAV_ALIGN_START    ? 0
         : style->align == CAV_ALIGN_MIDDLE ? -width / 2
                                            : -width;
}

CavBox
cav_scene_get_text_box (CavScene *self, const char *text, CavPoint point, const CavTextStyle *style)
{
  double width = cav_lettering_get_width (self->lettering, text, style->height, style->bold);
  double shift = get_shift (style, width);
  double below = style->height * DESCENDER;

  if (style->turned)
    return cav_box (point.x - style->height, point.y - shift - width, point.x + below,
                    point.y - shift);
  return cav_box (point.x + shift, point.y - style->height, point.x + shift + width,
                  point.y + below);
}

void
cav_scene_add_text (CavScene *self, const char *text, CavPoint point, const CavTextStyle *style)
{
  CavItem *item;

  g_return_if_fail (self != NULL && text != NULL && style != NULL);

  if (*text == '\0')
    return;
  item = add_item (self, CAV_ITEM_TEXT);
  item->text = g_strdup (text);
  item->point = point;
  item->text_style = *style;
  item->box = cav_scene_get_text_box (self, text, point, style);
  g_ptr_array_add (self->texts, item);
}

void
cav_scene_add_text_within (
    CavScene *self, const char *text, CavPoint point, const CavTextStyle *style, double width)
{
  g_autofree char *clean = cav_lettering_clean (text);
  g_autofree char *fitting
      = cav_lettering_ellipsize (self->lettering, clean, style->height, style->bold, width);

  cav_scene_add_text (self, fitting, point, style);
}

static char *
describe_page (guint number, guint count, gboolean is_short)
{
  return is_short ? g_strdup_printf (_ ("%u of %u"), number, count)
                  : g_strdup_printf (_ ("Page %u of %u"), number, count);
}

void
cav_scene_add_page_number (CavScene *self,
                           guint number,
                           guint count,
                           gboolean is_short,
                           CavPoint point,
                           const CavTextStyle *style)
{
  g_return_if_fail (self != NULL && self->number == NULL && style != NULL);

  g_autofree char *text = describe_page (number, count, is_short);

  cav_scene_add_text (self, text, point, style);
  self->number = g_ptr_array_index (self->texts, self->texts->len - 1);
  self->short_number = is_short;
}

void
cav_scene_number_page (CavScene *self, guint number, guint count)
{
  CavItem *item;

  g_return_if_fail (self != NULL);

  item = self->number;
  if (item == NULL)
    return;
  g_free (item->text);
  item->text = describe_page (number, count, self->short_number);
  item->box = cav_scene_get_text_box (self, item->text, item->point, &item->text_style);
}

guint
cav_scene_get_text_count (const CavScene *self)
{
  return self->texts->len;
}

CavBox
cav_scene_get_text (const CavScene *self,
                    guint index,
                    const char **out_text,
                    const CavTextStyle **out_style)
{
  const CavItem *item = g_ptr_array_index (self->texts, index);

  *out_text = item->text;
  *out_style = &item->text_style;
  return item->box;
}
