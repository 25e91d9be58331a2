/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-project-pieces.h"

#include <math.h>

/* Of a frame that is possible, with some lumber. */
static CavProject *
create_project (gboolean square_first, double board)
{
  CavProject *project = cav_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavLumber) lumber = cav_lumber_new ();

  lumber->square_first = square_first;
  lumber->order = CAV_GRAIN_RUNNING;
  if (board > 0.0)
    {
      CavBoard *at_hand = cav_board_new ();

      at_hand->length = board;
      at_hand->thickness = 40.0;
      g_ptr_array_add (lumber->boards, at_hand);
    }
  cav_project_set_frame_settings (project, settings);
  cav_project_set_lumber (project, lumber);
  g_assert_true (cav_project_get_frame (project)->possible);
  return project;
}

static const CavMilledPiece *
get (const GArray *pieces, guint index)
{
  return &g_array_index (pieces, CavMilledPiece, index);
}

/* Number and length of the rails are all that is known. */
static void
test_without_frame (void)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GArray) pieces = cav_project_list_milled_pieces (project, NULL);

  g_assert_cmpuint (pieces->len, ==, 1);
  g_assert_cmpint (get (pieces, 0)->count, ==, cav_project_get_rails (project));
  g_assert_cmpint (get (pieces, 0)->rails, ==, 1);
  g_assert_cmpfloat_with_epsilon (
      get (pieces, 0)->length,
      ceil (cav_project_get_length (project) / cav_project_get_rails (project) - 1e-6), 1e-9);
}

/* Square first, each is as much longer than its long point as was said; else there is a trim and a
 * kerf at either end. */
static void
test_of_frame (void)
{
  for (int square_first = 0; square_first < 2; square_first++)
    {
      g_autoptr (CavProject) project = create_project (square_first, 0.0);
      const CavFrameRails *rails = &cav_project_get_frame (project)->rails;
      g_autoptr (GArray) pieces = cav_project_list_milled_pieces (project, NULL);
      double extra = square_first ? cav_project_get_lumber (project)->square_extra
                                  : 2.0 * rails->places[0].from;

      g_assert_cmpuint (pieces->len, ==, 2);
      for (guint i = 0; i < 2; i++)
        {
          g_assert_cmpint (get (pieces, i)->count, ==, 2);
          g_assert_cmpint (get (pieces, i)->rails, ==, 1);
          g_assert_cmpfloat_with_epsilon (get (pieces, i)->length,
                                          ceil (rails->groups[i].long_point + extra - 1e-6), 1e-9);
        }
    }
}

/* From one board the four rails stay in one length, or come off it square before milling. */
static void
test_laid (void)
{
  for (int square_first = 0; square_first < 2; square_first++)
    {
      g_autoptr (CavProject) project = create_project (square_first, 3000.0);
      const CavFrameRails *rails = &cav_project_get_frame (project)->rails;
      g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
      g_autoptr (GArray) pieces = cav_project_list_milled_pieces (project, layout);

      g_assert_cmpuint (layout->missing->len, ==, 0);
      if (square_first)
        {
          g_assert_cmpuint (pieces->len, ==, 2);
          g_assert_cmpint (get (pieces, 0)->rails, ==, 1);
          g_assert_cmpint (get (pieces, 0)->count + get (pieces, 1)->count, ==, 4);
          continue;
        }
      g_assert_cmpuint (pieces->len, ==, 1);
      g_assert_cmpint (get (pieces, 0)->count, ==, 1);
      g_assert_cmpint (get (pieces, 0)->rails, ==, 4);
      /* Long points, three kerfs of a mitre between them, and at most a trim at either end. */
      g_assert_cmpfloat (get (pieces, 0)->length, >=,
                         rails->molding + 3 * layout->kerf * G_SQRT2 - 0.01);
      g_assert_cmpfloat (get (pieces, 0)->length, <=,
                         rails->molding + 3 * layout->kerf * G_SQRT2 + 51.0);
    }
}

/* What is not all there is told by the frame. */
static void
test_missing (void)
{
  g_autoptr (CavProject) project = create_project (FALSE, 500.0);
  g_autoptr (CavBoardLayout) layout = cav_project_lay_out_boards (project, NULL, NULL, NULL);
  g_autoptr (GArray) pieces = cav_project_list_milled_pieces (project, layout);

  g_assert_cmpuint (layout->missing->len, >, 0);
  g_assert_cmpuint (pieces->len, ==, 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/pieces/without-frame", test_without_frame);
  g_test_add_func ("/project/pieces/of-frame", test_of_frame);
  g_test_add_func ("/project/pieces/laid", test_laid);
  g_test_add_func ("/project/pieces/missing", test_missing);
  return g_test_run ();
}
