/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "frame/cav-dry-fit.h"

#include <math.h>
#include <string.h>

#include "frame-rig.h"

static const CavDryFitFrame rectangle
    = { .sides = 4, .allowance = 3, .outside_width = 300, .outside_height = 400, .molding = 40 };

#define CORRECTION(array, i) (&g_array_index (array, CavCorrection, i))

/* 5 mm of play across instead of 3: 2 mm off top and bottom, and nothing off the others. */
static void
test_play (void)
{
  const CavDryFit fit
      = { .has_gaps = TRUE, .gap_left = 2, .gap_right = 3, .gap_top = 1.5, .gap_bottom = 1.7 };
  g_autoptr (GArray) corrections = cav_dry_fit_create_corrections (&fit, &rectangle);

  g_assert_cmpuint (corrections->len, ==, 1);
  g_assert_cmpint (CORRECTION (corrections, 0)->rails, ==, CAV_RAILS_TOP_BOTTOM);
  assert_near (CORRECTION (corrections, 0)->take_off, 2, 1e-9);
  assert_near (CORRECTION (corrections, 0)->setting, 45, 1e-9);
  g_assert_nonnull (strstr (CORRECTION (corrections, 0)->sentence, "take 2.0 mm off"));
}

/* Glass that does not go in asks for other glass, not for longer wood. */
static void
test_too_tight (void)
{
  const CavDryFit fit
      = { .has_gaps = TRUE, .gap_left = 1.5, .gap_right = 1.5, .gap_top = -1, .gap_bottom = 0 };
  g_autoptr (GArray) corrections = cav_dry_fit_create_corrections (&fit, &rectangle);

  g_assert_cmpuint (corrections->len, ==, 1);
  g_assert_cmpint (CORRECTION (corrections, 0)->rails, ==, CAV_RAILS_LEFT_RIGHT);
  assert_near (CORRECTION (corrections, 0)->missing, 4, 1e-9);
  assert_near (CORRECTION (corrections, 0)->take_off, 0, 1e-9);
  g_assert_nonnull (strstr (CORRECTION (corrections, 0)->sentence, "smaller by 4.0 mm"));
}

/* A hexagon's opening grows by 1 / tan 30 of what its rails grow. */
static void
test_hexagon (void)
{
  const CavDryFit fit
      = { .has_gaps = TRUE, .gap_left = 3, .gap_right = 3, .gap_top = 3, .gap_bottom = 3 };
  CavDryFitFrame hexagon = rectangle;
  g_autoptr (GArray) corrections = NULL;

  hexagon.sides = 6;
  corrections = cav_dry_fit_create_corrections (&fit, &hexagon);
  g_assert_cmpuint (corrections->len, ==, 1);
  g_assert_cmpint (CORRECTION (corrections, 0)->rails, ==, CAV_RAILS_ALL);
  assert_near (CORRECTION (corrections, 0)->take_off, 3 * tan (G_PI / 6), 1e-9);
  assert_near (CORRECTION (corrections, 0)->setting, 30, 1e-9);
}

/* A parallelogram of 300 × 400 whose sides stand at 89 degrees; diagonals by the law of cosines. */
static void
test_diagonals (void)
{
  double across = 2 * 300.0 * 400.0 * cos (89 * G_PI / 180);
  CavDryFit fit = { .has_diagonals = TRUE,
                    .diagonal_falling = sqrt (250000 + across),
                    .diagonal_rising = sqrt (250000 - across) };
  g_autoptr (GArray) corrections = cav_dry_fit_create_corrections (&fit, &rectangle);
  g_autoptr (GArray) equal = NULL;

  g_assert_cmpuint (corrections->len, ==, 1);
  assert_near (CORRECTION (corrections, 0)->turn, -0.5, 1e-6);
  assert_near (CORRECTION (corrections, 0)->setting, 44.5, 1e-6);
  g_assert_nonnull (strstr (CORRECTION (corrections, 0)->sentence, "from top left"));
  fit.diagonal_rising = fit.diagonal_falling + 0.3;
  equal = cav_dry_fit_create_corrections (&fit, &rectangle);
  g_assert_cmpuint (equal->len, ==, 0);
}

/* 40 mm wide: the mitre is 56.57 mm long, and 1 mm over it 1.013 degrees. */
static void
test_corner (void)
{
  CavDryFit fit = { .has_corner = TRUE, .open_toe = 1 };
  double degrees = 1 / (40 * G_SQRT2) * 180 / G_PI;
  g_autoptr (GArray) toe = cav_dry_fit_create_corrections (&fit, &rectangle);

  g_assert_cmpuint (toe->len, ==, 1);
  assert_near (CORRECTION (toe, 0)->turn, degrees / 2, 1e-9);
  g_assert_nonnull (strstr (CORRECTION (toe, 0)->sentence, "further from square"));

  fit = (CavDryFit){ .has_corner = TRUE, .last_corner = TRUE, .open_heel = 1 };
  g_autoptr (GArray) heel = cav_dry_fit_create_corrections (&fit, &rectangle);
  assert_near (CORRECTION (heel, 0)->turn, -degrees / 8, 1e-9);
  assert_near (CORRECTION (heel, 0)->setting, 45 - degrees / 8, 1e-9);
  g_assert_nonnull (strstr (CORRECTION (heel, 0)->sentence, "nearer to square"));
  g_assert_nonnull (strstr (CORRECTION (heel, 0)->sentence, "last corner"));

  fit.open_toe = 1;
  g_autoptr (GArray) closed = cav_dry_fit_create_corrections (&fit, &rectangle);
  g_assert_cmpuint (closed->len, ==, 0);
}

/* Wood that swelled opens the toe (test-mitre); the correction for that gap turns the saw back to
 * where both agree. */
static void
test_agrees_with_seasons (void)
{
  double error = cav_mitre_get_season_error (4, 0.01);
  CavDryFit fit = { .has_corner = TRUE, .open_toe = cav_mitre_get_gap (40, 4, error) };
  g_autoptr (GArray) corrections = cav_dry_fit_create_corrections (&fit, &rectangle);
  double cut = atan (1 / 1.01) * 180 / G_PI;

  assert_near (cut + CORRECTION (corrections, 0)->turn, 45, 1e-9);
}

static void
test_nothing (void)
{
  const CavDryFit all = { .has_gaps = TRUE, .has_diagonals = TRUE, .has_corner = TRUE };
  const CavDryFit none = { .gap_left = 9, .diagonal_falling = 3, .open_toe = 2 };
  const CavDryFitFrame sizeless = { .sides = 4 };
  g_autoptr (GArray) first = cav_dry_fit_create_corrections (&none, &rectangle);
  g_autoptr (GArray) second = cav_dry_fit_create_corrections (&all, &sizeless);

  g_assert_cmpuint (first->len, ==, 0);
  g_assert_cmpuint (second->len, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/frame/dry-fit/play", test_play);
  g_test_add_func ("/frame/dry-fit/too-tight", test_too_tight);
  g_test_add_func ("/frame/dry-fit/hexagon", test_hexagon);
  g_test_add_func ("/frame/dry-fit/diagonals", test_diagonals);
  g_test_add_func ("/frame/dry-fit/corner", test_corner);
  g_test_add_func ("/frame/dry-fit/agrees-with-seasons", test_agrees_with_seasons);
  g_test_add_func ("/frame/dry-fit/nothing", test_nothing);
  return g_test_run ();
}
