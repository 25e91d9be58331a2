/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include "drawing/cav-sheet-private.h"
#include "drawing-samples.h"
#include "drawing-tools.h"

static GBytes *
create_svg (CavProject *project, const CavSheetOptions *options)
{
  g_autoptr (GError) error = NULL;
  GBytes *svg = cav_section_drawing_create_svg (project, options, &error);

  g_assert_no_error (error);
  return svg;
}

/* The text of an XPath expression over an SVG, its namespace being s. */
static char *
query (GBytes *svg, const char *expression)
{
  gsize length;
  const char *data = g_bytes_get_data (svg, &length);
  xmlDoc *doc = xmlReadMemory (data, (int)length, "drawing.svg", NULL, XML_PARSE_NONET);
  xmlXPathContext *context;
  xmlXPathObject *result;
  xmlChar *text;
  char *copy;

  g_assert_nonnull (doc);
  context = xmlXPathNewContext (doc);
  xmlXPathRegisterNs (context, BAD_CAST "s", BAD_CAST "http://www.w3.org/2000/svg");
  result = xmlXPathEval (BAD_CAST expression, context);
  g_assert_nonnull (result);
  text = xmlXPathCastToString (result);
  copy = g_strdup ((const char *)text);
  xmlFree (text);
  xmlXPathFreeObject (result);
  xmlXPathFreeContext (context);
  xmlFreeDoc (doc);
  return copy;
}

static void
assert_query (GBytes *svg, const char *expression, const char *expected)
{
  g_autofree char *text = query (svg, expression);

  g_test_message ("%s", expression);
  g_assert_cmpstr (text, ==, expected);
}

static void
test_svg_structure (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) svg = create_svg (project, &options);
  static const char *const layers[]
      = { "sheet", "waste", "blank", "end-grain", "profile", "names", "dimensions", "title-block" };

  assert_query (svg, "string(/s:svg/@width)", "297mm");
  assert_query (svg, "string(/s:svg/@height)", "210mm");
  assert_query (svg, "string(/s:svg/@viewBox)", "0 0 297 210");
  assert_query (svg, "string(/s:svg/s:title)", "Fern frame");
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      g_autofree char *expression = g_strdup_printf ("count(//s:g[@id='%s'])", layers[i]);

      assert_query (svg, expression, "1");
    }
  assert_query (svg, "count(//s:text[.='face'])", "1");
  assert_query (svg, "count(//s:text[.='back, to the wall'])", "1");
  assert_query (svg, "count(//s:text[.='sight edge, inside'])", "1");
  assert_query (svg, "count(//s:text[.='outside'])", "1");
  assert_query (svg, "count(//s:g[@id='title-block']/s:text[.='2:1'])", "1");
  assert_query (svg, "count(//s:g[@id='title-block']/s:text[.='millimetres'])", "1");
  assert_query (svg, "count(//s:g[@id='title-block']/s:text[.='2025-03-01'])", "1");
  /* Overall, rabbet, cove with its radius, groove and where it is. */
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='60'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='22'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='6.35'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='9.5'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='R 9.53'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='12'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='20'])", "1");
  assert_query (svg, "count(//s:g[@id='dimensions']/s:text[.='2.5'])", "1");
}

/* The cove is one circular arc of 9.525 mm, at 2:1. */
static void
test_svg_true_arcs (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) svg = create_svg (project, &options);
  g_autofree char *path = query (svg, "string(//s:g[@id='profile']/s:path/@d)");
  char *end;
  const char *arc = strchr (path, 'A');

  g_assert_nonnull (arc);
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (arc + 1, &end), 19.05, 1e-4);
  g_assert_cmpfloat_with_epsilon (g_ascii_strtod (end, &end), 19.05, 1e-4);
  g_assert_null (strchr (arc + 1, 'A'));
  g_assert_null (strchr (path, 'C'));
}

static void
test_hostile_titles (void)
{
  static const char *const titles[] = {
    "<script>alert(1)</script>", "\"><script>alert(1)</script>",         "]]>&amp;<![CDATA[",
    "\001\002 \xff\xfe",         "\u202e\u05de\u05e1\u05d2\u05e8\u05ea", "",
  };
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    {
      g_autoptr (GBytes) svg = NULL;

      cav_project_set_title (project, titles[i]);
      svg = create_svg (project, &options);
      assert_query (svg, "count(//*[local-name()='script'])", "0");
      assert_query (svg, "count(/s:svg/s:title)", "1");
      if (i == 0)
        assert_query (svg, "string(/s:svg/s:title)", titles[i]);
    }
}

/* First and last dark dot of a row or column, as a distance in dots. */
static int
measure_span (cairo_surface_t *picture, int fixed, int from, int to, gboolean along_x)
{
  int first = -1;
  int last = -1;

  for (int i = from; i < to; i++)
    {
      int grey = along_x ? tool_get_grey (picture, i, fixed) : tool_get_grey (picture, fixed, i);

      if (grey < 100)
        {
          first = first < 0 ? i : first;
          last = i;
        }
    }
  g_assert_cmpint (first, >=, 0);
  return last - first;
}

/* The corner of a box that is drawn by M and L. */
static CavPoint
find_lower_left (const char *path)
{
  CavPoint corner = { G_MAXDOUBLE, -G_MAXDOUBLE };
  g_auto (GStrv) points = g_strsplit_set (path, "MLZ", -1);

  for (guint i = 0; points[i] != NULL; i++)
    if (*points[i] != '\0')
      {
        char *end;

        corner.x = fmin (corner.x, g_ascii_strtod (points[i], &end));
        corner.y = fmax (corner.y, g_ascii_strtod (end, NULL));
      }
  return corner;
}

/* A blank of 40 x 10 mm at 2:1 is 80 x 20 mm on paper: measured between the middles of the outlines
 * (0.5 mm wide) in a raster of 10 dots a millimetre. */
static void
test_measured_in_raster (void)
{
  g_autoptr (CavProject) project = sample_project_new_plain (40, 10);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) svg = create_svg (project, &options);
  g_autoptr (GBytes) pdf = cav_section_drawing_create_pdf (project, &options, NULL);
  cairo_surface_t *pictures[] = { tool_render_svg (svg, 254), tool_render_pdf (pdf, 0, 254) };
  g_autofree char *path = query (svg, "string(//s:g[@id='profile']/s:path/@d)");
  CavPoint corner = find_lower_left (path);
  int left = (int)lround (corner.x * 10);
  int low = (int)lround (corner.y * 10);

  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      /* Everything else keeps 3 mm away. */
      g_assert_cmpint (
          abs (measure_span (pictures[i], low - 100, left - 20, left + 820, TRUE) - 805), <=, 2);
      g_assert_cmpint (
          abs (measure_span (pictures[i], left + 300, low - 220, low + 20, FALSE) - 205), <=, 2);
      cairo_surface_destroy (pictures[i]);
    }
}

static void
test_png_is_the_same_drawing (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_INCH, CAV_PAPER_LETTER);
  g_autoptr (GBytes) svg = create_svg (project, &options);
  g_autoptr (GBytes) png = cav_section_drawing_create_png (project, &options, NULL);
  cairo_surface_t *one = tool_load_png (png);
  cairo_surface_t *other = tool_render_svg (svg, 200);
  int width = cairo_image_surface_get_width (one);
  int height = cairo_image_surface_get_height (one);
  int n_far = 0;
  int n_dark = 0;

  g_assert_cmpint (width, ==, 2200);
  g_assert_cmpint (height, ==, 1700);
  g_assert_cmpint (cairo_image_surface_get_width (other), ==, width);
  g_assert_cmpint (cairo_image_surface_get_height (other), ==, height);
  for (int y = 0; y < height; y++)
    for (int x = 0; x < width; x++)
      {
        int grey = tool_get_grey (one, x, y);

        n_far += abs (grey - tool_get_grey (other, x, y)) > 80;
        n_dark += grey < 128;
      }
  g_assert_cmpint (n_dark, >, 10000);
  /* Two programs smooth the edges of thin lines each in its way. */
  g_assert_cmpint (n_far, <, n_dark / 12);
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
}

static void
test_pdf (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) pdf = cav_section_drawing_create_pdf (project, &options, NULL);
  g_autoptr (GBytes) again = cav_section_drawing_create_pdf (project, &options, NULL);
  g_autoptr (GPtrArray) words = tool_read_words (pdf);
  g_autofree char *text = tool_join_words (words, 0);
  const char *const arguments[] = { "pdfinfo", "@", NULL };
  g_autofree char *info = tool_run_text (pdf, arguments);

  g_assert_true (g_bytes_equal (pdf, again));
  g_assert_nonnull (strstr (text, "Fern frame"));
  g_assert_nonnull (strstr (text, "Section of the rail"));
  g_assert_nonnull (strstr (text, "Groove, face: position 26, width 12, depth 2.5"));
  g_assert_nonnull (strstr (info, "841.89 x 595.276 pts (A4)"));
  tool_assert_apart (words);
}

static void
test_scales (void)
{
  static const struct
  {
    double width;
    double thickness;
    const char *scale;
  } rows[] = { { 20, 12, "5:1" }, { 60, 22, "2:1" },   { 120, 30, "1:1" },
               { 45, 90, "1:1" }, { 300, 100, "1:2" }, { 500, 500, "1:5" } };
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavProject) project = sample_project_new_plain (rows[i].width, rows[i].thickness);
      g_autoptr (GBytes) svg = create_svg (project, &options);
      g_autofree char *expression
          = g_strdup_printf ("count(//s:g[@id='title-block']/s:text[.='%s'])", rows[i].scale);

      assert_query (svg, expression, "1");
    }
}

static CavCut *
create_random_cut (GRand *random, const CavBlank *blank)
{
  CavCut *cut = cav_cut_new ((CavCutKind)g_rand_int_range (random, 0, CAV_CUT_DRAWN));

  if (cut->anchor == CAV_ANCHOR_CORNER)
    cut->corner = (CavCorner)g_rand_int_range (random, 0, CAV_N_CORNERS);
  else
    cut->side = (CavSide)g_rand_int_range (random, 0, CAV_N_SIDES);
  cut->numbers[CAV_CUT_WIDTH] = g_rand_double_range (random, 1, blank->width / 3);
  cut->numbers[CAV_CUT_DEPTH] = g_rand_double_range (random, 1, blank->thickness / 3);
  return cut;
}

/* Whatever the cuts, no text lies on another or leaves the sheet. */
static void
test_random_sections (void)
{
  guint32 seed = g_test_rand_int_range (0, G_MAXINT32);
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);

  g_test_message ("seed %u", seed);
  for (int round = 0; round < 40; round++)
    {
      CavBlank blank
          = { g_rand_double_range (random, 12, 150), g_rand_double_range (random, 8, 60) };
      g_autoptr (CavProject) project = sample_project_new_plain (blank.width, blank.thickness);
      CavSheetOptions options = sample_options (round % 2 == 0 ? CAV_UNIT_MM : CAV_UNIT_INCH,
                                                round % 3 == 0 ? CAV_PAPER_LETTER : CAV_PAPER_A4);
      g_autoptr (CavScene) scene = NULL;

      for (int i = g_rand_int_range (random, 0, 9); i > 0; i--)
        {
          g_autoptr (CavCut) cut = create_random_cut (random, &blank);

          cav_project_add_cut (project, cut);
        }
      scene = cav_section_drawing_create_scene (project, &options);
      for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
        {
          const char *text;
          const char *other;
          const CavTextStyle *style;
          CavBox box = cav_scene_get_text (scene, i, &text, &style);

          g_assert_cmpfloat (box.x0, >, 20);
          g_assert_cmpfloat (box.y0, >, 10);
          g_assert_cmpfloat (box.x1, <, cav_scene_get_width (scene) - 10);
          g_assert_cmpfloat (box.y1, <, cav_scene_get_height (scene) - 10);
          for (guint j = 0; j < i; j++)
            {
              gboolean overlap
                  = cav_box_overlaps (box, cav_scene_get_text (scene, j, &other, &style));

              if (overlap)
                g_test_message ("round %d: \"%s\" lies on \"%s\"", round, text, other);
              g_assert_false (overlap);
            }
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/section-drawing/svg-structure", test_svg_structure);
  g_test_add_func ("/drawing/section-drawing/svg-true-arcs", test_svg_true_arcs);
  g_test_add_func ("/drawing/section-drawing/hostile-titles", test_hostile_titles);
  g_test_add_func ("/drawing/section-drawing/measured-in-raster", test_measured_in_raster);
  g_test_add_func ("/drawing/section-drawing/png-is-the-same-drawing",
                   test_png_is_the_same_drawing);
  g_test_add_func ("/drawing/section-drawing/pdf", test_pdf);
  g_test_add_func ("/drawing/section-drawing/scales", test_scales);
  g_test_add_func ("/drawing/section-drawing/random-sections", test_random_sections);
  return g_test_run ();
}
