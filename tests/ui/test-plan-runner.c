/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-plan-runner.h"
#include "ui-test.h"

static int plans;

static void
planned_cb (void)
{
  plans++;
}

/* One rabbet, which is planned in no time, thoroughly too. */
static CavDocument *
create_simple (void)
{
  CavDocument *document = cav_document_new ();
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  cav_project_add_cut (cav_document_get_project (document), cut);
  return document;
}

static CavPlanRunner *
get_runner (CavDocument *document)
{
  plans = 0;
  g_signal_connect (cav_document_get_runner (document), "planned", G_CALLBACK (planned_cb), NULL);
  return cav_document_get_runner (document);
}

static void
move_rails (CavDocument *document, int rails)
{
  cav_project_set_rails (cav_document_get_project (document), rails, 2400);
}

static gboolean
is_current (CavPlanRunner *runner)
{
  return cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_CURRENT;
}

/* First a quick plan, then, as nothing happens, the thorough one. */
static void
test_becomes_thorough (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);
  double quick;

  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  g_assert_null (cav_plan_runner_get_plan (runner));
  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  g_assert_false (cav_plan_runner_is_thorough (runner));
  g_assert_cmpuint (cav_plan_get_pass_count (cav_plan_runner_get_plan (runner)), >, 0);
  quick = cav_plan_runner_get_plan (runner)->minutes;

  ui_test_wait_for (cav_plan_runner_is_thorough (runner));
  g_assert_true (is_current (runner));
  g_test_message ("minutes: %g quickly, %g thoroughly", quick,
                  cav_plan_runner_get_plan (runner)->minutes);
  g_assert_cmpint (plans, ==, 2);
  ui_test_finalize (document);
}

/* A change makes the plan stale at once, before anything has run; the newest state is planned. */
static void
test_newest_wins (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);

  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  for (int rails = 5; rails <= 12; rails++)
    {
      move_rails (document, rails);
      g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
      g_assert_nonnull (cav_plan_runner_get_plan (runner));
      g_main_context_iteration (NULL, FALSE);
    }
  ui_test_wait_for (is_current (runner));
  g_assert_cmpint (cav_plan_runner_get_plan (runner)->rails, ==, 12);
  ui_test_finalize (document);
}

/* The rails that the frame takes are those that are planned, and printed on the pass sheet. */
static void
test_follows_frame (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);
  CavProject *project = cav_document_get_project (document);
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  double length;
  int rails;

  cav_project_set_frame_settings (project, settings);
  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  settings->picture_width += 100.0;
  cav_project_set_frame_settings (project, settings);
  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  ui_test_wait_for (is_current (runner));
  cav_project_get_milled_rails (project, &rails, &length);
  g_assert_cmpint (cav_plan_runner_get_plan (runner)->rails, ==, rails);
  g_assert_cmpfloat_with_epsilon (cav_plan_runner_get_plan (runner)->length, length, 1e-9);
  ui_test_finalize (document);
}

static void
add_corner_cut (CavProject *project, CavCutKind kind, CavCorner corner, double width, double depth)
{
  g_autoptr (CavCut) cut = cav_cut_new_at_corner (kind, corner);

  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  cav_project_add_cut (project, cut);
}

/* A cutter more in the shop never makes the plan longer: the search by itself is led astray by one
 * here, and the plan that was there before stays. */
static void
test_cutter_more (void)
{
  g_autoptr (CavDocument) document = cav_document_new ();
  CavProject *project = cav_document_get_project (document);
  CavPlanRunner *runner = get_runner (document);
  g_autoptr (CavShop) rich = cav_shop_copy (cav_project_get_shop (project));
  g_autoptr (CavShop) poor = cav_shop_copy (rich);
  guint at;
  double before;

  cav_project_set_blank (project, (CavBlank){ 16, 14 });
  add_corner_cut (project, CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE, 5, 6);
  add_corner_cut (project, CAV_CUT_ROUND, CAV_CORNER_FACE_INSIDE, 6.35, 6.35);
  add_corner_cut (project, CAV_CUT_ROUND, CAV_CORNER_FACE_OUTSIDE, 6.35, 6.35);
  for (at = 0; at < poor->cutters->len; at++)
    if (g_str_equal (((CavCutter *)g_ptr_array_index (poor->cutters, at))->id, "round-over-6.35"))
      break;
  g_assert_cmpuint (at, <, poor->cutters->len);
  g_ptr_array_remove_index (poor->cutters, at);

  cav_project_set_shop (project, poor);
  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  before = cav_plan_runner_get_plan (runner)->minutes;
  cav_project_set_shop (project, rich);
  g_assert_cmpint (cav_plan_runner_get_state (runner), ==, CAV_PLAN_STATE_STALE);
  ui_test_wait_for (is_current (runner));
  g_assert_cmpuint (cav_plan_runner_get_plan (runner)->shop->cutters->len, ==, rich->cutters->len);
  g_assert_cmpfloat (cav_plan_runner_get_plan (runner)->minutes, <=, before + 1e-9);
  ui_test_finalize (g_steal_pointer (&document));
}

/* What has nothing to do with the passes leaves the plan as it is. */
static void
test_texts_do_not_matter (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);

  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  cav_project_set_title (cav_document_get_project (document), "Another title");
  g_assert_true (is_current (runner));
  ui_test_finalize (document);
}

static void
add_groove_through (CavDocument *document)
{
  CavProject *project = cav_document_get_project (document);
  g_autoptr (CavCut) cut = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

  cut->numbers[CAV_CUT_POSITION] = cav_project_get_blank (project).width / 2;
  cut->numbers[CAV_CUT_DEPTH] = cav_project_get_blank (project).thickness;
  cav_project_add_cut (project, cut);
}

static void
test_failure_has_a_sentence (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);

  cav_plan_runner_start (runner);
  ui_test_wait_for (is_current (runner));
  add_groove_through (document);
  ui_test_wait_for (cav_plan_runner_get_state (runner) == CAV_PLAN_STATE_FAILED);
  g_assert_cmpstr (cav_plan_runner_get_message (runner), !=, "");
  g_assert_nonnull (cav_plan_runner_get_plan (runner));

  cav_project_undo (cav_document_get_project (document));
  ui_test_wait_for (is_current (runner));
  g_assert_null (cav_plan_runner_get_message (runner));
  ui_test_finalize (document);
}

static void
result_cb (GObject *source, GAsyncResult *result, gpointer user_data)
{
  *(GAsyncResult **)user_data = g_object_ref (result);
}

/* For paper one need not wait a second, and gets no quick plan. */
static void
test_thorough_on_demand (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);
  g_autoptr (GAsyncResult) first = NULL;
  g_autoptr (GAsyncResult) second = NULL;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (CavPlan) newer = NULL;

  cav_plan_runner_get_thorough_async (runner, NULL, result_cb, &first);
  ui_test_wait_for (first != NULL);
  plan = cav_plan_runner_get_thorough_finish (runner, first, &error);
  g_assert_no_error (error);
  g_assert_true (plan == cav_plan_runner_get_plan (runner));
  g_assert_true (cav_plan_runner_is_thorough (runner));

  /* Asked in the middle of a change: the answer is that of the newest state. */
  move_rails (document, 9);
  cav_plan_runner_get_thorough_async (runner, NULL, result_cb, &second);
  move_rails (document, 10);
  ui_test_wait_for (second != NULL);
  newer = cav_plan_runner_get_thorough_finish (runner, second, &error);
  g_assert_no_error (error);
  g_assert_cmpint (newer->rails, ==, 10);
  ui_test_finalize (document);
}

static void
test_no_thorough_plan (void)
{
  CavDocument *document = create_simple ();
  CavPlanRunner *runner = get_runner (document);
  g_autoptr (GAsyncResult) result = NULL;
  g_autoptr (GError) error = NULL;
  CavPlan *plan;

  add_groove_through (document);
  cav_plan_runner_get_thorough_async (runner, NULL, result_cb, &result);
  ui_test_wait_for (result != NULL);
  plan = cav_plan_runner_get_thorough_finish (runner, result, &error);
  g_assert_null (plan);
  g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT);
  g_clear_object (&result);
  ui_test_settle ();
  ui_test_finalize (document);
}

/* A window that is closed does not wait for its planner. */
static void
test_goes_while_planning (void)
{
  CavDocument *document = ui_test_open_example ("cove-and-bead.cavetto");
  gint64 before;

  cav_plan_runner_start (cav_document_get_runner (document));
  before = g_get_monotonic_time ();
  ui_test_finalize (document);
  g_assert_cmpint (g_get_monotonic_time () - before, <, G_USEC_PER_SEC / 2);
}

int
main (int argc, char *argv[])
{
  ui_test_init (&argc, &argv);
  g_test_add_func ("/ui/plan-runner/becomes-thorough", test_becomes_thorough);
  g_test_add_func ("/ui/plan-runner/newest-wins", test_newest_wins);
  g_test_add_func ("/ui/plan-runner/follows-frame", test_follows_frame);
  g_test_add_func ("/ui/plan-runner/cutter-more", test_cutter_more);
  g_test_add_func ("/ui/plan-runner/texts-do-not-matter", test_texts_do_not_matter);
  g_test_add_func ("/ui/plan-runner/failure-has-a-sentence", test_failure_has_a_sentence);
  g_test_add_func ("/ui/plan-runner/thorough-on-demand", test_thorough_on_demand);
  g_test_add_func ("/ui/plan-runner/no-thorough-plan", test_no_thorough_plan);
  g_test_add_func ("/ui/plan-runner/goes-while-planning", test_goes_while_planning);
  return g_test_run ();
}
