/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-picture.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <glib/gi18n-lib.h>
#include <string.h>

#include "tool/cav-tool.h"

static void
set_error (GError **error, const char *path, const char *what)
{
  g_autofree char *name = g_filename_display_basename (path);

  g_set_error (error, CAV_TOOL_ERROR, 0, "%s: %s", name, what);
}

/* Looks at the head of the file only, so that a bomb is not opened at all. */
static gboolean
check_size (const char *path, GError **error)
{
  int width = 0;
  int height = 0;

  if (!g_file_test (path, G_FILE_TEST_IS_REGULAR))
    {
      set_error (error, path, _ ("the picture is not there; put it back or choose another"));
      return FALSE;
    }
  if (gdk_pixbuf_get_file_info (path, &width, &height) == NULL)
    {
      set_error (error, path,
                 _ ("this is no image that can be read here; choose a PNG or JPEG file"));
      return FALSE;
    }
  if (width > CAV_PICTURE_SIDE_MAX || height > CAV_PICTURE_SIDE_MAX
      || (double)width * height > CAV_PICTURE_PIXELS_MAX)
    {
      g_autofree char *what = g_strdup_printf (
          _ ("the image has %d × %d pixels, more than %d on a side or %.0f million in all; save it "
             "smaller"),
          width, height, CAV_PICTURE_SIDE_MAX, CAV_PICTURE_PIXELS_MAX / 1e6);

      set_error (error, path, what);
      return FALSE;
    }
  return TRUE;
}

/* One channel over white. */
static guint
lay_on_white (guint value, guint alpha)
{
  return (value * alpha + 255 * (255 - alpha) + 127) / 255;
}

static cairo_surface_t *
create_surface (const GdkPixbuf *pixbuf)
{
  int width = gdk_pixbuf_get_width (pixbuf);
  int height = gdk_pixbuf_get_height (pixbuf);
  int n_channels = gdk_pixbuf_get_n_channels (pixbuf);
  const guchar *from = gdk_pixbuf_read_pixels (pixbuf);
  gsize from_stride = (gsize)gdk_pixbuf_get_rowstride (pixbuf);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, width, height);

  if (cairo_surface_status (surface) != CAIRO_STATUS_SUCCESS)
    return surface;
  guchar *to = cairo_image_surface_get_data (surface);
  gsize to_stride = (gsize)cairo_image_surface_get_stride (surface);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        const guchar *pixel = from + (gsize)y * from_stride + (gsize)x * (gsize)n_channels;
        guint alpha = n_channels == 4 ? pixel[3] : 255;
        guint32 colour = lay_on_white (pixel[0], alpha) << 16 | lay_on_white (pixel[1], alpha) << 8
                         | lay_on_white (pixel[2], alpha);

        memcpy (to + (gsize)y * to_stride + (gsize)x * 4, &colour, 4);
      }
  cairo_surface_mark_dirty (surface);
  return surface;
}

/* Shrinks what is larger than a screen. */
static GdkPixbuf *
shrink (GdkPixbuf *pixbuf)
{
  int width = gdk_pixbuf_get_width (pixbuf);
  int height = gdk_pixbuf_get_height (pixbuf);
  double scale = (double)CAV_PICTURE_KEPT / MAX (width, height);

  if (scale >= 1.0)
    return g_object_ref (pixbuf);
  return gdk_pixbuf_scale_simple (pixbuf, MAX (1, (int)(width * scale)),
                                  MAX (1, (int)(height * scale)), GDK_INTERP_BILINEAR);
}

cairo_surface_t *
cav_picture_load (const char *path, GError **error)
{
  g_autoptr (GError) local_error = NULL;

  g_return_val_if_fail (path != NULL, NULL);

  if (!check_size (path, error))
    return NULL;
  g_autoptr (GdkPixbuf) read = gdk_pixbuf_new_from_file (path, &local_error);
  g_autoptr (GdkPixbuf) turned = read != NULL ? gdk_pixbuf_apply_embedded_orientation (read) : NULL;
  g_autoptr (GdkPixbuf) pixbuf = turned != NULL ? shrink (turned) : NULL;
  if (pixbuf == NULL)
    {
      g_autofree char *what = g_strdup_printf (
          _ ("the image is damaged or cut short (%s); copy it again, or choose a PNG or JPEG file"),
          local_error != NULL ? local_error->message : _ ("not enough memory"));

      set_error (error, path, what);
      return NULL;
    }
  cairo_surface_t *surface = create_surface (pixbuf);
  if (cairo_surface_status (surface) == CAIRO_STATUS_SUCCESS)
    return surface;
  cairo_surface_destroy (surface);
  set_error (error, path, _ ("there is not enough memory for the image; save it smaller"));
  return NULL;
}

char *
cav_picture_find (const char *picture_file, const char *project_file)
{
  g_return_val_if_fail (picture_file != NULL, NULL);

  if (g_path_is_absolute (picture_file) || project_file == NULL)
    return g_strdup (picture_file);
  g_autofree char *folder = g_path_get_dirname (project_file);
  return g_build_filename (folder, picture_file, NULL);
}
