/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-picture.h"

#include <glib/gstdio.h>
#include <string.h>

#include "tool/cav-tool.h"

static char *folder;

static char *
write_file (const char *name, const void *data, gsize length)
{
  char *path = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (path, data, (gssize)length, NULL));
  return path;
}

/* (transfer full) a PNG of that size whose left half is clear. */
static char *
write_png (const char *name, int width, int height)
{
  char *path = g_build_filename (folder, name, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, width, height);
  cairo_t *cr = cairo_create (surface);

  cairo_rectangle (cr, width / 2.0, 0, width / 2.0, height);
  cairo_set_source_rgb (cr, 0, 0x80 / 255.0, 0x40 / 255.0);
  cairo_fill (cr);
  cairo_destroy (cr);
  g_assert_cmpint (cairo_surface_write_to_png (surface, path), ==, CAIRO_STATUS_SUCCESS);
  cairo_surface_destroy (surface);
  return path;
}

static guint32
get_pixel (cairo_surface_t *surface, int x, int y)
{
  guint32 pixel;

  memcpy (&pixel,
          cairo_image_surface_get_data (surface)
              + (gsize)y * (gsize)cairo_image_surface_get_stride (surface) + (gsize)x * 4,
          4);
  return pixel & 0xffffff;
}

/* Colours come through, and what is clear is white. */
static void
test_reads (void)
{
  g_autofree char *path = write_png ("fern.png", 40, 30);
  g_autoptr (GError) error = NULL;
  cairo_surface_t *surface = cav_picture_load (path, &error);

  g_assert_no_error (error);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 40);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 30);
  g_assert_cmphex (get_pixel (surface, 3, 3), ==, 0xffffff);
  g_assert_cmphex (get_pixel (surface, 30, 20), ==, 0x008040);
  cairo_surface_destroy (surface);
}

/* What is larger than a screen is kept smaller, in its own shape. */
static void
test_shrinks (void)
{
  g_autofree char *path = write_png ("wide.png", 4800, 600);
  cairo_surface_t *surface = cav_picture_load (path, NULL);

  g_assert_nonnull (surface);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, CAV_PICTURE_KEPT);
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 300);
  cairo_surface_destroy (surface);
}

static void
assert_refused (const char *path, const char *says)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = g_path_get_basename (path);

  g_assert_null (cav_picture_load (path, &error));
  g_assert_nonnull (error);
  g_test_message ("%s", error->message);
  g_assert_true (error->domain == CAV_TOOL_ERROR);
  g_assert_true (g_str_has_prefix (error->message, name));
  g_assert_nonnull (strstr (error->message, says));
}

/* A head of a PNG that promises 30,000 pixels a side is enough to be refused. */
static void
test_bad_files (void)
{
  static const guchar huge[] = {
    0x89, 'P',  'N',  'G', '\r', '\n', 0x1a, '\n', 0, 0, 0, 13, 'I', 'H', 'D', 'R', 0,
    0,    0x75, 0x30, 0,   0,    0x75, 0x30, 8,    2, 0, 0, 0,  0,   0,   0,   0,
  };
  g_autofree char *whole = write_png ("whole.png", 300, 300);
  g_autofree char *text = write_file ("text.png", "no image at all\n", 16);
  g_autofree char *empty = write_file ("empty.jpg", "", 0);
  g_autofree char *large = write_file ("large.png", huge, sizeof huge);
  g_autofree char *missing = g_build_filename (folder, "gone", "fern.png", NULL);
  g_autofree char *data = NULL;
  g_autofree char *cut = NULL;
  gsize length = 0;

  assert_refused (text, "no image");
  assert_refused (empty, "no image");
  assert_refused (missing, "not there");
  assert_refused (folder, "not there");
  g_assert_true (g_file_get_contents (whole, &data, &length, NULL));
  cut = write_file ("cut.png", data, length / 2);
  assert_refused (cut, "cut short");
  /* The checksum of the head is wrong, which some loaders see before the size. */
  g_autoptr (GError) error = NULL;
  g_assert_null (cav_picture_load (large, &error));
  g_assert_nonnull (error);
}

/* A real one of 21,000 pixels on a side, one pixel high. */
static void
test_too_wide (void)
{
  g_autofree char *path = write_png ("line.png", 21000, 1);

  assert_refused (path, "21000 × 1 pixels");
}

static void
test_find (void)
{
  g_autofree char *beside = cav_picture_find ("fern.png", "/frames/frame.cavetto");
  g_autofree char *whole = cav_picture_find ("/pictures/fern.png", "/frames/frame.cavetto");
  g_autofree char *unsaved = cav_picture_find ("fern.png", NULL);

  g_assert_cmpstr (beside, ==, "/frames/fern.png");
  g_assert_cmpstr (whole, ==, "/pictures/fern.png");
  g_assert_cmpstr (unsaved, ==, "fern.png");
}

static void
remove_folder (void)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_cmpint (g_unlink (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_free (folder);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  folder = g_dir_make_tmp ("cavetto-picture-XXXXXX", NULL);
  g_assert_nonnull (folder);
  g_test_add_func ("/tool/picture/reads", test_reads);
  g_test_add_func ("/tool/picture/shrinks", test_shrinks);
  g_test_add_func ("/tool/picture/bad-files", test_bad_files);
  g_test_add_func ("/tool/picture/too-wide", test_too_wide);
  g_test_add_func ("/tool/picture/find", test_find);
  result = g_test_run ();
  remove_folder ();
  return result;
}
