/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "storage/cav-plan-xml.h"

#include <string.h>

#include <glib/gstdio.h>

#include "milling/cav-plan-private.h"
#include "storage-test.h"

static void
add_pass (CavSetup *setup, CavSide down, CavSide against, double fence, double height)
{
  CavPass *pass = cav_pass_new ();

  pass->down = down;
  pass->against = against;
  pass->fence = fence;
  pass->height = height;
  pass->removes = 19.123456;
  g_ptr_array_add (setup->passes, pass);
}

static void
add_place (CavPlan *plan, CavPoint at, double thickness, const char *reason)
{
  CavLeftoverPlace *place = g_new0 (CavLeftoverPlace, 1);

  place->place = at;
  place->thickness = thickness;
  place->reason = g_strdup (reason);
  g_ptr_array_add (plan->places, place);
}

/* A shop of three tools of which two are used. */
static CavShop *
make_shop (void)
{
  GError *error = NULL;
  CavShop *shop = cav_shop_new ();
  const CavSilhouettePoint points[] = { { 0, 0 }, { 6.3333333333, 0 }, { 6.3333333333, 20 } };
  CavCutter *cutter = cav_cutter_new_drawn ("straight-1", points, 3, &error);

  g_assert_no_error (error);
  cutter->has_pilot = TRUE;
  cutter->pilot_radius = 3.2;
  cutter->pilot_length = 5;
  g_assert_true (cav_shop_add_blade (shop, cav_blade_new ("rip", 254, 3.2), &error));
  g_assert_true (cav_shop_add_blade (shop, cav_blade_new ("idle", 200, 2.2), &error));
  g_assert_true (cav_shop_add_cutter (shop, cutter, &error));
  return shop;
}

static CavRegion *
make_profile (gboolean with_arc)
{
  GError *error = NULL;
  g_autoptr (CavPath) path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (0, 8));
  cav_path_line_to (path, CAV_POINT (7, 8));
  cav_path_line_to (path, CAV_POINT (7, 0));
  cav_path_line_to (path, CAV_POINT (60, 0));
  cav_path_line_to (path, CAV_POINT (60, 22));
  cav_path_line_to (path, CAV_POINT (9, 22));
  if (with_arc)
    cav_path_arc (path, CAV_POINT (0, 22), 9, 9, 0, -90);
  else
    cav_path_line_to (path, CAV_POINT (0, 13));
  cav_path_close (path);
  CavRegion *region = cav_region_new_from_path (path, &error);
  g_assert_no_error (error);
  return region;
}

static CavPlan *
make_plan (gboolean with_arc)
{
  CavPlan *plan = cav_plan_new ();
  CavSetup *saw = cav_setup_new (CAV_MACHINE_SAW, "rip");
  CavSetup *cove = cav_setup_new (CAV_MACHINE_COVE, "rip");
  CavSetup *router = cav_setup_new (CAV_MACHINE_ROUTER, "straight-1");

  plan->blank = (CavBlank){ 60, 22 };
  plan->profile = make_profile (with_arc);
  plan->shop = make_shop ();
  plan->rails = 4;
  plan->length = 3200;
  plan->usable = TRUE;
  saw->tilt = -12.3;
  add_pass (saw, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 53, 8.00000000001);
  add_pass (saw, CAV_SIDE_INSIDE, CAV_SIDE_BACK, -1.6, 7.05);
  cove->angle = 24.5;
  add_pass (cove, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 30.123456, 1.5);
  add_pass (router, CAV_SIDE_OUTSIDE, CAV_SIDE_FACE, -0.000000001, 6.35);
  g_ptr_array_add (plan->setups, saw);
  g_ptr_array_add (plan->setups, cove);
  g_ptr_array_add (plan->setups, router);
  plan->leftover_area = 1.8;
  plan->leftover_thickness = 0.4;
  plan->minutes = 74.2;
  plan->minutes_setups = 14;
  plan->minutes_passes = 52.2;
  plan->minutes_hand = 8;
  return plan;
}

static char *
write_plan (const CavPlan *plan)
{
  GError *error = NULL;
  g_autoptr (GBytes) bytes = cav_storage_plan_to_bytes (plan, &error);

  g_assert_no_error (error);
  storage_test_assert_valid (bytes, "plan.rng");
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

/* The whole file, as docs/plan-file.md describes it: order, names, decimals. */
static void
test_whole (void)
{
  static const char *const expected
      = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<plan version=\"1\" unit=\"mm\" rails=\"4\" length=\"3200\" step=\"0.05\">\n"
        "  <blank width=\"60\" thickness=\"22\"/>\n"
        "  <profile>\n"
        "    <point x=\"0\" y=\"8\"/>\n"
        "    <point x=\"7\" y=\"8\"/>\n"
        "    <point x=\"7\" y=\"0\"/>\n"
        "    <point x=\"60\" y=\"0\"/>\n"
        "    <point x=\"60\" y=\"22\"/>\n"
        "    <point x=\"9\" y=\"22\"/>\n"
        "    <point x=\"0\" y=\"13\"/>\n"
        "  </profile>\n"
        "  <tools>\n"
        "    <blade id=\"rip\" diameter=\"254\" kerf=\"3.2\" height=\"75\" tilt=\"45\" bite=\"80\" "
        "grind=\"flat\"/>\n"
        "    <cutter id=\"straight-1\" length=\"20\" bite=\"30\" speed=\"20000\" "
        "pilot-radius=\"3.2\" pilot-length=\"5\">\n"
        "      <point r=\"0\" z=\"0\"/>\n"
        "      <point r=\"6.333333\" z=\"0\"/>\n"
        "      <point r=\"6.333333\" z=\"20\"/>\n"
        "    </cutter>\n"
        "  </tools>\n"
        "  <setup machine=\"saw\" tool=\"rip\" tilt=\"-12.3\">\n"
        "    <pass down=\"back\" against=\"outside\" fence=\"53\" height=\"8\" "
        "removes=\"19.1235\"/>\n"
        "    <pass down=\"inside\" against=\"back\" fence=\"-1.6\" height=\"7.05\" "
        "removes=\"19.1235\"/>\n"
        "  </setup>\n"
        "  <setup machine=\"cove\" tool=\"rip\" angle=\"24.5\">\n"
        "    <pass down=\"face\" against=\"inside\" fence=\"30.1235\" height=\"1.5\" "
        "removes=\"19.1235\"/>\n"
        "  </setup>\n"
        "  <setup machine=\"router\" tool=\"straight-1\">\n"
        "    <pass down=\"outside\" against=\"face\" fence=\"0\" height=\"6.35\" "
        "removes=\"19.1235\"/>\n"
        "  </setup>\n"
        "  <leftover area=\"1.8\" thickness=\"0.4\" limit=\"1.5\"/>\n"
        "  <minutes total=\"74.2\" setups=\"14\" passes=\"52.2\" hand=\"8\"/>\n"
        "</plan>\n";
  g_autoptr (CavPlan) plan = make_plan (FALSE);
  CavBlade *blade = cav_shop_find_blade (plan->shop, "rip");
  CavCutter *cutter = cav_shop_find_cutter (plan->shop, "straight-1");

  blade->height = 75;
  blade->tilt = 45;
  blade->bite = 80;
  cutter->bite = 30;
  cutter->speed = 20000;
  g_autofree char *text = write_plan (plan);
  g_assert_cmpstr (text, ==, expected);
}

static void
test_places (void)
{
  g_autoptr (CavPlan) plan = make_plan (FALSE);

  add_place (plan, CAV_POINT (12.4, 8), 2, "no tool reaches");
  add_place (plan, CAV_POINT (1.0 / 3, 8), 2.5, NULL);
  g_autofree char *text = write_plan (plan);
  g_assert_nonnull (strstr (text, "  <leftover area=\"1.8\" thickness=\"0.4\" limit=\"1.5\">\n"
                                  "    <place x=\"12.4\" y=\"8\" thickness=\"2\" "
                                  "reason=\"no tool reaches\"/>\n"
                                  "    <place x=\"0.3333\" y=\"8\" thickness=\"2.5\" "
                                  "reason=\"no tool reaches\"/>\n"
                                  "  </leftover>\n"));
}

/* The points of the outline lie on it, and the chords between them within 0.01 mm of it. */
static void
test_chords (void)
{
  g_autoptr (CavPlan) plan = make_plan (TRUE);
  g_autofree char *text = write_plan (plan);
  const char *end = strstr (text, "</profile>");
  const char *at = strstr (text, "<profile>");
  CavPoint before = { 0, 0 };
  int n_points = 0;

  while ((at = strstr (at, "<point x=\"")) != NULL && at < end)
    {
      char *next;
      CavPoint point;

      point.x = g_ascii_strtod (at + 10, &next);
      g_assert_true (g_str_has_prefix (next, "\" y=\""));
      point.y = g_ascii_strtod (next + 5, &next);
      at = next;
      g_assert_cmpfloat (cav_region_get_distance (plan->profile, point), <=, 1e-5);
      if (n_points++ > 0)
        {
          CavPoint middle = { (before.x + point.x) / 2, (before.y + point.y) / 2 };

          g_assert_cmpfloat (cav_region_get_distance (plan->profile, middle), <=, 0.01);
          g_assert_false (cav_point_near (before, point, 1e-6));
        }
      before = point;
    }
  g_assert_cmpint (n_points, >, 20);
}

static void
test_no_setups (void)
{
  g_autoptr (CavPlan) plan = make_plan (FALSE);

  g_ptr_array_set_size (plan->setups, 0);
  g_autofree char *text = write_plan (plan);
  g_assert_null (strstr (text, "<blade"));
}

static void
test_refused (void)
{
  g_autoptr (CavPlan) plan = make_plan (FALSE);
  g_autoptr (GError) unproved = NULL, hole = NULL;
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "plan.xml", NULL);

  plan->usable = FALSE;
  g_assert_false (cav_storage_save_plan (plan, file, &unproved));
  storage_test_assert_error (unproved, CAV_STORAGE_ERROR_CONTENT,
                             "plan.xml: not written: the plan");
  g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));

  g_autoptr (CavRegion) inner = cav_region_new_box (20, 5, 30, 15);
  CavRegion *holed = cav_region_difference (plan->profile, inner, &hole);
  g_assert_no_error (hole);
  cav_region_unref (plan->profile);
  plan->profile = holed;
  plan->usable = TRUE;
  g_assert_null (cav_storage_plan_to_bytes (plan, &hole));
  storage_test_assert_error (hole, CAV_STORAGE_ERROR_CONTENT, "a plan file holds one outline");
  storage_test_remove_folder (folder);
}

static void
test_save (void)
{
  GError *error = NULL;
  g_autoptr (CavPlan) plan = make_plan (TRUE);
  g_autofree char *folder = storage_test_make_folder ();
  g_autofree char *file = g_build_filename (folder, "plan.xml", NULL);
  g_autofree char *text = write_plan (plan);
  g_autofree char *saved = NULL;

  g_assert_true (cav_storage_save_plan (plan, file, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (file, &saved, NULL, &error));
  g_assert_cmpstr (saved, ==, text);
  storage_test_remove_folder (folder);
}

int
main (int argc, char *argv[])
{
  storage_test_init (&argc, &argv);
  g_test_add_func ("/storage/plan-xml/whole", test_whole);
  g_test_add_func ("/storage/plan-xml/places", test_places);
  g_test_add_func ("/storage/plan-xml/chords", test_chords);
  g_test_add_func ("/storage/plan-xml/no-setups", test_no_setups);
  g_test_add_func ("/storage/plan-xml/refused", test_refused);
  g_test_add_func ("/storage/plan-xml/save", test_save);
  return g_test_run ();
}
