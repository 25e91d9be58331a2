/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tool/cav-list-text.h"

#include "layout-checker.h"

#include "project/cav-project-boards.h"

#include <string.h>

static CavProject *
create_project (const char *board_name)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();
  CavFrameSettings settings = *cav_project_get_frame_settings (project);
  CavBoard *board = cav_board_new ();

  g_free (board->name);
  board->name = g_strdup (board_name);
  board->count = 3;
  board->thickness = 32.0;
  g_ptr_array_add (lumber->boards, board);
  lumber->frames = 2;
  cav_project_set_lumber (project, lumber);
  cav_project_set_frame_settings (project, &settings);
  return project;
}

static void
test_text (void)
{
  g_autoptr (CavProject) project = create_project ("Ash");
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  g_autofree char *text = cav_list_text_create (layout, CAV_UNIT_MM);
  g_autofree char *inches = cav_list_text_create (layout, CAV_UNIT_INCH);

  assert_layout (cav_project_get_lumber (project), layout);
  g_test_message ("%s", text);
  g_assert_nonnull (strstr (text, "board feet"));
  g_assert_nonnull (strstr (text, "2400 × 150 × 32 mm"));
  g_assert_nonnull (strstr (text, "top, frame 1"));
  g_assert_nonnull (strstr (text, "left, frame 2"));
  g_assert_nonnull (strstr (text, "Rip strips of 51 mm"));
  g_assert_nonnull (strstr (inches, " in"));
}

static void
test_no_boards (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  g_autofree char *text = cav_list_text_create (layout, CAV_UNIT_MM);

  assert_layout (cav_project_get_lumber (project), layout);
  g_assert_nonnull (strstr (text, "There are no boards yet"));
}

/* How strips lie is told below the board that they come from. */
static void
test_ripping (void)
{
  g_autoptr (CavProject) project = create_project ("Ash");
  g_autoptr (CavLumber) lumber = cav_lumber_copy (cav_project_get_lumber (project));
  g_autoptr (CavBoardLayout) layout = NULL;
  g_autofree char *text = NULL;

  ((CavBoard *)g_ptr_array_index (lumber->boards, 0))->thickness = 80.0;
  lumber->resaw = TRUE;
  cav_project_set_lumber (project, lumber);
  layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  assert_layout (cav_project_get_lumber (project), layout);
  text = cav_list_text_create (layout, CAV_UNIT_MM);
  g_test_message ("%s", text);
  g_assert_nonnull (strstr (text, "1 from 0 mm to 51 mm, resawn into"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tool/list-text/text", test_text);
  g_test_add_func ("/tool/list-text/no-boards", test_no_boards);
  g_test_add_func ("/tool/list-text/ripping", test_ripping);
  return g_test_run ();
}
