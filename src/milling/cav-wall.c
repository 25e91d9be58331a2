/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "milling/cav-wall.h"

#include "milling/cav-thin.h"

/* (transfer full) As far as the sweep reaches along the rows' own axis. */
static CavRows *
create_rows (const CavRegion *region, double extent, gboolean turned, CavBox swept)
{
  return cav_rows_new_from_region_part (region, cav_rows_count_for (extent), turned,
                                        turned ? swept.x0 : swept.y0, turned ? swept.x1 : swept.y1);
}

/* Walls between two upright faces, or turned: between two that lie. */
static gboolean
find_wall (const CavPlan *plan, const CavPass *pass, gboolean turned, CavThinWall *out_wall)
{
  const double extent = turned ? plan->blank.width : plan->blank.thickness;
  const double across = turned ? plan->blank.thickness : plan->blank.width;
  CavBox box = cav_region_get_bounds (pass->swept);
  g_autoptr (CavRows) rail = create_rows (pass->after, extent, turned, box);
  g_autoptr (CavRows) profile = create_rows (plan->profile, extent, turned, box);
  g_autoptr (CavRows) swept = create_rows (pass->swept, extent, turned, box);
  CavRowsWall wall;
  double middle;

  if (!cav_rows_find_thin_wall (rail, profile, swept, CAV_WALL_THIN, &wall))
    return FALSE;
  middle = (wall.span.a + wall.span.b) / 2.0 / CAV_MICRONS;
  out_wall->thickness = (wall.span.b - wall.span.a) / CAV_MICRONS;
  out_wall->height = wall.n_rows * CAV_ROW_HEIGHT;
  if (middle < across / 2.0)
    out_wall->near = turned ? CAV_SIDE_BACK : CAV_SIDE_INSIDE;
  else
    out_wall->near = turned ? CAV_SIDE_FACE : CAV_SIDE_OUTSIDE;
  out_wall->from = middle < across / 2.0 ? middle : across - middle;
  return TRUE;
}

gboolean
cav_pass_find_thin_wall (const CavPlan *plan, const CavPass *pass, CavThinWall *out_wall)
{
  CavThinWall lying = { 0 };
  CavThinWall upright = { 0 };

  g_return_val_if_fail (plan != NULL && pass != NULL && out_wall != NULL, FALSE);

  if (pass->after == NULL || pass->swept == NULL)
    return FALSE;
  find_wall (plan, pass, FALSE, &upright);
  find_wall (plan, pass, TRUE, &lying);
  *out_wall = lying.height > upright.height ? lying : upright;
  return out_wall->height > 0;
}
