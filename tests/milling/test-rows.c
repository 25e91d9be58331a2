/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-bands.h"
#include "milling/cav-rows.h"

#define N_CORNERS 9
#define N_SHAPES 60

static const CavBlank blank = { 50, 20 };

/* Half a row all across. */
static double
get_tolerance (void)
{
  return CAV_ROW_HEIGHT / 2 * blank.width;
}

static void
test_count (void)
{
  g_assert_cmpint (cav_rows_count_for (20), ==, 400);
  g_assert_cmpint (cav_rows_count_for (20.01), ==, 401);
  g_assert_cmpint (cav_rows_count_for (0.05), ==, 1);
  g_assert_cmpint (cav_rows_count_for (19.05), ==, 381);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_share (20, 399), 1, 1e-6);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_share (20.01, 400), 0.2, 1e-6);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_share (20.01, 399), 1, 1e-6);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_share (20.01, 401), 0, 1e-6);
}

/* On the grid of rows everything is exact. */
static void
test_boxes (void)
{
  const CavBox boxes[] = { { -1, -1, 6, 9.5 }, { 20, 4, 31.234, 12.35 } };
  g_autoptr (CavRegion) region = rig_box_less (blank, boxes, 2);
  g_autoptr (CavRows) rows = cav_rows_new_from_region (region, cav_rows_count_for (20));
  g_autoptr (CavBands) bands = cav_bands_new_from_rows (rows);

  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (rows), cav_region_get_area (region), 1e-9);
  /* The rabbet alone, rabbet and hole, the hole alone, whole wood: 4 changes of rows in 20 mm. */
  g_assert_cmpint (bands->n_bands, ==, 4);
  g_assert_cmpint (cav_bands_get_start (bands, 0), ==, 0);
  g_assert_cmpint (cav_bands_get_start (bands, 1), ==, 80);
  g_assert_cmpint (cav_bands_get_start (bands, 2), ==, 190);
  g_assert_cmpint (cav_bands_get_start (bands, 3), ==, 247);
  g_assert_cmpint (bands->ends[3], ==, 400);
  g_assert_false (cav_rows_contains (rows, 0, 5999));
  g_assert_true (cav_rows_contains (rows, 0, 6000));
  g_assert_true (cav_rows_contains (rows, 190, 0));
  g_assert_false (cav_rows_contains (rows, 100, 31233));
  g_assert_true (cav_rows_contains (rows, 100, 31234));
  g_assert_false (cav_rows_contains (rows, 100, 50000));
  g_assert_false (cav_rows_contains (rows, -1, 10000));
  g_assert_false (cav_rows_contains (rows, 400, 10000));
}

static void
test_random (void)
{
  g_autoptr (GRand) rand = rig_rand_new (815);
  int n = cav_rows_count_for (blank.thickness);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavPoint points[N_CORNERS], others[N_CORNERS];

      rig_random_outline (rand, blank.width, blank.thickness, points, N_CORNERS);
      rig_random_outline (rand, blank.width, blank.thickness, others, N_CORNERS);
      g_autoptr (CavRegion) a = rig_polygon (points, N_CORNERS);
      g_autoptr (CavRegion) b = rig_polygon (others, N_CORNERS);
      g_autoptr (CavRegion) common = cav_region_intersection (a, b, NULL);
      g_autoptr (CavRows) of_a = cav_rows_new_from_region (a, n);
      g_autoptr (CavRows) of_b = cav_rows_new_from_polygon (others, N_CORNERS, n);
      g_autoptr (CavRows) again = cav_rows_new_from_region (b, n);
      double difference = cav_rows_get_area (of_a) - cav_region_get_area (a);

      g_assert_cmpfloat (fabs (difference), <, get_tolerance ());
      g_assert_cmpint (of_b->first[n], ==, again->first[n]);
      g_assert_cmpfloat_with_epsilon (cav_rows_get_area (of_b), cav_rows_get_area (again), 0.01);
      g_assert_cmpfloat_with_epsilon (cav_rows_get_common_area (of_a, of_b),
                                      cav_region_get_area (common), get_tolerance ());
      g_assert_cmpfloat_with_epsilon (cav_rows_get_common_area (of_a, of_a),
                                      cav_rows_get_area (of_a), 1e-9);
      for (int i = 0; i < 40; i++)
        {
          int row = g_rand_int_range (rand, 0, n);
          double x = g_rand_double_range (rand, 0, blank.width);
          CavPoint at = { x, (row + 0.5) * CAV_ROW_HEIGHT };

          if (cav_region_get_distance (a, at) > 0.002)
            g_assert_cmpint (cav_rows_contains (of_a, row, (gint32)lround (x * CAV_MICRONS)), ==,
                             cav_region_contains (a, at));
        }
    }
}

/* Bands are rows, told shorter. */
static void
test_bands (void)
{
  g_autoptr (GRand) rand = rig_rand_new (816);
  int n = cav_rows_count_for (blank.thickness);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavBox boxes[6];
      CavPoint points[N_CORNERS];

      for (int i = 0; i < 6; i++)
        {
          boxes[i].x0 = g_rand_double_range (rand, -2, 45);
          boxes[i].y0 = g_rand_double_range (rand, -2, 18);
          boxes[i].x1 = boxes[i].x0 + g_rand_double_range (rand, 0.5, 12);
          boxes[i].y1 = boxes[i].y0 + g_rand_double_range (rand, 0.5, 6);
        }
      rig_random_outline (rand, blank.width, blank.thickness, points, N_CORNERS);
      g_autoptr (CavRegion) region = rig_box_less (blank, boxes, 6);
      g_autoptr (CavRows) rows = cav_rows_new_from_region (region, n);
      g_autoptr (CavRows) other = cav_rows_new_from_polygon (points, N_CORNERS, n);
      g_autoptr (CavBands) bands = cav_bands_new_from_rows (rows);
      g_autoptr (CavBands) other_bands = cav_bands_new_from_rows (other);

      g_assert_cmpint (bands->n_rows, ==, n);
      g_assert_cmpint (bands->n_bands, <=, 25);
      g_assert_cmpint (bands->ends[bands->n_bands - 1], ==, n);
      g_assert_cmpfloat_with_epsilon (cav_bands_get_area (bands), cav_rows_get_area (rows), 1e-9);
      g_assert_cmpfloat_with_epsilon (cav_bands_get_common_area (bands, other_bands),
                                      cav_rows_get_common_area (rows, other), 1e-9);
      int at = 0;
      for (int row = -1; row <= n; row += 3)
        for (gint32 x = -500; x < 50500; x += 977)
          g_assert_cmpint (cav_bands_contain (bands, row, x, &at), ==,
                           cav_rows_contains (rows, row, x));
      for (int row = 0; row < n; row++)
        {
          int band = cav_bands_find (bands, row, g_rand_int_range (rand, 0, bands->n_bands));

          g_assert_cmpint (cav_bands_get_start (bands, band), <=, row);
          g_assert_cmpint (bands->ends[band], >, row);
        }
    }
}

/* A part of the rows is the same as all of them there, and nothing elsewhere; turned ones are those
 * of the region that is turned. */
static void
test_part (void)
{
  const CavTransform swap = { 0, 1, 0, 1, 0, 0 };
  g_autoptr (GRand) rand = rig_rand_new (817);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      gboolean turned = shape % 2;
      int n = cav_rows_count_for (turned ? blank.width : blank.thickness);
      double from = g_rand_double_range (rand, -3, 12),
             to = from + g_rand_double_range (rand, 0, 9);
      CavPoint points[N_CORNERS];

      rig_random_outline (rand, blank.width, blank.thickness, points, N_CORNERS);
      g_autoptr (CavRegion) region = rig_polygon (points, N_CORNERS);
      g_autoptr (CavRegion) other = cav_region_transformed (region, swap);
      g_autoptr (CavRows) part = cav_rows_new_from_region_part (region, n, turned, from, to);
      g_autoptr (CavRows) all = cav_rows_new_from_region (turned ? other : region, n);

      g_assert_cmpint (part->n_rows, ==, n);
      for (int row = 0; row < n; row++)
        {
          int count = part->first[row + 1] - part->first[row];
          double middle = (row + 0.5) * CAV_ROW_HEIGHT;
          gboolean within = middle > from && middle < to;

          if (count == 0 && !within)
            continue;
          g_assert_cmpfloat (middle, >, from - CAV_ROW_HEIGHT);
          g_assert_cmpfloat (middle, <, to + CAV_ROW_HEIGHT);
          g_assert_cmpint (count, ==, all->first[row + 1] - all->first[row]);
          for (int i = 0; i < 2 * count; i++)
            g_assert_cmpint (
                ABS ((&part->spans[part->first[row]].a)[i] - (&all->spans[all->first[row]].a)[i]),
                <=, 1);
        }
    }
}

static void
test_spans_equal (void)
{
  const CavSpan a[] = { { 0, 5 }, { 7, 9 } }, b[] = { { 0, 5 }, { 7, 10 } };
  const CavSpan c[] = { { 1, 5 }, { 7, 9 } };

  g_assert_true (cav_spans_equal (a, a, 2));
  g_assert_true (cav_spans_equal (a, b, 1));
  g_assert_false (cav_spans_equal (a, b, 2));
  g_assert_false (cav_spans_equal (a, c, 2));
  g_assert_true (cav_spans_equal (a, c, 0));
}

static void
test_empty (void)
{
  g_autoptr (CavRegion) region = cav_region_new_empty ();
  g_autoptr (CavRows) rows = cav_rows_new_from_region (region, 10);
  g_autoptr (CavBands) bands = cav_bands_new_from_rows (rows);
  int at = 0;

  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (rows), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (cav_bands_get_area (bands), 0, 1e-12);
  g_assert_cmpint (bands->n_bands, ==, 1);
  g_assert_false (cav_bands_contain (bands, 5, 0, &at));
  cav_rows_free (NULL);
  cav_bands_free (NULL);
}

/* Against the region grown by GEOS, whose chords of round corners lie a little inside. */
static void
test_grown (void)
{
  const CavPoint points[] = { { 4, 3 }, { 20, 3 }, { 17, 9.5 }, { 12, 6 }, { 8, 12.2 } };
  g_autoptr (CavRegion) region = cav_region_new_polygon (points, G_N_ELEMENTS (points), NULL);
  g_autoptr (CavRegion) wide = cav_region_offset (region, 1.5, NULL);
  g_autoptr (CavRows) rows = cav_rows_new_grown (region, 1.5, 300);
  g_autoptr (CavRows) exact = cav_rows_new_from_region (wide, 300);
  g_autoptr (CavRows) clipped = cav_rows_new_grown (region, 1.5, 60);

  g_assert_cmpfloat_with_epsilon (cav_rows_get_area (rows), cav_region_get_area (wide), 0.1);
  g_assert_cmpfloat_with_epsilon (cav_rows_get_common_area (rows, exact), cav_rows_get_area (exact),
                                  0.02);
  for (int row = 0; row < 300; row++)
    for (gint32 x = 0; x < 25000; x += 50)
      {
        CavPoint at = { x / CAV_MICRONS, (row + 0.5) * CAV_ROW_HEIGHT };
        double distance
            = cav_region_contains (region, at) ? 0 : cav_region_get_distance (region, at);

        if (fabs (distance - 1.5) > 0.002)
          g_assert_cmpint (cav_rows_contains (rows, row, x), ==, distance < 1.5);
      }
  /* Rows end where they are told to. */
  g_assert_cmpint (clipped->n_rows, ==, 60);
  g_assert_cmpint (clipped->first[60], ==, rows->first[60]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/rows/count", test_count);
  g_test_add_func ("/milling/rows/boxes", test_boxes);
  g_test_add_func ("/milling/rows/random", test_random);
  g_test_add_func ("/milling/rows/part", test_part);
  g_test_add_func ("/milling/rows/empty", test_empty);
  g_test_add_func ("/milling/rows/grown", test_grown);
  g_test_add_func ("/milling/bands/random", test_bands);
  g_test_add_func ("/milling/bands/spans-equal", test_spans_equal);
  return g_test_run ();
}
