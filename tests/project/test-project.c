/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project.h"

#include <math.h>
#include <string.h>

static void
count_cb (CavProject *project, guint parts, guint *count)
{
  (*count)++;
}

static CavProject *
create_watched (guint *count)
{
  CavProject *project = cav_project_new ();

  *count = 0;
  g_signal_connect (project, "changed", G_CALLBACK (count_cb), count);
  return project;
}

/* A blank of 40 x 20 with a rabbet of 6 x 12 at the back and inside. */
static CavProject *
create_rabbeted (void)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);

  rabbet->numbers[CAV_CUT_WIDTH] = 6.0;
  rabbet->numbers[CAV_CUT_DEPTH] = 12.0;
  cav_project_set_blank (project, (CavBlank){ .width = 40.0, .thickness = 20.0 });
  cav_project_add_cut (project, rabbet);
  return project;
}

static double
get_area (CavProject *project)
{
  return cav_region_get_area (cav_project_get_profile (project)->region);
}

static void
test_starts_plain (void)
{
  g_autoptr (CavProject) project = cav_project_new ();

  g_assert_cmpstr (cav_project_get_title (project), ==, "");
  g_assert_cmpstr (cav_project_get_notes (project), ==, "");
  g_assert_null (cav_project_get_wood (project));
  g_assert_cmpint (cav_project_get_rails (project), ==, 4);
  g_assert_true (fabs (cav_project_get_length (project) - 3200.0) < 1e-12);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, 0);
  g_assert_cmpuint (cav_project_get_shop (project)->blades->len, >, 0);
  g_assert_true (cav_profile_is_sound (cav_project_get_profile (project)));
}

static void
test_texts (void)
{
  guint count;
  g_autoptr (CavProject) project = create_watched (&count);

  cav_project_set_title (project, "Fern");
  cav_project_set_notes (project, "ash, two coats of oil");
  g_assert_cmpuint (count, ==, 2);
  cav_project_set_title (project, "Fern");
  g_assert_cmpuint (count, ==, 2);
  cav_project_set_title (project, cav_project_get_title (project));
  g_assert_cmpstr (cav_project_get_title (project), ==, "Fern");
  g_assert_cmpstr (cav_project_get_notes (project), ==, "ash, two coats of oil");
  cav_project_set_title (project, NULL);
  g_assert_cmpstr (cav_project_get_title (project), ==, "");
  g_assert_cmpuint (count, ==, 3);
}

static void
test_every_edit_is_told (void)
{
  guint count;
  g_autoptr (CavProject) project = create_watched (&count);
  g_autoptr (CavCut) rabbet = cav_cut_new_at_corner (CAV_CUT_RABBET, CAV_CORNER_BACK_INSIDE);
  g_autoptr (CavShop) shop = cav_shop_new ();

  cav_project_set_blank (project, (CavBlank){ .width = 60.0, .thickness = 22.0 });
  g_assert_cmpuint (count, ==, 1);
  cav_project_set_wood (project, cav_wood_get (0));
  g_assert_cmpuint (count, ==, 2);
  cav_project_set_rails (project, 3, 1800.0);
  g_assert_cmpuint (count, ==, 3);
  cav_project_set_shop (project, shop);
  g_assert_cmpuint (count, ==, 4);
  cav_project_add_cut (project, rabbet);
  g_assert_cmpuint (count, ==, 5);
  cav_project_set_cut (project, 0, rabbet);
  g_assert_cmpuint (count, ==, 5);
  rabbet->numbers[CAV_CUT_DEPTH] = 9.0;
  cav_project_set_cut (project, 0, rabbet);
  g_assert_cmpuint (count, ==, 6);
  cav_project_remove_cut (project, 0);
  g_assert_cmpuint (count, ==, 7);

  g_assert_true (cav_project_get_wood (project) == cav_wood_get (0));
  g_assert_cmpint (cav_project_get_rails (project), ==, 3);
  g_assert_true (fabs (cav_project_get_length (project) - 1800.0) < 1e-12);
}

static void
test_keeps_copies (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  g_autoptr (CavShop) shop = cav_shop_new ();
  const CavCut *kept;

  cav_project_add_cut (project, groove);
  kept = cav_project_get_cut (project, 1);
  g_assert_true (kept != groove);
  g_assert_true (cav_cut_equal (kept, groove));
  groove->numbers[CAV_CUT_DEPTH] += 1.0;
  g_assert_false (cav_cut_equal (kept, groove));

  cav_project_set_shop (project, shop);
  g_assert_true (cav_project_get_shop (project) != shop);
  g_assert_cmpuint (cav_project_get_shop (project)->blades->len, ==, 0);
  cav_project_set_shop (project, cav_project_get_shop (project));
  g_assert_true (cav_project_get_shop (project)->has_saw);
}

static void
test_profile_is_kept_until_an_edit (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  const CavProfile *profile = cav_project_get_profile (project);
  g_autoptr (CavCut) wider = cav_cut_copy (cav_project_get_cut (project, 0));

  g_assert_true (fabs (get_area (project) - (800.0 - 72.0)) < 1e-6);
  cav_project_set_title (project, "another title");
  cav_project_set_rails (project, 2, 900.0);
  g_assert_true (cav_project_get_profile (project) == profile);

  wider->numbers[CAV_CUT_WIDTH] = 10.0;
  cav_project_set_cut (project, 0, wider);
  g_assert_true (fabs (get_area (project) - (800.0 - 120.0)) < 1e-6);
  cav_project_set_blank (project, (CavBlank){ .width = 50.0, .thickness = 20.0 });
  g_assert_true (fabs (get_area (project) - (1000.0 - 120.0)) < 1e-6);
  cav_project_remove_cut (project, 0);
  g_assert_true (fabs (get_area (project) - 1000.0) < 1e-6);
}

static gboolean
has_code (const GPtrArray *findings, const char *code)
{
  for (guint i = 0; i < findings->len; i++)
    if (strcmp (((const CavFinding *)g_ptr_array_index (findings, i))->code, code) == 0)
      return TRUE;
  return FALSE;
}

static void
assert_ordered (const GPtrArray *findings)
{
  for (guint i = 1; i < findings->len; i++)
    {
      const CavFinding *before = g_ptr_array_index (findings, i - 1);
      const CavFinding *after = g_ptr_array_index (findings, i);

      g_assert_cmpint (before->severity, >=, after->severity);
    }
}

static void
test_findings (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (CavShop) shop = cav_shop_new ();
  g_autoptr (GPtrArray) fine = cav_project_create_findings (project, NULL);
  g_autoptr (GPtrArray) bad = NULL;

  g_assert_false (cav_finding_list_has_wrong (fine));
  g_assert_false (has_code (fine, "profile-no-rabbet"));

  cav_project_remove_cut (project, 0);
  cav_project_set_rails (project, 4, 1000.0);
  cav_project_set_shop (project, shop);
  bad = cav_project_create_findings (project, NULL);
  g_assert_true (cav_finding_list_has_wrong (bad));
  g_assert_true (has_code (bad, "profile-no-rabbet"));
  g_assert_true (has_code (bad, "rails-short"));
  g_assert_true (has_code (bad, "shop-empty"));
  assert_ordered (bad);
}

static void
test_findings_of_a_plan (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (GPtrArray) of_plan = cav_finding_list_new ();
  g_autoptr (GPtrArray) all = NULL;
  CavPlan plan = { .findings = of_plan };
  const CavFinding *first;

  g_ptr_array_add (of_plan, cav_finding_new (CAV_FINDING_NOTE, "a", "A note."));
  g_ptr_array_add (of_plan, cav_finding_new (CAV_FINDING_WRONG, "b", "Wrong."));
  g_ptr_array_add (of_plan, cav_finding_new (CAV_FINDING_WRONG, "c", "Wrong too."));
  all = cav_project_create_findings (project, &plan);
  assert_ordered (all);
  g_assert_cmpuint (all->len, >=, 3);
  first = g_ptr_array_index (all, 0);
  g_assert_cmpstr (first->code, ==, "b");
  first = g_ptr_array_index (all, 1);
  g_assert_cmpstr (first->code, ==, "c");
  g_assert_true (has_code (all, "a"));
}

static void
test_unsound_is_not_planned (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);
  g_autoptr (CavPlan) plan = NULL;
  g_autoptr (GError) error = NULL;

  /* Through the whole thickness: two pieces. */
  cav_project_set_blank (project, (CavBlank){ .width = 40.0, .thickness = 20.0 });
  groove->numbers[CAV_CUT_POSITION] = 20.0;
  groove->numbers[CAV_CUT_WIDTH] = 6.0;
  groove->numbers[CAV_CUT_DEPTH] = 20.0;
  cav_project_add_cut (project, groove);
  g_assert_false (cav_profile_is_sound (cav_project_get_profile (project)));
  plan = cav_project_plan (project, CAV_EFFORT_QUICK, &error);
  g_assert_null (plan);
  g_assert_error (error, CAV_MILLING_ERROR, CAV_MILLING_ERROR_INPUT);
  g_assert_cmpuint (strlen (error->message), >, 10);
}

static void
test_plan (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (GError) error = NULL;
  g_autoptr (CavPlan) plan = NULL;

  cav_project_set_rails (project, 3, 2400.0);
  plan = cav_project_plan (project, CAV_EFFORT_QUICK, &error);
  g_assert_no_error (error);
  g_assert_nonnull (plan);
  g_assert_true (plan->usable);
  g_assert_cmpint (plan->rails, ==, 3);
  g_assert_true (fabs (plan->length - 2400.0) < 1e-9);
  g_assert_cmpuint (cav_plan_get_pass_count (plan), >, 0);
}

/* Dragged in steps, with others beside it, first one and then another, with the blank resized in
 * between: the profile is always the one of a document that has come to be at once. */
static void
test_profile_follows_a_drag (void)
{
  g_autoptr (CavProject) project = create_rabbeted ();
  g_autoptr (CavCut) cove = cav_cut_new_at_corner (CAV_CUT_COVE, CAV_CORNER_FACE_OUTSIDE);
  g_autoptr (CavCut) groove = cav_cut_new_on_side (CAV_CUT_GROOVE, CAV_SIDE_FACE);

  cav_project_add_cut (project, cove);
  cav_project_add_cut (project, groove);
  cav_project_get_profile (project);
  cav_project_begin (project, "drag");
  for (int i = 0; i < 30; i++)
    {
      g_autoptr (CavProject) fresh = NULL;

      if (i < 12)
        {
          groove->numbers[CAV_CUT_POSITION] = 10.0 + i;
          cav_project_set_cut (project, 2, groove);
        }
      else if (i == 20)
        cav_project_set_blank (project, (CavBlank){ .width = 44.0, .thickness = 21.0 });
      else if (i == 25)
        cav_project_remove_cut (project, 0);
      else
        {
          cove->numbers[CAV_CUT_WIDTH] = 4.0 + 0.2 * i;
          cav_project_set_cut (project, i < 25 ? 1 : 0, cove);
        }
      fresh = cav_project_copy_snapshot (project);
      g_assert_cmpfloat_with_epsilon (get_area (project), get_area (fresh), 1e-6);
      g_assert_cmpuint (cav_project_get_profile (project)->findings->len, ==,
                        cav_project_get_profile (fresh)->findings->len);
    }
  cav_project_end (project);

  /* Afterwards it is the same to the last bit. */
  g_autoptr (CavProject) fresh = cav_project_copy_snapshot (project);
  const CavPath *one = cav_region_get_ring (cav_project_get_profile (project)->region, 0);
  const CavPath *other = cav_region_get_ring (cav_project_get_profile (fresh)->region, 0);
  g_assert_cmpuint (cav_path_get_segment_count (one), ==, cav_path_get_segment_count (other));
  for (guint i = 0; i < cav_path_get_segment_count (one); i++)
    g_assert_cmpmem (&cav_path_get_segment (one, i)->from, sizeof (CavPoint),
                     &cav_path_get_segment (other, i)->from, sizeof (CavPoint));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/project/starts-plain", test_starts_plain);
  g_test_add_func ("/project/project/texts", test_texts);
  g_test_add_func ("/project/project/every-edit-is-told", test_every_edit_is_told);
  g_test_add_func ("/project/project/keeps-copies", test_keeps_copies);
  g_test_add_func ("/project/project/profile-is-kept-until-an-edit",
                   test_profile_is_kept_until_an_edit);
  g_test_add_func ("/project/project/profile-follows-a-drag", test_profile_follows_a_drag);
  g_test_add_func ("/project/project/findings", test_findings);
  g_test_add_func ("/project/project/findings-of-a-plan", test_findings_of_a_plan);
  g_test_add_func ("/project/project/unsound-is-not-planned", test_unsound_is_not_planned);
  g_test_add_func ("/project/project/plan", test_plan);
  return g_test_run ();
}
