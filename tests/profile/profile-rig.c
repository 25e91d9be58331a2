/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "profile-rig.h"

const CavFinding *
rig_find (const CavProfile *profile, const char *code)
{
  for (guint i = 0; i < profile->findings->len; i++)
    {
      const CavFinding *finding = g_ptr_array_index (profile->findings, i);

      if (g_strcmp0 (finding->code, code) == 0)
        return finding;
    }
  return NULL;
}

const CavFinding *
rig_expect (const CavProfile *profile, const char *code)
{
  const CavFinding *finding = rig_find (profile, code);

  if (finding == NULL)
    g_error ("There is no finding %s.", code);
  return finding;
}

double
rig_get_difference (const CavRegion *a, const CavRegion *b)
{
  g_autoptr (CavRegion) more = cav_region_difference (a, b, NULL);
  g_autoptr (CavRegion) less = cav_region_difference (b, a, NULL);

  return cav_region_get_area (more) + cav_region_get_area (less);
}

CavCut *
rig_add_corner_cut (GPtrArray *cuts, CavCutKind kind, CavCorner corner, double width, double depth)
{
  CavCut *cut = cav_cut_new_at_corner (kind, corner);

  cut->numbers[CAV_CUT_WIDTH] = width;
  cut->numbers[CAV_CUT_DEPTH] = depth;
  g_ptr_array_add (cuts, cut);
  return cut;
}
