/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project-boards.h"

#include "layout-checker.h"

#include <string.h>

static CavProject *
create_project (double length)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  CavBoard *board = cav_board_new ();

  board->length = length;
  g_ptr_array_add (lumber->boards, board);
  cav_project_set_lumber (project, lumber);
  return project;
}

/* Its own rails first, then those that were joined. */
static void
test_jobs (void)
{
  g_autoptr (CavProject) project = create_project (2400.0);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));
  CavBoardJob *job = cav_board_job_new (lumber, "Other", 40.0, 20.0, 40.0);
  g_autoptr (GPtrArray) jobs = NULL;
  g_autoptr (CavBoardLayout) layout = NULL;

  cav_board_job_set_rectangle (job, 300.0, 200.0);
  g_ptr_array_add (lumber->joined, job);
  cav_project_set_title (project, "Own");
  cav_project_set_lumber (project, lumber);
  jobs = cav_project_create_board_jobs (project, NULL);
  g_assert_cmpuint (jobs->len, ==, 2);
  g_assert_cmpstr (((const CavBoardJob *)g_ptr_array_index (jobs, 0))->name, ==, "Own");
  g_assert_cmpstr (((const CavBoardJob *)g_ptr_array_index (jobs, 1))->name, ==, "Other");
  layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  assert_layout (cav_project_get_lumber (project), layout);
  g_assert_cmpuint (layout->jobs->len, ==, 2);
  g_assert_true (cav_project_undo (project));
  g_assert_cmpuint (cav_project_get_lumber (project)->joined->len, ==, 0);
}

/* What cannot be is not taken in. */
static void
test_unsound (void)
{
  g_autoptr (CavProject) project = create_project (2400.0);
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));

  g_ptr_array_add (lumber->joined, cav_board_job_new (lumber, "Other", 40.0, 20.0, 40.0));
  g_test_expect_message (G_LOG_DOMAIN, G_LOG_LEVEL_CRITICAL, "*joined_are_sound*");
  cav_project_set_lumber (project, lumber);
  g_test_assert_expected_messages ();
  g_assert_cmpuint (cav_project_get_lumber (project)->joined->len, ==, 0);
}

/* The gravest first, and what only tells how it was laid stays out. */
static void
test_findings (void)
{
  g_autoptr (CavProject) project = create_project (500.0);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  g_autoptr (GPtrArray) findings = cav_finding_list_new ();
  gboolean told = FALSE;

  assert_layout (cav_project_get_lumber (project), layout);
  g_ptr_array_add (findings, cav_finding_new (CAV_FINDING_WRONG, "first", "a"));
  g_ptr_array_add (findings, cav_finding_new (CAV_FINDING_NOTE, "last", "b"));
  cav_project_join_layout_findings (findings, layout);
  cav_project_join_layout_findings (findings, NULL);
  g_assert_cmpuint (findings->len, >, 3);
  g_assert_cmpstr (((const CavFinding *)g_ptr_array_index (findings, 0))->code, ==, "first");
  for (guint i = 1; i < findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (findings, i);

      g_assert_cmpint (finding->severity, <=,
                       ((const CavFinding *)g_ptr_array_index (findings, i - 1))->severity);
      g_assert_cmpstr (finding->code, !=, "lumber-corner");
      told = told || strcmp (finding->code, "lumber-missing") == 0;
    }
  g_assert_true (told);
}

static void
test_has_lumber (void)
{
  g_autoptr (CavProject) none = cav_project_new ();
  g_autoptr (CavProject) some = create_project (2400.0);

  g_assert_false (cav_project_has_lumber (none));
  g_assert_true (cav_project_has_lumber (some));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/boards/jobs", test_jobs);
  g_test_add_func ("/project/boards/unsound", test_unsound);
  g_test_add_func ("/project/boards/findings", test_findings);
  g_test_add_func ("/project/boards/has-lumber", test_has_lumber);
  return g_test_run ();
}
