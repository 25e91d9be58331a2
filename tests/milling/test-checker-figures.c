/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-rig.h"
#include "milling/cav-plan-private.h"

#include <glib/gstdio.h>
#include <math.h>

/* What the checker measures, and how it judges what a plan says of itself. */

#define LEGAL CHECK_N_RULES

/* Chips of one pass in a blank of 60 x 25, against closed formulas. */
static void
test_sweeps (void)
{
  double t = 30.0 * G_PI / 180.0;
  double phi = acos ((127.0 - 1.6) / 127.0);
  const struct
  {
    const char *desc;
    RigPass pass;
    double chips;
  } rows[] = {
    { "upright kerf", { "rip", SAW, 0, BACK, INSIDE, 30, 10 }, 32.0 },
    { "kerf on edge", { "rip", SAW, 0, OUTSIDE, FACE, 10, 10 }, 32.0 },
    /* Near face h / cos t long, far face (h - k sin t) / cos t, k apart. */
    { "leaning away",
      { "rip", SAW, 30, BACK, INSIDE, 30, 10 },
      3.2 * (10.0 - 0.5 * 3.2 * sin (t)) / cos (t) },
    { "leaning to the fence",
      { "rip", SAW, -30, FACE, OUTSIDE, 30, 10 },
      3.2 * (10.0 - 0.5 * 3.2 * sin (t)) / cos (t) },
    { "leaning, on edge",
      { "rip", SAW, 30, INSIDE, BACK, 10, 10 },
      3.2 * (10.0 - 0.5 * 3.2 * sin (t)) / cos (t) },
    /* A segment of an ellipse and a flat. */
    { "cove",
      { "rip", COVE, 30, FACE, INSIDE, 30, 1.6 },
      sin (t) * 127.0 * 127.0 * (phi - sin (phi) * cos (phi)) + 1.6 * 3.2 * cos (t) },
    /* Two triangles of 3.2 x 3.2 / 2 beside the waist of 4.8. */
    { "waisted cutter", { "waisted", ROUTER, 0, BACK, INSIDE, -4.8, 10 }, 10.24 },
    { "waisted cutter, on edge", { "waisted", ROUTER, 0, INSIDE, BACK, -4.8, 10 }, 10.24 },
    { "chamfer", { "chamfer", ROUTER, 0, FACE, OUTSIDE, -6, 8 }, 32.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CheckPlan) plan = rig_create_plan (60, 25);
      RigPass passes[RIG_PASSES] = { rows[i].pass };

      g_test_message ("%s", rows[i].desc);
      rig_add_box (plan, 28, 12, 32, 13);
      rig_add_passes (plan, passes);
      g_autoptr (CheckReport) report = check_plan_run (plan);

      g_assert_cmpfloat_with_epsilon (report->chips, rows[i].chips, 0.02);
      g_assert_cmpfloat_with_epsilon (report->profile_area + report->chips + report->severed
                                          + report->leftover_area,
                                      60.0 * 25.0, 0.02);
    }
}

/* A cove of 3 x 3/4 in with a blade of 10 x 1/8 in wants 33.3 degrees: its near edge then stands
 * half a width from its middle (width from the chord, handbook formula w = 2 c sin a + k cos a). */
static void
test_cove_width (void)
{
  g_autoptr (CheckPlan) plan = check_plan_new ();
  const double core[] = { 1, 45, 119, 45, 119, 49, 1, 49 };
  CheckTool *tool = check_plan_add_blade (plan, "ten", 254, 3.175);
  CheckSetup *setup = check_plan_add_setup (plan, COVE, "ten");

  tool->bite = 1e6;
  plan->width = 120;
  plan->thickness = 50;
  plan->cove_layer = 100;
  plan->leftover_limit = 1000;
  setup->angle = 33.3;
  check_plan_add_ring (plan, core, 4);
  check_setup_add_pass (setup, BACK, INSIDE, 38.2, 19.05);
  g_autoptr (CheckReport) inside = check_plan_run (plan);

  g_assert_false (check_report_breaks (inside, CHECK_RULE_SETTING, 1));
  g_array_index (setup->passes, CheckPass, 0).fence = 38.0;
  g_autoptr (CheckReport) beyond = check_plan_run (plan);

  g_assert_true (check_report_breaks (beyond, CHECK_RULE_SETTING, 1));
}

/* A tilt between tenths of a degree is right where a drawn face has that angle. */
static void
test_drawn_angle (void)
{
  g_autoptr (CheckPlan) plan = rig_create_plan (60, 25);
  double run = 20.0 * tan (12.34 * G_PI / 180.0);
  const double core[] = { 2, 2, 20, 2, 20 + run, 22, 2, 22 };
  const RigPass passes[RIG_PASSES] = { { "rip", SAW, 12.34, BACK, INSIDE, 30, 5 } };

  plan->leftover_limit = 1000;
  check_plan_add_ring (plan, core, 4);
  rig_add_passes (plan, passes);
  g_autoptr (CheckReport) report = rig_run_honest (plan);
  g_autofree char *text = check_report_to_string (report);

  g_assert_cmpstr (text, ==, "");
}

/* Minutes by hand: 4 rails of 3200 in all. A pass costs 3.2 / 3 + 1 = 2.0667, in coving 4.2. */
static void
test_minutes (void)
{
  g_autoptr (CheckPlan) plan = rig_create_plan (60, 25);
  g_autoptr (CheckReport) report = NULL;
  const RigPass rows[][RIG_PASSES] = {
    /* 3 + turn and move 1.5 + turn 1 + move 0.5 */
    { { "rip", SAW, 0, BACK, INSIDE, 30, 1 },
      { "rip", SAW, 0, FACE, INSIDE, 31, 1 },
      { "rip", SAW, 0, FACE, OUTSIDE, 31, 1 },
      { "rip", SAW, 0, FACE, OUTSIDE, 31, 2 } },
    { { "straight", ROUTER, 0, BACK, INSIDE, 30, 2 } }, /* 5 */
    { { "rip", SAW, 5, BACK, INSIDE, 10, 1 } },         /* 6 */
    { { "straight", ROUTER, 0, BACK, INSIDE, 30, 3 } }, /* 2 */
    { { "strong", ROUTER, 0, BACK, INSIDE, 30, 4 } },   /* 5 */
    { { "rip", COVE, 30, FACE, INSIDE, 30, 1 },         /* 12 + 3.2 + 0.5 */
      { "rip", COVE, 30, FACE, INSIDE, 30, 1.5 } },
    { { "dado", SAW, 0, BACK, INSIDE, 30, 5 } }, /* 3 + 4 */
    { { "rip", SAW, 0, BACK, INSIDE, 30, 6 } },  /* 3 + 4 */
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    rig_add_passes (plan, rows[i]);
  report = check_plan_run (plan); /* no profile: nothing is simulated */
  check_minutes (plan, report);
  g_assert_cmpfloat_with_epsilon (report->minutes_setups, 6.0 + 5 + 6 + 2 + 5 + 15.7 + 7 + 7, 1e-9);
  g_assert_cmpfloat_with_epsilon (report->minutes_passes, 10 * (3.2 / 3.0 + 1.0) + 2 * 4.2, 1e-9);
}

/* A rabbet cut 1 short on its floor: a strip of 6 x 1 is left. The lip is 6 wide; of the wall,
 * 0.3 out from the floor's end to 1, the strip covers 1 mm as well. */
static CheckPlan *
create_short_rabbet (void)
{
  CheckPlan *plan = rig_create_plan (60, 25);
  const RigPass passes[RIG_PASSES]
      = { { "rip", SAW, 0, INSIDE, FACE, 16, 6 }, { "rip", SAW, 0, BACK, OUTSIDE, 54, 9 } };

  rig_add_rabbet (plan, 6, 10);
  rig_add_passes (plan, passes);
  return plan;
}

static void
test_leftover (void)
{
  g_autoptr (CheckPlan) plan = create_short_rabbet ();
  g_autoptr (CheckReport) report = rig_run_honest (plan);
  g_autofree char *text = check_report_to_string (report);

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpfloat_with_epsilon (report->leftover_area, 6.0, 0.01);
  g_assert_cmpfloat_with_epsilon (report->leftover_thickness, 1.0, 0.05);
  g_assert_cmpfloat_with_epsilon (report->hand_outline, 7.0, 0.05);
  g_assert_cmpfloat_with_epsilon (report->minutes_hand, 0.25 * 6 * 3.2 + 0.1 * 7 * 3.2, 0.02);
}

/* An upright fin of profile, thinner than any pixel, in the middle of what is left: nothing there
 * is farther from it than half of the blank. */
static void
test_thin_fin (void)
{
  g_autoptr (CheckPlan) plan = rig_create_plan (10, 25);
  const double ring[] = { 0, 0, 10, 0, 10, 5, 5.013, 5, 5.013, 25, 5, 25, 5, 5, 0, 5 };

  check_plan_add_ring (plan, ring, G_N_ELEMENTS (ring) / 2);
  g_autoptr (CheckReport) report = check_plan_run (plan);

  g_assert_cmpfloat_with_epsilon (report->leftover_thickness, 5.0, 0.05);
}

static CheckPlan *
create_plan_with_slope (void)
{
  CheckPlan *plan = rig_create_plan (60, 25);
  double ring[2 * 123];
  guint n = 0;

  for (int i = 0; i <= 120; i++)
    {
      ring[n++] = 60 - 0.5 * i;
      ring[n++] = 20 + 0.00237 * i;
    }
  ring[n++] = 0;
  ring[n++] = 0;
  ring[n++] = 60;
  ring[n++] = 0;
  check_plan_add_ring (plan, ring, n / 2);
  return plan;
}

/* The outline under leftover is all of a face that hardly slopes, in edges shorter than a row is
 * high across: which way is out must not be asked of the rows. */
static void
test_flat_outline (void)
{
  g_autoptr (CheckPlan) plan = create_plan_with_slope ();
  g_autoptr (CheckReport) report = check_plan_run (plan);

  g_assert_cmpfloat_with_epsilon (report->hand_outline, 60.0, 0.05);
}

/* What a plan says of itself, wrong by more than it may be. */
static void
test_claims (void)
{
  const struct
  {
    const char *desc;
    goffset figure;
    double change;
    CheckRule broken;
  } rows[] = {
    { "area within 0.3", G_STRUCT_OFFSET (CheckPlan, leftover_area), 0.25, LEGAL },
    { "area", G_STRUCT_OFFSET (CheckPlan, leftover_area), 0.4, CHECK_RULE_LEFTOVER },
    { "thickness within 0.1", G_STRUCT_OFFSET (CheckPlan, leftover_thickness), 0.05, LEGAL },
    { "thickness", G_STRUCT_OFFSET (CheckPlan, leftover_thickness), 0.3, CHECK_RULE_LEFTOVER },
    { "thickness, less", G_STRUCT_OFFSET (CheckPlan, leftover_thickness), -0.3,
      CHECK_RULE_LEFTOVER },
    { "total", G_STRUCT_OFFSET (CheckPlan, minutes), 0.4, CHECK_RULE_MINUTES },
    { "total within 0.3", G_STRUCT_OFFSET (CheckPlan, minutes), 0.2, LEGAL },
    { "setups", G_STRUCT_OFFSET (CheckPlan, minutes_setups), -0.5, CHECK_RULE_MINUTES },
    { "passes", G_STRUCT_OFFSET (CheckPlan, minutes_passes), 0.5, CHECK_RULE_MINUTES },
    { "hand", G_STRUCT_OFFSET (CheckPlan, minutes_hand), 0.5, CHECK_RULE_MINUTES },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CheckPlan) plan = create_short_rabbet ();
      g_autoptr (CheckReport) first = check_plan_run (plan);

      g_test_message ("%s", rows[i].desc);
      check_plan_claim (plan, first);
      G_STRUCT_MEMBER (double, plan, rows[i].figure) += rows[i].change;
      g_autoptr (CheckReport) report = check_plan_run (plan);

      if (rows[i].broken == LEGAL)
        g_assert_cmpuint (report->violations->len, ==, 0);
      else
        {
          g_assert_cmpuint (report->violations->len, ==, 1);
          g_assert_true (check_report_breaks (report, rows[i].broken, 0));
        }
    }
}

static void
test_chips (void)
{
  g_autoptr (CheckPlan) plan = create_short_rabbet ();
  g_autoptr (CheckReport) first = check_plan_run (plan);
  CheckSetup *setup = g_ptr_array_index (plan->setups, 0);

  check_plan_claim (plan, first);
  g_array_index (setup->passes, CheckPass, 1).removes += 0.5;
  g_autoptr (CheckReport) report = check_plan_run (plan);

  g_assert_cmpuint (report->violations->len, ==, 1);
  g_assert_true (check_report_breaks (report, CHECK_RULE_CHIPS, 2));
}

/* Leftover beyond the limit needs a place within 1 mm. */
static void
test_places (void)
{
  const struct
  {
    const char *desc;
    double limit;
    CheckPlace place; /* thickness 0: none */
    gboolean broken;
  } rows[] = {
    { "within the limit", 1.5, { 0, 0, 0 }, FALSE },
    { "beyond it", 0.8, { 0, 0, 0 }, TRUE },
    { "named", 0.8, { 3, 9.1, 1 }, FALSE },
    { "named elsewhere", 0.8, { 12, 9.1, 1 }, TRUE },
    { "named too thick", 0.8, { 3, 9.1, 3 }, TRUE },
    { "named too thin", 0.8, { 3, 9.1, 0.5 }, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (CheckPlan) plan = create_short_rabbet ();

      g_test_message ("%s", rows[i].desc);
      plan->leftover_limit = rows[i].limit;
      if (rows[i].place.thickness > 0)
        g_array_append_val (plan->places, rows[i].place);
      g_autoptr (CheckReport) report = rig_run_honest (plan);

      g_assert_true (check_report_breaks (report, CHECK_RULE_LEFTOVER, 0) == rows[i].broken);
      g_assert_cmpuint (report->violations->len, ==, rows[i].broken ? 1 : 0);
    }
}

/* A fin of 0.05 stands 10 high on the lip of a rabbet: a film, which does not count. */
static void
test_film (void)
{
  g_autoptr (CheckPlan) plan = rig_create_plan (60, 25);
  const RigPass passes[RIG_PASSES]
      = { { "rip", SAW, 0, BACK, OUTSIDE, 53.6, 10 }, { "rip", SAW, 0, BACK, OUTSIDE, 56.85, 10 } };

  rig_add_rabbet (plan, 6.4, 10);
  rig_add_passes (plan, passes);
  plan->leftover_limit = 1.5;
  g_autoptr (CheckReport) first = check_plan_run (plan);

  check_plan_claim (plan, first);
  plan->leftover_thickness = 0;
  g_autoptr (CheckReport) report = check_plan_run (plan);

  g_assert_cmpfloat_with_epsilon (report->leftover_area, 0.5, 0.01);
  g_assert_cmpuint (report->violations->len, ==, 0);
}

/* A web of 0.3 holds a strip: as written that is one piece, and the checker warns. */
static void
test_web (void)
{
  static const double fences[][2] = { { 54, 15.3 }, { 54, 15 } };

  for (guint i = 0; i < G_N_ELEMENTS (fences); i++)
    {
      g_autoptr (CheckPlan) plan = rig_create_plan (60, 25);
      gboolean warned = FALSE;
      const RigPass passes[RIG_PASSES]
          = { { "rip", SAW, 0, INSIDE, FACE, 15, 6 }, { "rip", SAW, 0, BACK, OUTSIDE, 54, 6.5 } };

      rig_add_rabbet (plan, 6, 10);
      rig_add_passes (plan, passes);
      plan->leftover_limit = 1000;
      if (i == 1)
        {
          CheckSetup *setup = g_ptr_array_index (plan->setups, 0);

          g_array_index (setup->passes, CheckPass, 1).height = 5.5;
        }
      g_autoptr (CheckReport) report = rig_run_honest (plan);

      for (guint w = 0; w < report->warnings->len; w++)
        warned
            |= ((CheckViolation *)g_ptr_array_index (report->warnings, w))->rule == CHECK_RULE_WEB;
      g_assert_cmpuint (report->violations->len, ==, 0);
      g_assert_true (warned == (i == 0));
    }
}

static void
test_unreadable (void)
{
  g_autoptr (CheckPlan) empty = check_plan_new ();
  g_autoptr (CheckReport) of_empty = check_plan_run (empty);
  g_autoptr (CheckPlan) plan = create_short_rabbet ();
  CheckSetup *setup = check_plan_add_setup (plan, SAW, "straight");

  check_setup_add_pass (setup, BACK, FACE, 10, 5);
  g_autoptr (CheckReport) report = check_plan_run (plan);

  g_assert_true (check_report_breaks (of_empty, CHECK_RULE_PLAN, 0));
  g_assert_true (check_report_breaks (report, CHECK_RULE_PLAN, 0));
}

static const char file_text[]
    = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<plan version=\"1\" unit=\"mm\" rails=\"4\" length=\"3200\" step=\"0.05\">\n"
      "<blank width=\"60\" thickness=\"25\"/>\n"
      "<profile><point x=\"6\" y=\"0\"/><point x=\"60\" y=\"0\"/><point x=\"60\" y=\"25\"/>"
      "<point x=\"0\" y=\"25\"/><point x=\"0\" y=\"10\"/><point x=\"6\" y=\"10\"/></profile>\n"
      "<tools><blade id=\"rip\" diameter=\"254\" kerf=\"3.2\" height=\"75\" tilt=\"45\" "
      "bite=\"80\" grind=\"flat\"/><cutter id=\"c\" length=\"5\" bite=\"40\" speed=\"18000\">"
      "<point r=\"2\" z=\"0\"/><point r=\"2\" z=\"5\"/></cutter></tools>\n"
      "<setup machine=\"saw\" tool=\"rip\" tilt=\"0\">"
      "<pass down=\"inside\" against=\"face\" fence=\"15\" height=\"6\" removes=\"19.2\"/>"
      "<pass down=\"back\" against=\"outside\" fence=\"54\" height=\"10\" "
      "removes=\"%s\"/></setup>\n"
      "<leftover area=\"0\" thickness=\"0\" limit=\"1.5\"/>\n"
      "<minutes total=\"8.63\" setups=\"4.5\" passes=\"4.13\" hand=\"0\"/>\n</plan>\n";

static CheckPlan *
load_text (const char *removes, GError **error)
{
  g_autofree char *name = NULL;
  g_autofree char *text = g_strdup_printf (file_text, removes);
  int fd = g_file_open_tmp ("plan-XXXXXX.xml", &name, error);
  CheckPlan *plan;

  g_assert_cmpint (fd, >=, 0);
  g_close (fd, NULL);
  g_assert_true (g_file_set_contents (name, text, -1, error));
  plan = check_plan_from_file (name, error);
  g_unlink (name);
  return plan;
}

static void
test_file (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (CheckPlan) plan = load_text ("21.76", &error);

  g_assert_no_error (error);
  g_autoptr (CheckReport) report = check_plan_run (plan);
  g_autofree char *text = check_report_to_string (report);

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpfloat_with_epsilon (report->severed, 2.8 * 6.8, 0.01);

  g_autoptr (CheckPlan) wrong = load_text ("31.76", &error);
  g_autoptr (CheckReport) of_wrong = check_plan_run (wrong);

  g_assert_true (check_report_breaks (of_wrong, CHECK_RULE_CHIPS, 2));
  g_assert_null (load_text ("nan", &error));
  g_assert_nonnull (error);
}

/* The same plan from the program's own structs. */
static void
test_plan (void)
{
  g_autoptr (CavPlan) source = cav_plan_new ();
  g_autoptr (GError) error = NULL;
  const CavPoint profile[] = { { 6, 0 }, { 60, 0 }, { 60, 25 }, { 0, 25 }, { 0, 10 }, { 6, 10 } };
  CavSetup *setup = cav_setup_new (CAV_MACHINE_SAW, "rip");
  const struct
  {
    CavSide down, against;
    double fence, height, removes;
  } passes[] = { { CAV_SIDE_INSIDE, CAV_SIDE_FACE, 15, 6, 19.2 },
                 { CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 54, 10, 21.76 } };

  source->blank = (CavBlank){ 60, 25 };
  source->rails = 4;
  source->length = 3200;
  source->shop = cav_shop_new_default ();
  source->profile = cav_region_new_polygon (profile, G_N_ELEMENTS (profile), &error);
  g_assert_no_error (error);
  for (guint i = 0; i < G_N_ELEMENTS (passes); i++)
    {
      CavPass *pass = cav_pass_new ();

      pass->down = passes[i].down;
      pass->against = passes[i].against;
      pass->fence = passes[i].fence;
      pass->height = passes[i].height;
      pass->removes = passes[i].removes;
      g_ptr_array_add (setup->passes, pass);
    }
  g_ptr_array_add (source->setups, setup);
  source->minutes = 8.6333;
  source->minutes_setups = 4.5;
  source->minutes_passes = 4.1333;

  g_autoptr (CheckPlan) plan = check_plan_from_plan (source);
  g_autoptr (CheckReport) report = check_plan_run (plan);
  g_autofree char *text = check_report_to_string (report);

  g_assert_cmpstr (text, ==, "");
  g_assert_cmpfloat_with_epsilon (report->chips, 40.96, 0.01);
  g_assert_cmpuint (plan->tools->len, ==, 1 + source->shop->cutters->len);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/checker/sweeps", test_sweeps);
  g_test_add_func ("/milling/checker/cove-width", test_cove_width);
  g_test_add_func ("/milling/checker/drawn-angle", test_drawn_angle);
  g_test_add_func ("/milling/checker/minutes", test_minutes);
  g_test_add_func ("/milling/checker/leftover", test_leftover);
  g_test_add_func ("/milling/checker/thin-fin", test_thin_fin);
  g_test_add_func ("/milling/checker/flat-outline", test_flat_outline);
  g_test_add_func ("/milling/checker/claims", test_claims);
  g_test_add_func ("/milling/checker/chips", test_chips);
  g_test_add_func ("/milling/checker/places", test_places);
  g_test_add_func ("/milling/checker/film", test_film);
  g_test_add_func ("/milling/checker/web", test_web);
  g_test_add_func ("/milling/checker/unreadable", test_unreadable);
  g_test_add_func ("/milling/checker/file", test_file);
  g_test_add_func ("/milling/checker/plan", test_plan);
  return g_test_run ();
}
