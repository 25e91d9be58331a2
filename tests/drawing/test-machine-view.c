/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-machine-view.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"
#include "drawing-tools.h"
#include "milling/cav-placement.h"

/* Dots of a picture to the millimetre. */
#define DOTS 8

typedef struct
{
  int x0, y0, x1, y1;
  int count;
} Spot;

static guint32
get_ink (CavInk ink)
{
  CavColour colour = cav_ink_get_colour (ink);

  return ((guint32)colour.red << 16) | ((guint32)colour.green << 8) | colour.blue;
}

/* Where a picture has a colour. */
static Spot
find_colour (cairo_surface_t *surface, guint32 colour)
{
  Spot spot = { G_MAXINT, G_MAXINT, -1, -1, 0 };

  for (int y = 0; y < cairo_image_surface_get_height (surface); y++)
    for (int x = 0; x < cairo_image_surface_get_width (surface); x++)
      if (tool_get_colour (surface, x, y) == colour)
        {
          spot.x0 = MIN (spot.x0, x);
          spot.y0 = MIN (spot.y0, y);
          spot.x1 = MAX (spot.x1, x);
          spot.y1 = MAX (spot.y1, y);
          spot.count++;
        }
  return spot;
}

static cairo_surface_t *
draw (const CavPlan *plan, guint setup, guint pass)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 130 * DOTS, 90 * DOTS);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cav_draw_pass (cr, plan, setup, pass,
                 (CavDrawBox){ 5 * DOTS, 5 * DOTS, 120 * DOTS, 80 * DOTS, DOTS }, CAV_LIGHT_PAPER,
                 &(CavMachineLook){ .unit = CAV_UNIT_MM,
                                    .denominator = CAV_SHEET_DENOMINATOR,
                                    .letters = CAV_LETTER_SMALL,
                                    .progress = 1 });
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* Left edge and foot of the fence, found in the picture: the wood begins at the one and stands on
 * the other. */
static Spot
find_wood (cairo_surface_t *surface)
{
  return find_colour (surface, get_ink (CAV_INK_WOOD));
}

/* In every way to lay the rail, the kerf is where fence and height say: a blade of 3.2 mm, 5 mm
 * from the fence and 4 mm high, shows as chips in these proportions. */
static void
test_kerf_in_all_placements (void)
{
  g_autoptr (CavProject) project = sample_project_new_plain (60, 40);

  for (int down = 0; down < CAV_N_SIDES; down++)
    for (int against = 0; against < CAV_N_SIDES; against++)
      {
        g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
        cairo_surface_t *surface;
        Spot wood;
        Spot chips;
        double scale;
        double hidden;

        if (!cav_placement_is_possible ((CavSide)down, (CavSide)against))
          continue;
        sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);
        sample_plan_add_pass (plan, (CavSide)down, (CavSide)against, 5, 4, 0);
        surface = draw (plan, 0, 0);
        wood = find_wood (surface);
        chips = find_colour (surface, get_ink (CAV_INK_CHIPS));
        scale = (wood.x1 - wood.x0) / cav_placement_get_reach (&plan->blank, (CavSide)down);
        /* Outlines and their smoothed edges hide up to 0.9 mm of the page. */
        hidden = 0.9 * DOTS / scale;
        g_test_message ("%s down, %s to fence", cav_side_to_string ((CavSide)down),
                        cav_side_to_string ((CavSide)against));
        g_assert_cmpint (chips.count, >, 100);
        g_assert_cmpfloat_with_epsilon ((chips.x0 - wood.x0) / scale, 5, hidden);
        g_assert_cmpfloat_with_epsilon ((chips.x1 - chips.x0) / scale, 3.2, hidden);
        g_assert_cmpfloat_with_epsilon ((wood.y1 - chips.y0) / scale, 4, hidden);
        g_assert_cmpfloat_with_epsilon ((chips.y1 - wood.y1) / scale, 0, hidden);
        cairo_surface_destroy (surface);
      }
}

static void
test_mark_lies_toward_face_and_inside (void)
{
  g_autoptr (CavRegion) blank = cav_region_new_box (0, 0, 60, 22);
  CavEndMark mark = cav_end_mark_find (blank, 6);
  g_autoptr (CavScene) scene = cav_scene_new (100, 100);

  g_assert_cmpfloat_with_epsilon (mark.size, 6, 1e-9);
  g_assert_cmpfloat (mark.centre.x, <, 10);
  g_assert_cmpfloat (mark.centre.y, >, 14);
  g_assert_cmpfloat (cav_region_get_distance (blank, mark.centre), >=, 0.8 * 6 - 1e-9);
  cav_end_mark_draw (scene, mark, cav_transform_identity ());
  g_assert_cmpuint (cav_scene_get_text_count (scene), ==, 0);
}

static void
test_mark_stays_on_the_wood (void)
{
  static const struct
  {
    const char *desc;
    CavPoint points[6];
    guint n;
  } rows[] = {
    { "L", { { 0, 0 }, { 40, 0 }, { 40, 20 }, { 34, 20 }, { 34, 5 }, { 0, 5 } }, 6 },
    { "wedge", { { 0, 0 }, { 50, 0 }, { 50, 18 } }, 3 },
    { "thin", { { 0, 0 }, { 50, 0 }, { 50, 0.5 }, { 0, 0.5 } }, 4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavRegion) region = cav_region_new_polygon (rows[i].points, rows[i].n, NULL);
      CavEndMark mark = cav_end_mark_find (region, 8);

      g_test_message ("%s", rows[i].desc);
      g_assert_true (cav_region_contains (region, mark.centre));
      g_assert_cmpfloat (mark.size, >, 0);
      g_assert_cmpfloat (cav_region_get_distance (region, mark.centre), >=, 0.8 * mark.size - 1e-9);
    }
}

static void
test_sacrificial_fence (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  cairo_surface_t *plain = draw (plan, 0, 0);
  cairo_surface_t *with_board = draw (plan, 2, 0);
  Spot board = find_colour (with_board, get_ink (CAV_INK_BOARD));

  g_assert_cmpint (find_colour (plain, get_ink (CAV_INK_BOARD)).count, ==, 0);
  g_assert_cmpint (board.count, >, 1000);
  g_assert_cmpint (board.x1, <, find_wood (with_board).x0 + DOTS);
  cairo_surface_destroy (plain);
  cairo_surface_destroy (with_board);
}

/* Nothing is painted beside the box, however small it is. */
static void
test_keeps_to_its_box (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  static const CavDrawBox boxes[] = { { 50, 50, 300, 200, 4 },
                                      { 50, 50, 160, 120, 2 },
                                      { 50, 50, 2, 2, 1 },
                                      { 50, 50, 0, 0, 1 },
                                      { 50, 50, 60, 400, 2 } };

  for (guint i = 0; i < plan->setups->len; i++)
    for (guint j = 0; j < G_N_ELEMENTS (boxes); j++)
      {
        cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 500, 500);
        cairo_t *cr = cairo_create (surface);
        CavDrawBox box = boxes[j];
        int n_outside = 0;

        cairo_set_source_rgb (cr, 1, 1, 1);
        cairo_paint (cr);
        cav_draw_pass (cr, plan, i, 0, box, CAV_LIGHT_PAPER,
                       &(CavMachineLook){ .unit = CAV_UNIT_INCH,
                                          .denominator = CAV_SHEET_DENOMINATOR,
                                          .letters = CAV_LETTER_SMALL,
                                          .progress = 1 });
        cairo_surface_flush (surface);
        for (int y = 0; y < 500; y++)
          for (int x = 0; x < 500; x++)
            if (x < box.x - box.per_mm || x > box.x + box.width + box.per_mm
                || y < box.y - box.per_mm || y > box.y + box.height + box.per_mm)
              n_outside += tool_get_colour (surface, x, y) != 0xffffff;
        g_test_message ("setup %u, box %u", i + 1, j);
        g_assert_cmpint (n_outside, ==, 0);
        cairo_destroy (cr);
        cairo_surface_destroy (surface);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/machine-view/kerf-in-all-placements", test_kerf_in_all_placements);
  g_test_add_func ("/drawing/machine-view/mark-lies-toward-face-and-inside",
                   test_mark_lies_toward_face_and_inside);
  g_test_add_func ("/drawing/machine-view/mark-stays-on-the-wood", test_mark_stays_on_the_wood);
  g_test_add_func ("/drawing/machine-view/sacrificial-fence", test_sacrificial_fence);
  g_test_add_func ("/drawing/machine-view/keeps-to-its-box", test_keeps_to_its_box);
  return g_test_run ();
}
