/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-plan-private.h"

#include <math.h>

static CavPlan *
create_plan (void)
{
  CavPlan *plan = cav_plan_new ();

  plan->blank = (CavBlank){ 60, 30 };
  plan->profile = cav_region_new_box (0, 0, 60, 30);
  plan->shop = cav_shop_new_default ();
  return plan;
}

static CavSetup *
add_setup (CavPlan *plan, CavMachine machine, const char *tool, guint n_passes)
{
  CavSetup *setup = cav_setup_new (machine, tool);

  for (guint i = 0; i < n_passes; i++)
    {
      CavPass *pass = cav_pass_new ();

      pass->before = cav_region_ref (plan->profile);
      pass->after = cav_region_ref (plan->profile);
      pass->swept = cav_region_ref (plan->profile);
      g_ptr_array_add (setup->passes, pass);
    }
  g_ptr_array_add (plan->setups, setup);
  return setup;
}

static void
test_life (void)
{
  g_autoptr (CavPlan) plan = create_plan ();
  CavPlan *again = cav_plan_ref (plan);
  CavLeftoverPlace *place = g_new0 (CavLeftoverPlace, 1);

  g_assert_true (again == plan);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 0);
  add_setup (plan, CAV_MACHINE_SAW, "rip", 3);
  add_setup (plan, CAV_MACHINE_ROUTER, "vee-90", 0);
  add_setup (plan, CAV_MACHINE_COVE, "rip", 2);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 5);
  place->reason = g_strdup ("no tool reaches");
  g_ptr_array_add (plan->places, place);
  /* The first of two owners lets go; the plan stays whole. */
  cav_plan_unref (again);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), ==, 5);
  cav_plan_unref (NULL);
}

static void
test_machines (void)
{
  g_assert_cmpstr (cav_machine_to_string (CAV_MACHINE_SAW), ==, "saw");
  g_assert_cmpstr (cav_machine_to_string (CAV_MACHINE_COVE), ==, "cove");
  g_assert_cmpstr (cav_machine_to_string (CAV_MACHINE_ROUTER), ==, "router");
}

/* The figure that people set, a cutter at its widest part above the table. */
static void
test_measure (void)
{
  g_autoptr (CavPlan) plan = create_plan ();
  const struct
  {
    const char *desc;
    CavMachine machine;
    const char *tool;
    double fence;
    double height;
    CavMeasure measure;
    double figure;
  } rows[] = {
    { "near tooth", CAV_MACHINE_SAW, "rip", 12.35, 7, CAV_MEASURE_FENCE_TO_TOOTH, 12.35 },
    { "at the fence", CAV_MACHINE_SAW, "rip", 0, 7, CAV_MEASURE_FENCE_TO_TOOTH, 0 },
    { "half in the fence", CAV_MACHINE_SAW, "rip", -1.2, 7, CAV_MEASURE_BLADE_IN_FENCE, 2.0 },
    { "all in the fence", CAV_MACHINE_SAW, "rip", -4, 7, CAV_MEASURE_BLADE_IN_FENCE, 0 },
    { "a blade that is not there", CAV_MACHINE_SAW, "gone", -4, 7, CAV_MEASURE_FENCE_TO_TOOTH, 0 },
    { "cove", CAV_MACHINE_COVE, "rip", 45, 7, CAV_MEASURE_FENCE_TO_MIDDLE, 45 },
    { "gap to a straight cutter", CAV_MACHINE_ROUTER, "straight-12.7", 20, 7,
      CAV_MEASURE_FENCE_TO_CUTTER, 20 - 6.35 },
    { "part of a straight cutter", CAV_MACHINE_ROUTER, "straight-12.7", 2, 7,
      CAV_MEASURE_CUTTER_SHOWS, 8.35 },
    { "axis behind the fence", CAV_MACHINE_ROUTER, "straight-12.7", -2, 7, CAV_MEASURE_CUTTER_SHOWS,
      4.35 },
    { "all behind the fence", CAV_MACHINE_ROUTER, "straight-12.7", -7, 7, CAV_MEASURE_CUTTER_SHOWS,
      0 },
    /* A point of 90 degrees is as wide to each side as it is high, above the table. */
    { "point", CAV_MACHINE_ROUTER, "vee-90", 10, 6, CAV_MEASURE_FENCE_TO_CUTTER, 4 },
    { "point at the fence", CAV_MACHINE_ROUTER, "vee-90", 4, 6, CAV_MEASURE_CUTTER_SHOWS, 10 },
    { "a cutter that is not there", CAV_MACHINE_ROUTER, "gone", 4, 6, CAV_MEASURE_FENCE_TO_CUTTER,
      4 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSetup *setup = cav_setup_new (rows[i].machine, rows[i].tool);
      const CavPass pass = { .fence = rows[i].fence, .height = rows[i].height };
      double figure = -1;

      g_test_message ("%s", rows[i].desc);
      g_assert_cmpint (cav_pass_get_measure (plan, setup, &pass, &figure), ==, rows[i].measure);
      g_assert_cmpfloat_with_epsilon (figure, rows[i].figure, 0.006);
      cav_setup_free (setup);
    }
}

static void
test_words (void)
{
  for (guint i = 0; i < CAV_N_CAUTIONS; i++)
    {
      const char *sentence = cav_caution_get_sentence ((CavCaution)(1u << i));

      g_assert_true (g_str_has_suffix (sentence, "."));
      for (guint k = 0; k < i; k++)
        g_assert_cmpstr (sentence, !=, cav_caution_get_sentence ((CavCaution)(1u << k)));
    }
  g_assert_cmpstr (cav_caution_get_sentence ((CavCaution)0), ==, "");
  g_assert_cmpstr (cav_measure_get_label (CAV_MEASURE_FENCE_TO_TOOTH), ==, "fence to near tooth");
  for (int i = 0; i <= CAV_MEASURE_FENCE_TO_CUTTER; i++)
    for (int k = 0; k < i; k++)
      g_assert_cmpstr (cav_measure_get_label ((CavMeasure)i), !=,
                       cav_measure_get_label ((CavMeasure)k));
  g_assert_cmpstr (cav_measure_get_label ((CavMeasure)99), ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/plan/life", test_life);
  g_test_add_func ("/milling/plan/machines", test_machines);
  g_test_add_func ("/milling/plan/measure", test_measure);
  g_test_add_func ("/milling/plan/words", test_words);
  return g_test_run ();
}
