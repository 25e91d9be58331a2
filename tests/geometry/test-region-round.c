/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region-round.h"

#include "geometry-shapes.h"

#include <math.h>

#define NOISE 1e-7
#define INCH 25.4

static void
assert_same_bits (double a, double b)
{
  g_assert_cmpmem (&a, sizeof a, &b, sizeof b);
}

/* Lengths that people use are the same figure with a little noise on them as without. */
static void
assert_steady (double length)
{
  assert_same_bits (cav_round (length + NOISE), cav_round (length));
  assert_same_bits (cav_round (length - NOISE), cav_round (length));
  g_assert_cmpfloat (fabs (cav_round (length) - length), <, CAV_ROUND_STEP);
}

static void
test_lengths (void)
{
  for (int i = 0; i <= 20000; i++)
    assert_steady (i * 0.025);
  for (int i = 0; i <= 20 * 128; i++)
    assert_steady (i * INCH / 128);
  assert_same_bits (cav_round (-38.1 - NOISE), cav_round (-38.1));
}

static void
test_grid (void)
{
  g_assert_cmpfloat_with_epsilon (cav_round (12.34561), 12.3456, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_round (12.34559), 12.3456, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_round (0), 0, 1e-12);
}

/* A slab with a round groove on its top, which is one arc, and a hole. */
static CavRegion *
create_slab (double shift)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (CavRegion) outer = NULL, hole = NULL;

  cav_path_move_to (path, CAV_POINT (shift, shift));
  cav_path_line_to (path, CAV_POINT (40 + shift, shift));
  cav_path_line_to (path, CAV_POINT (40 + shift, 20 + shift));
  cav_path_line_to (path, CAV_POINT (30 + shift, 20 + shift));
  cav_path_arc (path, CAV_POINT (20 + shift, 20 + shift), 10, 10, 0, -180);
  cav_path_line_to (path, CAV_POINT (shift, 20 + shift));
  cav_path_close (path);
  outer = cav_region_new_from_path (path, NULL);
  hole = cav_region_new_box (2 + shift, 2 + shift, 5 + shift, 5 + shift);
  return cav_region_difference (outer, hole, NULL);
}

static void
test_region (void)
{
  g_autoptr (CavRegion) region = create_slab (0);
  g_autoptr (CavRegion) rounded = cav_region_rounded (region);

  shapes_assert_invariants (rounded);
  g_assert_cmpuint (cav_region_get_ring_count (rounded), ==, 2);
  g_assert_true (cav_region_ring_is_hole (rounded, 1));
  g_assert_cmpfloat_with_epsilon (cav_region_get_area (rounded), 800 - 9 - 50 * G_PI, 0.02);
  g_assert_cmpuint (cav_path_get_segment_count (cav_region_get_ring (rounded, 0)), ==,
                    cav_path_get_segment_count (cav_region_get_ring (region, 0)));
}

/* Bit by bit the same points, with noise and without. */
static void
test_noise (void)
{
  g_autoptr (CavRegion) plain = create_slab (0), noisy = create_slab (NOISE);
  g_autoptr (CavRegion) a = cav_region_rounded (plain), b = cav_region_rounded (noisy);

  g_assert_cmpuint (cav_region_get_ring_count (a), ==, cav_region_get_ring_count (b));
  for (guint ring = 0; ring < cav_region_get_ring_count (a); ring++)
    {
      guint n_a, n_b;
      const CavPoint *p = cav_region_get_ring_points (a, ring, &n_a);
      const CavPoint *q = cav_region_get_ring_points (b, ring, &n_b);

      g_assert_cmpuint (n_a, ==, n_b);
      for (guint i = 0; i < n_a; i++)
        {
          assert_same_bits (p[i].x, q[i].x);
          assert_same_bits (p[i].y, q[i].y);
        }
    }
}

static void
test_nothing (void)
{
  g_autoptr (CavRegion) empty = cav_region_new_empty ();
  g_autoptr (CavRegion) rounded = cav_region_rounded (empty);
  g_autoptr (CavRegion) speck = cav_region_new_box (0, 0, 4e-5, 4e-5);
  g_autoptr (CavRegion) gone = cav_region_rounded (speck);

  g_assert_true (cav_region_is_empty (rounded));
  g_assert_true (cav_region_is_empty (gone));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region-round/lengths", test_lengths);
  g_test_add_func ("/geometry/region-round/grid", test_grid);
  g_test_add_func ("/geometry/region-round/region", test_region);
  g_test_add_func ("/geometry/region-round/noise", test_noise);
  g_test_add_func ("/geometry/region-round/nothing", test_nothing);
  return g_test_run ();
}
