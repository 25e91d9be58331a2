/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check-rules.h"
#include "check-report.h"
#include "check-sweep.h"

#include <math.h>

/* Rules 2, 3 and 8: only lands carry. And the model's word on thin webs. */

#define LAND_LEAST 1.0
#define TABLE_LANDS 5.0
#define FENCE_LANDS 3.0
#define OVERHANG 5.0
#define OVERHANG_SPAN 25.0
/* A side still stands where the blank had it within this. */
#define SIDE_SLACK 0.003
/* Webs thinner than this hold nothing. */
#define WEB 0.5

typedef struct
{
  double total;
  double first;
  double last;
} Lands;

static void
add_land (Lands *lands, double a, double b)
{
  if (b - a < LAND_LEAST - CHECK_LENGTH_SLACK)
    return;
  lands->total += b - a;
  lands->first = fmin (lands->first, a);
  lands->last = fmax (lands->last, b);
}

/* Lands on a side, along x or y. */
static Lands
get_lands (const CheckPlan *plan, const CheckSection *section, CheckSide side)
{
  Lands lands = { 0, 1e9, -1e9 };
  const CheckRuling *ruling = section->ruling;
  guint n_rows = check_ruling_count (ruling);

  if (side == CHECK_SIDE_BACK || side == CHECK_SIDE_FACE)
    {
      guint row = side == CHECK_SIDE_BACK ? 0 : n_rows - 1;

      for (guint i = 0; i < check_section_count (section, row); i++)
        {
          CheckSpan span = check_section_get (section, row, i);

          add_land (&lands, span.a, span.b);
        }
      return lands;
    }

  double begin = -1;

  for (guint row = 0; row <= n_rows; row++)
    {
      guint n = row < n_rows ? check_section_count (section, row) : 0;
      gboolean touches = FALSE;

      if (n > 0 && side == CHECK_SIDE_INSIDE)
        touches = check_section_get (section, row, 0).a <= SIDE_SLACK;
      else if (n > 0)
        touches = check_section_get (section, row, n - 1).b >= plan->width - SIDE_SLACK;

      double y = g_array_index (ruling->lines, double, row);

      if (touches && begin < 0)
        begin = y;
      else if (!touches && begin >= 0)
        {
          add_land (&lands, begin, y);
          begin = -1;
        }
    }
  return lands;
}

/* The same seen from the machine: along u for the table, along v for the fence. */
static Lands
turn_lands (const CheckPlan *plan, Lands lands, CheckSide measured_from)
{
  double size = 0;

  if (measured_from == CHECK_SIDE_FACE)
    size = plan->thickness;
  else if (measured_from == CHECK_SIDE_OUTSIDE)
    size = plan->width;
  else
    return lands;
  return (Lands){ lands.total, size - lands.last, size - lands.first };
}

typedef void (*AddFunc) (CheckReport *report, CheckRule rule, int pass, const char *format, ...);

void
check_support (const CheckPlan *plan,
               CheckReport *report,
               const CheckPass *pass,
               int number,
               const char *when,
               const CheckSection *section,
               gboolean warn)
{
  AddFunc add = warn ? check_report_warn : check_report_add;
  const char *what = warn ? " without webs under 0.5 mm" : "";
  CheckMeasure measure = check_section_measure (section);
  Lands table = turn_lands (plan, get_lands (plan, section, pass->down), pass->against);
  Lands fence = turn_lands (plan, get_lands (plan, section, pass->against), pass->down);
  CheckPoint centroid = check_to_machine (plan, pass, (CheckPoint){ measure.x, measure.y });
  CheckPoint corners[2] = { check_to_machine (plan, pass, (CheckPoint){ measure.x0, measure.y0 }),
                            check_to_machine (plan, pass, (CheckPoint){ measure.x1, measure.y1 }) };
  /* The rail's height as it stands: from its lowest to its highest wood. */
  double height = fabs (corners[1].y - corners[0].y);
  gboolean held = fence.total > 0 && fence.last > centroid.y;

  if (table.total < TABLE_LANDS - CHECK_LENGTH_SLACK)
    add (report, CHECK_RULE_TABLE, number, "%s%s lands on the table are %.2f mm, 5 are needed",
         when, what, table.total);
  else if (centroid.x < table.first - CHECK_LENGTH_SLACK && !held)
    add (report, CHECK_RULE_TABLE, number,
         "%s%s the centroid (u %.2f) stands nearer the fence than the table lands (%.2f to %.2f), "
         "and the fence is touched up to %.2f, not above it (v %.2f)",
         when, what, centroid.x, table.first, table.last, fence.last, centroid.y);
  else if (centroid.x > table.last + CHECK_LENGTH_SLACK)
    {
      gboolean pressed
          = fence.total > 0 && fence.last - fence.first >= OVERHANG_SPAN - CHECK_LENGTH_SLACK;

      if (!pressed || centroid.x > table.last + OVERHANG + CHECK_LENGTH_SLACK)
        add (report, CHECK_RULE_TABLE, number,
             "%s%s the centroid (u %.2f) stands beyond the table lands (%.2f to %.2f), fence "
             "lands span %.2f",
             when, what, centroid.x, table.first, table.last,
             fence.total > 0 ? fence.last - fence.first : 0);
    }

  if (fence.total < FENCE_LANDS - CHECK_LENGTH_SLACK)
    add (report, CHECK_RULE_FENCE, number, "%s%s lands on the fence are %.2f mm, 3 are needed",
         when, what, fence.total);
  else if (table.total > 0 && table.last - table.first < 0.5 * height - CHECK_LENGTH_SLACK
           && fence.last < centroid.y - CHECK_LENGTH_SLACK)
    add (report, CHECK_RULE_FENCE, number,
         "%s%s table lands span %.2f of a height of %.2f, and the fence is touched up to %.2f, "
         "below the centroid (%.2f)",
         when, what, table.last - table.first, height, fence.last, centroid.y);
}

/* Cores of the rail: what is further than half a web from its outline. Returns labels of those
 * that hang together, and for each whether profile is in it. */
static int *
find_cores (CheckGrid *grid,
            const CheckSection *profile,
            int *out_count,
            gboolean **out_kept,
            double **out_area)
{
  gsize n = (gsize)grid->nx * (gsize)grid->ny;
  g_autofree float *depth = check_grid_get_distance (grid, 0);
  g_autoptr (CheckGrid) of_profile = check_grid_new (
      grid->x0 + grid->pixel, grid->y0 + grid->pixel, grid->x0 + (grid->nx - 1) * grid->pixel,
      grid->y0 + (grid->ny - 1) * grid->pixel, grid->pixel);
  int *labels;

  check_grid_draw (of_profile, profile);
  for (gsize i = 0; i < n; i++)
    grid->set[i] = depth[i] >= 0.5 * WEB;
  labels = check_grid_label (grid, out_count);
  *out_kept = g_new0 (gboolean, *out_count + 1);
  *out_area = g_new0 (double, *out_count + 1);
  g_autofree double *shared = g_new0 (double, *out_count + 1);

  for (int iy = 0; iy < grid->ny; iy++)
    for (int ix = 0; ix < grid->nx; ix++)
      {
        gsize at = (gsize)iy * (gsize)grid->nx + (gsize)ix;
        int label = labels[at];

        (*out_area)[label] += grid->pixel * grid->pixel;
        if (ix < of_profile->nx && iy < of_profile->ny
            && of_profile->set[(gsize)iy * (gsize)of_profile->nx + (gsize)ix] != 0)
          shared[label] += grid->pixel * grid->pixel;
      }
  for (int label = 1; label <= *out_count; label++)
    (*out_kept)[label] = shared[label] > fmin (1.0, 0.5 * (*out_area)[label]);
  return labels;
}

CheckSection *
check_strong_part (const CheckPlan *plan,
                   CheckReport *report,
                   int number,
                   const CheckSection *rail,
                   const CheckSection *profile)
{
  double pixel = fmax (0.08, sqrt (plan->width * plan->thickness / 5e5));
  g_autoptr (CheckGrid) grid = check_grid_new (0, 0, plan->width, plan->thickness, pixel);
  g_autoptr (CheckGrid) weak = check_grid_new (0, 0, plan->width, plan->thickness, pixel);
  g_autofree gboolean *kept = NULL;
  g_autofree double *area = NULL;
  int count;

  check_grid_draw (grid, rail);
  check_grid_draw (weak, rail);
  g_autofree int *labels = find_cores (grid, profile, &count, &kept, &area);

  for (int label = 1; label <= count; label++)
    if (!kept[label] && area[label] > 0.5)
      check_report_warn (report, CHECK_RULE_WEB, number,
                         "after it %.2f mm² of waste hang on a web thinner than 0.5 mm",
                         area[label]);

  /* A square corner lies 0.41 of half a web beyond what a core of that depth fills. */
  for (gsize i = 0; i < (gsize)grid->nx * (gsize)grid->ny; i++)
    grid->set[i] = labels[i] > 0 && kept[labels[i]];
  g_autofree float *distance = check_grid_get_distance (grid, 1);

  for (gsize i = 0; i < (gsize)grid->nx * (gsize)grid->ny; i++)
    if (distance[i] <= 0.71 * WEB + 2.0 * pixel)
      weak->set[i] = 0;
  return check_section_minus_grid (rail, weak);
}
