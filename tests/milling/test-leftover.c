/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-leftover.h"
#include "milling/cav-plan-private.h"

#include <string.h>

/* What is left of simple shapes, against closed formulas. All blanks are 60 x 30. */

#define METRES 3.2

static const CavBlank blank = { 60, 30 };

static gboolean
yes_cb (gpointer data, CavPoint place)
{
  guint *asked = data;

  (*asked)++;
  g_assert_cmpfloat (place.x, >=, 0);
  g_assert_cmpfloat (place.x, <=, blank.width);
  return TRUE;
}

/* Takes the profile; the rail is the blank less boxes. */
static CavPlan *
measure (
    CavRegion *profile, const CavBox *taken, guint n_taken, CavReachedFunc reached, gpointer data)
{
  CavPlan *plan = cav_plan_new ();
  g_autoptr (CavRegion) rail = rig_box_less (blank, taken, n_taken);

  plan->blank = blank;
  plan->profile = profile;
  plan->shop = cav_shop_new_default ();
  plan->rails = 4;
  plan->length = METRES * 1000;
  plan->leftover = cav_region_difference (rail, profile, NULL);
  cav_leftover_measure (plan, reached, data);
  return plan;
}

static void
assert_hand (const CavPlan *plan, double area, double outline, double within)
{
  const CavRates *rates = &plan->shop->rates;

  g_assert_cmpfloat_with_epsilon (plan->leftover_area, area, 1e-6);
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (plan->leftover), area, 1e-6);
  g_assert_cmpfloat_with_epsilon ((plan->minutes_hand / METRES - rates->hand_volume * area)
                                      / rates->hand_surface,
                                  outline, within);
}

/* A pocket of 10 x 8 in the face that nothing was taken from: 5 to both walls at its mouth. */
static void
test_pocket (void)
{
  const CavBox pocket = { 25, 22, 35, 31 };
  guint asked = 0;
  g_autoptr (CavPlan) plan = measure (rig_box_less (blank, &pocket, 1), NULL, 0, NULL, NULL);
  g_autoptr (CavPlan) reached = measure (rig_box_less (blank, &pocket, 1), NULL, 0, yes_cb, &asked);
  const CavLeftoverPlace *place;

  assert_hand (plan, 80, 10 + 8 + 8, 0.7);
  g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, 5, 0.05);
  g_assert_cmpuint (plan->places->len, ==, 1);
  place = g_ptr_array_index (plan->places, 0);
  g_assert_cmpfloat_with_epsilon (place->thickness, 5, 0.1);
  g_assert_cmpfloat_with_epsilon (place->place.x, 30, 0.2);
  g_assert_cmpfloat (place->place.y, >, 26.8);
  g_assert_cmpstr (place->reason, ==, "no tool reaches");
  g_assert_nonnull (strstr (place->advice, "from the face"));
  /* Free width around it. */
  g_assert_nonnull (strstr (place->advice, "at most 10.0 mm wide"));
  g_assert_cmpuint (asked, ==, 1);
  place = g_ptr_array_index (reached->places, 0);
  g_assert_cmpstr (place->reason, ==, "no legal pass found");
  g_assert_nonnull (strstr (place->advice, "a tool reaches the place"));
}

/* The same pocket entered by each of the other sides. */
static void
test_sides (void)
{
  const struct
  {
    CavBox pocket;
    const char *words;
  } rows[] = {
    { { -1, 10, 8, 20 }, "from the inside" },
    { { 52, 10, 61, 20 }, "from the outside" },
    { { 25, -1, 35, 8 }, "from the back" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CavPlan) plan
          = measure (rig_box_less (blank, &rows[i].pocket, 1), NULL, 0, NULL, NULL);
      const CavLeftoverPlace *place;

      g_assert_cmpuint (plan->places->len, ==, 1);
      place = g_ptr_array_index (plan->places, 0);
      g_assert_nonnull (strstr (place->advice, rows[i].words));
    }
}

/* A slot with two arms: the neck was taken, the arms no straight tool gets to. */
static void
test_undercut (void)
{
  const CavBox slot[] = { { 27, 20, 33, 31 }, { 20, 12, 40, 20 } };
  const CavBox taken[] = { { 27, 12, 33, 31 } };
  g_autoptr (CavPlan) plan = measure (rig_box_less (blank, slot, 2), taken, 1, NULL, NULL);

  assert_hand (plan, 2 * 7 * 8, 2 * (7 + 7 + 8), 1.5);
  g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, 4, 0.05);
  g_assert_cmpuint (plan->places->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const CavLeftoverPlace *place = g_ptr_array_index (plan->places, i);

      g_assert_cmpstr (place->reason, ==, "undercut: no tool reaches");
      g_assert_true (g_str_has_prefix (place->advice, "Undercut at"));
      g_assert_cmpfloat_with_epsilon (place->thickness, 4, 0.1);
      g_assert_cmpfloat_with_epsilon (place->place.y, 16, 0.2);
    }
  /* In the order of x. */
  g_assert_cmpfloat (((CavLeftoverPlace *)g_ptr_array_index (plan->places, 0))->place.x, <, 27);
  g_assert_cmpfloat (((CavLeftoverPlace *)g_ptr_array_index (plan->places, 1))->place.x, >, 33);
}

/* Layers on a flat rabbet: film, thin, covered, beyond the limit. */
static void
test_layers (void)
{
  const struct
  {
    const char *desc;
    double layer;
    double thickness;
    double outline;
    guint n_places;
  } rows[] = {
    { "film", 0.08, 0, 0, 0 },
    { "0.2", 0.2, 0.2, 0, 0 },
    { "just under", 0.29, 0.29, 0, 0 },
    { "covered", 0.35, 0.35, 20, 0 },
    { "at the limit", 1.45, 1.45, 20, 0 },
    { "past it", 1.6, 1.6, 20, 1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavBox rabbet = { 40, 20, 61, 31 };
      const CavBox taken = { 40, 20 + rows[i].layer, 61, 31 };
      g_autoptr (CavPlan) plan = measure (rig_box_less (blank, &rabbet, 1), &taken, 1, NULL, NULL);

      g_test_message ("%s", rows[i].desc);
      /* The upright wall is covered as high as the layer is, 0.3 out of it. */
      assert_hand (plan, 20 * rows[i].layer, rows[i].outline + (i >= 3 ? rows[i].layer : 0), 0.5);
      g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, rows[i].thickness, 0.03);
      g_assert_cmpuint (plan->places->len, ==, rows[i].n_places);
    }
}

static void
test_none (void)
{
  const CavBox rabbet = { 40, 20, 61, 31 };
  g_autoptr (CavPlan) plan = measure (rig_box_less (blank, &rabbet, 1), &rabbet, 1, NULL, NULL);

  g_assert_cmpfloat_with_epsilon (plan->leftover_area, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (plan->minutes_hand, 0, 1e-9);
  g_assert_cmpuint (plan->places->len, ==, 0);
}

/* A hollow of a quarter circle that was cut out as the greatest square in it: two lenses stay, at
 * their ends on the blank's sides r - r / sqrt 2 thick. */
static void
test_round (void)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0, 0));
  cav_path_line_to (path, CAV_POINT (60, 0));
  cav_path_line_to (path, CAV_POINT (60, 20));
  cav_path_arc (path, CAV_POINT (60, 30), 10, 10, 270, -90);
  cav_path_line_to (path, CAV_POINT (0, 30));
  cav_path_close (path);
  g_autoptr (GError) error = NULL;
  CavRegion *profile = cav_region_new_from_path (path, &error);
  double r = 10, side = r * M_SQRT1_2;
  const CavBox square = { 60 - side, 30 - side, 61, 31 };

  cav_path_free (path);
  g_assert_no_error (error);
  g_autoptr (CavPlan) plan = measure (profile, &square, 1, NULL, NULL);

  g_assert_cmpfloat_with_epsilon (plan->leftover_area, G_PI * r * r / 4 - r * r / 2, 0.03);
  g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, r - side, 0.03);
}

/* In the corner of a rebate behind a cutter that took a round out of it: x and y of the round's
 * middle, as seen from the corner. A layer goes on beside it, so that looks lie far apart. */
static CavPlan *
measure_behind_round (double x, double y, double r)
{
  const CavBlank wide = { 160, 30 };
  const CavBox rebate = { 30, -1, 161, 20 };
  CavPath *path = cav_path_new ();
  CavPlan *plan = cav_plan_new ();

  cav_path_move_to (path, CAV_POINT (30, 20));
  cav_path_line_to (path, CAV_POINT (30, 20 - y));
  cav_path_line_to (path, CAV_POINT (30 + x - r, 20 - y));
  cav_path_arc (path, CAV_POINT (30 + x, 20 - y), r, r, 180, -90);
  cav_path_line_to (path, CAV_POINT (160, 20 - y + r));
  cav_path_line_to (path, CAV_POINT (160, 20));
  cav_path_close (path);
  plan->blank = wide;
  plan->profile = rig_box_less (wide, &rebate, 1);
  plan->shop = cav_shop_new_default ();
  plan->rails = 4;
  plan->length = METRES * 1000;
  plan->leftover = cav_region_new_from_path (path, NULL);
  cav_path_free (path);
  g_assert_nonnull (plan->leftover);
  cav_leftover_measure (plan, NULL, NULL);
  return plan;
}

/* The deepest place lies on the round, as far from one wall as from the other: where the corner's
 * bisector meets it, at (t, t) with (x - t)² + (y - t)² = r². */
static void
test_behind_round (void)
{
  const double r = 6;

  for (double x = r; x <= r + 2; x += 0.5)
    for (double y = r + 0.5; y <= r + 3; y += 0.25)
      {
        double half = (x + y) / 2, apart = (x - y) / 2;
        double t = half - sqrt (r * r / 2 - apart * apart);
        g_autoptr (CavPlan) plan = measure_behind_round (x, y, r);

        g_test_message ("round at %.2f, %.2f: %.3f", x, y, plan->leftover_thickness);
        g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, fmax (t, y - r), 0.02);
      }
}

/* Stairs under a flat that nothing took, and at their end a round of 4 mm. The deepest place lies
 * on the round, between the last stair's corner and the flat. */
static void
test_stairs (void)
{
  const CavBlank wide = { 70.5, 18 };
  const CavPoint corners[]
      = { { 70.5, -1 }, { 72, -1 },   { 72, 15 },  { 32.4, 15 },  { 32.4, 13 },  { 45.1, 13 },
          { 45.1, 11 }, { 57.8, 11 }, { 57.8, 9 }, { 67.325, 9 }, { 67.325, -1 } };
  const CavPoint middle = { 71.35, 9.05 };
  const double r = 4;
  CavPath *path = cav_path_new ();
  g_autoptr (CavRegion) pocket = rig_polygon (corners, G_N_ELEMENTS (corners));
  g_autoptr (CavRegion) box = cav_region_new_box (0, 0, wide.width, wide.thickness);
  g_autoptr (CavRegion) round = NULL;
  g_autoptr (CavRegion) inside = NULL;
  g_autoptr (CavPlan) plan = cav_plan_new ();
  double deepest = 0;

  cav_path_move_to (path, CAV_POINT (middle.x - r, -1));
  cav_path_line_to (path, CAV_POINT (middle.x + r, -1));
  cav_path_line_to (path, CAV_POINT (middle.x + r, middle.y));
  cav_path_arc (path, middle, r, r, 0, 180);
  cav_path_close (path);
  round = cav_region_new_from_path (path, NULL);
  cav_path_free (path);
  inside = cav_region_intersection (pocket, box, NULL);
  plan->blank = wide;
  plan->profile = cav_region_difference (box, pocket, NULL);
  plan->shop = cav_shop_new_default ();
  plan->rails = 4;
  plan->length = METRES * 1000;
  plan->leftover = cav_region_difference (inside, round, NULL);
  cav_leftover_measure (plan, NULL, NULL);
  for (double angle = 92; angle < 180; angle += 0.01)
    deepest = fmax (deepest, cav_region_get_distance (
                                 plan->profile, CAV_POINT (middle.x + r * cos (RADIANS (angle)),
                                                           middle.y + r * sin (RADIANS (angle)))));
  g_test_message ("%.3f, %.3f along the round", plan->leftover_thickness, deepest);
  g_assert_cmpfloat_with_epsilon (plan->leftover_thickness, deepest, 0.02);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/leftover/pocket", test_pocket);
  g_test_add_func ("/milling/leftover/sides", test_sides);
  g_test_add_func ("/milling/leftover/undercut", test_undercut);
  g_test_add_func ("/milling/leftover/layers", test_layers);
  g_test_add_func ("/milling/leftover/none", test_none);
  g_test_add_func ("/milling/leftover/round", test_round);
  g_test_add_func ("/milling/leftover/behind-round", test_behind_round);
  g_test_add_func ("/milling/leftover/stairs", test_stairs);
  return g_test_run ();
}
