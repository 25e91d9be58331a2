/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-lettering.h"

#include <string.h>

static void
test_clean (void)
{
  static const struct
  {
    const char *desc;
    const char *text;
    const char *clean;
  } rows[] = {
    { "plain", "Fern frame", "Fern frame" },
    { "nothing", NULL, "" },
    { "markup stays text", "<b>a</b> & \"c\"", "<b>a</b> & \"c\"" },
    { "line breaks and tabs", "a\nb\r\n\tc", "a b c" },
    { "control characters", "a\001\033[31mb\177", "a[31mb" },
    { "broken UTF-8",
      "a\xff"
      "b",
      "a\xef\xbf\xbd"
      "b" },
    { "marks that turn the direction", "a\u202eb\u2066c\u200f", "abc" },
    { "blanks at the ends", "  a  ", "a" },
    { "other scripts stay", "\u05de\u05e1\u05d2", "\u05de\u05e1\u05d2" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *clean = cav_lettering_clean (rows[i].text);

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpstr (g_strchug (clean), ==, rows[i].clean);
    }
}

static void
test_width_grows_with_height (void)
{
  g_autoptr (CavLettering) lettering = cav_lettering_new ();
  double one = cav_lettering_get_width (lettering, "12.45", 1, FALSE);

  g_assert_cmpfloat (one, >, 2);
  g_assert_cmpfloat_with_epsilon (cav_lettering_get_width (lettering, "12.45", 8, FALSE), 8 * one,
                                  1e-6);
  g_assert_cmpfloat (cav_lettering_get_width (lettering, "12.45", 1, TRUE), >, one);
  g_assert_cmpfloat_with_epsilon (cav_lettering_get_width (lettering, "", 8, FALSE), 0, 1e-9);
}

/* The letters that are drawn are as high as was asked for, at any size. */
static void
test_height_is_that_of_figures (void)
{
  g_autoptr (CavLettering) lettering = cav_lettering_new ();
  static const double heights[] = { 20, 60, 180 };

  for (guint i = 0; i < G_N_ELEMENTS (heights); i++)
    {
      cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 400, 400);
      cairo_t *cr = cairo_create (surface);
      g_autoptr (PangoLayout) layout = cav_lettering_create_layout (lettering, cr);
      int stride = cairo_image_surface_get_stride (surface);
      const guchar *data;
      int first = -1;
      int last = -1;

      cairo_move_to (cr, 20, 300);
      cav_lettering_show (lettering, layout, cr, "1", heights[i], FALSE);
      cairo_surface_flush (surface);
      data = cairo_image_surface_get_data (surface);
      for (int y = 0; y < 400; y++)
        for (int x = 0; x < 400; x++)
          if (data[y * stride + x] > 127)
            {
              first = first < 0 ? y : first;
              last = y;
            }
      g_assert_cmpint (last, ==, 299);
      g_assert_cmpfloat_with_epsilon (last - first + 1, heights[i], 1.01);
      cairo_destroy (cr);
      cairo_surface_destroy (surface);
    }
}

static void
test_ellipsize (void)
{
  static const char *const texts[] = {
    "Fern frame",
    "A rather long title that goes on and on",
    "\u05de\u05e1\u05d2\u05e8\u05ea \u05e9\u05e8\u05da \u05d0\u05e8\u05d5\u05db\u05d4",
    "e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301",
    "<&\"<&\"<&\"<&\"<&\"<&\"",
  };
  g_autoptr (CavLettering) lettering = cav_lettering_new ();

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    for (double width = 0; width < 90; width += 7)
      {
        g_autofree char *text = cav_lettering_ellipsize (lettering, texts[i], 3, FALSE, width);
        gboolean whole = cav_lettering_get_width (lettering, texts[i], 3, FALSE) <= width;

        g_assert_true (g_utf8_validate (text, -1, NULL));
        g_assert_cmpfloat (cav_lettering_get_width (lettering, text, 3, FALSE), <=, width + 1e-9);
        g_assert_cmpint (strcmp (text, texts[i]) == 0, ==, whole);
        /* No accent is torn from its letter. */
        if (strlen (text) > 3 && !whole && i == 3)
          g_assert_true (g_str_has_suffix (text, "\u0301…"));
      }
}

static void
test_wrap (void)
{
  g_autoptr (CavLettering) lettering = cav_lettering_new ();
  const char *text = "one two three four five six seven eight nine ten";
  g_autoptr (GPtrArray) all = cav_lettering_wrap (lettering, text, 3, FALSE, 30, 0);
  g_autoptr (GPtrArray) two = cav_lettering_wrap (lettering, text, 3, FALSE, 30, 2);
  g_autoptr (GPtrArray) none = cav_lettering_wrap (lettering, "", 3, FALSE, 30, 0);
  g_autoptr (GPtrArray) held
      = cav_lettering_wrap (lettering, "height\302\240+\302\2404", 3, FALSE, 12, 0);
  g_autoptr (GString) joined = g_string_new (NULL);

  for (guint i = 0; i < all->len; i++)
    {
      const char *line = g_ptr_array_index (all, i);

      g_assert_cmpfloat (cav_lettering_get_width (lettering, line, 3, FALSE), <=, 30);
      g_string_append_printf (joined, "%s%s", i > 0 ? " " : "", line);
    }
  g_assert_cmpstr (joined->str, ==, text);
  g_assert_cmpuint (all->len, >, 2);
  g_assert_cmpuint (two->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (two, 0), ==, g_ptr_array_index (all, 0));
  g_assert_true (g_str_has_suffix (g_ptr_array_index (two, 1), "…"));
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_cmpuint (held->len, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/lettering/clean", test_clean);
  g_test_add_func ("/drawing/lettering/width-grows-with-height", test_width_grows_with_height);
  g_test_add_func ("/drawing/lettering/height-is-that-of-figures", test_height_is_that_of_figures);
  g_test_add_func ("/drawing/lettering/ellipsize", test_ellipsize);
  g_test_add_func ("/drawing/lettering/wrap", test_wrap);
  return g_test_run ();
}
