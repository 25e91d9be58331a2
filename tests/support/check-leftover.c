/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-leftover.h"
#include "check-report.h"

#include <math.h>

#define FILM 0.1
#define SURFACE 0.3 /* outline under more than this is worked by hand */
/* Settings go in steps of 0.05, so that strips of just that thickness are common: half a row more
 * or less decides them. */
#define SURFACE_SLACK 0.005
#define OUTLINE_SPACING 0.02
#define NEAR 1e-5 /* beside an edge, to ask which way is out */

static double
segment_distance (CheckPoint p, CheckPoint a, CheckPoint b)
{
  double dx = b.x - a.x;
  double dy = b.y - a.y;
  double length = dx * dx + dy * dy;
  double t = length > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / length : 0;

  t = CLAMP (t, 0, 1);
  return hypot (p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double
check_profile_distance (const CheckPlan *plan, CheckPoint point)
{
  double least = 1e9;

  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        least = fmin (least,
                      segment_distance (point, g_array_index (ring, CheckPoint, i),
                                        g_array_index (ring, CheckPoint, (i + 1) % ring->len)));
    }
  return least;
}

/* Even-odd, exact: rows would be too coarse this near to the outline. */
static gboolean
profile_contains (const CheckPlan *plan, CheckPoint point)
{
  gboolean inside = FALSE;

  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          CheckPoint a = g_array_index (ring, CheckPoint, i);
          CheckPoint b = g_array_index (ring, CheckPoint, (i + 1) % ring->len);

          if ((a.y > point.y) != (b.y > point.y)
              && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y))
            inside = !inside;
        }
    }
  return inside;
}

/* Length of the outline where, that far out along its normal, there still is leftover. Which way is
 * out is asked of the profile itself, so that rings may run either way. */
static double
measure_outline (const CheckPlan *plan, const CheckSection *leftover, double out)
{
  double length = 0;

  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          CheckPoint a = g_array_index (ring, CheckPoint, i);
          CheckPoint b = g_array_index (ring, CheckPoint, (i + 1) % ring->len);
          double edge = hypot (b.x - a.x, b.y - a.y);
          int parts = MAX ((int)ceil (edge / OUTLINE_SPACING), 1);

          if (edge < 1e-9)
            continue;
          CheckPoint normal = { (b.y - a.y) / edge, -(b.x - a.x) / edge };
          CheckPoint middle = { 0.5 * (a.x + b.x), 0.5 * (a.y + b.y) };

          if (profile_contains (
                  plan, (CheckPoint){ middle.x + NEAR * normal.x, middle.y + NEAR * normal.y }))
            normal = (CheckPoint){ -normal.x, -normal.y };
          for (int part = 0; part < parts; part++)
            {
              double t = (part + 0.5) / parts;

              if (check_section_contains (leftover, a.x + t * (b.x - a.x) + out * normal.x,
                                          a.y + t * (b.y - a.y) + out * normal.y))
                length += edge / parts;
            }
        }
    }
  return length;
}

static gboolean
is_set_around (const CheckGrid *grid, int ix, int iy)
{
  for (int y = MAX (iy - 1, 0); y <= MIN (iy + 1, grid->ny - 1); y++)
    for (int x = MAX (ix - 1, 0); x <= MIN (ix + 1, grid->nx - 1); x++)
      if (grid->set[(gsize)y * (gsize)grid->nx + (gsize)x] != 0)
        return TRUE;
  return FALSE;
}

/* A fin of profile that slips between the middles of pixels is profile all the same: its outline is
 * set where nothing around it is. */
static void
draw_fins (CheckGrid *grid, const CheckPlan *plan)
{
  for (guint r = 0; r < plan->profile->len; r++)
    {
      const GArray *ring = g_ptr_array_index (plan->profile, r);

      for (guint i = 0; i < ring->len; i++)
        {
          CheckPoint a = g_array_index (ring, CheckPoint, i);
          CheckPoint b = g_array_index (ring, CheckPoint, (i + 1) % ring->len);
          int parts = MAX ((int)ceil (2 * hypot (b.x - a.x, b.y - a.y) / grid->pixel), 1);

          for (int part = 0; part < parts; part++)
            {
              double t = (part + 0.5) / parts;
              int ix = (int)floor ((a.x + t * (b.x - a.x) - grid->x0) / grid->pixel);
              int iy = (int)floor ((a.y + t * (b.y - a.y) - grid->y0) / grid->pixel);

              ix = CLAMP (ix, 0, grid->nx - 1);
              iy = CLAMP (iy, 0, grid->ny - 1);
              if (!is_set_around (grid, ix, iy))
                grid->set[(gsize)iy * (gsize)grid->nx + (gsize)ix] = 1;
            }
        }
    }
}

typedef struct
{
  double least; /* surely that thick */
  double most;  /* no thicker than that */
} Thickness;

/* A stretch beyond the limit: one part of labels. */
static void
check_stretch (const CheckPlan *plan,
               CheckReport *report,
               const CheckGrid *grid,
               const int *labels,
               const float *distance,
               int label)
{
  double nearest = 1e9;
  double greatest = 0;
  double thickness = 0;
  CheckPoint at = { 0, 0 };

  for (int iy = 0; iy < grid->ny; iy++)
    for (int ix = 0; ix < grid->nx; ix++)
      {
        gsize index = (gsize)iy * (gsize)grid->nx + (gsize)ix;
        CheckPoint point
            = { grid->x0 + (ix + 0.5) * grid->pixel, grid->y0 + (iy + 0.5) * grid->pixel };

        if (labels[index] != label)
          continue;
        if (distance[index] > greatest)
          {
            greatest = distance[index];
            at = point;
          }
        for (guint i = 0; i < plan->places->len; i++)
          {
            const CheckPlace *place = &g_array_index (plan->places, CheckPlace, i);
            double d = hypot (place->x - point.x, place->y - point.y);

            if (d < nearest)
              {
                nearest = d;
                thickness = place->thickness;
              }
          }
      }
  if (nearest > 1.0 + 2.0 * grid->pixel + 0.5 * FILM)
    check_report_add (report, CHECK_RULE_LEFTOVER, 0,
                      "leftover %.2f mm thick at (%.2f, %.2f) is beyond the limit of %.2f and has "
                      "no place within 1 mm",
                      greatest, at.x, at.y, plan->leftover_limit);
  else if (thickness < plan->leftover_limit - FILM)
    check_report_add (report, CHECK_RULE_LEFTOVER, 0,
                      "the place by (%.2f, %.2f) says %.2f mm thick, less than the limit", at.x,
                      at.y, thickness);
}

/*
 * Thickness is the greatest distance of a point of leftover from the profile, films aside. A
 * film is leftover in which no circle of 0.1 mm fits. Whether the thin tip of a ridge counts is
 * not said, so there are two figures: what lies inside circles of 0.12
 * and a pixel, and all.
 */
static Thickness
measure_thickness (const CheckPlan *plan,
                   CheckReport *report,
                   const CheckSection *leftover,
                   const CheckSection *profile)
{
  double pixel = fmax (0.03, sqrt (plan->width * plan->thickness / 1.5e6));
  g_autoptr (CheckGrid) of_profile = check_grid_new (0, 0, plan->width, plan->thickness, pixel);
  g_autoptr (CheckGrid) rest = check_grid_new (0, 0, plan->width, plan->thickness, pixel);
  gsize n = (gsize)rest->nx * (gsize)rest->ny;
  Thickness thickness = { 0, 0 };
  double radius = 0.5 * (1.2 * FILM + pixel);
  int count;

  check_grid_draw (of_profile, profile);
  draw_fins (of_profile, plan);
  check_grid_draw (rest, leftover);
  g_autofree float *distance = check_grid_get_distance (of_profile, 1);
  g_autofree float *depth = check_grid_get_distance (rest, 0);

  /* A stretch is what hangs together beyond the limit; it needs a place where some of it is no
   * film and thicker than the limit by more than a plan's figure may be off. */
  g_autofree guint8 *counts = g_new0 (guint8, n);

  for (gsize i = 0; i < n; i++)
    {
      double from_profile = distance[i] - 0.5 * pixel;
      gboolean solid = depth[i] - 0.5 * pixel >= radius;

      if (rest->set[i] == 0)
        continue;
      thickness.most = fmax (thickness.most, from_profile);
      if (solid)
        thickness.least = fmax (thickness.least, from_profile + radius);
      counts[i] = solid && from_profile + radius > plan->leftover_limit + FILM;
      rest->set[i] = from_profile > plan->leftover_limit - pixel;
    }
  thickness.least = fmin (thickness.least, thickness.most);
  g_autofree int *labels = check_grid_label (rest, &count);
  g_autofree gboolean *beyond = g_new0 (gboolean, count + 1);

  for (gsize i = 0; i < n; i++)
    beyond[labels[i]] |= counts[i] != 0;
  for (int label = 1; label <= count; label++)
    if (beyond[label])
      check_stretch (plan, report, rest, labels, distance, label);
  return thickness;
}

void
check_leftover (const CheckPlan *plan,
                CheckReport *report,
                const CheckSection *rail,
                const CheckSection *profile)
{
  g_autoptr (CheckSection) leftover = check_section_minus (rail, profile);
  Thickness thickness = measure_thickness (plan, report, leftover, profile);

  report->leftover_area = check_section_measure (leftover).area;
  report->hand_outline = measure_outline (plan, leftover, SURFACE);
  report->hand_outline_most = measure_outline (plan, leftover, SURFACE - SURFACE_SLACK);
  report->hand_outline_least = measure_outline (plan, leftover, SURFACE + SURFACE_SLACK);
  report->leftover_thickness = thickness.least;
  if (fabs (plan->leftover_area - report->leftover_area) > fmax (0.3, 0.02 * report->leftover_area))
    check_report_add (report, CHECK_RULE_LEFTOVER, 0, "leftover is %.3f mm², the plan says %.3f",
                      report->leftover_area, plan->leftover_area);
  if (plan->leftover_thickness < thickness.least - 0.1
      || plan->leftover_thickness > thickness.most + 0.1)
    check_report_add (report, CHECK_RULE_LEFTOVER, 0,
                      "leftover is between %.3f and %.3f thick, the plan says %.3f",
                      thickness.least, thickness.most, plan->leftover_thickness);
  for (guint i = 0; i < plan->places->len; i++)
    {
      const CheckPlace *place = &g_array_index (plan->places, CheckPlace, i);

      if (place->thickness > thickness.most + 0.1)
        check_report_add (report, CHECK_RULE_LEFTOVER, 0,
                          "the place at (%.2f, %.2f) says %.2f mm thick, and nothing is thicker "
                          "than %.2f",
                          place->x, place->y, place->thickness, thickness.most);
    }
}
