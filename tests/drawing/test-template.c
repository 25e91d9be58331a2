/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-template-private.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"
#include "drawing-tools.h"
#include "drawing/cav-sheet-private.h"

#define DOTS 600
#define TO_MM(dots) ((dots)*25.4 / DOTS)
/* Of what is printed. */
#define NEAR 0.1

static gboolean
is_black (cairo_surface_t *picture, int x, int y)
{
  return tool_get_grey (picture, x, y) < 128;
}

static GBytes *
create_pdf (CavProject *project, const CavPlan *plan, CavPaper paper)
{
  CavSheetOptions options = sample_options (CAV_UNIT_MM, paper);
  g_autoptr (GError) error = NULL;
  GBytes *pdf = cav_template_create_pdf (project, plan, &options, &error);

  g_assert_no_error (error);
  return pdf;
}

/* Length of the longest black run of a row. */
static int
measure_row (cairo_surface_t *picture, int y)
{
  int width = cairo_image_surface_get_width (picture);
  int best = 0;
  int run = 0;

  for (int x = 0; x < width; x++)
    {
      run = is_black (picture, x, y) ? run + 1 : 0;
      best = MAX (best, run);
    }
  return best;
}

/* The two solid bars stand at the foot of the page; rows through their middles are the longest. */
static void
test_bars (void)
{
  for (int paper = CAV_PAPER_A4; paper <= CAV_PAPER_LETTER; paper++)
    {
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (GBytes) pdf = create_pdf (project, NULL, (CavPaper)paper);
      cairo_surface_t *picture = tool_render_pdf (pdf, 0, DOTS);
      int height = cairo_image_surface_get_height (picture);
      gboolean metric = FALSE;
      gboolean inch = FALSE;

      for (int y = height * 2 / 3; y < height; y += 6)
        {
          double run = TO_MM (measure_row (picture, y));

          metric = metric || fabs (run - 100) <= NEAR;
          inch = inch || fabs (run - 101.6) <= NEAR;
          /* Nothing else down there is that long. */
          g_assert_false (run > 102);
        }
      g_assert_true (metric);
      g_assert_true (inch);
      cairo_surface_destroy (picture);
    }
}

/* Black lines that a row crosses between two places, by their middles in mm. */
static GArray *
find_lines (cairo_surface_t *picture, double y, double from, double to)
{
  GArray *lines = g_array_new (FALSE, FALSE, sizeof (double));
  int row = (int)round (y * DOTS / 25.4);
  int start = -1;

  for (int x = (int)(from * DOTS / 25.4); x < (int)(to * DOTS / 25.4); x++)
    {
      gboolean black = is_black (picture, x, row);

      if (black && start < 0)
        start = x;
      if (!black && start >= 0)
        {
          double middle = TO_MM ((start + x - 1) / 2.0 + 0.5);

          g_array_append_val (lines, middle);
          start = -1;
        }
    }
  return lines;
}

static double
get_line (const GArray *lines, guint index)
{
  g_assert_cmpuint (index, <, lines->len);
  return g_array_index (lines, double, index);
}

/* The sample has a rabbet of 6.35 x 9.5 in a blank of 60 x 22; the right-hand end begins at 25 mm
 * and its back lies at 10 + 21 + 6 + 9 + 22 = 68 mm. */
static void
test_profile (void)
{
  const double left = 25;
  const double back = 68;
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (GBytes) pdf = create_pdf (project, NULL, CAV_PAPER_A4);
  cairo_surface_t *picture = tool_render_pdf (pdf, 0, DOTS);
  /* Low, where the package lies: blank's edge, rabbet's wall, outside. */
  g_autoptr (GArray) low = find_lines (picture, back - 4, left - 1, left + 62);
  /* Higher than the rabbet: the inside, and the outside. */
  g_autoptr (GArray) high = find_lines (picture, back - 11, left - 1, left + 62);
  double ledge = 0;

  g_assert_cmpfloat_with_epsilon (get_line (low, 0), left, NEAR);
  g_assert_cmpfloat_with_epsilon (get_line (low, 1) - get_line (low, 0), 6.35, NEAR);
  g_assert_cmpfloat_with_epsilon (get_line (low, low->len - 1) - get_line (low, 0), 60, NEAR);
  g_assert_cmpfloat_with_epsilon (get_line (high, high->len - 1) - get_line (high, 0), 60, NEAR);
  /* The rabbet's ledge, going up from the back: the middle of its line. */
  for (int y = (int)((back - 1) * DOTS / 25.4); y > 0; y--)
    {
      gboolean black = is_black (picture, (int)((left + 3) * DOTS / 25.4), y);

      if (black && ledge <= 0)
        ledge = TO_MM (y + 0.5);
      if (!black && ledge > 0)
        {
          ledge = (ledge + TO_MM (y + 1.5)) / 2;
          break;
        }
    }
  g_assert_cmpfloat_with_epsilon (back - ledge, 9.5, NEAR);
  cairo_surface_destroy (picture);
}

static void
test_layers (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autoptr (GError) error = NULL;
  g_autoptr (GBytes) svg = cav_template_create_svg (project, plan, &options, &error);
  g_autofree char *text = g_strndup (g_bytes_get_data (svg, NULL), g_bytes_get_size (svg));
  static const char *const parts[] = { "right-hand-end", "left-hand-end", "sanding-block",
                                       "check-bars",     "mm\"",          "A9.525 9.525 0 0 " };

  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_test_message ("%s", parts[i]);
      g_assert_nonnull (strstr (text, parts[i]));
    }
}

/* A block that carries paper touches nothing, and leaves no more than the paper's room. */
static void
test_block (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (CavRegion) tight = cav_template_create_block (profile->region, &profile->blank, 0.001);
  g_autoptr (CavRegion) block = cav_template_create_block (profile->region, &profile->blank, 0.5);
  g_autoptr (CavRegion) common = cav_region_intersection (block, profile->region, NULL);

  g_assert_cmpfloat (cav_region_get_area (common), <, 1e-6);
  g_assert_cmpfloat (cav_region_get_area (block), >, 100);
  g_assert_cmpfloat (cav_region_get_area (block), <, cav_region_get_area (tight));
  g_assert_cmpuint (cav_region_get_piece_count (block), ==, 1);
}

static void
test_centres (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  g_autoptr (GPtrArray) centres = cav_template_find_centres (plan);
  g_autoptr (GPtrArray) none = cav_template_find_centres (NULL);
  const CavTemplateCentre *cove;

  g_assert_cmpuint (none->len, ==, 0);
  /* Two passes at the same place are one line; a cutter's axis behind the fence is none. */
  g_assert_cmpuint (centres->len, ==, 2);
  cove = g_ptr_array_index (centres, 0);
  g_assert_cmpint (cove->side, ==, CAV_SIDE_FACE);
  g_assert_cmpfloat_with_epsilon (cove->along, 26, 1e-9);
}

static void
test_sizes (void)
{
  static const double widths[] = { 5, 60, 140, 480 };
  g_autoptr (CavProject) project = sample_project_new_plain (60, 22);
  CavSheetOptions options = sample_options (CAV_UNIT_INCH, CAV_PAPER_LETTER);

  for (guint i = 0; i < G_N_ELEMENTS (widths); i++)
    {
      g_autoptr (GPtrArray) pages = NULL;
      g_autoptr (GBytes) pdf = NULL;

      cav_project_set_blank (project, (CavBlank){ widths[i], widths[i] / 2 });
      pages = cav_template_create_scenes (project, NULL, &options, FALSE);
      g_assert_cmpuint (pages->len, >=, 1);
      /* Full size comes before the paper's. */
      g_assert_cmpfloat (cav_scene_get_width (g_ptr_array_index (pages, 0)), >=, widths[i] + 20);
      pdf = create_pdf (project, NULL, CAV_PAPER_LETTER);
      g_assert_cmpuint (g_bytes_get_size (pdf), >, 1000);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/template/bars", test_bars);
  g_test_add_func ("/drawing/template/profile", test_profile);
  g_test_add_func ("/drawing/template/layers", test_layers);
  g_test_add_func ("/drawing/template/block", test_block);
  g_test_add_func ("/drawing/template/centres", test_centres);
  g_test_add_func ("/drawing/template/sizes", test_sizes);
  return g_test_run ();
}
