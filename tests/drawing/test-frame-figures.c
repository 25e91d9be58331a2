/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-frame-figures.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"

typedef GPtrArray *(*List) (const CavFrame *, const CavSheetOptions *);

/* An A4 print behind one mat in the sample's molding. */
static CavProject *
project_new (double border, int sides, double safe_length)
{
  CavProject *project = sample_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  settings->sides = sides;
  settings->n_mats = 1;
  settings->border_left = settings->border_right = border;
  settings->border_top = settings->border_bottom = border;
  settings->safe_length = safe_length;
  cav_project_set_frame_settings (project, settings);
  cav_project_set_wood (project, cav_wood_find ("ash-white"));
  return project;
}

/* All lines of a list, one below the other. (transfer full) */
static char *
write_list (CavProject *project, CavUnit unit, List list)
{
  CavSheetOptions options = sample_options (unit, CAV_PAPER_A4);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autoptr (GString) text = g_string_new (NULL);
  g_autoptr (GPtrArray) lines = NULL;

  g_assert_true (frame->possible);
  lines = list (frame, &options);
  for (guint i = 0; i < lines->len; i++)
    g_string_append_printf (text, "%s\n", (const char *)g_ptr_array_index (lines, i));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Spaces at which no line breaks count as others do. */
G_GNUC_PRINTF (2, 3)
static void
assert_says (const char *text, const char *format, ...)
{
  g_autofree char *words = NULL;
  va_list arguments;

  va_start (arguments, format);
  words = g_strdup_vprintf (format, arguments);
  va_end (arguments);
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);
  g_autofree char *plain = g_strjoinv (" ", parts);
  g_test_message ("“%s” in:\n%s", words, plain);
  g_assert_nonnull (strstr (plain, words));
}

/* Lengths, the mitre, exact molding and the rule of thumb beside it. */
static void
test_rails (void)
{
  g_autoptr (CavProject) project = project_new (60, 4, 300);
  const CavFrameRails *rails = &cav_project_get_frame (project)->rails;
  g_autofree char *text = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_rails);

  assert_says (
      text, "Rails, top and bottom: 2 of %g mm at the long point, %g mm at the rabbet, %g mm",
      rails->groups[0].long_point, rails->groups[0].rabbet_line, rails->groups[0].short_point);
  assert_says (text, "Rails, left and right: 2 of %g mm", rails->groups[1].long_point);
  assert_says (text, "Mitre both ends at 45°");
  assert_says (text, "the longer pair first");
  assert_says (text, "Molding: %g mm of long points", ceil (rails->molding - 1e-6));
  assert_says (text, "says %g mm", ceil (rails->molding_rule - 1e-6));
  assert_says (text, "Each rail may be milled by itself; nothing under 300 mm");
}

/* Rails too short to be milled alone: every one of them has its place on a strip. */
static void
test_strips (void)
{
  g_autoptr (CavProject) project = project_new (60, 4, 900);
  const CavFrameRails *rails = &cav_project_get_frame (project)->rails;
  static const char *const names[] = { "top", "right", "bottom", "left" };
  g_autofree char *text = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_strips);

  g_assert_cmpint (rails->together, ==, 2);
  assert_says (text, "nothing under 900 mm goes past a tool");
  assert_says (text, "Strip 2: bottom");
  for (int i = 0; i < 4; i++)
    assert_says (text, "%s %g mm to %g mm", names[i], round (rails->places[i].from),
                 round (rails->places[i].to));
}

/* A frame of equal sides: numbers in place of top and left, one measure in place of two. */
static void
test_hexagon (void)
{
  g_autoptr (CavProject) project = project_new (60, 6, 700);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autofree char *rails = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_rails);
  g_autofree char *package = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_package);

  assert_says (rails, "Rails: 6 of");
  assert_says (rails, "Mitre both ends at 30°");
  assert_says (rails, "Strip 1: 1 ");
  assert_says (package, "Mat 1: window %g mm across", frame->sizes.windows[0].width);
  assert_says (package, "%g mm is seen all round", frame->sizes.shown.left);
}

/* Windows, what the lip leaves of the borders, the sheet that is sold, cover in the worst case,
 * depth with too little, enough and too much in it. */
static void
test_package (void)
{
  g_autoptr (CavProject) project = project_new (60, 4, 300);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autofree char *text = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_package);
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_copy (&frame->settings);

  assert_says (text, "Mat 1: window %g mm × %g mm", frame->sizes.windows[0].width,
               frame->sizes.windows[0].height);
  assert_says (text, "is seen: left %g mm, right %g mm", frame->sizes.shown.left,
               frame->sizes.shown.right);
  assert_says (text, "cut from a sheet of 32 × 40 in");
  assert_says (text, "The lip covers %g mm of the sheets, %g mm where", frame->sizes.cover,
               frame->sizes.least_cover);
  assert_says (text, "%g mm is left", frame->package.spare);

  settings->backing_thickness = frame->sizes.rabbet_depth;
  cav_project_set_frame_settings (project, settings);
  g_autofree char *deep = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_package);
  assert_says (deep, "stands %g mm out", cav_project_get_frame (project)->package.stands_out);

  settings->backing_thickness = 3;
  settings->point_room = cav_project_get_frame (project)->sizes.rabbet_depth;
  settings->border_left = settings->border_right = 1500;
  cav_project_set_frame_settings (project, settings);
  g_autofree char *tight = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_package);
  assert_says (tight, "is missing");
  assert_says (tight, "No sheet of mat board");
}

/* The sum of the masses, the pull of a wire, points, surface and what a coat takes. */
static void
test_weight (void)
{
  g_autoptr (CavProject) project = project_new (60, 4, 300);
  const CavFrame *frame = cav_project_get_frame (project);
  const CavFrameWeights *weights = &frame->weights;
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_copy (&frame->settings);
  g_autofree char *text = NULL;
  g_autofree char *hooks = NULL;

  settings->wire = TRUE;
  settings->wire_angle = 15;
  settings->finish = CAV_FINISH_OIL;
  settings->coats = 2;
  cav_project_set_frame_settings (project, settings);
  weights = &cav_project_get_frame (project)->weights;
  text = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_weight);
  assert_says (text, "Wood %.2f kg, glazing %.2f kg", weights->wood, weights->glazing);
  assert_says (text, "together %.2f kg", weights->total);
  /* 1.93 of the weight: facts on wires, 1 / (2 sin 15°). */
  assert_says (text, "A wire at 15° above level pulls each hanger with %.1f kg",
               weights->total * 1.9319);
  assert_says (text, "%d points, about", weights->points);
  assert_says (text, "finished rails: %.0f cm³", weights->wood_volume / 1000);
  assert_says (text, "takes about %.0f ml", weights->finish_amount);

  settings->wire = FALSE;
  settings->finish = CAV_FINISH_BARE;
  cav_project_set_frame_settings (project, settings);
  weights = &cav_project_get_frame (project)->weights;
  hooks = write_list (project, CAV_UNIT_MM, cav_frame_figures_list_weight);
  assert_says (hooks, "2 hangers carry %.1f kg each", weights->total / 2);
  g_assert_null (strstr (hooks, " ml"));
}

/* In inches no millimetre is left. */
static void
test_inches (void)
{
  static const List lists[] = { cav_frame_figures_list_rails, cav_frame_figures_list_package,
                                cav_frame_figures_list_weight, cav_frame_figures_list_strips };
  g_autoptr (CavProject) project = project_new (60, 4, 900);

  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autofree char *text = write_list (project, CAV_UNIT_INCH, lists[i]);

      g_assert_null (strstr (text, "\302\240mm"));
      g_assert_null (strstr (text, " mm"));
      g_assert_nonnull (strstr (text, "\302\240in"));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/frame-figures/rails", test_rails);
  g_test_add_func ("/drawing/frame-figures/strips", test_strips);
  g_test_add_func ("/drawing/frame-figures/hexagon", test_hexagon);
  g_test_add_func ("/drawing/frame-figures/package", test_package);
  g_test_add_func ("/drawing/frame-figures/weight", test_weight);
  g_test_add_func ("/drawing/frame-figures/inches", test_inches);
  return g_test_run ();
}
