/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/cav-mitre-view.h"

#include <math.h>
#include <string.h>

#include "drawing-samples.h"
#include "drawing-tools.h"

static CavProject *
project_new (int sides)
{
  CavProject *project = sample_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();

  settings->sides = sides;
  settings->shop = (CavClimate){ 20, 50 };
  settings->dry = (CavClimate){ 20, 30 };
  settings->damp = (CavClimate){ 20, 65 };
  cav_project_set_frame_settings (project, settings);
  cav_project_set_wood (project, cav_wood_find ("oak-red"));
  return project;
}

static double
get_distance (CavPoint a, CavPoint b)
{
  return hypot (a.x - b.x, a.y - b.y);
}

/* What gapes is what the frame's arithmetic says, at the end that it says, and the other end is
 * closed; the rails keep their widths and do not overlap. */
static void
test_corner (void)
{
  const double degrees[] = { 0.4, -0.7, 0.0 };

  for (int sides = 3; sides <= 12; sides++)
    for (guint i = 0; i < G_N_ELEMENTS (degrees); i++)
      {
        double gap = fabs (cav_mitre_get_gap (50, sides, degrees[i]));
        gboolean at_toe = degrees[i] > 0.0;
        CavMitreCorner corner;

        cav_mitre_corner_init (&corner, sides, 50, 80, degrees[i]);
        g_assert_cmpfloat_with_epsilon (get_distance (corner.open[0], corner.open[1]), gap,
                                        gap * 1e-4 + 1e-9);
        g_assert_cmpfloat_with_epsilon (
            get_distance (corner.first[at_toe ? 2 : 1], corner.second[at_toe ? 2 : 1]), 0, 1e-9);
        g_assert_cmpfloat_with_epsilon (get_distance (corner.first[0], corner.first[1]),
                                        get_distance (corner.second[0], corner.second[1]), 1e-9);
        g_assert_cmpfloat_with_epsilon (get_distance (corner.first[2], corner.first[3]),
                                        get_distance (corner.second[2], corner.second[3]), 1e-9);
        /* The second rail's open corner has gone away from the first one's end, to the right. */
        if (gap > 0)
          g_assert_cmpfloat (corner.open[1].x, >, corner.open[0].x);
      }
}

/* TRUE where some text of the scene holds it. */
static gboolean
says (CavScene *scene, const char *part)
{
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      const char *text = NULL;
      const CavTextStyle *style = NULL;

      cav_scene_get_text (scene, i, &text, &style);
      if (strstr (text, part) != NULL)
        return TRUE;
    }
  return FALSE;
}

static CavBox
get_text_box (CavScene *scene, guint index)
{
  const char *text = NULL;
  const CavTextStyle *style = NULL;

  return cav_scene_get_text (scene, index, &text, &style);
}

/* Every text stays on the page; figures are the frame's own. */
static void
test_scene (void)
{
  g_autoptr (CavProject) project = project_new (4);
  const CavFrame *frame = cav_project_get_frame (project);
  g_autofree char *saw = cav_gap_format (frame->mitres.joint_gap, CAV_UNIT_MM);
  g_autofree char *season
      = cav_gap_format (cav_frame_mitres_get_gap (&frame->mitres, 30), CAV_UNIT_MM);
  g_autoptr (CavScene) scene = cav_mitre_view_create_scene (frame, 30, 240, 190, CAV_UNIT_MM);

  g_assert_nonnull (scene);
  g_assert_true (says (scene, saw));
  g_assert_true (says (scene, season));
  g_assert_true (says (scene, "at the sight edge"));
  /* The table has the figures of the plot: 30 % dries, 50 % is the shop's own air. */
  g_autofree char *dry = g_strdup_printf ("\342\210\222%.2f", -frame->mitres.points[4].gap);
  g_assert_true (says (scene, dry));
  g_assert_true (says (scene, "Moisture of the wood, %"));
  g_assert_true (says (scene, "0.00"));
  for (guint i = 0; i < cav_scene_get_text_count (scene); i++)
    {
      CavBox box = get_text_box (scene, i);

      g_assert_cmpfloat (box.x0, >=, -0.01);
      g_assert_cmpfloat (box.x1, <=, 240.01);
      g_assert_cmpfloat (box.y0, >=, -0.01);
      g_assert_cmpfloat (box.y1, <=, 190.01);
      for (guint j = 0; j < i; j++)
        g_assert_false (cav_box_overlaps (box, get_text_box (scene, j)));
    }
}

/* In the shop's own air the season opens nothing; damp opens the outside, dry the sight edge. */
static void
test_humidity (void)
{
  g_autoptr (CavProject) project = project_new (6);
  const CavFrameMitres *mitres = &cav_project_get_frame (project)->mitres;
  g_autoptr (CavScene) closed
      = cav_mitre_view_create_scene (cav_project_get_frame (project), 50, 240, 190, CAV_UNIT_INCH);

  g_assert_cmpfloat (cav_frame_mitres_get_gap (mitres, 30), <, -0.05);
  g_assert_cmpfloat (cav_frame_mitres_get_gap (mitres, 70), >, 0.05);
  g_assert_cmpfloat_with_epsilon (
      cav_frame_mitres_get_gap (mitres, 52.5),
      (cav_frame_mitres_get_gap (mitres, 50) + cav_frame_mitres_get_gap (mitres, 55)) / 2.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_frame_mitres_get_gap (mitres, 99), mitres->points[16].gap,
                                  1e-9);
  g_assert_true (says (closed, "closed, "));
}

/* A frame of unknown wood has a corner and no seasons; one without a size has nothing. */
static void
test_less (void)
{
  g_autoptr (CavProject) project = sample_project_new ();
  g_autoptr (CavFrameSettings) settings = cav_frame_settings_new ();
  g_autoptr (CavScene) bare = NULL;

  cav_project_set_wood (project, NULL);
  cav_project_set_frame_settings (project, settings);
  bare = cav_mitre_view_create_scene (cav_project_get_frame (project), 30, 240, 190, CAV_UNIT_MM);
  g_assert_nonnull (bare);
  g_assert_true (says (bare, "By the saw"));
  g_assert_false (says (bare, "humidity"));
  settings->start = CAV_FRAME_START_OUTSIDE;
  settings->width = 20;
  cav_project_set_frame_settings (project, settings);
  g_assert_null (
      cav_mitre_view_create_scene (cav_project_get_frame (project), 30, 240, 190, CAV_UNIT_MM));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/drawing/mitre-view/corner", test_corner);
  g_test_add_func ("/drawing/mitre-view/scene", test_scene);
  g_test_add_func ("/drawing/mitre-view/humidity", test_humidity);
  g_test_add_func ("/drawing/mitre-view/less", test_less);
  return g_test_run ();
}
