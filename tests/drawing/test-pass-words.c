/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-words.h"

#include <string.h>

#include "drawing-samples.h"

/* No-break spaces as plain ones, for comparing. */
static char *
dup_plain (const char *text)
{
  g_auto (GStrv) parts = g_strsplit (text, "\302\240", -1);

  return g_strjoinv (" ", parts);
}

static void
test_sides (void)
{
  for (int i = 0; i < CAV_N_SIDES; i++)
    {
      const char *side = cav_side_to_string ((CavSide)i);

      g_assert_true (g_str_has_prefix (cav_words_get_down ((CavSide)i), side));
      g_assert_true (g_str_has_suffix (cav_words_get_down ((CavSide)i), " down"));
      g_assert_true (g_str_has_prefix (cav_words_get_against ((CavSide)i), side));
      g_assert_true (g_str_has_suffix (cav_words_get_against ((CavSide)i), " to fence"));
    }
}

static void
test_cautions_have_words (void)
{
  for (int i = 0; i < CAV_N_CAUTIONS; i++)
    {
      const char *words = cav_words_get_caution ((CavCaution)(1u << i));

      g_assert_cmpuint (strlen (words), >, 8);
      /* They have to fit beside a sign in a panel of the smaller paper. */
      g_assert_cmpuint (strlen (words), <, 42);
      for (int j = 0; j < i; j++)
        g_assert_cmpstr (words, !=, cav_words_get_caution ((CavCaution)(1u << j)));
    }
}

static void
check_change (CavPlan *plan, guint setup, guint pass, CavUnit unit, const char *expected)
{
  CavSheetOptions options = sample_options (unit, CAV_PAPER_A4);
  CavSetup *where = g_ptr_array_index (plan->setups, setup);
  const CavPass *before = pass > 0 ? g_ptr_array_index (where->passes, pass - 1) : NULL;
  g_autofree char *change = cav_words_describe_change (
      plan, where, before, g_ptr_array_index (where->passes, pass), &options);
  g_autofree char *plain = dup_plain (change);

  g_assert_cmpstr (plain, ==, expected);
}

static void
test_changes (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavPass *last;

  check_change (plan, 0, 0, CAV_UNIT_MM, "set height, then fence");
  /* 9.3 - 50.45 and 6.35 - 9.5. */
  check_change (plan, 0, 1, CAV_UNIT_MM, "turn the rails, fence − 41.15, height − 3.15");
  check_change (plan, 3, 1, CAV_UNIT_MM, "height + 1.3");
  /* The fence stays, although more of the cutter shows when it is higher. */
  check_change (plan, 4, 1, CAV_UNIT_MM, "fence stays, height + 4.2");
  check_change (plan, 4, 2, CAV_UNIT_MM, "fence + 3.2");
  /* 3.2 mm is 1/8 in and a little. */
  check_change (plan, 4, 2, CAV_UNIT_INCH, "fence + 1/8");
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 0, 9.5, 0);
  check_change (plan, 4, 3, CAV_UNIT_MM, "as before");
  last = sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 20, 9.5, 0);
  check_change (plan, 4, 4, CAV_UNIT_MM, "fence to its new figure");
  last->fence = 0.05;
  check_change (plan, 4, 4, CAV_UNIT_INCH, "fence + less than 1/64");
}

static void
test_settings (void)
{
  static const struct
  {
    CavMachine machine;
    double degrees;
    const char *expected;
  } rows[] = {
    { CAV_MACHINE_SAW, 0, "Blade upright" },
    { CAV_MACHINE_SAW, 22.5, "Tilt 22.5° away from the fence" },
    { CAV_MACHINE_SAW, -45, "Tilt 45° toward the fence" },
    { CAV_MACHINE_COVE, 24.5, "Fence at 24.5° to the blade" },
    { CAV_MACHINE_ROUTER, 0, NULL },
  };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      CavSetup *setup = sample_plan_add_setup (plan, rows[i].machine, "rip", rows[i].degrees);
      g_autofree char *text = cav_words_describe_setting (setup, FALSE);

      g_assert_cmpstr (text, ==, rows[i].expected);
    }
}

static void
test_tools (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autofree char *list = cav_words_list_tools (plan, &options);
  g_autofree char *blade
      = cav_words_describe_tool (plan, g_ptr_array_index (plan->setups, 0), &options);
  g_autofree char *unknown = NULL;

  /* Each tool once, in the order of use. */
  g_assert_cmpstr (list, ==, "Rip blade; Cove, radius 9.5.");
  g_assert_cmpstr (blade, ==, "254\302\240mm, kerf 3.2");
  unknown = cav_words_dup_tool (
      plan, sample_plan_add_setup (plan, CAV_MACHINE_ROUTER, "no-such-tool", 0));
  g_assert_cmpstr (unknown, ==, "no-such-tool");
}

static void
test_blank (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  g_autofree char *plain = NULL;
  g_autofree char *text = NULL;

  plan->blank.width += 12;
  plan->carrier_outside = 12;
  text = cav_words_describe_blank (project, plan, &options);
  plain = dup_plain (text);
  g_assert_nonnull (strstr (plain, "; each squared to 72 × 22 mm. "));
  g_assert_nonnull (strstr (plain, "1 spare piece of 300 mm for trial cuts"));
  g_assert_nonnull (strstr (plain, "a carrier of 12 mm at the outside"));
  g_assert_null (strstr (plain, "at the inside"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/pass-words/sides", test_sides);
  g_test_add_func ("/drawing/pass-words/cautions-have-words", test_cautions_have_words);
  g_test_add_func ("/drawing/pass-words/changes", test_changes);
  g_test_add_func ("/drawing/pass-words/settings", test_settings);
  g_test_add_func ("/drawing/pass-words/tools", test_tools);
  g_test_add_func ("/drawing/pass-words/blank", test_blank);
  return g_test_run ();
}
