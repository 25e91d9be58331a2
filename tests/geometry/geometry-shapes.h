/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Shapes that several tests of this room draw, and ways to look at the result. */

#include <math.h>

#include "geometry/cav-region.h"
#include "geometry/cav-tolerance.h"

#define RADIANS (G_PI / 180.0)

/* Seeds of the random tests: fixed, so that a failure comes again; another one can be given in
 * the environment. */
static inline guint32
shapes_seed (guint32 usual)
{
  const char *given = g_getenv ("CAV_TEST_SEED");
  guint32 seed = given != NULL ? (guint32)g_ascii_strtoull (given, NULL, 10) : usual;

  g_test_message ("seed %u", seed);
  return seed;
}

/* An arc of an ellipse or, as often, of a circle: anywhere, turned, through any sweep. */
static inline CavSegment
shapes_random_arc (GRand *rand)
{
  double rx = g_rand_double_range (rand, 0.5, 20.0);
  double ry = g_rand_boolean (rand) ? rx : g_rand_double_range (rand, 0.5, 20.0);

  return cav_segment_arc (
      CAV_POINT (g_rand_double_range (rand, -30.0, 30.0), g_rand_double_range (rand, -30.0, 30.0)),
      rx, ry, g_rand_double_range (rand, -180.0, 180.0), g_rand_double_range (rand, -720.0, 720.0),
      g_rand_double_range (rand, -360.0, 360.0));
}

/* Takes the path, which may still be open. */
static inline CavRegion *
shapes_region (CavPath *path)
{
  CavRegion *region;
  GError *error = NULL;

  cav_path_close (path);
  region = cav_region_new_from_path (path, &error);
  g_assert_true (error == NULL);
  g_assert_true (region != NULL);
  cav_path_free (path);
  return region;
}

static inline CavRegion *
shapes_ellipse (double x, double y, double rx, double ry)
{
  CavPath *path = cav_path_new ();

  cav_path_arc (path, CAV_POINT (x, y), rx, ry, 0.0, 360.0);
  return shapes_region (path);
}

static inline CavRegion *
shapes_circle (double x, double y, double r)
{
  return shapes_ellipse (x, y, r, r);
}

static inline CavRegion *
shapes_sector (double x, double y, double r, double start, double sweep)
{
  CavPath *path = cav_path_new ();

  cav_path_move_to (path, CAV_POINT (x, y));
  cav_path_arc (path, CAV_POINT (x, y), r, r, start, sweep);
  return shapes_region (path);
}

static inline double
shapes_random (GRand *rand, double low, double high, int per_mm)
{
  double value = g_rand_double_range (rand, low, high);

  return per_mm > 0 ? round (value * per_mm) / per_mm : value;
}

static inline CavRegion *
shapes_random_star (GRand *rand, CavPoint centre, int per_mm)
{
  CavPath *path = cav_path_new ();
  int n = g_rand_int_range (rand, 3, 9);
  double turn = g_rand_double_range (rand, 0.0, 6.0);

  for (int i = 0; i < n; i++)
    {
      double r = shapes_random (rand, 2.0, 12.0, per_mm);
      double angle = turn + i * 2.0 * G_PI / n;
      CavPoint point = CAV_POINT (centre.x + r * cos (angle), centre.y + r * sin (angle));

      if (i == 0)
        cav_path_move_to (path, point);
      else
        cav_path_line_to (path, point);
    }
  return shapes_region (path);
}

/* A box, circle, ellipse, sector or star in a field of 60 x 45 mm; per_mm > 0 puts measures on a
 * grid, so that shapes touch and share walls often. */
static inline CavRegion *
shapes_random_shape (GRand *rand, int per_mm)
{
  int kind = g_rand_int_range (rand, 0, 5);
  double x = shapes_random (rand, 0.0, 40.0, per_mm);
  double y = shapes_random (rand, 0.0, 25.0, per_mm);
  double a = shapes_random (rand, 1.0, 12.0, per_mm);
  double b = shapes_random (rand, 1.0, 12.0, per_mm);

  if (kind == 0)
    return shapes_ellipse (x, y, a, b);
  if (kind == 1)
    return shapes_circle (x, y, a);
  if (kind == 2)
    return cav_region_new_box (x, y, x + a, y + b);
  if (kind == 3)
    return shapes_sector (x, y, a, g_rand_double_range (rand, 0.0, 360.0),
                          g_rand_double_range (rand, 20.0, 330.0));
  return shapes_random_star (rand, CAV_POINT (x, y), per_mm);
}

/* The operations for arguments that are known to work. */
static inline CavRegion *
shapes_union (const CavRegion *a, const CavRegion *b)
{
  GError *error = NULL;
  CavRegion *result = cav_region_union (a, b, &error);

  g_assert_true (error == NULL);
  return result;
}

static inline CavRegion *
shapes_difference (const CavRegion *a, const CavRegion *b)
{
  GError *error = NULL;
  CavRegion *result = cav_region_difference (a, b, &error);

  g_assert_true (error == NULL);
  return result;
}

static inline CavRegion *
shapes_intersection (const CavRegion *a, const CavRegion *b)
{
  GError *error = NULL;
  CavRegion *result = cav_region_intersection (a, b, &error);

  g_assert_true (error == NULL);
  return result;
}

static inline CavRegion *
shapes_offset (const CavRegion *region, double distance)
{
  GError *error = NULL;
  CavRegion *result = cav_region_offset (region, distance, &error);

  g_assert_true (error == NULL);
  return result;
}

static inline guint
shapes_count (const CavRegion *region, CavSegmentKind kind)
{
  guint n = 0;

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *path = cav_region_get_ring (region, i);

      for (guint k = 0; k < cav_path_get_segment_count (path); k++)
        if (cav_path_get_segment (path, k)->kind == kind)
          n++;
    }
  return n;
}

/* Number of arcs that are exactly, to the last bit, part of the ellipse. */
static inline guint
shapes_count_arcs_of (const CavRegion *region, double x, double y, double rx, double ry)
{
  guint n = 0;

  for (guint i = 0; i < cav_region_get_ring_count (region); i++)
    {
      const CavPath *path = cav_region_get_ring (region, i);

      for (guint k = 0; k < cav_path_get_segment_count (path); k++)
        {
          const CavSegment *arc = cav_path_get_segment (path, k);

          if (arc->kind == CAV_SEGMENT_ARC && cav_point_near (arc->centre, CAV_POINT (x, y), 0.0)
              && fabs (arc->rx - rx) <= 0.0 && fabs (arc->ry - ry) <= 0.0)
            n++;
        }
    }
  return n;
}

static inline void
shapes_assert_near (double value, double expected, double tolerance)
{
  if (!(fabs (value - expected) <= tolerance))
    g_test_message ("%.15g is not %.15g within %g", value, expected, tolerance);
  g_assert_true (fabs (value - expected) <= tolerance);
}

/* For values that must come out to the last bit. */
static inline void
shapes_assert_exact (double value, double expected)
{
  shapes_assert_near (value, expected, 0.0);
}

static inline void
shapes_assert_point (CavPoint point, double x, double y, double tolerance)
{
  shapes_assert_near (point.x, x, tolerance);
  shapes_assert_near (point.y, y, tolerance);
}

/* What the header promises of every region's rings. */
static inline void
shapes_assert_invariants (const CavRegion *region)
{
  guint n_rings = cav_region_get_ring_count (region);
  guint n_outer = 0;
  double area = 0.0;

  if (n_rings > 0)
    g_assert_true (!cav_region_ring_is_hole (region, 0));
  for (guint i = 0; i < n_rings; i++)
    {
      const CavPath *path = cav_region_get_ring (region, i);
      guint n = cav_path_get_segment_count (path);
      guint n_points = 0;
      const CavPoint *points = cav_region_get_ring_points (region, i, &n_points);
      double signed_area = cav_path_get_signed_area (path);

      g_assert_true (cav_path_is_closed (path) && cav_path_is_finite (path));
      g_assert_true ((signed_area < 0.0) == cav_region_ring_is_hole (region, i));
      area += signed_area;
      n_outer += !cav_region_ring_is_hole (region, i);
      g_assert_cmpuint (n, >=, 1);
      for (guint k = 0; k < n; k++)
        {
          const CavSegment *segment = cav_path_get_segment (path, k);
          const CavSegment *next = cav_path_get_segment (path, (k + 1) % n);
          CavSegment ideal;

          g_assert_true (cav_point_near (segment->to, next->from, 0.0));
          if (segment->kind == CAV_SEGMENT_LINE)
            continue;
          ideal = cav_segment_arc (segment->centre, segment->rx, segment->ry, segment->rotation,
                                   segment->start, segment->sweep);
          g_assert_true (cav_point_near (segment->from, ideal.from, 1.01 * CAV_TOLERANCE_CHORD));
          g_assert_true (cav_point_near (segment->to, ideal.to, 1.01 * CAV_TOLERANCE_CHORD));
        }
      g_assert_cmpuint (n_points, >=, 3);
      for (guint k = 0; k < n_points; k++)
        {
          g_assert_true (cav_point_is_finite (points[k]));
          g_assert_cmpfloat (cav_path_get_distance (path, points[k]), <=,
                             1.01 * CAV_TOLERANCE_CHORD);
        }
    }
  g_assert_cmpuint (n_outer, ==, cav_region_get_piece_count (region));
  shapes_assert_near (cav_region_get_area (region), area, 1e-9);
}

static inline void
shapes_assert_same (const CavRegion *a, const CavRegion *b, double tolerance)
{
  g_autoptr (CavRegion) more = shapes_difference (a, b);
  g_autoptr (CavRegion) less = shapes_difference (b, a);

  shapes_assert_near (cav_region_get_area (more), 0.0, tolerance);
  shapes_assert_near (cav_region_get_area (less), 0.0, tolerance);
}
