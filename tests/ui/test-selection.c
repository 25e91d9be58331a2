/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "app/cav-selection.h"

static int changes;

static void
count_cb (void)
{
  changes++;
}

static void
test_cuts (void)
{
  g_autoptr (CavSelection) selection = cav_selection_new ();
  guint index = 99;

  changes = 0;
  g_signal_connect (selection, "cuts-changed", count_cb, NULL);
  g_assert_cmpuint (cav_selection_get_cut_count (selection), ==, 0);
  g_assert_false (cav_selection_get_single_cut (selection, &index));

  cav_selection_set_cuts (selection, (const guint[]){ 7, 0, 3 }, 3);
  g_assert_cmpuint (cav_selection_get_cut (selection, 0), ==, 0);
  g_assert_cmpuint (cav_selection_get_cut (selection, 1), ==, 3);
  g_assert_cmpuint (cav_selection_get_cut (selection, 2), ==, 7);
  g_assert_true (cav_selection_has_cut (selection, 7));
  g_assert_false (cav_selection_has_cut (selection, 1));
  g_assert_cmpint (changes, ==, 1);

  cav_selection_set_cuts (selection, (const guint[]){ 3, 7, 0 }, 3);
  g_assert_cmpint (changes, ==, 1);

  cav_selection_toggle_cut (selection, 3);
  cav_selection_toggle_cut (selection, 5);
  g_assert_cmpint (changes, ==, 3);
  g_assert_cmpuint (cav_selection_get_cut (selection, 1), ==, 5);

  cav_selection_choose_cut (selection, 5);
  g_assert_true (cav_selection_get_single_cut (selection, &index));
  g_assert_cmpuint (index, ==, 5);
  cav_selection_clear_cuts (selection);
  cav_selection_clear_cuts (selection);
  g_assert_cmpint (changes, ==, 5);
}

static void
test_limit (void)
{
  g_autoptr (CavSelection) selection = cav_selection_new ();

  cav_selection_set_cuts (selection, (const guint[]){ 1, 4, 5 }, 3);
  changes = 0;
  g_signal_connect (selection, "cuts-changed", count_cb, NULL);
  cav_selection_limit_cuts (selection, 6);
  g_assert_cmpint (changes, ==, 0);
  cav_selection_limit_cuts (selection, 4);
  g_assert_cmpint (changes, ==, 1);
  g_assert_cmpuint (cav_selection_get_cut_count (selection), ==, 1);
  cav_selection_limit_cuts (selection, 0);
  g_assert_cmpuint (cav_selection_get_cut_count (selection), ==, 0);
}

static void
test_pass (void)
{
  g_autoptr (CavSelection) selection = cav_selection_new ();

  changes = 0;
  g_signal_connect (selection, "notify::pass", count_cb, NULL);
  g_assert_cmpint (cav_selection_get_pass (selection), ==, CAV_NO_PASS);
  cav_selection_set_pass (selection, 2);
  cav_selection_set_pass (selection, 2);
  g_assert_cmpint (changes, ==, 1);
  g_object_set (selection, "pass", CAV_NO_PASS, NULL);
  g_assert_cmpint (cav_selection_get_pass (selection), ==, CAV_NO_PASS);
}

/* Drawing a cut and looking at a pass exclude each other. */
static void
test_kind (void)
{
  g_autoptr (CavSelection) selection = cav_selection_new ();

  changes = 0;
  g_signal_connect (selection, "notify::kind", count_cb, NULL);
  cav_selection_set_pass (selection, 1);
  cav_selection_set_kind (selection, 3);
  g_assert_cmpint (cav_selection_get_pass (selection), ==, CAV_NO_PASS);
  cav_selection_set_kind (selection, 3);
  g_assert_cmpint (changes, ==, 1);
  cav_selection_set_pass (selection, 0);
  g_assert_cmpint (cav_selection_get_kind (selection), ==, CAV_NO_KIND);
  g_assert_cmpint (changes, ==, 2);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/ui/selection/cuts", test_cuts);
  g_test_add_func ("/ui/selection/limit", test_limit);
  g_test_add_func ("/ui/selection/pass", test_pass);
  g_test_add_func ("/ui/selection/kind", test_kind);
  return g_test_run ();
}
