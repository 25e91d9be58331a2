/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-pass-text.h"
#include "tool/cav-text.h"

#include <string.h>

/* Writes what is printed now over what is expected, for a look at the difference. */
static gboolean generate;

/* A plan made by hand with something of everything; it need not be millable. */
typedef struct
{
  CavPlan plan;
  CavProject *project;
} Fixture;

static void
free_setup (gpointer data)
{
  CavSetup *setup = data;

  g_free (setup->tool);
  g_ptr_array_unref (setup->passes);
  g_free (setup);
}

static void
fixture_set_up (Fixture *self, gconstpointer data)
{
  self->project = cav_project_new ();
  self->plan = (CavPlan){
    .ref_count = 1,
    .blank = { .width = 60.0, .thickness = 22.0 },
    .shop = cav_shop_new_default (),
    .rails = 4,
    .length = 3200.0,
    .setups = g_ptr_array_new_with_free_func (free_setup),
    .places = g_ptr_array_new_with_free_func (g_free),
    .minutes = 18.27,
    .minutes_setups = 5.5,
    .minutes_passes = 12.77,
    .usable = TRUE,
    .findings = cav_finding_list_new (),
  };
}

static void
fixture_tear_down (Fixture *self, gconstpointer data)
{
  cav_shop_free (self->plan.shop);
  g_ptr_array_unref (self->plan.setups);
  g_ptr_array_unref (self->plan.places);
  g_ptr_array_unref (self->plan.findings);
  g_object_unref (self->project);
}

static CavSetup *
add_setup (Fixture *self, CavMachine machine, const char *tool, double minutes)
{
  CavSetup *setup = g_new0 (CavSetup, 1);

  setup->machine = machine;
  setup->tool = g_strdup (tool);
  setup->minutes = minutes;
  setup->passes = g_ptr_array_new_with_free_func (g_free);
  g_ptr_array_add (self->plan.setups, setup);
  return setup;
}

static CavPass *
add_pass (CavSetup *setup, CavSide down, CavSide against, double fence, double height)
{
  CavPass *pass = g_new0 (CavPass, 1);

  pass->down = down;
  pass->against = against;
  pass->fence = fence;
  pass->height = height;
  pass->removes = 3.2 * height;
  pass->bite = height;
  g_ptr_array_add (setup->passes, pass);
  return pass;
}

static void
add_place (Fixture *self, double x, double y, double thickness, const char *advice)
{
  CavLeftoverPlace *place = g_new0 (CavLeftoverPlace, 1);

  place->place = CAV_POINT (x, y);
  place->thickness = thickness;
  place->reason = (char *)"no tool reaches";
  place->advice = (char *)advice;
  g_ptr_array_add (self->plan.places, place);
}

static const char *
get_first_blade (const Fixture *self)
{
  return ((const CavBlade *)g_ptr_array_index (self->plan.shop->blades, 0))->id;
}

static void
fill_with_everything (Fixture *self)
{
  const char *blade = get_first_blade (self);
  CavPlan *plan = &self->plan;
  CavSetup *setup;
  CavPass *pass;

  cav_project_set_title (self->project, "Ferns\033[31m of the reading room");
  cav_project_set_wood (self->project, cav_wood_find ("ash-white"));
  plan->blank.width = 70.0;
  plan->carrier_outside = 10.0;

  setup = add_setup (self, CAV_MACHINE_SAW, blade, 3.0);
  add_pass (setup, CAV_SIDE_BACK, CAV_SIDE_INSIDE, 12.0, 6.0);
  pass = add_pass (setup, CAV_SIDE_INSIDE, CAV_SIDE_BACK, 15.25, 8.8);
  pass->severs = TRUE;
  pass->cautions = CAV_CAUTION_SEVERS | CAV_CAUTION_HIDDEN_BLADE;
  pass = add_pass (setup, CAV_SIDE_INSIDE, CAV_SIDE_BACK, -1.2, 8.8);
  pass->sacrificial = TRUE;
  pass->cautions = CAV_CAUTION_SACRIFICIAL;
  pass = add_pass (setup, CAV_SIDE_INSIDE, CAV_SIDE_BACK, -1.2, 8.8);
  pass->sacrificial = TRUE;

  setup = add_setup (self, CAV_MACHINE_SAW, blade, 6.0);
  setup->tilt = -22.5;
  add_pass (setup, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 31.4, 20.05);

  setup = add_setup (self, CAV_MACHINE_COVE, blade, 12.0);
  setup->angle = 24.57;
  pass = add_pass (setup, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 28.0, 1.6);
  pass->cautions = CAV_CAUTION_COVING;
  pass = add_pass (setup, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 28.0, 3.2);
  pass->cautions = CAV_CAUTION_COVING;

  setup = add_setup (self, CAV_MACHINE_ROUTER, "cove-9.5", 5.0);
  add_pass (setup, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 0.0, 9.5);
  setup = add_setup (self, CAV_MACHINE_ROUTER, "cove-9.5", 2.0);
  setup->tool_stays = TRUE;
  add_pass (setup, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 40.0, 9.5);

  setup = add_setup (self, CAV_MACHINE_SAW, blade, 3.0);
  pass = add_pass (setup, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 6.8, 23.0);
  pass->severs = TRUE;
  pass->frees_rail = TRUE;
  pass->cautions = CAV_CAUTION_SEVERS;

  plan->leftover_area = 32.04;
  plan->leftover_thickness = 2.0;
  plan->minutes_hand = 8.0;
  plan->gouge = 0.012;
  add_place (self, 12.4, 8.0, 2.0, "a dovetail cutter of 14 degrees would reach it.");
  add_place (self, 30.0, 20.0, 1.7, NULL);
  g_ptr_array_add (
      plan->findings,
      cav_finding_new (CAV_FINDING_CAUTION, "x",
                       "Something to think about before you begin, "
                       "told in a sentence that is longer than a line of this table."));
}

static void
compare_golden (const char *name, const char *text)
{
  g_autofree char *file = g_test_build_filename (G_TEST_DIST, "golden", name, NULL);
  g_autofree char *expected = NULL;
  g_autoptr (GError) error = NULL;

  if (generate)
    {
      g_assert_true (g_file_set_contents (file, text, -1, &error));
      g_assert_no_error (error);
      return;
    }
  g_assert_true (g_file_get_contents (file, &expected, NULL, &error));
  g_assert_no_error (error);
  g_assert_cmpstr (text, ==, expected);
}

static void
check_lines (const char *text)
{
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);

  for (char **line = lines; *line != NULL; line++)
    {
      g_assert_cmpint (cav_text_get_width (*line), <=, 100);
      for (const char *p = *line; *p != '\0'; p++)
        g_assert_true ((guchar)*p >= 0x20 && *p != 0x7f);
    }
  g_assert_true (g_str_has_suffix (text, "\n"));
}

static void
test_everything (Fixture *self, gconstpointer data)
{
  g_autofree char *mm = NULL;
  g_autofree char *inch = NULL;

  fill_with_everything (self);
  mm = cav_pass_text_create (self->project, &self->plan, CAV_UNIT_MM);
  inch = cav_pass_text_create (self->project, &self->plan, CAV_UNIT_INCH);
  check_lines (mm);
  check_lines (inch);
  compare_golden ("everything-mm.txt", mm);
  compare_golden ("everything-in.txt", inch);
}

static void
test_plain (Fixture *self, gconstpointer data)
{
  CavSetup *setup = add_setup (self, CAV_MACHINE_SAW, get_first_blade (self), 3.0);
  g_autofree char *text = NULL;

  add_pass (setup, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 20.0, 6.0);
  text = cav_pass_text_create (self->project, &self->plan, CAV_UNIT_MM);
  check_lines (text);
  compare_golden ("plain.txt", text);
}

/* A shop without that tool, as a plan from elsewhere could name one: told by its id. */
static void
test_unknown_tool (Fixture *self, gconstpointer data)
{
  CavSetup *setup = add_setup (self, CAV_MACHINE_ROUTER, "long-lost", 5.0);
  g_autofree char *text = NULL;

  add_pass (setup, CAV_SIDE_BACK, CAV_SIDE_OUTSIDE, 20.0, 6.0);
  text = cav_pass_text_create (self->project, &self->plan, CAV_UNIT_MM);
  g_assert_nonnull (strstr (text, "Router table: long-lost (5 min)"));
}

static void
test_finding (void)
{
  g_autoptr (CavFinding) finding
      = cav_finding_new (CAV_FINDING_WRONG, "code", "Too\nthin: make it wider.");
  g_autofree char *without_place = cav_finding_text_create (finding, CAV_UNIT_MM);
  g_autofree char *with_place = NULL;

  g_assert_cmpstr (without_place, ==, "Too thin: make it wider.");
  g_assert_cmpstr (cav_finding_text_get_word (finding), ==, "wrong");
  cav_finding_set_place (finding, CAV_POINT (12.4, 8.0));
  with_place = cav_finding_text_create (finding, CAV_UNIT_MM);
  g_assert_cmpstr (with_place, ==, "at 12.4, 8: Too thin: make it wider.");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  generate = argc > 1 && strcmp (argv[1], "--generate") == 0;
#define ADD(path, function)                                                                        \
  g_test_add (path, Fixture, NULL, fixture_set_up, function, fixture_tear_down)
  ADD ("/tool/pass-text/everything", test_everything);
  ADD ("/tool/pass-text/plain", test_plain);
  ADD ("/tool/pass-text/unknown-tool", test_unknown_tool);
#undef ADD
  g_test_add_func ("/tool/pass-text/finding", test_finding);
  return g_test_run ();
}
