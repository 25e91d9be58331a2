/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include "drawing/cav-drawing.h"
#include "drawing/cav-preview.h"
#include "drawing/cav-sheet-private.h"
#include "drawing-samples.h"
#include "drawing-tools.h"
#include "sheet-checks.h"

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

static CavProject *
project_new (int sides, double width, double height)
{
  CavProject *project = sample_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  settings->sides = sides;
  settings->picture_width = width;
  settings->picture_height = height;
  cav_project_set_frame_settings (project, settings);
  return project;
}

static GBytes *
create_svg (CavProject *project, const CavSheetOptions *options)
{
  g_autoptr (GError) error = NULL;
  GBytes *svg = cav_frame_drawing_create_svg (project, NULL, options, &error);

  g_assert_no_error (error);
  g_assert_nonnull (svg);
  return svg;
}

/* Extent along x of the numbers of a path of straight lines and arcs that begins with M. */
static void
get_path_width (const char *data, double *out_low, double *out_high)
{
  *out_low = INFINITY;
  *out_high = -INFINITY;
  for (const char *c = data; *c != '\0';)
    {
      char *end = (char *)c;
      int skip = *c == 'A' ? 5 : 0;

      if (!strchr ("MLA", *c))
        {
          c++;
          continue;
        }
      c++;
      for (int i = 0; i < skip; i++, c = end)
        g_ascii_strtod (c, &end);
      double x = g_ascii_strtod (c, &end);
      *out_low = fmin (*out_low, x);
      *out_high = fmax (*out_high, x);
      c = end;
    }
}

/* Front, section, preview and words are there as layers that say what they are, and drawn to the
 * scales that are written beside them. */
static void
test_structure (void)
{
  g_autoptr (CavProject) project = project_new (4, 210, 297);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GBytes) svg = create_svg (project, &options);
  const CavFrameSizes *sizes = &cav_project_get_frame (project)->sizes;
  static const char *const layers[]
      = { "elevation",     "elevation-dimensions", "section-wood", "section-package",
          "section-names", "section-dimensions",   "preview",      "materials" };
  double low, high;

  assert_query (svg, "string(/s:svg/s:title)", "Fern frame");
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    {
      g_autofree char *count = g_strdup_printf ("count(//s:g[@id='%s'])", layers[i]);
      g_autofree char *title = g_strdup_printf ("count(//s:g[@id='%s']/s:title)", layers[i]);

      assert_query (svg, count, "1");
      assert_query (svg, title, "1");
    }
  assert_query (svg, "count(//s:g[@id and not(s:title and s:desc)])", "0");
  g_assert_cmpfloat_with_epsilon (sizes->outside.width, 430.3, 0.01);
  assert_query (svg, "count(//s:text[.='outside 430.3'])", "1");
  assert_query (svg, "count(//s:text[.='rabbet 323'])", "1");
  assert_query (svg, "count(//s:text[.='glass 2'])", "1");
  assert_query (svg, "count(//s:text[.='Front, 1:5'])", "1");
  assert_query (svg, "count(//s:text[.='Section, 1:1'])", "1");
  g_autofree char *front = query (svg, "string(//s:g[@id='elevation']/s:path[last()]/@d)");
  get_path_width (front, &low, &high);
  g_assert_cmpfloat_with_epsilon (high - low, 430.3 / 5, 0.001);
  g_autofree char *section = query (svg, "string(//s:g[@id='section-wood']/s:path[last()]/@d)");
  get_path_width (section, &low, &high);
  g_assert_cmpfloat_with_epsilon (high - low, 60, 0.001);
}

/* A long note gets the room that the front leaves, and the front keeps its scale. */
static void
test_long_note (void)
{
  static const double heights[] = { 120, 180, 240, 297, 360 };
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GString) note = g_string_new (NULL);
  guint n_whole = 0;

  for (int i = 0; i < 50; i++)
    g_string_append_printf (note, "word%d ", i);
  g_string_append (note, "end.");
  for (guint i = 0; i < G_N_ELEMENTS (heights); i++)
    {
      const char *const front = "string(//s:g[@id='elevation']/s:text[1])";
      const char *const end = "count(//s:g[@id='materials']/s:text[contains(., 'end.')])";
      g_autoptr (CavProject) project = project_new (4, 210, heights[i]);
      g_autoptr (GBytes) before = create_svg (project, &options);
      g_autofree char *scale = query (before, front);
      g_autofree char *whole = NULL;

      cav_project_set_notes (project, note->str);
      g_autoptr (GBytes) svg = create_svg (project, &options);
      g_autoptr (GBytes) pdf = cav_frame_drawing_create_pdf (project, NULL, &options, NULL);
      g_autoptr (GPtrArray) words = tool_read_words (pdf);
      g_assert_true (g_str_has_prefix (scale, "Front, "));
      assert_query (svg, front, scale);
      tool_assert_apart (words);
      whole = query (svg, end);
      n_whole += g_str_equal (whole, "1");
    }
  g_test_message ("%u whole", n_whole);
  g_assert_cmpuint (n_whole, >=, 2);
}

/* Every paper, unit, number of sides and shape: texts apart and on the sheet, PDF the size it says.
 */
static void
test_pdf (void)
{
  static const struct
  {
    int sides;
    double width, height;
    CavUnit unit;
    CavPaper paper;
  } rows[] = {
    { 4, 210, 297, CAV_UNIT_MM, CAV_PAPER_A4 },   { 4, 297, 210, CAV_UNIT_INCH, CAV_PAPER_LETTER },
    { 4, 1500, 400, CAV_UNIT_MM, CAV_PAPER_A4 },  { 4, 60, 900, CAV_UNIT_MM, CAV_PAPER_LETTER },
    { 8, 300, 300, CAV_UNIT_INCH, CAV_PAPER_A4 }, { 3, 700, 300, CAV_UNIT_MM, CAV_PAPER_A4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavProject) project = project_new (rows[i].sides, rows[i].width, rows[i].height);
      CavSheetOptions options = sample_options (rows[i].unit, rows[i].paper);
      g_autoptr (GError) error = NULL;
      g_autoptr (GBytes) pdf = cav_frame_drawing_create_pdf (project, NULL, &options, &error);
      g_autoptr (GPtrArray) words = NULL;
      g_autofree char *text = NULL;
      const char *const info[] = { "pdfinfo", "@", NULL };
      g_autofree char *facts = tool_run_text (pdf, info);

      g_test_message ("row %u", i);
      g_assert_no_error (error);
      g_assert_true (strstr (facts, rows[i].paper == CAV_PAPER_A4 ? "841.89" : "792") != NULL);
      words = tool_read_words (pdf);
      tool_assert_apart (words);
      text = tool_join_words (words, 0);
      g_assert_nonnull (strstr (text, "Fern frame"));
      g_assert_nonnull (strstr (text, "Picture frame"));
      g_assert_nonnull (strstr (text, "2025-03-01"));
      g_assert_nonnull (strstr (text, "outside"));
    }
}

/* On upright paper the section between the front and the words gets what room its figures need. */
static void
test_upright (void)
{
  static const int sides[] = { 4, 6, 8 };
  CavSheetOptions options = sample_options (CAV_UNIT_INCH, CAV_PAPER_A4);
  guint n_upright = 0;

  for (guint i = 0; i < G_N_ELEMENTS (sides); i++)
    for (int paper = CAV_PAPER_A4; paper <= CAV_PAPER_LETTER; paper++)
      for (double width = 180; width < 320; width += 20)
        {
          g_autoptr (CavProject) project = project_new (sides[i], width, width);
          g_autoptr (CavFrameSettings) settings
              = cav_frame_settings_copy (cav_project_get_frame_settings (project));
          g_autoptr (CavScene) scene = NULL;

          settings->n_mats = 0;
          cav_project_set_frame_settings (project, settings);
          options.paper = (CavPaper)paper;
          scene = cav_frame_drawing_create_scene (project, NULL, &options, NULL);
          g_test_message ("%d sides, %g mm, paper %d", sides[i], width, paper);
          sheet_check_page (scene, CAV_SHEET_DRAWING, 1);
          n_upright += cav_scene_get_height (scene) > cav_scene_get_width (scene);
        }
  g_assert_cmpuint (n_upright, >, 0);
}

/* What somebody typed stays text. */
static void
test_hostile (void)
{
  static const char *const titles[]
      = { "<script>alert(1)</script>", "\"]]>&amp;", "\u0635\u0648\u0631\u0629", "\U0001f33f", "" };
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);

  for (guint i = 0; i < G_N_ELEMENTS (titles); i++)
    {
      g_autoptr (CavProject) project = project_new (4, 210, 297);

      cav_project_set_title (project, titles[i]);
      cav_project_set_notes (project, titles[i]);
      g_autoptr (GBytes) svg = create_svg (project, &options);
      g_autoptr (GBytes) png = cav_frame_drawing_create_png (project, NULL, &options, NULL);
      assert_query (svg, "count(//*[local-name()='script'])", "0");
      if (*titles[i] != '\0')
        assert_query (svg, "string(/s:svg/s:title)", titles[i]);
      g_assert_nonnull (png);
    }
}

static void
test_impossible (void)
{
  g_autoptr (CavProject) project = project_new (4, 5, 5);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GError) error = NULL;
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  settings->start = CAV_FRAME_START_OUTSIDE;
  settings->width = settings->height = 20;
  cav_project_set_frame_settings (project, settings);
  g_assert_null (cav_frame_drawing_create_svg (project, NULL, &options, &error));
  g_assert_error (error, CAV_DRAWING_ERROR, CAV_DRAWING_ERROR_FAILED);
  g_assert_null (cav_frame_drawing_create_pdf (project, NULL, &options, NULL));
  g_assert_null (cav_preview_create_scene (cav_project_get_frame (project),
                                           cav_project_get_profile (project), NULL, NULL, "x"));
}

/* The preview as lines and as pixels show the same: colours at places that mean something. */
static void
test_preview_as_lines (void)
{
  g_autoptr (CavProject) project = project_new (4, 210, 297);
  const CavFrame *frame = cav_project_get_frame (project);
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (CavScene) scene
      = cav_preview_create_scene (frame, profile, NULL, NULL, "A <frame> & more");
  g_autoptr (GBytes) svg = cav_scene_create_svg (scene, NULL);
  double width = cav_scene_get_width (scene);
  double height = cav_scene_get_height (scene);
  cairo_surface_t *lines = tool_render_svg (svg, 51);
  g_autoptr (CavPreview) preview = cav_preview_new (frame, profile, NULL, NULL, 800, 800);
  cairo_surface_t *pixels
      = cav_preview_shade (preview, frame->settings.light_angle, frame->settings.light_height);
  double scale = cav_preview_get_scale (preview);
  double right = frame->sizes.outside.width / 2;
  double inner = frame->sizes.sight.width / 2;
  /* Wall, shadow, mat, picture; both rails' middles. */
  const double places[][2] = { { -right - 30, 0 }, { right + 5, 0 },  { inner - 25, 0 },
                               { 60, 100 },        { right - 12, 0 }, { -right + 12, 0 } };

  assert_query (svg, "string(/s:svg/s:title)", "A <frame> & more");
  assert_query (svg, "count(//s:linearGradient) > 8", "true");
  /* The picture, and the wood's figure over the rails. */
  assert_query (svg, "count(//s:image)", "2");
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      double per_mm = cairo_image_surface_get_width (lines) / width;
      guint32 a = tool_get_colour (lines, (int)((width / 2 + places[i][0]) * per_mm),
                                   (int)((height / 2 + places[i][1]) * per_mm));
      guint32 b = tool_get_colour (pixels, (int)(400 + places[i][0] * scale),
                                   (int)(400 + places[i][1] * scale));

      g_test_message ("%u: %06x and %06x", i, a, b);
      for (int shift = 0; shift <= 16; shift += 8)
        g_assert_cmpint (abs ((int)(a >> shift & 255) - (int)(b >> shift & 255)), <, 30);
    }
  cairo_surface_destroy (lines);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/frame-drawing/structure", test_structure);
  g_test_add_func ("/drawing/frame-drawing/long-note", test_long_note);
  g_test_add_func ("/drawing/frame-drawing/pdf", test_pdf);
  g_test_add_func ("/drawing/frame-drawing/upright", test_upright);
  g_test_add_func ("/drawing/frame-drawing/hostile", test_hostile);
  g_test_add_func ("/drawing/frame-drawing/impossible", test_impossible);
  g_test_add_func ("/drawing/frame-drawing/preview-as-lines", test_preview_as_lines);
  return g_test_run ();
}
