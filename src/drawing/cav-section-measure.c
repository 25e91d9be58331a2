/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "drawing/cav-section-view.h"

/* Measures that differ by less are the same one, and shorter ones are none; mm. */
#define SAME 0.02
#define LEAST 0.2

static gboolean
near (double a, double b)
{
  return fabs (a - b) < SAME;
}

static void
add_measure (GArray *measures, const CavMeasured *measured)
{
  if (measured->to - measured->from < LEAST)
    return;
  for (guint i = 0; i < measures->len; i++)
    {
      const CavMeasured *other = &g_array_index (measures, CavMeasured, i);

      if (other->upright == measured->upright && near (other->from, measured->from)
          && near (other->to, measured->to))
        return;
    }
  g_array_append_val (measures, *measured);
}

/* One direction of a box: low and high are its ends, size is the blank's along that way; low_across
 * and high_across and size_across the same for the other way. */
static void
add_extent (GArray *measures,
            gboolean upright,
            double low,
            double high,
            double size,
            double low_across,
            double high_across,
            double size_across)
{
  /* The dimension stands on the side that the cut opens to, else on the nearer one. */
  gboolean opens_low = near (low_across, 0);
  gboolean opens_high = near (high_across, size_across);
  CavMeasured measured = { .upright = upright, .from = low, .to = high };

  measured.high = opens_high || (!opens_low && low_across + high_across > size_across);
  if (opens_low && opens_high)
    measured.high = FALSE;
  measured.crosses = !opens_low && !opens_high;
  measured.start_from = measured.start_to = measured.high ? high_across : low_across;
  if (near (low, 0) && near (high, size))
    return;
  add_measure (measures, &measured);
  /* Where it is, for what touches neither end. */
  if (low > SAME && high < size - SAME)
    {
      measured.from = 0;
      measured.to = low;
      measured.start_from = measured.high ? size_across : 0;
      add_measure (measures, &measured);
    }
}

static void
add_box (GArray *measures, CavBox box, const CavBlank *blank)
{
  add_extent (measures, FALSE, box.x0, box.x1, blank->width, box.y0, box.y1, blank->thickness);
  add_extent (measures, TRUE, box.y0, box.y1, blank->thickness, box.x0, box.x1, blank->width);
}

static void
add_cut (GArray *measures, const CavCut *cut, const CavProfile *profile)
{
  g_autoptr (CavRegion) whole = cav_cut_create_region (cut, &profile->blank, NULL);
  g_autoptr (CavRegion) blank = cav_blank_create_region (&profile->blank);
  g_autoptr (CavRegion) inside = NULL;

  /* A cut that cannot be is no business of the drawing: the findings speak of it. */
  if (whole == NULL)
    return;
  inside = cav_region_intersection (whole, blank, NULL);
  if (inside != NULL && !cav_region_is_empty (inside))
    add_box (measures, cav_region_get_bounds (inside), &profile->blank);
}

GArray *
cav_section_find_measures (CavProject *project)
{
  GArray *measures = g_array_new (FALSE, FALSE, sizeof (CavMeasured));
  const CavProfile *profile = cav_project_get_profile (project);

  for (guint i = 0; i < cav_project_get_cut_count (project); i++)
    {
      const CavCut *cut = cav_project_get_cut (project, i);

      if (cut->kind != CAV_CUT_DRAWN)
        add_cut (measures, cut, profile);
    }
  for (guint i = 0; i < cav_region_get_piece_count (cav_profile_get_waste (profile)); i++)
    {
      g_autoptr (CavRegion) piece = cav_region_dup_piece (cav_profile_get_waste (profile), i);

      add_box (measures, cav_region_get_bounds (piece), &profile->blank);
    }
  return measures;
}
