/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-pane.h"

#include "drawing-samples.h"
#include "drawing-tools.h"

/* Pixels looked at beyond the pane, on the right and below. */
#define BEYOND 300

typedef struct
{
  const char *desc;
  int width;
  int height;
  double letters;
  CavUnit unit;
} Case;

/* The canvas of the least window is 426 by 320. */
static const Case cases[] = {
  { "usual", 830, 520, 1, CAV_UNIT_MM },          { "usual-inches", 830, 520, 1, CAV_UNIT_INCH },
  { "between", 560, 400, 1, CAV_UNIT_MM },        { "least", 426, 320, 1, CAV_UNIT_MM },
  { "least-inches", 426, 320, 1, CAV_UNIT_INCH }, { "large-letters", 900, 640, 2, CAV_UNIT_MM },
};

static cairo_surface_t *
draw (const Case *row, const CavPlan *plan, int pass)
{
  const CavPane pane = { .width = row->width,
                         .height = row->height,
                         .device = 1,
                         .letters = row->letters,
                         .light = CAV_LIGHT_DAY };
  const CavPassContent content = { .plan = plan,
                                   .pass = pass,
                                   .progress = 1,
                                   .unit = row->unit,
                                   .denominator = 64,
                                   .stale_words = "stale",
                                   .none_words = "none" };
  cairo_surface_t *surface
      = cairo_image_surface_create (CAIRO_FORMAT_RGB24, row->width + BEYOND, row->height + BEYOND);
  cairo_t *cr = cairo_create (surface);

  cav_pass_pane_draw (cr, &pane, &content);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* Pixels that are not as the ground is, in the pane or beyond it. */
static guint
count_ink (cairo_surface_t *surface, const Case *row, gboolean beyond)
{
  guint32 ground = tool_get_colour (surface, row->width + BEYOND - 1, row->height + BEYOND - 1);
  guint count = 0;

  for (int y = 0; y < row->height + BEYOND; y++)
    for (int x = 0; x < row->width + BEYOND; x++)
      if ((x >= row->width || y >= row->height) == beyond
          && tool_get_colour (surface, x, y) != ground)
        count++;
  return count;
}

/* No figure and no word of any pass is cut by the edge of the pane. */
static void
test_keeps_inside (gconstpointer data)
{
  const Case *row = data;
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  g_assert_cmpuint (cav_plan_get_pass_count (plan), >, 4);
  for (guint i = 0; i < cav_plan_get_pass_count (plan); i++)
    {
      cairo_surface_t *surface = draw (row, plan, (int)i);

      g_test_message ("pass %u", i + 1);
      g_assert_cmpuint (count_ink (surface, row, FALSE), >, 3000);
      g_assert_cmpuint (count_ink (surface, row, TRUE), ==, 0);
      cairo_surface_destroy (surface);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = g_strdup_printf ("/drawing/pass-pane/keeps-inside/%s", cases[i].desc);

      g_test_add_data_func (path, &cases[i], test_keeps_inside);
    }
  return g_test_run ();
}
