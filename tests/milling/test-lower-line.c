/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling-rig.h"

#include "milling/cav-lower-line.h"
#include "milling/cav-placement.h"

#define N_CORNERS 11
#define N_SHAPES 150
/* How far beside a break point its one-sided limits are taken. */
#define BESIDE 1e-5

/* Lowest height of a polygon's outline at u, edge by edge. */
static double
get_lowest (const CavPoint *points, guint n, double u)
{
  double lowest = CAV_LOWER_LINE_OPEN;

  for (guint i = 0; i < n; i++)
    {
      CavPoint p = points[i], q = points[(i + 1) % n];

      if ((u - p.x) * (u - q.x) <= 0 && fabs (q.x - p.x) > 1e-12)
        lowest = fmin (lowest, p.y + (u - p.x) / (q.x - p.x) * (q.y - p.y));
    }
  return lowest;
}

/* A random outline, looked at from a random side or by a leaning blade. */
static CavRegion *
create_turned (GRand *rand, CavPoint *out_points, CavTransform *out_transform)
{
  const CavBlank blank = { 60, 24 };
  static const CavSide sides[][2] = { { CAV_SIDE_BACK, CAV_SIDE_INSIDE },
                                      { CAV_SIDE_FACE, CAV_SIDE_OUTSIDE },
                                      { CAV_SIDE_INSIDE, CAV_SIDE_BACK },
                                      { CAV_SIDE_OUTSIDE, CAV_SIDE_FACE } };
  int side = g_rand_int_range (rand, 0, 4);
  CavRegion *region;

  rig_random_outline (rand, blank.width, blank.thickness, out_points, N_CORNERS);
  region = rig_polygon (out_points, N_CORNERS);
  *out_transform = cav_placement_get_transform (&blank, sides[side][0], sides[side][1]);
  if (g_rand_boolean (rand))
    *out_transform = cav_transform_compose (
        *out_transform, cav_transform_rotation (g_rand_double_range (rand, -45, 45)));
  for (guint i = 0; i < N_CORNERS; i++)
    out_points[i] = cav_transform_point (*out_transform, out_points[i]);
  return region;
}

static void
test_at (void)
{
  g_autoptr (GRand) rand = rig_rand_new (4711);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavPoint points[N_CORNERS];
      CavTransform transform;
      g_autoptr (CavRegion) region = create_turned (rand, points, &transform);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, transform);

      for (int i = 0; i < 40; i++)
        {
          double u = g_rand_double_range (rand, -70, 70);

          g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, u),
                                          get_lowest (points, N_CORNERS, u), 1e-6);
        }
      /* At a corner the lower of both sides counts. */
      for (guint i = 0; i < N_CORNERS; i++)
        {
          double u = points[i].x;
          double lower = fmin (get_lowest (points, N_CORNERS, u - BESIDE),
                               get_lowest (points, N_CORNERS, u + BESIDE));

          if (lower < CAV_LOWER_LINE_OPEN)
            g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, u), lower, 1e-2);
        }
    }
}

/* Many places at once, one after the other, are what they are alone. */
static void
test_sample (void)
{
  g_autoptr (GRand) rand = rig_rand_new (4713);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavPoint points[N_CORNERS];
      CavTransform transform;
      double heights[700], spacing = g_rand_double_range (rand, 0.02, 0.15);
      g_autoptr (CavRegion) region = create_turned (rand, points, &transform);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, transform);
      double lowest = CAV_LOWER_LINE_OPEN;

      cav_lower_line_sample (line, spacing, G_N_ELEMENTS (heights), heights);
      for (guint i = 0; i < G_N_ELEMENTS (heights); i++)
        g_assert_cmpfloat_with_epsilon (heights[i], cav_lower_line_at (line, i * spacing), 1e-12);
      for (guint i = 0; i < N_CORNERS; i++)
        lowest = fmin (lowest, points[i].y);
      g_assert_cmpfloat_with_epsilon (line->lowest, lowest, 1e-9);
    }
}

static void
test_minimum (void)
{
  g_autoptr (GRand) rand = rig_rand_new (4712);

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavPoint points[N_CORNERS];
      CavTransform transform;
      g_autoptr (CavRegion) region = create_turned (rand, points, &transform);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, transform);

      for (int i = 0; i < 20; i++)
        {
          double u0 = g_rand_double_range (rand, -70, 70);
          double u1 = u0 + g_rand_double_range (rand, 0.1, 20);
          double least
              = fmin (get_lowest (points, N_CORNERS, u0), get_lowest (points, N_CORNERS, u1));

          for (guint k = 0; k < N_CORNERS; k++)
            if (points[k].x > u0 && points[k].x < u1)
              least = fmin (least, points[k].y);
          g_assert_cmpfloat_with_epsilon (cav_lower_line_minimum (line, u0, u1), least, 1e-5);
        }
    }
}

/* A wall that begins right where an interval ends is not in it. */
static void
test_minimum_is_open (void)
{
  const CavPoint step[] = { { 0, 2 }, { 10, 2 }, { 10, 7 }, { 20, 7 }, { 20, 12 }, { 0, 12 } };
  g_autoptr (CavRegion) region = rig_polygon (step, G_N_ELEMENTS (step));
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());

  g_assert_cmpfloat_with_epsilon (cav_lower_line_minimum (line, 10, 15), 7, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_minimum (line, 9.99, 15), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, 10), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, 10.001), 7, 1e-9);
  g_assert_cmpfloat (cav_lower_line_minimum (line, 20, 25), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_lower_line_minimum (line, -5, 0), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_lower_line_at (line, -0.01), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_lower_line_at (line, 20.01), >=, CAV_LOWER_LINE_OPEN);
}

/* Two pieces and a hole: between the pieces the line is open, the hole does not show. */
static void
test_gaps (void)
{
  const CavBox boxes[] = { { 12, -1, 18, 21 }, { 22, 5, 26, 9 } };
  g_autoptr (CavRegion) region = rig_box_less ((CavBlank){ 30, 20 }, boxes, 2);
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());

  g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, 6), 0, 1e-9);
  g_assert_cmpfloat (cav_lower_line_at (line, 15), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_at (line, 24), 0, 1e-9);
  g_assert_cmpfloat (cav_lower_line_minimum (line, 12.5, 17.5), >=, CAV_LOWER_LINE_OPEN);
}

static void
test_empty (void)
{
  g_autoptr (CavRegion) region = cav_region_new_empty ();
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());
  double r[] = { 3 }, z[] = { 0 };
  const CavToolTop top = { 1, r, z };

  g_assert_cmpfloat (cav_lower_line_at (line, 0), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_lower_line_minimum (line, -9, 9), >=, CAV_LOWER_LINE_OPEN);
  g_assert_cmpfloat (cav_lower_line_get_tip (line, &top, 0), >=, CAV_LOWER_LINE_OPEN);
  cav_lower_line_free (NULL);
}

#define MOST_POINTS 9

typedef struct
{
  CavToolTop top;
  double r[MOST_POINTS];
  double z[MOST_POINTS];
} RandomTop;

/* Rising radii, depths that never fall: a flat tip or a pointed one, flats and slopes below. */
static void
init_random_top (RandomTop *tool, GRand *rand)
{
  double r = g_rand_boolean (rand) ? 0 : g_rand_double_range (rand, 0.2, 4), z = 0;

  tool->top = (CavToolTop){ g_rand_int_range (rand, 1, MOST_POINTS + 1), tool->r, tool->z };
  if (tool->top.n_points == 1)
    r = g_rand_double_range (rand, 0.2, 8);
  for (int i = 0; i < tool->top.n_points; i++)
    {
      tool->r[i] = r;
      tool->z[i] = z;
      r += g_rand_double_range (rand, 0.1, 2.5);
      z += g_rand_int_range (rand, 0, 3) == 0 ? 0 : g_rand_double_range (rand, 0, 4);
    }
}

static double
get_top_depth (const CavToolTop *top, double d)
{
  if (d <= top->r[0])
    return top->z[0];
  for (int i = 1; i < top->n_points; i++)
    if (d <= top->r[i])
      return top->z[i - 1]
             + (d - top->r[i - 1]) / (top->r[i] - top->r[i - 1]) * (top->z[i] - top->z[i - 1]);
  return CAV_LOWER_LINE_OPEN;
}

/* Room over the tool at one distance from its axis, if the tool is there at all. */
static double
get_room (const CavPoint *points, const CavToolTop *top, double axis, double d)
{
  double lowest, rim = top->r[top->n_points - 1];

  if (fabs (d) >= rim)
    return CAV_LOWER_LINE_OPEN;
  lowest = get_lowest (points, N_CORNERS, axis + d);
  return lowest >= CAV_LOWER_LINE_OPEN ? lowest : lowest + get_top_depth (top, fabs (d));
}

static void
test_tip (void)
{
  g_autoptr (GRand) rand = rig_rand_new (4713);
  int n_near = 0;

  for (int shape = 0; shape < N_SHAPES; shape++)
    {
      CavPoint points[N_CORNERS];
      CavTransform transform;
      g_autoptr (CavRegion) region = create_turned (rand, points, &transform);
      g_autoptr (CavLowerLine) line = cav_lower_line_new (region, transform);
      RandomTop tool;

      init_random_top (&tool, rand);
      for (int i = 0; i < 12; i++)
        {
          double axis = g_rand_double_range (rand, -70, 70), rim = tool.r[tool.top.n_points - 1];
          double tip = cav_lower_line_get_tip (line, &tool.top, axis);
          double even = CAV_LOWER_LINE_OPEN, close = CAV_LOWER_LINE_OPEN;

          for (int k = 0; k <= 400; k++)
            even = fmin (even, get_room (points, &tool.top, axis, (k / 200.0 - 1) * rim));
          /* Both are linear in between, so right beside the corners of either it is least. */
          for (int beside = -1; beside <= 1; beside += 2)
            {
              for (guint k = 0; k < N_CORNERS; k++)
                close = fmin (close, get_room (points, &tool.top, axis,
                                               points[k].x - axis + beside * BESIDE));
              for (int k = 0; k < tool.top.n_points; k++)
                for (int way = -1; way <= 1; way += 2)
                  close = fmin (close, get_room (points, &tool.top, axis,
                                                 way * (tool.r[k] + beside * BESIDE)));
            }
          g_assert_cmpfloat (tip, <=, even + 1e-4);
          if (close >= CAV_LOWER_LINE_OPEN)
            continue;
          n_near++;
          g_assert_cmpfloat_with_epsilon (tip, fmin (close, even), 0.01);
        }
    }
  g_assert_cmpint (n_near, >, 300);
}

/* A tool whose rim just meets a wall is not stopped by it. */
static void
test_tip_at_wall (void)
{
  const CavPoint step[] = { { 0, 2 }, { 10, 2 }, { 10, 7 }, { 30, 7 }, { 30, 12 }, { 0, 12 } };
  g_autoptr (CavRegion) region = rig_polygon (step, G_N_ELEMENTS (step));
  g_autoptr (CavLowerLine) line = cav_lower_line_new (region, cav_transform_identity ());
  double r[] = { 4 }, z[] = { 0 };
  const CavToolTop flat = { 1, r, z };

  g_assert_cmpfloat_with_epsilon (cav_lower_line_get_tip (line, &flat, 14), 7, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_get_tip (line, &flat, 13.9), 2, 1e-9);
  g_assert_cmpfloat_with_epsilon (cav_lower_line_get_tip (line, &flat, 33.9), 7, 1e-9);
  g_assert_cmpfloat (cav_lower_line_get_tip (line, &flat, 34.1), >=, CAV_LOWER_LINE_OPEN);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/milling/lower-line/at", test_at);
  g_test_add_func ("/milling/lower-line/sample", test_sample);
  g_test_add_func ("/milling/lower-line/minimum", test_minimum);
  g_test_add_func ("/milling/lower-line/minimum-is-open", test_minimum_is_open);
  g_test_add_func ("/milling/lower-line/gaps", test_gaps);
  g_test_add_func ("/milling/lower-line/empty", test_empty);
  g_test_add_func ("/milling/lower-line/tip", test_tip);
  g_test_add_func ("/milling/lower-line/tip-at-wall", test_tip_at_wall);
  return g_test_run ();
}
