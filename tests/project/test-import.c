/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "project/cav-import.h"

#include <math.h>
#include <string.h>

static const CavBlank PICTURE = { .width = 60.0, .thickness = 25.0 };

/* Points of the picture: x to the right, y down. */
static CavPath *
create_polygon (const CavPoint *points, guint n_points)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, points[0]);
  for (guint i = 1; i < n_points; i++)
    cav_path_line_to (path, points[i]);
  cav_path_close (path);
  return path;
}

/* The outline as it should come out: y up, from the back of the picture. */
static CavRegion *
create_expected (const CavPath *outline)
{
  CavTransform upright = { .xx = 1.0, .yy = -1.0, .y0 = PICTURE.thickness };
  g_autoptr (CavPath) path = cav_path_transformed (outline, upright);
  g_autoptr (GError) error = NULL;
  CavRegion *region = cav_region_new_from_path (path, &error);

  g_assert_no_error (error);
  return region;
}

/* Farthest that the chords of a's outlines lie from b's outlines. */
static double
get_deviation (const CavRegion *a, const CavRegion *b)
{
  double deviation = 0.0;

  for (guint i = 0; i < cav_region_get_ring_count (a); i++)
    {
      guint n_points;
      const CavPoint *points = cav_region_get_ring_points (a, i, &n_points);

      for (guint j = 0; j < n_points; j++)
        deviation = fmax (deviation, cav_region_get_distance (b, points[j]));
    }
  return deviation;
}

static guint
count_arcs (const CavRegion *region)
{
  guint n_arcs = 0;

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *ring = cav_region_get_ring (region, i);

      for (guint j = 0; j < cav_path_get_segment_count (ring); j++)
        if (cav_path_get_segment (ring, j)->kind == CAV_SEGMENT_ARC)
          n_arcs++;
    }
  return n_arcs;
}

static void
check_import (const CavPath *outline, const CavBlank *blank, guint n_cuts)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (CavRegion) expected = create_expected (outline);
  g_autoptr (GError) error = NULL;
  const CavProfile *profile;

  g_assert_true (cav_import_outline (project, outline, &PICTURE, blank, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (cav_project_get_cut_count (project), ==, n_cuts);
  profile = cav_project_get_profile (project);
  g_assert_true (cav_profile_is_sound (profile));
  g_assert_true (get_deviation (expected, profile->region) < 1e-3);
  g_assert_true (get_deviation (profile->region, expected) < 1e-3);
  g_assert_true (fabs (cav_region_get_area (profile->region) - cav_region_get_area (expected))
                 < 1e-2);
  g_assert_cmpuint (count_arcs (profile->region), ==, count_arcs (expected));
}

static void
test_steps (void)
{
  static const CavPoint POINTS[]
      = { { 6, 25 }, { 60, 25 }, { 60, 0 },  { 38, 0 }, { 38, 4 }, { 24, 4 },
          { 24, 8 }, { 10, 8 },  { 10, 11 }, { 0, 11 }, { 0, 15 }, { 6, 15 } };
  g_autoptr (CavPath) outline = create_polygon (POINTS, G_N_ELEMENTS (POINTS));

  check_import (outline, &PICTURE, 2);
}

static void
test_whole_blank (void)
{
  static const CavPoint POINTS[] = { { 0, 0 }, { 60, 0 }, { 60, 25 }, { 0, 25 } };
  g_autoptr (CavPath) outline = create_polygon (POINTS, G_N_ELEMENTS (POINTS));

  check_import (outline, &PICTURE, 0);
}

static void
test_arcs_stay (void)
{
  g_autoptr (CavPath) outline = cav_path_new ();
  CavSegment hollow, crown;

  /* Clockwise in the picture: a hollow at the sight edge, an elliptic crown at the outside. */
  cav_path_move_to (outline, CAV_POINT (6.0, 25.0));
  cav_path_line_to (outline, CAV_POINT (6.0, 17.0));
  cav_path_line_to (outline, CAV_POINT (0.0, 17.0));
  cav_path_line_to (outline, CAV_POINT (0.0, 9.5));
  hollow = cav_segment_arc_from_endpoints (CAV_POINT (0.0, 9.5), CAV_POINT (9.5, 0.0), 9.5, 9.5,
                                           0.0, FALSE, FALSE);
  cav_path_append (outline, &hollow);
  cav_path_line_to (outline, CAV_POINT (40.0, 0.0));
  crown = cav_segment_arc_from_endpoints (CAV_POINT (40.0, 0.0), CAV_POINT (60.0, 12.0), 20.0, 12.0,
                                          0.0, FALSE, TRUE);
  cav_path_append (outline, &crown);
  cav_path_line_to (outline, CAV_POINT (60.0, 25.0));
  cav_path_close (outline);
  check_import (outline, &PICTURE, 3);
}

/* A profile that touches no side: its waste goes all around it, which no single path can say. */
static void
test_island (void)
{
  g_autoptr (CavPath) outline = cav_path_new ();

  cav_path_move_to (outline, CAV_POINT (30.0, 8.0));
  cav_path_arc (outline, CAV_POINT (22.0, 8.0), 8.0, 5.0, 0.0, 360.0);
  cav_path_close (outline);
  check_import (outline, &PICTURE, 2);
}

static void
test_larger_blank (void)
{
  static const CavPoint POINTS[]
      = { { 0, 0 }, { 60, 0 }, { 60, 25 }, { 8, 25 }, { 8, 12 }, { 0, 12 } };
  g_autoptr (CavPath) outline = create_polygon (POINTS, G_N_ELEMENTS (POINTS));
  const CavBlank larger = { .width = 75.0, .thickness = 30.0 };

  check_import (outline, &larger, 2);
}

static void
test_polygons_of_random_steps (void)
{
  guint32 seed = g_test_rand_int ();
  g_autoptr (GRand) random = g_rand_new_with_seed (seed);

  g_test_message ("seed %u", seed);
  for (int i = 0; i < 60; i++)
    {
      CavPoint points[12];
      guint n = 0;
      double x = 0.0, y = g_rand_double_range (random, 5.0, 12.0);

      points[n++] = CAV_POINT (0.0, y);
      for (int j = 0; j < 4; j++)
        {
          x += g_rand_double_range (random, 0.7, 14.0);
          points[n++] = CAV_POINT (x, y);
          y = g_rand_double_range (random, 0.0, 20.0);
          points[n++] = CAV_POINT (x, y);
        }
      points[n++] = CAV_POINT (60.0, y);
      points[n++] = CAV_POINT (60.0, 25.0);
      points[n++] = CAV_POINT (0.0, 25.0);

      g_autoptr (CavPath) outline = create_polygon (points, n);
      g_autoptr (CavProject) project = cav_project_new ();
      g_autoptr (CavRegion) expected = create_expected (outline);
      g_autoptr (GError) error = NULL;

      g_assert_true (cav_import_outline (project, outline, &PICTURE, &PICTURE, &error));
      g_assert_no_error (error);
      g_assert_true (get_deviation (expected, cav_project_get_profile (project)->region) < 1e-3);
      g_assert_true (get_deviation (cav_project_get_profile (project)->region, expected) < 1e-3);
    }
}

static void
check_refused (const CavPath *outline, const CavBlank *blank, const char *says)
{
  g_autoptr (CavProject) project = cav_project_new ();
  g_autoptr (GError) error = NULL;

  g_assert_false (cav_import_outline (project, outline, &PICTURE, blank, &error));
  g_assert_nonnull (error);
  /* Nothing has happened to the project. */
  g_assert_null (cav_project_get_undo_name (project));
  g_test_message ("%s", error->message);
  g_assert_nonnull (strstr (error->message, says));
}

static void
test_refusals (void)
{
  static const CavPoint OUTSIDE[] = { { 10, 5 }, { 70, 5 }, { 70, 20 }, { 10, 20 } };
  static const CavPoint BOW[] = { { 10, 5 }, { 50, 20 }, { 50, 5 }, { 10, 20 } };
  static const CavPoint FLAT[] = { { 10, 5 }, { 50, 5 } };
  static const CavPoint FINE[] = { { 10, 5 }, { 50, 5 }, { 50, 20 }, { 10, 20 } };
  g_autoptr (CavPath) outside = create_polygon (OUTSIDE, G_N_ELEMENTS (OUTSIDE));
  g_autoptr (CavPath) bow = create_polygon (BOW, G_N_ELEMENTS (BOW));
  g_autoptr (CavPath) flat = create_polygon (FLAT, G_N_ELEMENTS (FLAT));
  g_autoptr (CavPath) fine = create_polygon (FINE, G_N_ELEMENTS (FINE));
  const CavBlank nothing = { .width = 0.0, .thickness = 25.0 };
  const CavBlank huge = { .width = 60.0, .thickness = 2500.0 };
  const CavBlank low = { .width = 60.0, .thickness = 15.0 };

  check_refused (outside, &PICTURE, "from 10, 5 to 70, 20");
  check_refused (fine, &low, "out of the blank of 60 x 15 mm");
  check_refused (bow, &PICTURE, "");
  check_refused (flat, &PICTURE, "");
  check_refused (fine, &nothing, "how large the blank is");
  check_refused (fine, &huge, "how large the blank is");
}

static void
test_is_one_step (void)
{
  static const CavPoint FINE[] = { { 10, 5 }, { 50, 5 }, { 50, 25 }, { 10, 25 } };
  g_autoptr (CavPath) fine = create_polygon (FINE, G_N_ELEMENTS (FINE));
  g_autoptr (CavProject) project = cav_project_new ();

  g_assert_true (cav_import_outline (project, fine, &PICTURE, &PICTURE, NULL));
  g_assert_cmpstr (cav_project_get_undo_name (project), ==, "import profile");
  g_assert_true (cav_project_undo (project));
  g_assert_false (cav_project_is_modified (project));
}

static void
test_drawn_cut (void)
{
  static const CavPoint SHAPE[] = { { 10, 5 }, { 50, 5 }, { 50, 20 }, { 10, 20 } };
  const CavBlank small = { .width = 8.0, .thickness = 30.0 };
  g_autoptr (CavPath) shape = create_polygon (SHAPE, G_N_ELEMENTS (SHAPE));
  g_autoptr (CavPath) flat = create_polygon (SHAPE, 2);
  g_autoptr (CavCut) cut = cav_import_create_drawn (shape, &PICTURE, &PICTURE, NULL);
  g_autoptr (CavCut) centred = cav_import_create_drawn (shape, &PICTURE, &small, NULL);
  g_autoptr (GError) error = NULL;
  CavBox box;

  g_assert_cmpint (cut->kind, ==, CAV_CUT_DRAWN);
  box = cav_path_get_bounds (cut->path);
  g_assert_cmpfloat_with_epsilon (box.x0, 10.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0, 5.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y1, 20.0, 1e-9);
  box = cav_path_get_bounds (centred->path);
  g_assert_cmpfloat_with_epsilon (box.x0 + box.x1, 8.0, 1e-9);
  g_assert_cmpfloat_with_epsilon (box.y0 + box.y1, 30.0, 1e-9);
  g_assert_null (cav_import_create_drawn (flat, &PICTURE, &PICTURE, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/project/import/steps", test_steps);
  g_test_add_func ("/project/import/whole-blank", test_whole_blank);
  g_test_add_func ("/project/import/arcs-stay", test_arcs_stay);
  g_test_add_func ("/project/import/island", test_island);
  g_test_add_func ("/project/import/larger-blank", test_larger_blank);
  g_test_add_func ("/project/import/polygons-of-random-steps", test_polygons_of_random_steps);
  g_test_add_func ("/project/import/refusals", test_refusals);
  g_test_add_func ("/project/import/is-one-step", test_is_one_step);
  g_test_add_func ("/project/import/drawn-cut", test_drawn_cut);
  return g_test_run ();
}
