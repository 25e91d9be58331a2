/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "geometry/cav-region.h"

#include "geometry-shapes.h"

static void
test_empty (void)
{
  g_autoptr (CavRegion) region = cav_region_new_empty ();
  CavPoint centroid;

  g_assert_true (cav_region_is_empty (region));
  g_assert_cmpuint (cav_region_get_piece_count (region), ==, 0);
  g_assert_cmpuint (cav_region_get_ring_count (region), ==, 0);
  shapes_assert_exact (cav_region_get_area (region), 0.0);
  shapes_assert_exact (cav_region_get_perimeter (region), 0.0);
  g_assert_true (!cav_region_get_centroid (region, &centroid));
  g_assert_true (!cav_region_contains (region, CAV_POINT (0.0, 0.0)));
  g_assert_cmpfloat (cav_region_get_bounds (region).x1, <, cav_region_get_bounds (region).x0);
  g_assert_cmpfloat (cav_region_get_distance (region, CAV_POINT (0.0, 0.0)), >, 1e300);
  cav_region_unref (NULL);
}

static void
test_box (void)
{
  g_autoptr (CavRegion) region = cav_region_new_box (1.0, 2.0, 5.0, 9.0);
  guint n_points;

  shapes_assert_invariants (region);
  shapes_assert_exact (cav_region_get_area (region), 28.0);
  g_assert_cmpuint (cav_region_get_piece_count (region), ==, 1);
  cav_region_get_ring_points (region, 0, &n_points);
  g_assert_cmpuint (n_points, ==, 4);
}

static void
test_box_without_area (void)
{
  static const double boxes[][4] = {
    { 0.0, 0.0, 0.0, 5.0 },
    { 0.0, 0.0, 5.0, 0.0 },
    { 5.0, 0.0, 0.0, 5.0 },
    { 1.0, 1.0, 1.0, 1.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (boxes); i++)
    {
      g_autoptr (CavRegion) region
          = cav_region_new_box (boxes[i][0], boxes[i][1], boxes[i][2], boxes[i][3]);

      g_assert_true (cav_region_is_empty (region));
    }
}

/* Whichever way the outline runs, the region lies on its left. */
static void
test_orientation (void)
{
  static const CavPoint clockwise[] = { { 0.0, 0.0 }, { 0.0, 5.0 }, { 5.0, 5.0 }, { 5.0, 0.0 } };
  g_autoptr (GError) error = NULL;
  g_autoptr (CavRegion) region = cav_region_new_polygon (clockwise, 4, &error);

  g_assert_true (error == NULL);
  shapes_assert_invariants (region);
  shapes_assert_exact (cav_region_get_area (region), 25.0);
}

static void
test_reference_count (void)
{
  CavRegion *region = cav_region_new_box (0.0, 0.0, 1.0, 1.0);
  CavRegion *again = cav_region_ref (region);

  g_assert_true (again == region);
  cav_region_unref (region);
  shapes_assert_exact (cav_region_get_area (again), 1.0);
  cav_region_unref (again);
}

typedef struct
{
  const char *desc;
  guint n;
  CavPoint points[10];
  int code; /* 0: a region comes out */
  guint pieces;
  double area;
} PolygonRow;

static const PolygonRow polygon_rows[] = {
  { "no point", 0, { { 0, 0 } }, CAV_GEOMETRY_ERROR_DEGENERATE, 0, 0 },
  { "a point", 1, { { 3, 4 } }, CAV_GEOMETRY_ERROR_DEGENERATE, 0, 0 },
  { "a line", 2, { { 0, 0 }, { 10, 0 } }, CAV_GEOMETRY_ERROR_DEGENERATE, 0, 0 },
  { "on one line", 3, { { 0, 0 }, { 10, 0 }, { 5, 0 } }, CAV_GEOMETRY_ERROR_DEGENERATE, 0, 0 },
  { "the same point thrice",
    3,
    { { 1, 1 }, { 1, 1 }, { 1, 1 } },
    CAV_GEOMETRY_ERROR_DEGENERATE,
    0,
    0 },
  { "a nanometre high",
    3,
    { { 0, 0 }, { 10, 0 }, { 5, 1e-7 } },
    CAV_GEOMETRY_ERROR_DEGENERATE,
    0,
    0 },
  { "NaN", 3, { { 0, 0 }, { NAN, 0 }, { 5, 5 } }, CAV_GEOMETRY_ERROR_NOT_FINITE, 0, 0 },
  { "first point NaN", 3, { { NAN, 0 }, { 5, 0 }, { 5, 5 } }, CAV_GEOMETRY_ERROR_NOT_FINITE, 0, 0 },
  { "infinity", 3, { { 0, 0 }, { 9, INFINITY }, { 5, 5 } }, CAV_GEOMETRY_ERROR_NOT_FINITE, 0, 0 },
  { "beyond the largest",
    3,
    { { 0, 0 }, { 100001, 0 }, { 5, 5 } },
    CAV_GEOMETRY_ERROR_NOT_FINITE,
    0,
    0 },
  { "beyond the least",
    3,
    { { 0, 0 }, { 0, -100001 }, { 5, 5 } },
    CAV_GEOMETRY_ERROR_NOT_FINITE,
    0,
    0 },
  { "overflows", 3, { { 0, 0 }, { 1e200, 0 }, { 5, 1e200 } }, CAV_GEOMETRY_ERROR_NOT_FINITE, 0, 0 },
  { "even figure of eight",
    4,
    { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } },
    CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
    0,
    0 },
  { "uneven figure of eight",
    4,
    { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 12 } },
    CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
    0,
    0 },
  { "run around twice",
    8,
    { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 }, { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 10 } },
    CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
    0,
    0 },
  { "an ear that crosses",
    6,
    { { 0, 0 }, { 20, 0 }, { 20, 20 }, { 10, -1 }, { 8, -1 }, { 0, 20 } },
    CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
    0,
    0 },
  /* A loop that runs the other way and one that is run around twice, of the same size. */
  { "crossings that cancel",
    10,
    { { 0, 0 },
      { 9, 0 },
      { 9, 3 },
      { 6, 3 },
      { 6, -3 },
      { 7, -3 },
      { 7, -1 },
      { 5, -1 },
      { 5, 3 },
      { 0, 3 } },
    CAV_GEOMETRY_ERROR_CROSSES_ITSELF,
    0,
    0 },
  { "triangle", 3, { { 0, 0 }, { 10, 0 }, { 5, 4 } }, 0, 1, 20.0 },
  { "corner on an edge", 5, { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 5, 0 }, { 0, 10 } }, 0, 2, 50.0 },
  { "a spike out and back",
    5,
    { { 0, 0 }, { 10, 0 }, { 15, 0 }, { 10, 0 }, { 10, 10 } },
    0,
    1,
    50.0 },
  { "a spike inward",
    6,
    { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 5, 10 }, { 5, 5 }, { 5, 10 } },
    0,
    1,
    75.0 },
  { "a hole that hangs on a corner",
    7,
    { { 0, 0 }, { 10, 0 }, { 10, 10 }, { 0, 0 }, { 6, 4 }, { 8, 4 }, { 8, 3 } },
    0,
    1,
    42.0 },
  { "repeated points",
    6,
    { { 0, 0 }, { 0, 0 }, { 10, 0 }, { 10, 0 }, { 5, 4 }, { 5, 4 } },
    0,
    1,
    20.0 },
};

static void
test_polygon (gconstpointer data)
{
  const PolygonRow *row = data;
  g_autoptr (GError) error = NULL;
  g_autoptr (CavRegion) region = cav_region_new_polygon (row->points, row->n, &error);

  if (row->code != 0)
    {
      g_assert_true (region == NULL);
      g_assert_true (g_error_matches (error, CAV_GEOMETRY_ERROR, row->code));
      g_assert_cmpuint (strlen (error->message), >, 40);
      g_assert_true (strchr (error->message, ';') != NULL);
      return;
    }
  g_assert_true (error == NULL);
  shapes_assert_invariants (region);
  g_assert_cmpuint (cav_region_get_piece_count (region), ==, row->pieces);
  shapes_assert_near (cav_region_get_area (region), row->area, 1e-3);
}

/* Scribbles on a coarse grid touch, overlap and cross themselves in every way: they are refused,
 * or a sound region of the area that they run around comes out. */
static void
test_scribbles (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (32));
  guint n_refused = 0, n_taken = 0, n_pieces = 0;

  for (int i = 0; i < 4000; i++)
    {
      CavPoint points[8];
      guint n = (guint)g_rand_int_range (rand, 3, 9);
      g_autoptr (GError) error = NULL;
      g_autoptr (CavRegion) region = NULL;
      double area = 0.0;

      for (guint k = 0; k < n; k++)
        points[k] = CAV_POINT (g_rand_int_range (rand, 0, 5), g_rand_int_range (rand, 0, 5));
      for (guint k = 0; k < n; k++)
        area += 0.5 * (points[k].x * points[(k + 1) % n].y - points[k].y * points[(k + 1) % n].x);
      region = cav_region_new_polygon (points, n, &error);
      g_assert_true ((region == NULL) == (error != NULL));
      if (region == NULL)
        {
          n_refused++;
          continue;
        }
      n_taken++;
      n_pieces += cav_region_get_piece_count (region) > 1;
      shapes_assert_invariants (region);
      shapes_assert_near (cav_region_get_area (region), fabs (area), 1e-4);
    }
  /* The mix holds all three kinds. */
  g_assert_cmpuint (n_refused, >, 1000);
  g_assert_cmpuint (n_taken, >, 800);
  g_assert_cmpuint (n_pieces, >, 20);
}

static void
test_open_path (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (GError) error = NULL;

  cav_path_move_to (path, CAV_POINT (12.5, 3.0));
  cav_path_line_to (path, CAV_POINT (20.0, 3.0));
  cav_path_line_to (path, CAV_POINT (20.0, 9.0));
  g_assert_true (cav_region_new_from_path (path, &error) == NULL);
  g_assert_true (g_error_matches (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_NOT_CLOSED));
  g_assert_true (strstr (error->message, "12.500, 3.000") != NULL);
}

/* The place that is named is the place where it crosses. */
static void
test_crossing_place (void)
{
  static const CavPoint points[] = { { 0, 0 }, { 10, 10 }, { 10, 0 }, { 0, 10 } };
  g_autoptr (GError) error = NULL;

  g_assert_true (cav_region_new_polygon (points, 4, &error) == NULL);
  g_assert_true (strstr (error->message, "(5.000, 5.000)") != NULL);
}

/* Two arcs that cross each other are refused like lines. */
static void
test_crossing_arcs (void)
{
  g_autoptr (CavPath) path = cav_path_new ();
  g_autoptr (GError) error = NULL;

  cav_path_arc (path, CAV_POINT (0.0, 0.0), 5.0, 5.0, 180.0, -180.0);
  cav_path_line_to (path, CAV_POINT (4.0, 3.0));
  cav_path_line_to (path, CAV_POINT (0.0, 8.0));
  cav_path_close (path);
  g_assert_true (cav_region_new_from_path (path, &error) == NULL);
  g_assert_true (g_error_matches (error, CAV_GEOMETRY_ERROR, CAV_GEOMETRY_ERROR_CROSSES_ITSELF));
}

/* Two circles drawn in one go that touch in a point are two pieces, with their arcs. */
static void
test_touching_arcs (void)
{
  CavPath *path = cav_path_new ();
  g_autoptr (CavRegion) region = NULL;

  cav_path_arc (path, CAV_POINT (-5.0, 0.0), 5.0, 5.0, 0.0, 360.0);
  cav_path_arc (path, CAV_POINT (3.0, 0.0), 3.0, 3.0, 180.0, 360.0);
  region = shapes_region (path);
  shapes_assert_invariants (region);
  g_assert_cmpuint (cav_region_get_piece_count (region), ==, 2);
  g_assert_cmpuint (shapes_count_arcs_of (region, -5.0, 0.0, 5.0, 5.0), ==, 1);
  g_assert_cmpuint (shapes_count_arcs_of (region, 3.0, 0.0, 3.0, 3.0), ==, 1);
  shapes_assert_near (cav_region_get_area (region), 34.0 * G_PI, 1e-9);
}

static void
test_circle_points (void)
{
  g_autoptr (CavRegion) region = shapes_circle (3.0, 4.0, 10.0);
  guint n_points;

  shapes_assert_invariants (region);
  cav_region_get_ring_points (region, 0, &n_points);
  /* A chord of sagitta 0.002 at radius 10 spans 2.29 degrees: at least 158 of them. */
  g_assert_cmpuint (n_points, >=, 158);
  g_assert_cmpuint (n_points, <=, 162);
}

static void
test_pieces (void)
{
  g_autoptr (CavRegion) big = shapes_circle (0.0, 0.0, 10.0);
  g_autoptr (CavRegion) hole = shapes_circle (1.0, 0.0, 3.0);
  g_autoptr (CavRegion) ring = shapes_difference (big, hole);
  g_autoptr (CavRegion) box = cav_region_new_box (20.0, 0.0, 22.0, 5.0);
  g_autoptr (CavRegion) both = shapes_union (ring, box);
  double areas = 0.0;

  shapes_assert_invariants (both);
  g_assert_cmpuint (cav_region_get_piece_count (both), ==, 2);
  g_assert_cmpuint (cav_region_get_ring_count (both), ==, 3);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (both, i);

      shapes_assert_invariants (piece);
      g_assert_cmpuint (cav_region_get_piece_count (piece), ==, 1);
      areas += cav_region_get_area (piece);
    }
  shapes_assert_near (areas, cav_region_get_area (both), 1e-12);
  shapes_assert_near (areas, 91.0 * G_PI + 10.0, 1e-9);
}

static void
test_thick (void)
{
  g_autoptr (CavRegion) big = shapes_circle (0.0, 0.0, 10.0);
  g_autoptr (CavRegion) hole = shapes_circle (1.0, 0.0, 3.0);
  g_autoptr (CavRegion) ring = shapes_difference (big, hole);
  g_autoptr (CavRegion) film = cav_region_new_box (20.0, 0.0, 20.003, 10.0);
  g_autoptr (CavRegion) both = shapes_union (ring, film);
  g_autoptr (CavRegion) all = cav_region_dup_thick (both, 0.001);
  g_autoptr (CavRegion) thick = cav_region_dup_thick (both, 0.004);
  g_autoptr (CavRegion) none = cav_region_dup_thick (both, 10.0);

  shapes_assert_invariants (all);
  shapes_assert_invariants (thick);
  g_assert_cmpuint (cav_region_get_piece_count (all), ==, 2);
  shapes_assert_near (cav_region_get_area (all), cav_region_get_area (both), 1e-12);
  g_assert_cmpuint (cav_region_get_piece_count (thick), ==, 1);
  g_assert_cmpuint (cav_region_get_ring_count (thick), ==, 2);
  shapes_assert_near (cav_region_get_area (thick), 91.0 * G_PI, 1e-9);
  g_assert_true (cav_region_is_empty (none));
}

static void
test_transformed_random (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (shapes_seed (31));

  for (int i = 0; i < 60; i++)
    {
      g_autoptr (CavRegion) region = shapes_random_shape (rand, 0);
      double xx = g_rand_double_range (rand, -2.0, 2.0), yx = g_rand_double_range (rand, -2.0, 2.0);
      CavTransform map = { xx, -0.3 * yx, 4.0, yx, 0.7 * xx, -6.0 };
      double determinant = map.xx * map.yy - map.xy * map.yx;
      g_autoptr (CavRegion) image = cav_region_transformed (region, map);
      CavPoint before, after, moved;

      if (fabs (determinant) < 1e-2)
        continue;
      shapes_assert_invariants (image);
      shapes_assert_near (cav_region_get_area (image),
                          fabs (determinant) * cav_region_get_area (region), 1e-8);
      g_assert_true (cav_region_get_centroid (region, &before));
      g_assert_true (cav_region_get_centroid (image, &after));
      moved = cav_transform_point (map, before);
      shapes_assert_point (after, moved.x, moved.y, 1e-8);
    }
}

static void
test_transformed_mirror (void)
{
  g_autoptr (CavRegion) big = shapes_circle (10.0, 0.0, 5.0);
  g_autoptr (CavRegion) hole = cav_region_new_box (8.0, 0.0, 9.0, 1.0);
  g_autoptr (CavRegion) region = shapes_difference (big, hole);
  g_autoptr (CavRegion) mirrored = cav_region_transformed (region, cav_transform_scale (-1.0, 1.0));

  shapes_assert_invariants (mirrored);
  g_assert_cmpuint (cav_region_get_ring_count (mirrored), ==, 2);
  g_assert_cmpuint (shapes_count_arcs_of (mirrored, -10.0, 0.0, 5.0, 5.0), ==, 1);
}

static void
test_transformed_flat (void)
{
  g_autoptr (CavRegion) big = shapes_circle (10.0, 0.0, 5.0);
  g_autoptr (CavRegion) hole = cav_region_new_box (8.0, 0.0, 9.0, 1.0);
  g_autoptr (CavRegion) region = shapes_difference (big, hole);
  g_autoptr (CavRegion) flat = cav_region_transformed (region, cav_transform_scale (0.0, 1.0));

  g_assert_true (cav_region_is_empty (flat));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/geometry/region/empty", test_empty);
  g_test_add_func ("/geometry/region/box", test_box);
  g_test_add_func ("/geometry/region/box/without-area", test_box_without_area);
  g_test_add_func ("/geometry/region/orientation", test_orientation);
  g_test_add_func ("/geometry/region/reference-count", test_reference_count);
  for (guint i = 0; i < G_N_ELEMENTS (polygon_rows); i++)
    {
      g_autofree char *path = g_strdup_printf ("/geometry/region/polygon/%s", polygon_rows[i].desc);

      g_test_add_data_func (path, &polygon_rows[i], test_polygon);
    }
  g_test_add_func ("/geometry/region/scribbles", test_scribbles);
  g_test_add_func ("/geometry/region/open-path", test_open_path);
  g_test_add_func ("/geometry/region/crossing/place", test_crossing_place);
  g_test_add_func ("/geometry/region/crossing/arcs", test_crossing_arcs);
  g_test_add_func ("/geometry/region/touching-arcs", test_touching_arcs);
  g_test_add_func ("/geometry/region/circle-points", test_circle_points);
  g_test_add_func ("/geometry/region/pieces", test_pieces);
  g_test_add_func ("/geometry/region/thick", test_thick);
  g_test_add_func ("/geometry/region/transformed/random", test_transformed_random);
  g_test_add_func ("/geometry/region/transformed/mirror", test_transformed_mirror);
  g_test_add_func ("/geometry/region/transformed/flat", test_transformed_flat);
  return g_test_run ();
}
