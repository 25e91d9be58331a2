/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-pass-group.h"

#include <string.h>

#include "drawing-samples.h"
#include "drawing/cav-pass-hints.h"

static const CavPassGroup *
get_group (const GArray *groups, guint index)
{
  return &g_array_index (groups, CavPassGroup, index);
}

/* Heights in a coving setup with the fence standing. */
static CavPlan *
create_climb (CavProject *project, const double *heights, guint n)
{
  CavPlan *plan = sample_plan_new_empty (project);

  sample_plan_add_setup (plan, CAV_MACHINE_COVE, "rip", 20);
  for (guint i = 0; i < n; i++)
    sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, heights[i], 0);
  return plan;
}

static void
test_ladder (void)
{
  static const double even[] = { 1.6, 3.2, 4.8, 5.2 };
  static const double uneven[] = { 1.6, 3.1, 4.4, 5.2 };
  g_autoptr (CavProject) project = sample_project_new ();
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);

  for (int i = 0; i < 2; i++)
    {
      g_autoptr (CavPlan) plan = create_climb (project, i == 0 ? even : uneven, 4);
      g_autoptr (GArray) groups = cav_pass_group_collect (plan);
      g_autofree char *words = NULL;
      double step;

      g_assert_cmpuint (groups->len, ==, 1);
      g_assert_cmpint (get_group (groups, 0)->ladder, ==, CAV_LADDER_HEIGHT);
      g_assert_cmpuint (get_group (groups, 0)->count, ==, 4);
      /* The last step may be less. */
      g_assert_cmpint (cav_pass_group_get_step (plan, get_group (groups, 0), &step), ==, i == 0);
      words = cav_words_describe_ladder (plan, get_group (groups, 0), &options);
      g_assert_nonnull (strstr (words, i == 0 ? "1.6 each" : "height up"));
    }
}

static void
test_what_is_no_ladder (void)
{
  static const double two[] = { 1.6, 3.2 };
  static const double back[] = { 1.6, 3.2, 2.4, 4 };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) short_plan = create_climb (project, two, 2);
  g_autoptr (CavPlan) back_plan = create_climb (project, back, 4);
  g_autoptr (CavPlan) both = sample_plan_new_long (project, 6, 6);
  g_autoptr (CavPlan) turned = create_climb (project, back, 1);
  g_autoptr (GArray) of_two = cav_pass_group_collect (short_plan);
  g_autoptr (GArray) of_back = cav_pass_group_collect (back_plan);
  g_autoptr (GArray) of_both = cav_pass_group_collect (both);
  g_autoptr (GArray) of_turned = NULL;

  g_assert_cmpuint (of_two->len, ==, 2);
  g_assert_cmpuint (of_back->len, ==, 4);
  g_assert_cmpuint (of_both->len, ==, 6);
  sample_plan_add_pass (turned, CAV_SIDE_FACE, CAV_SIDE_OUTSIDE, 26, 3.2, 0);
  sample_plan_add_pass (turned, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, 4.8, 0);
  of_turned = cav_pass_group_collect (turned);
  g_assert_cmpuint (of_turned->len, ==, 3);
}

/* Every pass is in one group, in order, and no group is longer than a panel can show. */
static void
test_all_passes (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
  g_autoptr (GArray) groups = NULL;
  guint number = 1;

  sample_plan_add_setup (plan, CAV_MACHINE_ROUTER, "straight-6.35", 0);
  for (int i = 0; i < 60; i++)
    sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 26, 0.2 + 0.1 * i, 0);
  groups = cav_pass_group_collect (plan);
  g_assert_cmpuint (groups->len, >=, 3);
  for (guint i = 0; i < groups->len; i++)
    {
      g_assert_cmpuint (get_group (groups, i)->number, ==, number);
      g_assert_cmpuint (get_group (groups, i)->count, <=, CAV_LADDER_MOST);
      number += get_group (groups, i)->count;
    }
  g_assert_cmpuint (number, ==, 61);
}

static void
test_sacrificial_fence (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);

  /* The fourth setup is cut into the fence, the coving after it is not. */
  g_assert_cmpint (cav_pass_find_board (plan, 0, 0), ==, CAV_FENCE_BOARD_STAYS);
  g_assert_cmpint (cav_pass_find_board (plan, 2, 0), ==, CAV_FENCE_BOARD_ON);
  g_assert_cmpint (cav_pass_find_board (plan, 3, 0), ==, CAV_FENCE_BOARD_OFF);
  g_assert_cmpint (cav_pass_find_board (plan, 3, 1), ==, CAV_FENCE_BOARD_STAYS);
  g_assert_cmpint (cav_pass_find_board (plan, 4, 0), ==, CAV_FENCE_BOARD_STAYS);
  g_assert_null (cav_words_get_board (CAV_FENCE_BOARD_STAYS));
  g_assert_nonnull (strstr (cav_words_get_board (CAV_FENCE_BOARD_ON), "from its face"));
}

/* A fence is never set over a blade that stands up: common practice, no source. */
static void
test_order (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  static const struct
  {
    double fence;
    double height;
    const char *change; /* all of it */
    const char *order;  /* in it, or NULL */
  } rows[] = {
    { -1.2, 1.4, "blade below the table, set fence, then raise blade", "lower the blade wholly" },
    { -1.2, 2.4, "height\302\240+\302\2401", "Raise the running blade" },
    { -1.2, 1.4, "height\302\240−\302\2401", NULL },
    { -0.7, 1.4, "blade below the table, fence\302\240+\302\2400.5, then raise the blade",
      "before the fence moves" },
    { 12, 1.4, "fence to its new figure", NULL },
    { -1.2, 1.4, "blade below the table, fence to its new figure, then raise the blade",
      "fence\302\2401.2 farther" },
  };
  CavSetup *setup = sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const CavPass *before = i > 0 ? g_ptr_array_index (setup->passes, i - 1) : NULL;
      CavPass *pass
          = sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, rows[i].fence,
                                  rows[i].height, rows[i].fence < 0 ? CAV_CAUTION_SACRIFICIAL : 0);
      g_autofree char *change = NULL;
      g_autofree char *order = NULL;

      pass->sacrificial = rows[i].fence < 0;
      change = cav_words_describe_change (plan, setup, before, pass, &options);
      order = cav_words_describe_order (plan, setup, before, pass, &options);
      g_assert_cmpstr (change, ==, rows[i].change);
      g_assert_cmpint (order != NULL, ==, rows[i].order != NULL);
      if (order != NULL)
        g_assert_nonnull (strstr (order, rows[i].order));
    }
}

/* A blade that just clears the fence asks for the board as well. */
static void
test_board_against_blade (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new_empty (project);

  sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 12, 5, 0);
  sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 0.3, 5, CAV_CAUTION_SACRIFICIAL);
  g_assert_cmpint (cav_pass_find_board (plan, 0, 0), ==, CAV_FENCE_BOARD_STAYS);
  g_assert_cmpint (cav_pass_find_board (plan, 0, 1), ==, CAV_FENCE_BOARD_ON);
}

/* The fence across the blade: what is measured, and how it moves. */
static void
test_coving_fence (void)
{
  static const double heights[] = { 1.6, 3.2 };
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = create_climb (project, heights, 2);
  const CavSetup *setup = g_ptr_array_index (plan->setups, 0);
  CavPass *moved = sample_plan_add_pass (plan, CAV_SIDE_FACE, CAV_SIDE_INSIDE, 24.9, 3, 0);
  const CavPass *first = g_ptr_array_index (setup->passes, 0);
  const CavPass *second = g_ptr_array_index (setup->passes, 1);

  g_assert_nonnull (strstr (cav_words_get_middle (setup), "square to the fence"));
  g_assert_null (cav_words_get_parallel (setup, NULL, first));
  g_assert_null (cav_words_get_parallel (setup, first, second));
  g_assert_nonnull (strstr (cav_words_get_parallel (setup, second, moved), "both ends"));
}

/* A wall that rows measure a micrometre short is told as thick as it is, and never thicker. */
static void
test_wall_thickness (void)
{
  static const double fences[] = { 17.001, 17.04 };
  static const char *const thick[] = { "Thin wall 1.8 thick", "Thin wall 1.7 thick" };

  for (guint i = 0; i < G_N_ELEMENTS (fences); i++)
    {
      g_autoptr (CavProject) project = sample_project_new ();
      g_autoptr (CavPlan) plan = sample_plan_new_empty (project);
      CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
      g_autoptr (GArray) groups = NULL;
      g_autofree char *words = NULL;

      /* The blank is 22 thick, the kerf 3.2. */
      sample_plan_add_setup (plan, CAV_MACHINE_SAW, "rip", 0);
      sample_plan_add_pass (plan, CAV_SIDE_INSIDE, CAV_SIDE_BACK, fences[i], 16,
                            CAV_CAUTION_THIN_WALL);
      groups = cav_pass_group_collect (plan);
      words = cav_words_describe_wall (plan, get_group (groups, 0), &options);
      g_assert_nonnull (words);
      g_assert_nonnull (strstr (words, thick[i]));
    }
}

/* Legs by the published example: D 10, d 0.5, W 1.5, k 1/8 in gives legs of 7.085 and 6.341, and
 * 41.83 degrees ("Making Cove Profiles on a Table Saw", a hobby tutorial of 2019). */
static void
test_setting_triangle (void)
{
  double along;
  double across;

  cav_cove_get_legs (41.83, CAV_UNIT_MM, &along, &across);
  g_assert_cmpfloat_with_epsilon (along, 200, 1e-9);
  g_assert_cmpfloat_with_epsilon (across / along, 6.341 / 7.085, 1e-3);
  cav_cove_get_legs (60, CAV_UNIT_INCH, &along, &across);
  g_assert_cmpfloat_with_epsilon (across, 8 * 25.4, 1e-9);
  g_assert_cmpfloat_with_epsilon (across / along, 1.7320508, 1e-6);
}

/* What the trial must measure is where the simulated cut is. */
static void
test_trial (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavPlan) plan = sample_plan_new (project);
  CavSheetOptions options = sample_options (CAV_UNIT_MM, CAV_PAPER_A4);
  const CavSetup *saw = g_ptr_array_index (plan->setups, 0);
  const CavSetup *router = g_ptr_array_index (plan->setups, 4);
  g_autofree char *kerf
      = cav_words_describe_trial (plan, saw, g_ptr_array_index (saw->passes, 0), &options);
  g_autofree char *cove
      = cav_words_describe_trial (plan, router, g_ptr_array_index (router->passes, 0), &options);

  g_assert_nonnull (strstr (kerf, "50.45"));
  g_assert_nonnull (strstr (kerf, "from the outside"));
  g_assert_nonnull (strstr (kerf, "9.5\302\240deep"));
  g_assert_nonnull (strstr (cove, "cut ends"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/pass-group/board-against-blade", test_board_against_blade);
  g_test_add_func ("/drawing/pass-group/coving-fence", test_coving_fence);
  g_test_add_func ("/drawing/pass-group/ladder", test_ladder);
  g_test_add_func ("/drawing/pass-group/order", test_order);
  g_test_add_func ("/drawing/pass-group/wall-thickness", test_wall_thickness);
  g_test_add_func ("/drawing/pass-group/what-is-no-ladder", test_what_is_no_ladder);
  g_test_add_func ("/drawing/pass-group/all-passes", test_all_passes);
  g_test_add_func ("/drawing/pass-group/sacrificial-fence", test_sacrificial_fence);
  g_test_add_func ("/drawing/pass-group/setting-triangle", test_setting_triangle);
  g_test_add_func ("/drawing/pass-group/trial", test_trial);
  return g_test_run ();
}
