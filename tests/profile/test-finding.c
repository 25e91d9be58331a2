/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile/cav-finding.h"

#include <math.h>

static void
test_new (void)
{
  g_autoptr (CavFinding) finding
      = cav_finding_new (CAV_FINDING_CAUTION, "thin", "Only %d mm at %s.", 2, "the rabbet");

  g_assert_cmpint (finding->severity, ==, CAV_FINDING_CAUTION);
  g_assert_cmpstr (finding->code, ==, "thin");
  g_assert_cmpstr (finding->message, ==, "Only 2 mm at the rabbet.");
  g_assert_false (finding->has_place);
  g_assert_cmpint (finding->cut, ==, -1);
  cav_finding_free (NULL);
}

static void
test_copy (void)
{
  g_autoptr (CavFinding) finding = cav_finding_new (CAV_FINDING_NOTE, "code", "Message.");
  cav_finding_set_place (finding, CAV_POINT (3.0, 4.0));
  finding->cut = 7;
  g_autoptr (CavFinding) copy = cav_finding_copy (finding);

  g_assert_true (copy->code != finding->code && copy->message != finding->message);
  g_assert_cmpstr (copy->code, ==, "code");
  g_assert_cmpstr (copy->message, ==, "Message.");
  g_assert_cmpint (copy->cut, ==, 7);
  g_assert_true (copy->has_place);
  g_assert_true (cav_point_near (copy->place, CAV_POINT (3.0, 4.0), 1e-12));
}

static void
test_no_place (void)
{
  g_autoptr (CavFinding) finding = cav_finding_new (CAV_FINDING_NOTE, "code", "Message.");

  cav_finding_set_place (finding, CAV_POINT (NAN, 0.0));
  g_assert_false (finding->has_place);
  cav_finding_set_place (finding, CAV_POINT (0.0, INFINITY));
  g_assert_false (finding->has_place);
}

static void
test_list (void)
{
  g_autoptr (GPtrArray) findings = cav_finding_list_new ();

  g_assert_false (cav_finding_list_has_wrong (findings));
  g_ptr_array_add (findings, cav_finding_new (CAV_FINDING_NOTE, "a", "A."));
  g_ptr_array_add (findings, cav_finding_new (CAV_FINDING_CAUTION, "b", "B."));
  g_assert_false (cav_finding_list_has_wrong (findings));
  g_ptr_array_add (findings, cav_finding_new (CAV_FINDING_WRONG, "c", "C."));
  g_assert_true (cav_finding_list_has_wrong (findings));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/profile/finding/new", test_new);
  g_test_add_func ("/profile/finding/copy", test_copy);
  g_test_add_func ("/profile/finding/no-place", test_no_place);
  g_test_add_func ("/profile/finding/list", test_list);
  return g_test_run ();
}
