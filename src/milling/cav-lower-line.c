/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-lower-line.h"

#include "milling/cav-rising.h"

#include <math.h>
#include <stdlib.h>

/* Break points nearer than this are one: a hundredth of the finest setting. */
#define SAME_BREAK 1e-6

/* Index of the last break at or before u, or -1. */
static int
find_interval (const CavLowerLine *line, double u)
{
  int low = 0, high = line->n_breaks;

  while (low < high)
    {
      int middle = (low + high) / 2;

      if (line->u[middle] <= u)
        low = middle + 1;
      else
        high = middle;
    }
  return low - 1;
}

static double
interpolate (const CavLowerLine *line, int interval, double u)
{
  double u0 = line->u[interval], u1 = line->u[interval + 1];
  double share = CLAMP ((u - u0) / (u1 - u0), 0, 1);

  if (line->left[interval] >= CAV_LOWER_LINE_OPEN)
    return CAV_LOWER_LINE_OPEN;
  return line->left[interval] + share * (line->right[interval] - line->left[interval]);
}

/* Enters one edge of the outline into every interval that it spans. Edges of an outline do not
 * cross, so the lower one at an interval's middle is the lower one all through it. */
static void
add_edge (CavLowerLine *line, CavPoint a, CavPoint b)
{
  if (a.x > b.x)
    {
      CavPoint swap = a;

      a = b;
      b = swap;
    }
  if (b.x - a.x < SAME_BREAK)
    return;
  for (int i = MAX (find_interval (line, a.x + SAME_BREAK), 0);
       i < line->n_breaks - 1 && line->u[i] < b.x - SAME_BREAK; i++)
    {
      double slope = (b.y - a.y) / (b.x - a.x);
      double left = a.y + slope * (line->u[i] - a.x);
      double right = a.y + slope * (line->u[i + 1] - a.x);

      if (left + right < line->left[i] + line->right[i])
        {
          line->left[i] = left;
          line->right[i] = right;
        }
    }
}

/* Points of all rings, mapped, each ring followed by its first point once more. */
static CavPoint *
map_rings (const CavRegion *region, CavTransform transform, guint *ends)
{
  guint n_rings = cav_region_get_ring_count (region), n = 0, n_points;
  CavPoint *mapped;

  for (guint ring = 0; ring < n_rings; ring++)
    {
      cav_region_get_ring_points (region, ring, &n_points);
      n += n_points + 1;
    }
  mapped = g_new (CavPoint, MAX (n, 1));
  n = 0;
  for (guint ring = 0; ring < n_rings; ring++)
    {
      const CavPoint *points = cav_region_get_ring_points (region, ring, &n_points);
      CavPoint *first = &mapped[n];

      for (guint i = 0; i < n_points; i++)
        mapped[n++] = cav_transform_point (transform, points[i]);
      mapped[n++] = *first;
      ends[ring] = n;
    }
  return mapped;
}

/* Where any edge begins or ends. */
static void
list_breaks (CavLowerLine *line, const CavPoint *points, guint n)
{
  int kept = 0;

  line->u = g_new (double, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    line->u[i] = points[i].x;
  qsort (line->u, n, sizeof (double), cav_compare_rising);
  for (guint i = 0; i < n; i++)
    if (kept == 0 || line->u[i] - line->u[kept - 1] > SAME_BREAK)
      line->u[kept++] = line->u[i];
  line->n_breaks = kept;
}

CavLowerLine *
cav_lower_line_new (const CavRegion *region, CavTransform transform)
{
  CavLowerLine *line = g_new0 (CavLowerLine, 1);
  guint n_rings = cav_region_get_ring_count (region), n;
  g_autofree guint *ends = g_new (guint, MAX (n_rings, 1));
  g_autofree CavPoint *points = map_rings (region, transform, ends);

  n = n_rings > 0 ? ends[n_rings - 1] : 0;
  list_breaks (line, points, n);
  line->left = g_new (double, MAX (line->n_breaks, 1));
  line->right = g_new (double, MAX (line->n_breaks, 1));
  line->at = g_new (double, MAX (line->n_breaks, 1));
  for (int i = 0; i < line->n_breaks; i++)
    line->left[i] = line->right[i] = CAV_LOWER_LINE_OPEN;
  for (guint ring = 0, i = 0; ring < n_rings; ring++, i++)
    for (; i + 1 < ends[ring]; i++)
      add_edge (line, points[i], points[i + 1]);
  line->lowest = CAV_LOWER_LINE_OPEN;
  for (int i = 0; i < line->n_breaks; i++)
    {
      double after = i < line->n_breaks - 1 ? line->left[i] : CAV_LOWER_LINE_OPEN;

      line->at[i] = i > 0 ? MIN (after, line->right[i - 1]) : after;
      line->lowest = MIN (line->lowest, line->at[i]);
    }
  return line;
}

void
cav_lower_line_free (CavLowerLine *line)
{
  if (line == NULL)
    return;
  g_free (line->u);
  g_free (line->left);
  g_free (line->right);
  g_free (line->at);
  g_free (line);
}

/* Lowest height on both sides of u, which lies at or behind the break that begins an interval. */
static inline double
get_height_in (const CavLowerLine *line, int interval, double u)
{
  double height = CAV_LOWER_LINE_OPEN;

  if (interval >= 0 && interval < line->n_breaks - 1)
    height = interpolate (line, interval, u);
  if (interval > 0 && u - line->u[interval] < SAME_BREAK)
    height = MIN (height, line->right[interval - 1]);
  return height;
}

double
cav_lower_line_at (const CavLowerLine *line, double u)
{
  return get_height_in (line, find_interval (line, u), u);
}

double
cav_lower_line_at_next (const CavLowerLine *line, double u, int *interval)
{
  while (*interval >= 0 && line->u[*interval] > u)
    (*interval)--;
  while (*interval + 1 < line->n_breaks && line->u[*interval + 1] <= u)
    (*interval)++;
  return get_height_in (line, *interval, u);
}

void
cav_lower_line_sample (const CavLowerLine *line, double spacing, int n, double *out_heights)
{
  int interval = find_interval (line, 0), i = 0;

  while (i < n)
    {
      double end = interval + 1 < line->n_breaks ? line->u[interval + 1] : HUGE_VAL;

      for (; i < n && i * spacing < end; i++)
        out_heights[i] = get_height_in (line, interval, i * spacing);
      interval++;
    }
}

double
cav_lower_line_minimum (const CavLowerLine *line, double u0, double u1)
{
  double height = CAV_LOWER_LINE_OPEN;

  for (int i = MAX (find_interval (line, u0), 0); i < line->n_breaks - 1 && line->u[i] < u1; i++)
    {
      if (line->u[i + 1] <= u0)
        continue;
      height = fmin (height, interpolate (line, i, fmax (u0, line->u[i])));
      height = fmin (height, interpolate (line, i, fmin (u1, line->u[i + 1])));
    }
  return height;
}

/* Depth of the tool's surface at distance d from its axis, for one distance after another that lies
 * no nearer: at is 0 before the first. */
static double
get_next_depth (const CavToolTop *top, double d, int *at)
{
  double r0, r1;

  /* First point with r >= d. */
  while (top->r[*at] < d)
    (*at)++;
  if (*at == 0)
    return top->z[0];
  r0 = top->r[*at - 1];
  r1 = top->r[*at];
  if (r1 - r0 < 1e-12)
    return top->z[*at];
  return top->z[*at - 1] + (d - r0) / (r1 - r0) * (top->z[*at] - top->z[*at - 1]);
}

/* The region's break points inside the tool to one side of its axis, from break i outward, as long
 * as the tool is not too deep there for the lowest wood to keep it below tip. */
static double
lower_to_breaks (
    const CavLowerLine *line, const CavToolTop *top, double u, int i, int step, double tip)
{
  double rim = top->r[top->n_points - 1];
  int at = 0;

  for (; i >= 0 && i < line->n_breaks; i += step)
    {
      double distance = fabs (line->u[i] - u);

      if (distance >= rim)
        break;
      if (line->at[i] >= tip)
        continue;
      double depth = get_next_depth (top, distance, &at);

      tip = MIN (tip, line->at[i] + depth);
      if (line->lowest + depth >= tip)
        break;
    }
  return tip;
}

double
cav_lower_line_get_tip (const CavLowerLine *line, const CavToolTop *top, double u)
{
  int low, high;
  double tip;

  low = high = find_interval (line, u);
  tip = lower_to_breaks (line, top, u, low, -1, CAV_LOWER_LINE_OPEN);
  tip = lower_to_breaks (line, top, u, high + 1, 1, tip);
  /* The tool's break points inside the region, from its axis outward; at the rim only what stands
   * within it counts. Deeper ones that would not touch the lowest wood are in nobody's way. */
  for (int j = 0; j < top->n_points && line->lowest + top->z[j] < tip; j++)
    {
      double inside = MAX (top->r[j] - SAME_BREAK * 2, 0);

      while (low >= 0 && line->u[low] > u - inside)
        low--;
      while (high + 1 < line->n_breaks && line->u[high + 1] <= u + inside)
        high++;
      tip = MIN (tip, get_height_in (line, low, u - inside) + top->z[j]);
      tip = MIN (tip, get_height_in (line, high, u + inside) + top->z[j]);
    }
  return MIN (tip, CAV_LOWER_LINE_OPEN);
}
