/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-scene.h"

#include <locale.h>
#include <stdlib.h>
#include <string.h>

#include "drawing-tools.h"

#define STYLE(...) (&(const CavTextStyle){ .height = 4, .ink = CAV_INK_BLACK, ##__VA_ARGS__ })

static CavPath *
create_circle (double x, double y, double radius)
{
  CavPath *path = cav_path_new ();

  cav_path_arc (path, CAV_POINT (x, y), radius, radius, 0, 360);
  cav_path_close (path);
  return path;
}

static char *
dup_svg (CavScene *scene)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) bytes = cav_scene_create_svg (scene, &error);
  gsize length;
  const char *data;

  g_assert_no_error (error);
  data = g_bytes_get_data (bytes, &length);
  return g_strndup (data, length);
}

static void
test_svg_text (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 50);
  g_autofree char *svg = NULL;

  cav_scene_set_title (scene, "<script>alert(1)</script> & \"x\"", "a < b");
  cav_scene_begin_layer (scene, "words");
  cav_scene_add_text (scene, "½ <&\"> –", CAV_POINT (10, 20), STYLE ());
  cav_scene_add_text (scene, "up", CAV_POINT (10, 40), STYLE (.turned = TRUE, .bold = TRUE));
  cav_scene_end_layer (scene);
  svg = dup_svg (scene);
  g_assert_null (strstr (svg, "<script"));
  g_assert_nonnull (strstr (svg, "<title>&lt;script&gt;alert(1)&lt;/script&gt; &amp;"));
  g_assert_nonnull (strstr (svg, ">½ &lt;&amp;&quot;&gt; –</text>"));
  g_assert_nonnull (strstr (svg, "width=\"100mm\" height=\"50mm\" viewBox=\"0 0 100 50\""));
  g_assert_nonnull (strstr (svg, "<g id=\"words\">"));
  g_assert_nonnull (strstr (svg, "translate(10 40) rotate(-90)"));
  g_assert_nonnull (strstr (svg, "font-weight=\"bold\""));
}

static void
test_svg_arcs (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100, 50);
  g_autoptr (CavPath) circle = create_circle (30, 20, 7.5);
  g_autoptr (CavPath) quarter = cav_path_new ();
  g_autofree char *svg = NULL;

  cav_path_arc (quarter, CAV_POINT (60, 20), 8, 4, 90, -90);
  cav_scene_add_path (scene, circle, CAV_STYLE_OUTLINE);
  cav_scene_add_path (scene, quarter, CAV_STYLE_OUTLINE);
  svg = dup_svg (scene);
  /* A full circle cannot be one command: SVG 1.1, appendix F.6.2. */
  g_assert_nonnull (strstr (svg, "M37.5 20A7.5 7.5 0 0 1 22.5 20A7.5 7.5 0 0 1 37.5 20Z"));
  g_assert_nonnull (strstr (svg, "M60 24A8 4 0 0 0 68 20\""));
}

/* The numbers of a drawing do not follow the language of its user. */
static void
test_svg_locale (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (100.5, 50);
  g_autofree char *before = dup_svg (scene);
  g_autofree char *after = NULL;

  if (setlocale (LC_NUMERIC, "de_DE.UTF-8") == NULL)
    g_test_message ("no German locale here: the same numbers are looked at once more");
  after = dup_svg (scene);
  setlocale (LC_NUMERIC, "C");
  g_assert_cmpstr (before, ==, after);
  g_assert_nonnull (strstr (after, "100.5mm"));
}

/* Both back ends paint the same picture. */
static void
test_back_ends_agree (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (60, 40);
  g_autoptr (CavPath) circle = create_circle (20, 20, 12);
  g_autoptr (CavRegion) box = cav_region_new_box (12, 4, 52, 22);
  g_autoptr (GBytes) png = NULL;
  g_autoptr (GBytes) svg = NULL;
  cairo_surface_t *one;
  cairo_surface_t *other;
  int n_far = 0;

  cav_scene_add_box (scene, cav_box (0, 0, 60, 40), CAV_STYLE_PAPER);
  cav_scene_begin_clip (scene, box, cav_transform_identity ());
  cav_scene_add_hatch (scene, cav_box (0, 0, 60, 40), 3, TRUE);
  cav_scene_add_path (scene, circle, CAV_STYLE_CHIPS);
  cav_scene_end_clip (scene);
  cav_scene_add_region (scene, box, cav_transform_translation (2, 14), CAV_STYLE_BEFORE);
  cav_scene_add_text (scene, "12.45", CAV_POINT (50, 36), STYLE (.align = CAV_ALIGN_END));
  cav_scene_add_text (scene, "9.5", CAV_POINT (10, 20), STYLE (.turned = TRUE));
  png = cav_scene_create_png (scene, 254, NULL);
  svg = cav_scene_create_svg (scene, NULL);
  one = tool_load_png (png);
  other = tool_render_svg (svg, 254);
  g_assert_cmpint (cairo_image_surface_get_width (one), ==, 600);
  g_assert_cmpint (cairo_image_surface_get_height (one), ==, 400);
  g_assert_cmpint (cairo_image_surface_get_width (other), ==, 600);
  for (int y = 0; y < 400; y++)
    for (int x = 0; x < 600; x++)
      n_far += abs (tool_get_grey (one, x, y) - tool_get_grey (other, x, y)) > 60;
  g_assert_cmpint (n_far, <, 600 * 400 / 200);
  /* Inside the clip the disk is dark, outside of it white. */
  g_assert_cmpint (tool_get_grey (one, 200, 150), <, 90);
  g_assert_cmpint (tool_get_grey (other, 200, 150), <, 90);
  g_assert_cmpint (tool_get_grey (one, 100, 150), >, 240);
  g_assert_cmpint (tool_get_grey (other, 100, 150), >, 240);
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
}

static void
test_text_boxes (void)
{
  g_autoptr (CavScene) scene = cav_scene_new (60, 40);
  CavBox start = cav_scene_get_text_box (scene, "123", CAV_POINT (10, 20), STYLE ());
  CavBox middle = cav_scene_get_text_box (scene, "123", CAV_POINT (10, 20),
                                          STYLE (.align = CAV_ALIGN_MIDDLE));
  CavBox turned = cav_scene_get_text_box (scene, "123", CAV_POINT (10, 20),
                                          STYLE (.align = CAV_ALIGN_END, .turned = TRUE));
  double width = start.x1 - start.x0;

  g_assert_cmpfloat_with_epsilon (start.x0, 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (start.y0, 16, 1e-9);
  g_assert_cmpfloat_with_epsilon ((middle.x0 + middle.x1) / 2, 10, 1e-9);
  g_assert_cmpfloat_with_epsilon (turned.y0, 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (turned.y1, 20 + width, 1e-9);
  g_assert_cmpfloat_with_epsilon (turned.x0, 6, 1e-9);
}

static void
test_pdf (void)
{
  g_autoptr (GPtrArray) pages = g_ptr_array_new_with_free_func ((GDestroyNotify)cav_scene_free);
  g_autoptr (GBytes) pdf = NULL;
  g_autoptr (GBytes) again = NULL;
  g_autoptr (GBytes) dated = NULL;
  g_autofree char *info = NULL;
  g_autofree char *dated_info = NULL;
  const char *const arguments[] = { "pdfinfo", "-isodates", "-f", "1", "-l", "2", "@", NULL };

  g_ptr_array_add (pages, cav_scene_new (297, 210));
  g_ptr_array_add (pages, cav_scene_new (100, 200));
  cav_scene_add_text (pages->pdata[0], "words", CAV_POINT (20, 30), STYLE ());
  pdf = cav_scene_create_pdf (pages, "A title <&>", "Kind", NULL, NULL);
  again = cav_scene_create_pdf (pages, "A title <&>", "Kind", "spring", NULL);
  dated = cav_scene_create_pdf (pages, "A title <&>", "Kind", "2025-03-01", NULL);
  g_assert_true (g_bytes_equal (pdf, again));
  g_assert_false (g_bytes_equal (pdf, dated));
  info = tool_run_text (pdf, arguments);
  dated_info = tool_run_text (dated, arguments);
  g_assert_nonnull (strstr (info, "A title <&>"));
  g_assert_nonnull (strstr (info, "2000-01-01T00:00:00Z"));
  g_assert_nonnull (strstr (dated_info, "2025-03-01T00:00:00Z"));
  g_assert_nonnull (strstr (info, "841.89 x 595.276"));
  g_assert_nonnull (strstr (info, "283.465 x 566.929"));
  g_setenv ("SOURCE_DATE_EPOCH", "86400", TRUE);
  g_clear_pointer (&again, g_bytes_unref);
  g_clear_pointer (&info, g_free);
  again = cav_scene_create_pdf (pages, "A title <&>", "Kind", NULL, NULL);
  info = tool_run_text (again, arguments);
  g_unsetenv ("SOURCE_DATE_EPOCH");
  g_assert_nonnull (strstr (info, "1970-01-02T00:00:00Z"));
}

/* A page's number is set anew where it stands, its box with it; other pages stay without one. */
static void
test_page_number (void)
{
  const CavTextStyle style
      = { .height = 3.2, .bold = TRUE, .ink = CAV_INK_BLACK, .align = CAV_ALIGN_END };
  g_autoptr (CavScene) scene = cav_scene_new (100, 50);
  g_autoptr (CavScene) bare = cav_scene_new (100, 50);
  const CavTextStyle *found;
  const char *text;
  CavBox box;

  cav_scene_add_page_number (scene, 1, 2, FALSE, CAV_POINT (90, 40), &style);
  box = cav_scene_get_text (scene, 0, &text, &found);
  g_assert_cmpstr (text, ==, "Page 1 of 2");
  cav_scene_number_page (scene, 11, 12);
  g_assert_cmpuint (cav_scene_get_text_count (scene), ==, 1);
  g_assert_cmpfloat (cav_scene_get_text (scene, 0, &text, &found).x0, <, box.x0);
  g_assert_cmpstr (text, ==, "Page 11 of 12");
  cav_scene_number_page (bare, 11, 12);
  g_assert_cmpuint (cav_scene_get_text_count (bare), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/scene/svg-text", test_svg_text);
  g_test_add_func ("/drawing/scene/svg-arcs", test_svg_arcs);
  g_test_add_func ("/drawing/scene/svg-locale", test_svg_locale);
  g_test_add_func ("/drawing/scene/back-ends-agree", test_back_ends_agree);
  g_test_add_func ("/drawing/scene/text-boxes", test_text_boxes);
  g_test_add_func ("/drawing/scene/pdf", test_pdf);
  g_test_add_func ("/drawing/scene/page-number", test_page_number);
  return g_test_run ();
}
